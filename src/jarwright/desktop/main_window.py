"""The window: one open class, its latest plan, and the places that show them."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QTimer
from PySide6.QtGui import QCloseEvent, QDragEnterEvent, QDropEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QLineEdit, QMainWindow, QStackedWidget, QVBoxLayout, QWidget

from jarwright.desktop.class_files import ClassFiles
from jarwright.desktop.day_place import DayPlace
from jarwright.desktop.fields import TextField
from jarwright.desktop.findings_bar import FindingsBar
from jarwright.desktop.findings_panel import FindingsPanel
from jarwright.desktop.kitchen_place import KitchenPlace
from jarwright.desktop.leads import place_of, to_settle
from jarwright.desktop.menus import Menus, Standard, keys
from jarwright.desktop.message_panel import MessagePanel
from jarwright.desktop.papers_place import PapersPlace
from jarwright.desktop.people_place import PeoplePlace
from jarwright.desktop.place import Place
from jarwright.desktop.posting import WindowThread
from jarwright.desktop.questions import Questions
from jarwright.desktop.rail import Rail
from jarwright.desktop.shopping_place import ShoppingPlace
from jarwright.desktop.stations_place import StationsPlace
from jarwright.desktop.timetable_place import TimetablePlace
from jarwright.desktop.verdict_strip import VerdictStrip
from jarwright.errors import DocumentError, JarwrightError
from jarwright.model.plan import Finding, Plan
from jarwright.workbench.choices import paper_names, papers_there
from jarwright.workbench.edits import Edit
from jarwright.workbench.open_class import OpenClass
from jarwright.workbench.planner import Answer, Exported, ExportFunction, PlanFunction, PlanRunner

LOWEST_PANEL = 240
BUSY_AFTER_MS, STOP_AFTER_MS = 500, 1500
FIRST_PLACE = "timetable"


class MainWindow(QMainWindow):
    """
    The window on a class.

    Parameters
    ----------
    plan, export
        What the background thread runs; the real planner and papers where they are None.
    questions
        Who is asked before something is lost; the person, in dialogs, where it is None.
    """

    def __init__(
        self,
        open_class: OpenClass,
        *,
        plan: PlanFunction | None = None,
        export: ExportFunction | None = None,
        questions: Questions | None = None,
    ) -> None:
        super().__init__()
        self.setObjectName("window")
        self.setAcceptDrops(True)
        self._questions = questions or Questions()
        self._thread = WindowThread(self)
        self._runner = PlanRunner(self._receive, self._thread.post, plan=plan, export=export)
        self.files = ClassFiles(self, self, self._questions)
        self._class = open_class
        self._plan: Plan | None = None
        self._stale: set[str] = set()
        self._unfollow = [lambda: None]
        self.places: dict[str, Place] = {
            place.key: place
            for place in (
                DayPlace(),
                PeoplePlace(),
                StationsPlace(),
                KitchenPlace(),
                TimetablePlace(),
                ShoppingPlace(),
                PapersPlace(paper_names()),
            )
        }
        self._busy, self._slow = _timer(self, BUSY_AFTER_MS, self._show_busy), _timer(self, STOP_AFTER_MS, self._show_slow)
        self._make_parts()
        self._lay_out()
        self._connect()
        self._add_commands()
        self.resize(1440, 900)
        self.go(FIRST_PLACE)
        self.show_class(open_class)

    def _make_parts(self) -> None:
        self.strip, self.message = VerdictStrip(), MessagePanel()
        self.rail = Rail([(place.key, place.title) for place in self.places.values()])
        self.bar, self.panel = FindingsBar(), FindingsPanel()
        self.stack = Stage(self.panel)
        for place in self.places.values():
            self.stack.addWidget(place)

    def _lay_out(self) -> None:
        page = QWidget()
        page.setProperty("role", "page")
        right, below, column = QVBoxLayout(), QHBoxLayout(), QVBoxLayout(page)
        for layout in (right, below, column):
            layout.setContentsMargins(0, 0, 0, 0)
            layout.setSpacing(0)
        right.addWidget(self.message)
        right.addWidget(self.stack, 1)
        right.addWidget(self.bar)
        below.addWidget(self.rail)
        below.addLayout(right, 1)
        column.addWidget(self.strip)
        column.addLayout(below, 1)
        self.setCentralWidget(page)

    def _connect(self) -> None:
        for place in self.places.values():
            place.edit_wished.connect(lambda edit, place=place: self._apply(edit, place))
            place.refused.connect(self.complain)
        papers = self.places["papers"]
        assert isinstance(papers, PapersPlace)
        papers.export_requested.connect(self.export)
        self.rail.place_chosen.connect(self.go)
        self.rail.stop_wished.connect(self._runner.stop_looking)
        self.strip.findings_wished.connect(self.panel.open)
        self.bar.all_wished.connect(self._toggle_findings)
        self.bar.lead_wished.connect(self.follow)
        self.panel.lead_wished.connect(self.follow)

    def _add_commands(self) -> None:
        self.menus = menus = Menus(self)
        menus.file.addMenu(menus.templates)
        menus.templates.aboutToShow.connect(self.files.list_templates)
        menus.add(menus.file, "open", "&Open...", self.files.ask_and_open, *keys(Standard.Open, "Ctrl+O"))
        menus.add(menus.file, "save", "&Save", self.files.save, *keys(Standard.Save, "Ctrl+S"))
        menus.add(menus.file, "save-as", "Save &as...", self.files.save_as, *keys(Standard.SaveAs, "Ctrl+Shift+S"))
        menus.file.addSeparator()
        menus.add(menus.file, "export", "&Export papers...", self.export, *keys(Standard.Print, "Ctrl+P"))
        menus.file.addSeparator()
        menus.add(menus.file, "quit", "&Quit", self.close, *keys(Standard.Quit, "Ctrl+Q"))
        menus.add(menus.edit, "undo", "&Undo", self._undo, *keys(Standard.Undo, "Ctrl+Z"))
        menus.add(menus.edit, "redo", "&Redo", self._redo, *keys(Standard.Redo, "Ctrl+Shift+Z"))
        menus.add_places([(place.key, place.title) for place in self.places.values()], self.go)
        menus.go.addSeparator()
        menus.add(menus.go, "first-finding", "Fi&rst finding", self.bar.follow, "F7")
        menus.add(menus.go, "findings", "All &findings", self.panel.open, "F8")

    def show_class(self, open_class: OpenClass) -> None:
        """Show this class from now on, and plan it."""
        for end in self._unfollow:
            end()
        self._class, self._plan = open_class, None
        self.message.put_away()
        self._unfollow = [open_class.subscribe(self._show_document), self._runner.follow(open_class), open_class.subscribe(self._wait)]
        self._show_document(open_class)
        self._wait(open_class)

    def export(self, only: tuple[str, ...] | None = None) -> None:
        """Ask for a folder and write the papers of the plan on screen."""
        self.finish_typing()
        if self._plan is None or self._plan.document is not self._class.document:
            self.complain(DocumentError("The class is being planned", fix="Export its papers when the verdict is there"))
            return
        folder = self._questions.folder_for_papers(self, self.files.folder())
        if folder is None:
            return
        there = papers_there(folder, only)
        if there and not self._questions.replace_papers(self, there):
            return
        self.rail.show_state("Writing papers")
        self._runner.export(self._plan, folder, self._show_exported, only=only, overwrite=bool(there))

    def go(self, key: str) -> None:
        """Open a place."""
        self.stack.setCurrentWidget(self.places[key])
        self.rail.show_place(key)
        self._show_stale()

    def follow(self, finding: Finding) -> None:
        """Go to the place and the field that a finding concerns."""
        key = place_of(finding)
        self.go(key)
        if not self.places[key].show_field(finding.about, finding.rule):
            self.places[key].setFocus()

    def open_class(self) -> OpenClass:
        """Return the class that is open."""
        return self._class

    def plan(self) -> Plan | None:
        """Return the plan on screen."""
        return self._plan

    def current_place(self) -> Place:
        """Return the place that is open."""
        return next(place for place in self.places.values() if place is self.stack.currentWidget())

    def _apply(self, edit: Edit, place: Place) -> None:
        try:
            self._class.apply(edit)
        except JarwrightError as error:
            place.show_refusal(error)
            self.complain(error)
            self._show_document(self._class)
        else:
            self.message.put_away()

    def complain(self, error: JarwrightError) -> None:
        """Say what went wrong, without stopping the work."""
        self.message.show_message(str(error))

    def _show_document(self, open_class: OpenClass) -> None:
        document = open_class.document
        name = open_class.path.name if open_class.path else "untitled"
        self.setWindowTitle(f"{document.title[:80]} ({name})[*] - Jarwright")
        self.setWindowModified(open_class.is_modified)
        self.rail.show_document(document)
        self.menus.show_steps(open_class.undo_name, open_class.redo_name)
        self._stale = set(self.places)
        self._show_stale()

    def _show_stale(self) -> None:
        """Bring the open place up to date; the others wait until they are opened."""
        place = self.current_place()
        if place.key in self._stale:
            self._stale.discard(place.key)
            place.show_document(self._class.document)
            if self._plan is not None:
                place.show_plan(self._plan)

    def _receive(self, answer: Answer) -> None:
        if answer.plan is not None:
            self._show_plan(answer.plan)
        if answer.error is not None:
            self.strip.show_failure("The class cannot be planned as it stands.")
            self.complain(answer.error)
        if answer.is_final:
            self._busy.stop()
            self._slow.stop()
            self.show_calm()

    def _show_plan(self, plan: Plan) -> None:
        self._plan = plan
        self.strip.show_plan(plan)
        self.rail.show_counts(to_settle(plan.findings))
        self.bar.show_plan(plan)
        self.panel.show_plan(plan)
        self._stale = set(self.places)
        self._show_stale()

    def _wait(self, _open_class: OpenClass) -> None:
        if self._runner.is_planning:
            self._busy.start()
            self._slow.start()

    def _show_busy(self) -> None:
        self.strip.show_waiting("Planning again: what is shown is the plan before." if self._plan else "Planning the class.")
        self.rail.show_state("Planning")

    def _show_slow(self) -> None:
        self.rail.show_state("Looking for a better plan", can_stop=True)

    def show_calm(self) -> None:
        """Say at the foot of the rail whether the class is saved."""
        saved = "Not saved" if self._class.is_modified else "Saved" if self._class.path else "A copy without a file"
        self.rail.show_state(saved)

    def _show_exported(self, exported: Exported) -> None:
        self.show_calm()
        if exported.error is not None:
            self.complain(exported.error)
            return
        papers = self.places["papers"]
        assert isinstance(papers, PapersPlace)
        papers.show_written(exported.paths)
        self.go("papers")

    def _toggle_findings(self) -> None:
        if self.panel.isVisible():
            self.panel.put_away()
        else:
            self.panel.open()

    def _undo(self) -> None:
        self.finish_typing()
        self._class.undo()

    def _redo(self) -> None:
        self.finish_typing()
        self._class.redo()

    def finish_typing(self) -> None:
        """Take what stands in the field that has the keyboard."""
        focus = self.focusWidget()
        if isinstance(focus, TextField):
            focus.editingFinished.emit()
        elif isinstance(focus, QLineEdit):
            focus.clearFocus()

    def showEvent(self, event: QShowEvent) -> None:
        """Give the keyboard to the timetable, where a class is read first."""
        super().showEvent(event)
        timetable = self.places[FIRST_PLACE]
        if isinstance(timetable, TimetablePlace) and self.current_place() is timetable:
            timetable.chart.setFocus()

    def closeEvent(self, event: QCloseEvent) -> None:
        """Close, unless changes would be lost and the person wants to stay."""
        if not self.files.may_leave():
            event.ignore()
            return
        for end in self._unfollow:
            end()
        self._runner.close()
        event.accept()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take a single file."""
        if _dropped_file(event) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Open the file that was dropped."""
        path = _dropped_file(event)
        if path is not None:
            event.acceptProposedAction()
            self.files.open_file(path)


class Stage(QStackedWidget):
    """The places, one at a time; the list of all findings lies over the lower half when it is open."""

    def __init__(self, panel: FindingsPanel) -> None:
        super().__init__()
        self._panel = panel
        panel.setParent(self)
        panel.setVisible(False)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the list at the foot."""
        super().resizeEvent(event)
        height = min(self.height(), max(LOWEST_PANEL, self.height() // 2))
        self._panel.setGeometry(0, self.height() - height, self.width(), height)


def fit_to_screen(window: QMainWindow) -> None:
    """Make the window no larger than the screen has room."""
    screen = QApplication.primaryScreen()
    if screen is not None:
        room = screen.availableGeometry().size()
        window.resize(min(window.width(), room.width()), min(window.height(), room.height()))


def _dropped_file(event: QDropEvent) -> Path | None:
    urls = event.mimeData().urls()
    return Path(urls[0].toLocalFile()) if len(urls) == 1 and urls[0].isLocalFile() else None


def _timer(window: QMainWindow, milliseconds: int, do) -> QTimer:
    timer = QTimer(window)
    timer.setSingleShot(True)
    timer.setInterval(milliseconds)
    timer.timeout.connect(do)
    return timer
