"""Set Jarwright up and start it, with nothing but a Python: makes .venv beside this folder, then runs the app or the tests.

    python3 src/launch.py            opens the window on the demo class (without a display: plans it and exports its papers)
    python3 src/launch.py test       runs every check and test (test --long: the full counts)
    python3 src/launch.py ARGS       passes ARGS to jarwright

This file parses on any Python 3 so that an old one can say what is needed.
"""

import contextlib
import errno
import glob
import hashlib
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time

OLDEST, NEWEST = (3, 11), (3, 13)
ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
ENVIRONMENT = os.path.join(ROOT, ".venv")
MARKER = os.path.join(ENVIRONMENT, "jarwright-ready")
LOCK = os.path.join(ROOT, ".venv.lock")
DEMO = "harvest-class"
IS_WINDOWS = os.name == "nt"

# What Qt's platform plugins need on Debian and its kin, by the file that is missing.
PACKAGES = {
    "libGL.so.1": "libgl1", "libEGL.so.1": "libegl1", "libxkbcommon.so.0": "libxkbcommon0", "libdbus-1.so.3": "libdbus-1-3",
    "libfontconfig.so.1": "libfontconfig1", "libfreetype.so.6": "libfreetype6", "libglib-2.0.so.0": "libglib2.0-0",
    "libgthread-2.0.so.0": "libglib2.0-0", "libxcb-cursor.so.0": "libxcb-cursor0", "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-image.so.0": "libxcb-image0", "libxcb-keysyms.so.1": "libxcb-keysyms1", "libxcb-render-util.so.0": "libxcb-render-util0",
    "libxcb-render.so.0": "libxcb-render0", "libxcb-shape.so.0": "libxcb-shape0", "libxcb-util.so.1": "libxcb-util1",
    "libxcb-xkb.so.1": "libxcb-xkb1", "libxkbcommon-x11.so.0": "libxkbcommon-x11-0", "libxcb-randr.so.0": "libxcb-randr0",
    "libxcb-shm.so.0": "libxcb-shm0", "libxcb-sync.so.1": "libxcb-sync1", "libxcb-xfixes.so.0": "libxcb-xfixes0",
    "libX11-xcb.so.1": "libx11-xcb1", "libX11.so.6": "libx11-6", "libxcb.so.1": "libxcb1", "libwayland-client.so.0": "libwayland-client0",
    "libwayland-cursor.so.0": "libwayland-cursor0", "libwayland-egl.so.1": "libwayland-egl1",
}  # fmt: skip


class Stop(Exception):
    """The set-up cannot go on; the text says what to do."""


def main(arguments):
    """Set up where needed, run what was asked for, and return its exit status."""
    try:
        if not is_ready():
            if not OLDEST <= sys.version_info[:2] <= NEWEST:
                return with_another_python(arguments)
            ensure_environment()
        return run(arguments)
    except Stop as stop:
        sys.stderr.write("jarwright: {0}\n".format(stop))
        return 2
    except OSError as error:
        sys.stderr.write("jarwright: {0}; remove the folder {1} and run this again.\n".format(error, ENVIRONMENT))
        return 2
    except KeyboardInterrupt:
        return 130


def say(text):
    """Tell the progress of the set-up."""
    sys.stderr.write(text + "\n")
    sys.stderr.flush()


# another Python
def with_another_python(arguments):
    """Start again with a Python that will do, if there is one; the newest first."""
    for minor in range(NEWEST[1], OLDEST[1] - 1, -1):
        for command in candidates(minor):
            if answers(command, minor):
                return hand_over(command + [os.path.abspath(__file__)] + arguments)
    raise Stop(
        "Python {0}.{1} to {2}.{3} is needed and this is {4}.{5}; install one of those and run this file with it.".format(
            *(OLDEST + NEWEST + tuple(sys.version_info[:2]))
        )
    )


def candidates(minor):
    """Return the commands that may be a Python 3 of this minor version: on the path, then what pyenv keeps."""
    name = "python3.{0}".format(minor)
    wanted = ([["py", "-3.{0}".format(minor)]] if IS_WINDOWS else []) + [[name]]
    found = [[shutil.which(command[0])] + command[1:] for command in wanted if shutil.which(command[0])]
    kept = os.environ.get("PYENV_ROOT") or os.path.join(os.path.expanduser("~"), ".pyenv")
    return found + [[path] for path in sorted(glob.glob(os.path.join(kept, "versions", "3.{0}.*".format(minor), "bin", name)))]


