"""The first thing a person runs: it must say what to do on every machine it meets."""

from __future__ import annotations

import ast
import errno
import importlib.util
import os
import subprocess
import sys
import threading
import time
from pathlib import Path
from types import ModuleType
from typing import IO

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


class FailingRemoval:
    """A disk that refuses to remove a folder."""

    def rmtree(self, path: str) -> None:
        """Fail as `shutil.rmtree` does."""
        raise OSError(5, "Input/output error", path)


def imitate_installing(launch: ModuleType, *, fails_at: str | None = None, python: Path | None = None) -> list[list[str]]:
    """Let the steps of the set-up only leave the files they would; returns the commands asked for."""
    asked: list[list[str]] = []

    def attempt(command: list[str], failure: str, lock: IO[bytes]) -> None:
        asked.append(command)
        if fails_at is not None and fails_at in command:
            raise launch.Stop(failure)
        if "venv" in command:
            inside = Path(launch.python_inside())
            inside.parent.mkdir(parents=True)
            if python is not None:
                inside.symlink_to(python)
            else:
                inside.write_text("")
                (Path(launch.ENVIRONMENT) / "pyvenv.cfg").write_text(f"home = {inside.parent}\n")

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
    monkeypatch.setattr(launch, "candidates", lambda minor: [])
    assert launch.main([]) == 2
    said = capsys.readouterr().err
    assert "Python 9.0 to 9.1 is needed" in said
    assert said.count("\n") == 1


