"""A dressed application, a class to open, and a window whose planner answers at once."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from jarwright.desktop.colours import DARK, LIGHT
from jarwright.desktop.look import dress
from jarwright.desktop.main_window import MainWindow
from jarwright.desktop.questions import DISCARD, Questions
from jarwright.workbench.open_class import OpenClass
from sample_plan import sample_plan


class Answers(Questions):
    """Answers the window's questions instead of a person, and remembers that it was asked."""

    def __init__(self) -> None:
        self.keep = DISCARD
        self.replace = False
        self.file: Path | None = None
        self.folder: Path | None = None
        self.asked: list[str] = []

    def keep_changes(self, parent, title):
        """Answer whether changes are saved."""
        self.asked.append("keep")
        return self.keep

    def file_to_open(self, parent, folder):
        """Answer which file is opened."""
        self.asked.append("open")
        return self.file

    def file_to_save(self, parent, suggested):
        """Answer where the class is saved."""
        self.asked.append(f"save {suggested.name}")
        return self.file

    def folder_for_papers(self, parent, folder):
        """Answer where the papers go."""
        self.asked.append("folder")
        return self.folder

    def replace_papers(self, parent, files):
        """Answer whether papers are replaced."""
        self.asked.append(f"replace {', '.join(files)}")
        return self.replace


def plan_at_once(document, *, on_better, cancelled):
    """Answer with the sample plan for this class."""
    return dataclasses.replace(sample_plan(), document=document)


@pytest.fixture
def plan():
    """Return the sample plan."""
    return sample_plan()


@pytest.fixture
def dressed(qapp) -> QApplication:
    """Return the application in its light clothes."""
    dress(qapp, LIGHT)
    return qapp


@pytest.fixture
def dark(qapp) -> QApplication:
    """Return the application in its dark clothes."""
    dress(qapp, DARK)
    yield qapp
    dress(qapp, LIGHT)


@pytest.fixture
def answers() -> Answers:
    """Return who answers the window's questions."""
    return Answers()


@pytest.fixture
def make_window(dressed, qtbot, answers, plan):
    """Return a function that opens a window and waits until its first plan is on screen."""

    def make(*, plan_function=plan_at_once, export=None, document=None, size=(1440, 900), wait=True, path=None) -> MainWindow:
        window = MainWindow(OpenClass(document or plan.document, path=path), plan=plan_function, export=export, questions=answers)
        qtbot.addWidget(window)
        window.resize(*size)
        window.show()
        window.activateWindow()
        qtbot.waitUntil(window.isActiveWindow)
        if wait:
            qtbot.waitUntil(lambda: window.plan() is not None)
        return window

    return make


@pytest.fixture
def window(make_window) -> MainWindow:
    """Return the window on the sample class."""
    return make_window()