def answers(command, minor):
    """Say whether a command is the Python it is called (a shim may be empty)."""
    try:
        said = subprocess.check_output(command + ["-c", "import sys; print(sys.version_info[1])"], stderr=subprocess.DEVNULL)
    except (OSError, subprocess.CalledProcessError):
        return False
    return said.strip() == str(minor).encode()


def hand_over(command, environment=None):
    """Become another program, or run it where a process cannot become one, and return its exit status."""
    environment = os.environ.copy() if environment is None else environment
    if not IS_WINDOWS:
        sys.stdout.flush()
        sys.stderr.flush()
        os.execve(command[0], command, environment)
    return subprocess.call(command, env=environment)


# the environment
def python_inside():
    """Return the path of the environment's own Python."""
    return os.path.join(ENVIRONMENT, *(("Scripts", "python.exe") if IS_WINDOWS else ("bin", "python")))


def python_outside():
    """Return the Python to make the environment with: never one inside an environment, which may be the one to be replaced."""
    is_inside = sys.prefix != getattr(sys, "base_prefix", sys.prefix)
    return (getattr(sys, "_base_executable", None) if is_inside else None) or sys.executable


def fingerprint():
    """Return what an environment must have been made from to be used as it is."""
    digest = hashlib.sha256(ROOT.encode("utf-8", "surrogateescape"))
    for name in ("pyproject.toml", os.path.join("resources", "constraints.txt")):
        with open(os.path.join(ROOT, name), "rb") as file:
            digest.update(file.read())
    return digest.hexdigest()


def made_with():
    """Return the file of the Python that the environment was made with, or nothing where that is gone."""
    if IS_WINDOWS:
        with open(os.path.join(ENVIRONMENT, "pyvenv.cfg"), encoding="utf-8") as file:
            homes = [line.partition("=")[2].strip() for line in file if line.partition("=")[0].strip() == "home"]
        path = os.path.join(homes[0], "python.exe") if homes else ""
    else:
        path = os.path.realpath(python_inside())
    return path if os.path.exists(path) else ""


def is_ready():
    """Say whether the environment was finished, from these very files, and its Python is still the same."""
    try:
        with open(MARKER, encoding="utf-8") as file:
            return file.read().splitlines() == [fingerprint(), made_with()] and os.path.exists(python_inside())
    except (OSError, ValueError):
        return False


def ensure_environment():
    """Make the environment where it is not there, is half made, or was made from other files; one start at a time."""
    if is_ready():
        return
    with only_one() as lock:
        if not is_ready():
            make_environment(lock)


@contextlib.contextmanager
def only_one():
    """Hold the lock of the set-up, which is the system's: a start that crashes gives it back, once its last step has ended, too."""
    try:
        file = open(LOCK, "a+b")  # noqa: SIM115
    except OSError as error:
        raise Stop("This folder cannot be written ({0}); copy it to one that can.".format(error.strerror)) from error
    with file:
        if IS_WINDOWS:
            import msvcrt

            def take():
                file.seek(0)
                msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            def take():
                fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)

        try:
            take()
        except (BlockingIOError, PermissionError):
            say("Another start is setting Jarwright up; waiting for it.")
            wait_for(take)
        except OSError:
            pass  # Some network disks know no locks: there one start at a time is up to the person.
        yield file


def wait_for(take):
    """Try again until it works."""
    while True:
        time.sleep(0.2)
        with contextlib.suppress(OSError):
            return take()


def make_environment(lock):
    """Build the environment from nothing; its marker is written last."""
    check_venv_module()
    say("Setting Jarwright up in .venv; this fetches about 400 MB once and takes a few minutes.")
    try:
        remove_environment()
        attempt([python_outside(), "-m", "venv", ENVIRONMENT], "The environment could not be made", lock)
        pip = [python_inside(), "-m", "pip", "--disable-pip-version-check", "--no-input", "install", "--quiet"]
        wanted = os.path.join(ROOT, "resources", "constraints.txt")
        attempt(pip + ["--only-binary", ":all:", "--require-hashes", "-r", wanted], "The libraries could not be installed", lock)
        attempt(pip + ["--no-deps", "--no-build-isolation", "--no-index", "-e", ROOT], "Jarwright itself could not be installed", lock)
        written = MARKER + ".part"
        with open(written, "w", encoding="utf-8") as file:
            file.write("{0}\n{1}\n".format(fingerprint(), made_with()))
        os.replace(written, MARKER)
    except OSError as error:
        if error.errno == errno.ENOSPC:
            raise Stop(NO_DISK) from error
        raise Stop(
            "The set-up could not write to {0} ({1}); make that folder writable and run this again.".format(
                error.filename or ENVIRONMENT, error.strerror
            )
        ) from error
    say("Set up.")


