"""How does the worker reach the window? What it hands over runs on the window's thread, one after another."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Qt, Signal


class WindowThread(QObject):
    """Runs what is posted from any thread on the thread this object lives in."""

    _posted = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._posted.connect(self._run, Qt.ConnectionType.QueuedConnection)

    def post(self, callback: Callable[[], None]) -> None:
        """Run this on the window's thread, soon."""
        self._posted.emit(callback)

    def _run(self, callback: Callable[[], None]) -> None:
        callback()
