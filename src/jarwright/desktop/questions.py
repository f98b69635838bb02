"""What does the window ask before it goes on? Where to save, what to open, and whether changes may be lost."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

SAVE, DISCARD, CANCEL = "save", "discard", "cancel"
CLASSES = "Classes (*.json)"


class Questions:
    """Asks a person, in dialogs; an empty answer means that they thought better of it."""

    def keep_changes(self, parent: QWidget, title: str) -> str:
        """Ask whether to save what was changed: SAVE, DISCARD or CANCEL."""
        box = QMessageBox(parent)
        box.setIcon(QMessageBox.Icon.Warning)
        box.setWindowTitle("Unsaved changes")
        box.setText(f"{title[:80]} has changes that are not saved.")
        box.setInformativeText("Save them before you go on?")
        buttons = QMessageBox.StandardButton
        box.setStandardButtons(buttons.Save | buttons.Discard | buttons.Cancel)
        box.setDefaultButton(buttons.Save)
        box.setEscapeButton(buttons.Cancel)
        return {buttons.Save: SAVE, buttons.Discard: DISCARD}.get(buttons(box.exec()), CANCEL)

    def file_to_open(self, parent: QWidget, folder: Path) -> Path | None:
        """Ask which class to open."""
        name, _ = QFileDialog.getOpenFileName(parent, "Open a class", str(folder), f"{CLASSES};;All files (*)")
        return Path(name) if name else None

    def file_to_save(self, parent: QWidget, suggested: Path) -> Path | None:
        """Ask where to save; the dialog itself asks before a file is replaced."""
        name, _ = QFileDialog.getSaveFileName(parent, "Save the class", str(suggested), CLASSES)
        return Path(name if Path(name).suffix else f"{name}.json") if name else None

    def folder_for_papers(self, parent: QWidget, folder: Path) -> Path | None:
        """Ask where the papers go."""
        name = QFileDialog.getExistingDirectory(parent, "Folder for the papers", str(folder))
        return Path(name) if name else None

    def replace_papers(self, parent: QWidget, files: tuple[str, ...]) -> bool:
        """Ask whether papers of the same names may be replaced; the safe answer is the default."""
        box = QMessageBox(parent)
        box.setIcon(QMessageBox.Icon.Question)
        box.setWindowTitle("Replace papers")
        box.setText(f"{', '.join(files)} {'is' if len(files) == 1 else 'are'} in this folder already.")
        replace = box.addButton("&Replace", QMessageBox.ButtonRole.AcceptRole)
        keep = box.addButton("&Keep them", QMessageBox.ButtonRole.RejectRole)
        box.setDefaultButton(keep)
        box.setEscapeButton(keep)
        box.exec()
        return box.clickedButton() is replace