def remove_environment():
    """Remove what an earlier set-up made, its marker first."""
    try:
        if os.path.exists(MARKER):
            os.remove(MARKER)
        if os.path.exists(ENVIRONMENT):
            shutil.rmtree(ENVIRONMENT)
    except OSError as error:
        reason = "{0}: {1}".format(error.filename, error.strerror)
        raise Stop(
            "The earlier set-up is still in use ({0}); close Jarwright, remove {1} and run this again.".format(reason, ENVIRONMENT)
        ) from error


NO_DISK = "The disk is full; make about 2 GB free and run this again."
# What a failed step says, and the sentence for the person; the first that fits.
REASONS = (
    (r"No space left|Errno 28|WinError 112", NO_DISK),
    (r"SSL module is not available", "This Python has no ssl module and can fetch nothing; run this file with another Python."),
    (
        r"NewConnectionError|ConnectTimeout|NameResolutionError|Temporary failure in name resolution|ConnectionError|"
        r"Network is unreachable|SSLError|Could not fetch URL|timed out|ProxyError|from versions: none",
        "The libraries could not be fetched; check the network connection and run this again.",
    ),
    (
        r"No matching distribution found for (?P<name>[\w.-]+)",
        "There is no {name} for this system; Jarwright runs on Linux (glibc 2.34 or newer), macOS 13 or newer and Windows, all of 64 bits.",
    ),
    (r"DO NOT MATCH THE HASHES", "A library that was fetched is not the one expected, so nothing was installed; run this again later."),
)


def attempt(command, failure, lock):
    """Run a step of the set-up, which holds the lock as long as it runs; where it fails, say in one sentence what to do."""
    # Settings of other projects that would put the libraries somewhere else.
    environment = {name: value for name, value in os.environ.items() if name not in ("PIP_TARGET", "PIP_PREFIX", "PIP_ROOT", "PYTHONHOME")}
    environment["PIP_USER"] = "0"
    step = subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, stdin=subprocess.DEVNULL, env=environment,
        pass_fds=() if IS_WINDOWS else (lock.fileno(),),
    )  # fmt: skip
    said = step.communicate()[0].decode("utf-8", "replace")
    if step.returncode == 0:
        return
    for pattern, sentence in REASONS:
        found = re.search(pattern, said)
        if found:
            raise Stop(sentence.format(**found.groupdict()))
    lines = [line.strip() for line in said.splitlines() if line.strip()]
    raise Stop("{0}: {1}".format(failure, lines[-1] if lines else "no reason was given"))


def check_venv_module():
    """Make sure that this Python can make environments; Debian packs that apart."""
    if has_venv():
        return
    package = "python{0}.{1}-venv".format(*sys.version_info[:2])
    if not install_packages([package]) or not has_venv():
        raise Stop("This Python cannot make environments; {0}, then run this again.".format(line_to_copy([package])))


def has_venv():
    """Say whether the modules venv and ensurepip are there."""
    probe = "import ensurepip, venv"
    return subprocess.call([sys.executable, "-c", probe], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) == 0


def line_to_copy(packages):
    """Return the line that installs packages here, in words."""
    if shutil.which("apt-get"):
        # Root was spared the copying, so what failed was the fetching.
        before = "check the network connection, run  " if os.geteuid() == 0 else "run  sudo "
        return "{0}apt install {1}".format(before, " ".join(packages))
    return "install {0} (so they are called on Debian)".format(" ".join(packages))


def install_packages(packages):
    """Install Debian packages where this is Debian and we are root; returns whether that was done."""
    if IS_WINDOWS or not shutil.which("apt-get") or os.geteuid() != 0:
        return False
    say("Installing {0}.".format(" ".join(packages)))
    quiet = dict(os.environ, DEBIAN_FRONTEND="noninteractive")
    for command in (["apt-get", "update", "-qq"], ["apt-get", "install", "-y", "-qq", "--no-install-recommends"] + packages):
        if subprocess.call(command, env=quiet, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) != 0 and "install" in command:
            return False
    return True


