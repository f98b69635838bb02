"""How does a class get into the window and out of it? Opened, started from a template, saved, and never left unsaved by mistake."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import Protocol

from PySide6.QtWidgets import QWidget

from jarwright.desktop.menus import Menus
from jarwright.desktop.questions import CANCEL, SAVE, Questions
from jarwright.errors import JarwrightError
from jarwright.storage.templates import new_from_template, templates
from jarwright.workbench.open_class import OpenClass


class Desk(Protocol):
    """What the window does for its files."""

    menus: Menus

    def open_class(self) -> OpenClass:
        """Return the class that is open."""

    def show_class(self, open_class: OpenClass) -> None:
        """Show another class."""

    def finish_typing(self) -> None:
        """Take what stands in the field that has the keyboard."""

    def complain(self, error: JarwrightError) -> None:
        """Say what went wrong."""

    def show_calm(self) -> None:
        """Say whether the class is saved."""


class ClassFiles:
    """The files of one window; whatever is asked is asked over it."""

    def __init__(self, desk: Desk, window: QWidget, questions: Questions) -> None:
        self._desk, self._window, self._questions = desk, window, questions

    def open_file(self, path: Path) -> bool:
        """Open the class in a file, if what is open may be left; say whether it was opened."""
        if not self.may_leave():
            return False
        try:
            opened = OpenClass.from_file(path)
        except JarwrightError as error:
            self._desk.complain(error)
            return False
        self._desk.show_class(opened)
        return True

    def open_template(self, name: str) -> None:
        """Start a new class from a ready-made one, if what is open may be left."""
        if not self.may_leave():
            return
        try:
            self._desk.show_class(OpenClass(new_from_template(name)))
        except JarwrightError as error:
            self._desk.complain(error)

    def list_templates(self) -> None:
        """Fill the menu with the ready-made classes."""
        menus = self._desk.menus
        menus.templates.clear()
        try:
            found = templates()
        except JarwrightError as error:
            self._desk.complain(error)
            return
        for number, template in enumerate(found, 1):
            text = f"&{number} {template.title.replace('&', '&&')}"
            menus.add(menus.templates, f"new-{template.name}", text, partial(self.open_template, template.name))

    def ask_and_open(self) -> None:
        """Ask for a file and open it."""
        path = self._questions.file_to_open(self._window, self.folder())
        if path is not None:
            self.open_file(path)

    def save(self) -> bool:
        """Save the class; ask where it has no file. Say whether it is saved."""
        path = self._desk.open_class().path
        return self.save_as() if path is None else self._save_to(path)

    def save_as(self) -> bool:
        """Ask where to save the class, and save it there."""
        self._desk.finish_typing()
        open_class = self._desk.open_class()
        suggested = open_class.path or self.folder() / f"{_file_name(open_class.document.title)}.json"
        path = self._questions.file_to_save(self._window, suggested)
        return path is not None and self._save_to(path)

    def may_leave(self) -> bool:
        """Say whether the open class may be left; ask where that would lose changes."""
        self._desk.finish_typing()
        open_class = self._desk.open_class()
        if not open_class.is_modified:
            return True
        answer = self._questions.keep_changes(self._window, open_class.document.title)
        return self.save() if answer == SAVE else answer != CANCEL

    def folder(self) -> Path:
        """Return the folder to look in first: that of the open class, else the person's own."""
        path = self._desk.open_class().path
        return path.parent if path else Path.home()

    def _save_to(self, path: Path) -> bool:
        self._desk.finish_typing()
        try:
            self._desk.open_class().save_as(path)
        except JarwrightError as error:
            self._desk.complain(error)
            return False
        self._desk.show_calm()
        return True


def _file_name(title: str) -> str:
    """Make a file's name of a title: letters, figures and spaces only."""
    plain = "".join(sign if sign.isalnum() or sign in " -_" else " " for sign in title)
    return " ".join(plain.split())[:60] or "class"
