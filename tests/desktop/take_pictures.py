"""Pictures of every place, to be looked at: `python tests/desktop/take_pictures.py FOLDER [CLASS.json]`.

Light and dark, in two sizes; run with QT_SCALE_FACTOR=2 for sharp screens. With a class it is really planned, without one the
sample plan is shown.
"""

from __future__ import annotations

import dataclasses
import os
import sys
import time
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
sys.path.insert(0, str(Path(__file__).parents[1]))

from PySide6.QtWidgets import QApplication

from jarwright.desktop.colours import DARK, LIGHT
from jarwright.desktop.look import dress
from jarwright.desktop.main_window import MainWindow
from jarwright.storage.documents import read_document
from jarwright.workbench.open_class import OpenClass
from sample_plan import sample_plan

SIZES = ((1440, 900), (1100, 700))


def take_all(folder: Path, path: Path | None) -> None:
    """Write a picture of every place."""
    application = QApplication([])
    folder.mkdir(parents=True, exist_ok=True)
    document = read_document(path) if path else sample_plan().document
    ratio = os.environ.get("QT_SCALE_FACTOR", "1")
    for scheme, colours in (("light", LIGHT), ("dark", DARK)):
        dress(application, colours)
        window = MainWindow(OpenClass(document, path=path), plan=None if path else _sample)
        window.show()
        _wait_for_plan(application, window)
        for width, height in SIZES:
            application.processEvents()
            window.resize(width, height)
            for key in window.places:
                window.go(key)
                _shoot(application, window, folder / f"{key}-{scheme}-{width}x{height}@{ratio}.png")
            window.go("timetable")
            window.panel.open()
            _shoot(application, window, folder / f"findings-{scheme}-{width}x{height}@{ratio}.png")
            window.panel.put_away()
            application.processEvents()
        window.close()


def _sample(document, *, on_better, cancelled):
    return dataclasses.replace(sample_plan(), document=document)


def _wait_for_plan(application: QApplication, window: MainWindow) -> None:
    until = time.monotonic() + 120
    while (window.plan() is None or window._runner.is_planning) and time.monotonic() < until:
        application.processEvents()
        time.sleep(0.01)


def _shoot(application: QApplication, window: MainWindow, path: Path) -> None:
    for _ in range(5):
        application.processEvents()
    window.grab().save(str(path))


if __name__ == "__main__":
    take_all(Path(sys.argv[1]), Path(sys.argv[2]) if len(sys.argv) > 2 else None)