# Qt's own needs
def ensure_platform(platform):
    """Make sure that the shared libraries of a Qt platform plugin are there; looked at once per environment."""
    note = os.path.join(ENVIRONMENT, "qt-{0}-checked".format(platform))
    if not sys.platform.startswith("linux") or os.path.exists(note) or not shutil.which("ldd"):
        return
    missing = missing_libraries(platform)
    if missing:
        packages = sorted({PACKAGES.get(name, name) for name in missing})
        if not install_packages(packages) or missing_libraries(platform):
            raise Stop("Qt needs more system libraries; {0}, then run this again.".format(line_to_copy(packages)))
    with contextlib.suppress(OSError), open(note, "w"):
        pass


def missing_libraries(platform):
    """Return the shared libraries that the plugin and Qt's modules lack, sorted."""
    (folder,) = glob.glob(os.path.join(ENVIRONMENT, "lib", "python3.*", "site-packages", "PySide6")) or [""]
    plugin = {"xcb": "libqxcb.so", "wayland": "libqwayland.so", "offscreen": "libqoffscreen.so"}[platform]
    files = [os.path.join(folder, "Qt", "plugins", "platforms", plugin)]
    files += [os.path.join(folder, name + ".abi3.so") for name in ("QtCore", "QtGui", "QtWidgets", "QtPrintSupport")]
    missing = set()
    for file in files:
        if os.path.exists(file):
            told = subprocess.Popen(["ldd", file], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL).communicate()[0]
            missing.update(re.findall(r"(\S+) => not found", told.decode("utf-8", "replace")))
    return sorted(missing)


# what was asked for
def run(arguments):
    """Run the tests, jarwright with its arguments, or the app; without a display and without arguments the demo's papers."""
    if arguments[:1] == ["test"]:
        return run_tests(arguments[1:])
    has_display = not sys.platform.startswith("linux") or any(
        os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    )
    if not arguments and not has_display:
        return export_demo()
    if opens_window(arguments) and "QT_QPA_PLATFORM" not in os.environ:
        ensure_platform("xcb" if os.environ.get("DISPLAY") else "wayland")
    return hand_over([python_inside(), "-m", "jarwright"] + arguments)


def opens_window(arguments):
    """Say whether these arguments open the window: none, or one file."""
    return not arguments or (len(arguments) == 1 and os.path.isfile(arguments[0]))


def export_demo():
    """Plan the demo class and write its papers to a new folder outside this one."""
    folder = free_folder()
    document = os.path.join(ROOT, "class_templates", DEMO + ".json")
    python = python_inside()
    status = subprocess.call([python, "-m", "jarwright", "plan", document])
    if status == 0:
        status = subprocess.call([python, "-m", "jarwright", "export", document, "-d", folder])
    if status == 0:
        sys.stdout.write("There is no display, so the demo class was planned and its papers written to {0}\n".format(folder))
    return status


def free_folder():
    """Return a folder for the demo's papers that is not there yet, in the home folder or else among temporary files."""
    home = os.path.realpath(os.path.expanduser("~"))
    is_outside = not (home + os.sep).startswith(os.path.realpath(ROOT) + os.sep)
    base = home if is_outside and os.access(home, os.W_OK) else tempfile.gettempdir()
    wanted = os.path.join(base, "Jarwright", DEMO)
    number, folder = 1, wanted
    while os.path.exists(folder):
        number += 1
        folder = "{0}-{1}".format(wanted, number)
    return folder


def run_tests(arguments):
    """Run every check, then the tests; the status is that of the first that failed. Arguments go to pytest."""
    ensure_platform("offscreen")
    environment = dict(os.environ, QT_QPA_PLATFORM="offscreen")
    inside = os.path.dirname(python_inside())
    checks = [
        ("layout of the code", [os.path.join(inside, "ruff"), "format", "--check", "--quiet", "."]),
        ("lint", [os.path.join(inside, "ruff"), "check", "--quiet", "."]),
        ("types", [os.path.join(inside, "mypy"), "--no-error-summary"]),
        ("layers", [os.path.join(inside, "lint-imports"), "--no-cache"]),
        ("tests", [python_inside(), "-m", "pytest"] + arguments),
    ]
    if any(not argument.startswith("-") for argument in arguments):
        checks = checks[-1:]
    failed = []
    for name, command in checks:
        say("-- {0}".format(name))
        if subprocess.call(command, cwd=ROOT, env=environment) != 0:
            failed.append(name)
    if failed:
        say("Not passed: {0}.".format(", ".join(failed)))
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
