"""The program starts on a file, on the demo class, or on a file that is none."""

from __future__ import annotations

import json
import os
import subprocess
import sys

import pytest
from PySide6.QtWidgets import QApplication, QMessageBox

from jarwright import app
from jarwright.desktop.main_window import MainWindow
from sample_plan import CLASS


@pytest.fixture
def seen(dressed, monkeypatch):
    """Look at the window that the program opens instead of waiting for a person to close it; return what was seen."""
    found = []
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)

    def look(*_application):
        for window in QApplication.topLevelWidgets():
            if isinstance(window, MainWindow) and window.isVisible():
                found.append((window.windowTitle(), window.message.text()))
                window.close()
        return 0

    monkeypatch.setattr(QApplication, "exec", look)
    return found


def test_it_opens_the_file_that_is_named(seen, tmp_path):
    """A double click on a class opens that class."""
    path = tmp_path / "mine.json"
    path.write_text(json.dumps(CLASS), encoding="utf-8")

    assert app.main([str(path)]) == 0

    assert seen == [("Harvest Saturday (mine.json)[*] - Jarwright", "")]


def test_it_opens_the_demo_class_as_an_untitled_copy(seen):
    """The first thing a person sees is a class that works."""
    assert app.main([]) == 0

    assert [title.endswith("(untitled)[*] - Jarwright") for title, _ in seen] == [True]


def test_a_missing_file_is_told_in_the_window(seen, tmp_path):
    """The demo class opens, and a sentence says what is wrong with the file."""
    assert app.main([str(tmp_path / "gone.json")]) == 0

    assert "There is no such file" in seen[0][1]


def test_what_nobody_foresaw_is_told_in_a_dialog_with_its_details(dressed, monkeypatch):
    """The one dialog: what happened, that the class can be saved, and the report to copy."""
    shown = []
    monkeypatch.setattr(QMessageBox, "exec", lambda box: shown.append((box.text(), box.informativeText(), box.detailedText())))
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(app, "_run", lambda application, path: 1 / 0)

    assert app.main([]) == 1

    text, advice, details = shown[0]
    assert text == "ZeroDivisionError: division by zero"
    assert advice.startswith("Save your class")
    assert "Traceback" in details


def test_the_whole_program_opens_and_closes(tmp_path):
    """From start to exit in a process of its own, as a person has it: no trace on either stream, status 0."""
    script = (
        "import sys\n"
        "from PySide6.QtCore import QTimer\n"
        "from PySide6.QtWidgets import QApplication\n"
        "application = QApplication(['jarwright'])\n"
        "QTimer.singleShot(1500, application.closeAllWindows)\n"
        "from jarwright import app\n"
        "sys.exit(app.main([]))\n"
    )
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}

    done = subprocess.run([sys.executable, "-c", script], env=environment, capture_output=True, text=True, timeout=60)

    said = [line for line in (done.stdout + done.stderr).splitlines() if "propagateSizeHints" not in line]
    assert (done.returncode, said) == (0, [])