def test_a_python_that_will_do_is_found_where_pyenv_keeps_it(launch: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    """The Python on the path is too old, a newer one is installed aside: it is used, with the same words."""
    kept = tmp_path / "pyenv" / "versions" / "3.12.9" / "bin" / "python3.12"
    kept.parent.mkdir(parents=True)
    kept.write_text("#!/bin/sh\necho 12\n")
    kept.chmod(0o755)
    monkeypatch.setenv("PYENV_ROOT", str(tmp_path / "pyenv"))
    monkeypatch.setattr(launch.shutil, "which", lambda name: None)
    monkeypatch.setattr(launch.sys, "version_info", (3, 6, 15))
    monkeypatch.setattr(launch, "answers", lambda command, minor: minor == 12)
    handed: list[list[str]] = []
    monkeypatch.setattr(launch, "hand_over", lambda command: handed.append(command) or 0)
    assert launch.main(["plan", "class.json"]) == 0
    assert handed == [[str(kept), str(LAUNCH), "plan", "class.json"]]


def test_an_empty_shim_is_no_python(launch: ModuleType):
    """A command of the right name that answers with another version, or fails, is passed over."""
    assert launch.answers([sys.executable], sys.version_info[1])
    assert not launch.answers([sys.executable], 99)
    assert not launch.answers([sys.executable, "-c", "raise SystemExit(127)"], sys.version_info[1])


def test_an_environment_that_is_ready_serves_any_python(launch: ModuleType, monkeypatch: pytest.MonkeyPatch):
    """Once it is made, an old Python on the path does not matter."""
    imitate_installing(launch)
    launch.ensure_environment()
    monkeypatch.setattr(launch.sys, "version_info", (3, 6, 15))
    monkeypatch.setattr(launch, "hand_over", lambda command: 0)
    assert launch.main(["--version"]) == 0


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


def test_an_environment_whose_python_changed_is_made_again(launch: ModuleType, tmp_path: Path):
    """An upgrade of the system puts a 3.12 where a 3.11 was: the libraries of the 3.11 are of no use to it."""
    (tmp_path / "python3.11").write_text("")
    (tmp_path / "python3.12").write_text("")
    imitate_installing(launch, python=tmp_path / "python3.11")
    launch.ensure_environment()
    assert launch.is_ready()
    inside = Path(launch.python_inside())
    inside.unlink()
    inside.symlink_to(tmp_path / "python3.12")
    assert not launch.is_ready()


def test_on_windows_the_python_is_read_from_the_environment(launch: ModuleType, tmp_path: Path):
    """There the environment's Python is a copy, so the one it was made with stands in its settings; once removed, it is not ready."""
    launch.IS_WINDOWS = True
    made = tmp_path / "Python312" / "python.exe"
    made.parent.mkdir()
    made.write_text("")
    (tmp_path / ".venv").mkdir()
    (tmp_path / ".venv" / "pyvenv.cfg").write_text(f"home = {made.parent}\nversion = 3.12.9\n")
    assert launch.made_with() == str(made)
    assert launch.python_inside() == str(tmp_path / ".venv" / "Scripts" / "python.exe")
    made.unlink()
    assert launch.made_with() == ""


def test_pins_that_come_back_do_not_revive_half_an_environment(launch: ModuleType, tmp_path: Path):
    """New pins, the set-up cut off, old pins again: the first marker may not speak for what is left."""
    pins = tmp_path / "resources" / "constraints.txt"
    imitate_installing(launch)
    launch.ensure_environment()
    pins.write_text("# others\n")
    imitate_installing(launch, fails_at="venv")
    launch.shutil = FailingRemoval()
    with pytest.raises(launch.Stop, match="still in use"):
        launch.ensure_environment()
    pins.write_text("# none\n")
    assert not launch.is_ready()


def test_the_environment_is_never_made_with_the_python_inside_it(launch: ModuleType, monkeypatch: pytest.MonkeyPatch):
    """Started from the activated environment, with new pins: the Python outside makes the new one."""
    monkeypatch.setattr(launch.sys, "prefix", "/clone/.venv")
    monkeypatch.setattr(launch.sys, "base_prefix", "/usr")
    monkeypatch.setattr(launch.sys, "_base_executable", "/usr/bin/python3.11")
    asked = imitate_installing(launch)
    launch.ensure_environment()
    assert asked[0][0] == "/usr/bin/python3.11"


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


def test_a_disk_that_knows_no_locks_is_no_hindrance(launch: ModuleType, monkeypatch: pytest.MonkeyPatch):
    """A clone on a network disk is set up, too, instead of waiting for ever."""
    import fcntl

    def refuse(file: object, how: int) -> None:
        raise OSError(errno.ENOLCK, "No locks available")

    monkeypatch.setattr(fcntl, "flock", refuse)
    imitate_installing(launch)
    launch.ensure_environment()
    assert launch.is_ready()


HOLDER = """
import importlib.util, sys, time
spec = importlib.util.spec_from_file_location("launch", sys.argv[1])
launch = importlib.util.module_from_spec(spec)
spec.loader.exec_module(launch)
launch.LOCK = sys.argv[2]
with launch.only_one() as lock:
    print("held", flush=True)
    launch.attempt([sys.executable, "-c", sys.argv[3]], "", lock)
    time.sleep(60)
"""


def test_a_start_that_was_killed_holds_nobody_up(launch: ModuleType, tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    """The other start says that it waits, and goes on once the last step of the killed one writes nothing more."""
    began, ended = tmp_path / "began", tmp_path / "ended"
    step = f"import time; open({str(began)!r}, 'w').close(); time.sleep(1); open({str(ended)!r}, 'w').close()"
    holder = subprocess.Popen([sys.executable, "-c", HOLDER, str(LAUNCH), launch.LOCK, step], stdout=subprocess.PIPE, text=True)
    assert holder.stdout is not None
    assert holder.stdout.readline() == "held\n"
    while not began.exists():
        time.sleep(0.01)
    holder.kill()
    holder.communicate()
    asked = imitate_installing(launch)
    assert not ended.exists()
    launch.ensure_environment()
    assert ended.exists()
    assert len(asked) == 3
    assert "waiting for it" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("printed", "sentence"),
    [
        ("ERROR: Could not install packages due to an OSError: [Errno 28] No space left on device", "The disk is full"),
        ("WARNING: Retrying after 'NewConnectionError(...)'\nERROR: No matching distribution found for absl-py", "check the network"),
        ("ERROR: ... (from versions: none)\nERROR: No matching distribution found for absl-py==2.5.1", "check the network"),
        ("ERROR: ... (from versions: 6.5)\nERROR: No matching distribution found for ortools==9.15", "There is no ortools for this system"),
        ("WARNING: Could not fetch URL ...: the SSL module is not available.", "has no ssl module"),
        ("ERROR: THESE PACKAGES DO NOT MATCH THE HASHES FROM THE REQUIREMENTS FILE", "not the one expected"),
        ("Traceback ...\nValueError: nobody foresaw this", "could not be installed: ValueError: nobody foresaw this"),
    ],
)  # fmt: skip
def test_a_failed_step_says_what_to_do(launch: ModuleType, printed: str, sentence: str):
    """No network, no disk, a changed file: each is one sentence, never pip's page of text."""
    script = f"import sys; print({printed!r}); sys.exit(1)"
    with pytest.raises(launch.Stop, match=sentence) as stopped, launch.only_one() as lock:
        launch.attempt([sys.executable, "-c", script], "The libraries could not be installed", lock)
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
    monkeypatch.setattr(launch.shutil, "which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr(launch.os, "geteuid", lambda: 1000, raising=False)
    with pytest.raises(launch.Stop, match=r"run  sudo apt install python3\.\d+-venv, then run this again"):
        launch.ensure_environment()


def test_missing_system_libraries_name_their_packages(launch: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    """The window's libraries by the name the system installs them under."""
    (tmp_path / ".venv").mkdir()
    monkeypatch.setattr(launch.sys, "platform", "linux")
    monkeypatch.setattr(launch.shutil, "which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr(launch.os, "geteuid", lambda: 1000, raising=False)
    monkeypatch.setattr(launch, "missing_libraries", lambda platform: ["libxcb-cursor.so.0", "libGL.so.1"])
    monkeypatch.setattr(launch, "install_packages", lambda packages: False)
    with pytest.raises(launch.Stop, match="run  sudo apt install libgl1 libxcb-cursor0, then run this again"):
        launch.ensure_platform("xcb")


def test_root_without_network_is_told_so(launch: ModuleType, monkeypatch: pytest.MonkeyPatch):
    """Where root's own try to install failed, the line alone would fail again."""
    monkeypatch.setattr(launch.shutil, "which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr(launch.os, "geteuid", lambda: 0, raising=False)
    assert launch.line_to_copy(["libgl1"]) == "check the network connection, run  apt install libgl1"


def test_without_apt_no_line_for_apt_is_given(launch: ModuleType, monkeypatch: pytest.MonkeyPatch):
    """Another Linux is told what is missing, not a command that it does not have."""
    monkeypatch.setattr(launch.shutil, "which", lambda name: None)
    assert launch.line_to_copy(["libgl1"]) == "install libgl1 (so they are called on Debian)"


def test_missing_libraries_are_read_from_the_linker(launch: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    """What `ldd` does not find for the platform plugin is what is missing, each once."""
    folder = tmp_path / ".venv" / "lib" / "python3.11" / "site-packages" / "PySide6"
    plugin = folder / "Qt" / "plugins" / "platforms" / "libqoffscreen.so"
    plugin.parent.mkdir(parents=True)
    plugin.write_text("")
    (folder / "QtGui.abi3.so").write_text("")
    (tmp_path / "bin").mkdir()
    ldd = tmp_path / "bin" / "ldd"
    ldd.write_text("#!/bin/sh\necho '\tlibEGL.so.1 => not found'\necho '\tlibc.so.6 => /lib/libc.so.6 (0x1)'\n")
    ldd.chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path / "bin"))
    assert launch.missing_libraries("offscreen") == ["libEGL.so.1"]


def test_debian_s_root_gets_the_packages(launch: ModuleType, monkeypatch: pytest.MonkeyPatch):
    """As root on Debian nothing has to be copied; elsewhere nothing is touched."""
    ran: list[list[str]] = []
    monkeypatch.setattr(launch.subprocess, "call", lambda command, **rest: ran.append(command) or 0)
    monkeypatch.setattr(launch.shutil, "which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr(launch.os, "geteuid", lambda: 1000, raising=False)
    assert not launch.install_packages(["libegl1"])
    assert ran == []
    monkeypatch.setattr(launch.os, "geteuid", lambda: 0, raising=False)
    assert launch.install_packages(["libegl1"])
    assert ran[-1] == ["apt-get", "install", "-y", "-qq", "--no-install-recommends", "libegl1"]


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


def test_without_a_display_the_demo_s_papers_are_written(
    launch: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
):
    """A server has no window to show: the class is planned, its papers are written, and their folder is named."""
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(launch.sys, "platform", "linux")
    monkeypatch.setattr(launch, "free_folder", lambda: "/home/somebody/Jarwright/harvest-class")
    imitate_installing(launch)
    ran: list[list[str]] = []
    monkeypatch.setattr(launch.subprocess, "call", lambda command: ran.append(command[1:]) or 0)
    assert launch.main([]) == 0
    demo = str(tmp_path / "class_templates" / "harvest-class.json")
    assert ran == [["-m", "jarwright", "plan", demo], ["-m", "jarwright", "export", demo, "-d", "/home/somebody/Jarwright/harvest-class"]]
    assert "no display" in capsys.readouterr().out


def test_every_check_is_told_when_it_fails(launch: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]):
    """One command for all checks: a failure in one does not hide the others, and the status tells."""
    monkeypatch.setattr(launch, "ensure_platform", lambda platform: None)
    ran: list[str] = []

    def call(command: list[str], **rest: object) -> int:
        ran.append(" ".join(Path(word).name for word in command[:4]))
        return 1 if "ruff" in command[0] else 0

    monkeypatch.setattr(launch.subprocess, "call", call)
    assert launch.run_tests([]) == 1
    assert len(ran) == 5
    assert "Not passed: layout of the code, lint." in capsys.readouterr().err


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
