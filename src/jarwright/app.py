"""How does the window start? On the file that was named, else on the demo class as an untitled copy."""

from __future__ import annotations

import sys
import traceback
from collections.abc import Sequence
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING

from jarwright.errors import JarwrightError

if TYPE_CHECKING:
    from PySide6.QtWidgets import QApplication

    from jarwright.workbench.open_class import OpenClass


def main(arguments: Sequence[str] | None = None) -> int:
    """
    Open the window and return the exit status when it is closed.

    Parameters
    ----------
    arguments
        The file to open, or nothing; those of this process where it is None.
    """
    from PySide6.QtWidgets import QApplication

    names = list(sys.argv[1:] if arguments is None else arguments)
    existing = QApplication.instance()
    application = existing if isinstance(existing, QApplication) else QApplication(["jarwright"])
    application.setApplicationName("Jarwright")
    sys.excepthook = _tell_of_failure
    try:
        return _run(application, Path(names[0]) if names else None)
    except Exception as error:
        # The one broad except: whatever nobody foresaw is told in a dialog instead of a traceback.
        _tell_of_failure(type(error), error, error.__traceback__)
        return 1


def _run(application: QApplication, path: Path | None) -> int:
    from jarwright.desktop.look import follow_system
    from jarwright.desktop.main_window import MainWindow, fit_to_screen

    follow_system(application)
    opened, trouble = _opened(path)
    window = MainWindow(opened)
    fit_to_screen(window)
    window.show()
    if trouble is not None:
        window.message.show_message(str(trouble))
    status: int = application.exec()
    return status


def _opened(path: Path | None) -> tuple[OpenClass, JarwrightError | None]:
    """Open a file; where it is no class, open the demo class and tell what is wrong with the file, which stays untouched."""
    from jarwright.storage.templates import demo_document
    from jarwright.workbench.open_class import OpenClass

    if path is None:
        return OpenClass(demo_document()), None
    try:
        return OpenClass.from_file(path), None
    except JarwrightError as error:
        return OpenClass(demo_document()), error


def _tell_of_failure(kind: type[BaseException], error: BaseException, where: TracebackType | None) -> None:
    """Show what went wrong, with the report to copy; the window stays open, so that the class can be saved."""
    if isinstance(error, KeyboardInterrupt):
        sys.exit(130)
    from PySide6.QtWidgets import QMessageBox

    box = QMessageBox()
    box.setIcon(QMessageBox.Icon.Critical)
    box.setWindowTitle("Something unforeseen went wrong")
    box.setText(f"{kind.__name__}: {error}"[:300])
    box.setInformativeText("Save your class under another name, then send the details to the maintainers.")
    box.setDetailedText("".join(traceback.format_exception(kind, error, where)))
    box.exec()
