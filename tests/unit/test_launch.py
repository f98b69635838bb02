"""The first thing a person runs: it must say what to do on every machine it meets."""

from __future__ import annotations

import ast
import importlib.util
import os
import subprocess
import sys
import threading
from pathlib import Path
from types import ModuleType

import pytest

LAUNCH = Path(__file__).parents[2] / "src" / "launch.py"


@pytest.fixture
def launch(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    """Return a fresh launch.py that works on a small clone of its own in `tmp_path`."""
    spec = importlib.util.spec_from_file_location("launch_under_test", LAUNCH)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    (tmp_path / "resources").mkdir()
    (tmp_path / "resources" / "constraints.txt").write_text("# none\n")
    (tmp_path / "pyproject.toml").write_text("[project]\n")
    module.ROOT = str(tmp_path)
    module.ENVIRONMENT = str(tmp_path / ".venv")
    module.MARKER = str(tmp_path / ".venv" / "jarwright-ready")
    module.LOCK = str(tmp_path / ".venv.lock")
    monkeypatch.setattr(module, "has_venv", lambda: True)
    return module


def imitate_installing(launch: ModuleType, *, fails_at: str | None = None) -> list[list[str]]:
    """Let the steps of the set-up only leave the files they would; returns the commands asked for."""
    asked: list[list[str]] = []

    def attempt(command: list[str], failure: str) -> None:
        asked.append(command)
        if fails_at is not None and fails_at in command:
            raise launch.Stop(failure)
        if "venv" in command:
            inside = Path(launch.python_inside())
            inside.parent.mkdir(parents=True)
            inside.write_text("")

    launch.attempt = attempt
    return asked


def test_an_old_python_can_read_it():
    """A Python 3.4 must get as far as the sentence that says what is needed."""
    ast.parse(LAUNCH.read_text(encoding="utf-8"), feature_version=(3, 4))


def test_it_needs_nothing_but_the_standard_library():
    """It runs before anything is installed."""
    tree = ast.parse(LAUNCH.read_text(encoding="utf-8"))
    names = {alias.name.split(".")[0] for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
    names |= {node.module.split(".")[0] for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) and node.module}
    assert names <= set(sys.stdlib_module_names)


def test_a_python_that_will_not_do_is_named(launch: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]):
    """Too old a Python and no other: one sentence with the versions that will do."""
    monkeypatch.setattr(launch, "OLDEST", (9, 0))
    monkeypatch.setattr(launch, "NEWEST", (9, 1))
    monkeypatch.setattr(launch.shutil, "which", lambda name: None)
    assert launch.main([]) == 2
    said = capsys.readouterr().err
    assert "Python 9.0 to 9.1 is needed" in said
    assert said.count("\n") == 1


def test_the_marker_is_written_last(launch: ModuleType):
    """A set-up that is cut off before the end leaves no marker, so the next start does it again."""
    imitate_installing(launch, fails_at="-e")
    with pytest.raises(launch.Stop):
        launch.ensure_environment()
    assert not launch.is_ready()
    asked = imitate_installing(launch)
    launch.ensure_environment()
    assert launch.is_ready()
    assert len(asked) == 3


def test_half_an_environment_is_thrown_away(launch: ModuleType, tmp_path: Path):
    """What an interrupted set-up left is not built upon."""
    left = tmp_path / ".venv" / "half"
    left.parent.mkdir()
    left.write_text("")
    imitate_installing(launch)
    launch.ensure_environment()
    assert not left.exists()


def test_hashes_are_asked_for(launch: ModuleType):
    """Nothing is installed whose hash is not in the constraints."""
    asked = imitate_installing(launch)
    launch.ensure_environment()
    assert "--require-hashes" in asked[1]
    assert {"--no-deps", "--no-index"} <= set(asked[2])


def test_new_pins_make_a_new_environment(launch: ModuleType, tmp_path: Path):
    """After an update the libraries are those of the update."""
    imitate_installing(launch)
    launch.ensure_environment()
    (tmp_path / "resources" / "constraints.txt").write_text("# others\n")
    assert not launch.is_ready()


