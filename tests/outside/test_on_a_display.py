"""The window on a real display server: the offscreen platform of the other tests draws, but has no server to disagree with."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator

import pytest

pytestmark = pytest.mark.outside

# Opens the window as `jarwright` does, waits for the plan of the demo class, and tells what a person would see.
LOOK = """
import sys, time
from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QApplication, QLabel
from jarwright import app

application, began = QApplication(["jarwright"]), time.monotonic()

def look():
    window = next((widget for widget in application.topLevelWidgets() if widget.objectName() == "window"), None)
    word = window.findChild(QLabel, "verdict-word").text() if window is not None else ""
    if word not in ("Fits", "Tight") and time.monotonic() - began < 40:
        return
    base = application.palette().color(QPalette.ColorRole.Base).lightness()
    if "dark" in sys.argv and base >= 128 and time.monotonic() - began < 40:
        application.styleHints().setColorScheme(Qt.ColorScheme.Dark)
        return
    picture = window.grab().toImage()
    seen = {picture.pixelColor(x, y).rgb() for x in range(0, picture.width(), 7) for y in range(0, picture.height(), 7)}
    print("platform", application.platformName())
    print("title", window.windowTitle())
    print("verdict", word)
    print("colours", len(seen) > 20)
    print("dark", base < 128)
    window.close()

timer = QTimer()
timer.timeout.connect(look)
timer.start(200)
sys.exit(app.main([]))
"""


@pytest.fixture(scope="module")
def display() -> Iterator[str]:
    """Start a display server of our own and return its name."""
    program = shutil.which("Xvfb")
    if program is None:
        pytest.skip("not run here: Xvfb is not installed")
    server = subprocess.Popen(
        [program, "-displayfd", "1", "-screen", "0", "1600x1000x24", "-nolisten", "tcp"],
        stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True,
    )  # fmt: skip
    with server:
        assert server.stdout is not None
        yield f":{server.stdout.readline().strip()}"
        server.terminate()


def look(display: str, *words: str, **settings: str) -> dict[str, str]:
    """Open the window on a display and return what is seen there."""
    environment = {name: value for name, value in os.environ.items() if name not in ("QT_QPA_PLATFORM", "WAYLAND_DISPLAY")}
    environment.update(DISPLAY=display, **settings)
    done = subprocess.run([sys.executable, "-c", LOOK, *words], capture_output=True, text=True, timeout=60, env=environment, check=False)
    assert done.returncode == 0, done.stderr
    return dict(line.split(" ", 1) for line in done.stdout.splitlines())


def test_the_window_opens_on_the_demo_class(display: str):
    """The first thing a new person sees: a window with the verdict of the demo class, drawn by the server's own platform."""
    seen = look(display)
    assert seen["platform"] == "xcb"
    assert "Harvest class" in seen["title"]
    assert seen["verdict"] in ("Fits", "Tight")
    assert (seen["colours"], seen["dark"]) == ("True", "False")


def test_a_dark_desktop_gets_a_dark_window(display: str):
    """The desktop's scheme is followed when it changes; offscreen there is none that could."""
    seen = look(display, "dark", QT_QPA_PLATFORMTHEME="gnome")
    assert seen["dark"] == "True"
