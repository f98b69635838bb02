"""Papers: what goes on the walls and into the shopping bag, written to a folder."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QUrl, Signal
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QCheckBox, QFrame

from jarwright.desktop.lettering import BODY, LARGE
from jarwright.desktop.parts import button, card, label, row
from jarwright.desktop.place import Place
from jarwright.desktop.saying import count
from jarwright.model.plan import Plan

ABOUT = {
    "station cards": "A card for each station: amounts, steps, process time with its source, who works there (PDF).",
    "shopping": "Shopping by aisle, by station, what is on hand, costs, loads, people (workbook).",
    "plan": "The plan as data, for other programs (JSON).",
}


class PapersPlace(Place):
    """The list of papers. `export_requested` carries the names of those that are ticked."""

    key, title, purpose = "papers", "Papers", "Cards for the stations, the shopping workbook, the plan."

    export_requested = Signal(object)

    def __init__(self, papers: Sequence[str]) -> None:
        super().__init__()
        self._folder: Path | None = None
        self._export = button("E&xport papers", role="primary", name="export")
        self._export.clicked.connect(lambda: self.export_requested.emit(self.chosen()))
        self._open = button("&Open folder", name="open-folder")
        self._open.clicked.connect(self._open_folder)
        self.add_heading(self._open, self._export)
        inside = self.add_scrolled()
        inside.addWidget(self._papers_card(papers))
        self._blocked = label(wrap=True, pixels=BODY)
        inside.addWidget(self._blocked)
        result, column = card()
        column.addWidget(label("Written", pixels=LARGE, bold=True))
        self._result = label("Nothing yet. The papers go into a folder that you choose.", wrap=True)
        column.addWidget(self._result)
        inside.addWidget(result)
        inside.addStretch(1)
        self._open.setVisible(False)

    def _papers_card(self, papers: Sequence[str]) -> QFrame:
        frame, column = card()
        column.addWidget(label("Which papers", pixels=LARGE, bold=True))
        self._ticks: dict[str, QCheckBox] = {}
        for name in papers:
            tick = QCheckBox(name.capitalize())
            tick.setObjectName(f"paper-{name}")
            tick.setAccessibleName(name.capitalize())
            tick.setChecked(True)
            tick.toggled.connect(self._show_button)
            self._ticks[name] = tick
            line = row(tick, label(ABOUT.get(name, ""), role="quiet", wrap=True), spacing=16)
            tick.setMinimumWidth(150)
            line.setStretch(1, 1)
            column.addLayout(line)
        return frame

    def chosen(self) -> tuple[str, ...]:
        """Return the names of the papers that are ticked."""
        return tuple(name for name, tick in self._ticks.items() if tick.isChecked())

    def show_plan(self, plan: Plan) -> None:
        """Say which stations get no paper."""
        blocked = [station.id for station in plan.document.stations if station.id in plan.blocked_stations]
        if blocked:
            names = count(len(blocked), "station").split()[1] + " " + ", ".join(blocked)
            text = f"Nothing is printed for {names}: blocked. Every other page says that the class is not ready to teach."
            self._blocked.setText(text)
        elif plan.blockers:
            self._blocked.setText("The class is not ready to teach; every page says so.")
        self._blocked.setVisible(bool(plan.blockers))
        self._show_button()

    def show_written(self, paths: Sequence[Path]) -> None:
        """Show where the papers are."""
        self._folder = paths[0].parent if paths else None
        names = "\n".join(path.name for path in paths)
        self._result.setText(f"{count(len(paths), 'file')} in {self._folder}\n{names}" if paths else "No paper was written.")
        self._open.setVisible(bool(paths))

    def show_field(self, about: str, rule: str) -> bool:
        """Give the keyboard to the button."""
        self._export.setFocus()
        return True

    def _show_button(self) -> None:
        self._export.setEnabled(bool(self.chosen()))

    def _open_folder(self) -> None:
        if self._folder is not None:
            QDesktopServices.openUrl(QUrl.fromLocalFile(str(self._folder)))