def test_a_second_start_does_nothing(launch: ModuleType):
    """Once set up there is no network, no file written and nothing printed."""
    imitate_installing(launch)
    launch.ensure_environment()
    asked = imitate_installing(launch)
    launch.ensure_environment()
    assert asked == []


def test_two_starts_at_once_set_up_once(launch: ModuleType):
    """The second start waits for the first and finds everything ready."""
    asked = imitate_installing(launch)
    starts = [threading.Thread(target=launch.ensure_environment) for _ in range(2)]
    for start in starts:
        start.start()
    for start in starts:
        start.join()
    assert len(asked) == 3


@pytest.mark.parametrize(
    ("printed", "sentence"),
    [
        ("ERROR: Could not install packages due to an OSError: [Errno 28] No space left on device", "The disk is full"),
        ("WARNING: Retrying after 'NewConnectionError(...)'\nERROR: No matching distribution found for absl-py", "check the network"),
        ("ERROR: THESE PACKAGES DO NOT MATCH THE HASHES", "could not be installed: ERROR: THESE PACKAGES"),
    ],
)  # fmt: skip
def test_a_failed_step_says_what_to_do(launch: ModuleType, printed: str, sentence: str):
    """No network, no disk, a changed file: each is one sentence, never pip's page of text."""
    script = f"import sys; print({printed!r}); sys.exit(1)"
    with pytest.raises(launch.Stop, match=sentence) as stopped:
        launch.attempt([sys.executable, "-c", script], "The libraries could not be installed")
    assert "\n" not in str(stopped.value)


def test_a_folder_that_cannot_be_written_is_named(launch: ModuleType, tmp_path: Path):
    """A clone on a read-only stick: copy it."""
    launch.LOCK = str(tmp_path / "missing" / ".venv.lock")
    with pytest.raises(launch.Stop, match="cannot be written"):
        launch.ensure_environment()


def test_a_missing_venv_module_names_the_package(launch: ModuleType, monkeypatch: pytest.MonkeyPatch):
    """Debian packs it apart; without being root the line to copy is given."""
    monkeypatch.setattr(launch, "has_venv", lambda: False)
    monkeypatch.setattr(launch, "install_packages", lambda packages: False)
    with pytest.raises(launch.Stop, match=r"sudo apt install python3\.\d+-venv"):
        launch.ensure_environment()


def test_missing_system_libraries_name_their_packages(launch: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    """The window's libraries by the name the system installs them under."""
    (tmp_path / ".venv").mkdir()
    monkeypatch.setattr(launch.sys, "platform", "linux")
    monkeypatch.setattr(launch.shutil, "which", lambda name: "/usr/bin/ldd")
    monkeypatch.setattr(launch, "missing_libraries", lambda platform: ["libxcb-cursor.so.0"])
    monkeypatch.setattr(launch, "install_packages", lambda packages: False)
    with pytest.raises(launch.Stop, match="sudo apt install libxcb-cursor0"):
        launch.ensure_platform("xcb")


def test_the_demo_papers_go_to_a_new_folder(launch: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    """A second export does not overwrite the first; neither lies in the clone."""
    home = tmp_path.parent / f"{tmp_path.name}-home"
    home.mkdir()
    monkeypatch.setenv("HOME", str(home))
    monkeypatch.setenv("USERPROFILE", str(home))
    first = launch.free_folder()
    os.makedirs(first)
    assert first == str(home / "Jarwright" / "harvest-class")
    assert launch.free_folder() == first + "-2"


def test_other_words_go_to_jarwright(launch: ModuleType, monkeypatch: pytest.MonkeyPatch):
    """`launch.py plan FILE --json` is `jarwright plan FILE --json`, with its exit status."""
    handed: list[list[str]] = []
    monkeypatch.setattr(launch, "hand_over", lambda command: handed.append(command) or 1)
    imitate_installing(launch)
    assert launch.main(["plan", "class.json", "--json"]) == 1
    assert handed == [[launch.python_inside(), "-m", "jarwright", "plan", "class.json", "--json"]]


def test_bad_input_is_one_sentence_and_status_2():
    """The module itself, as the launcher starts it."""
    done = subprocess.run([sys.executable, "-m", "jarwright", "plan", "nowhere.json"], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout, done.stderr.count("\n")) == (2, "", 1)
