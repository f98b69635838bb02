"""The timetable's view: lays the lanes out, answers mouse and arrow keys, keeps the chosen bar through new plans."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QAccessible, QAccessibleEvent, QColor, QFocusEvent, QKeyEvent, QMouseEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QGraphicsScene, QGraphicsView, QWidget

from jarwright.desktop.colours import colours_of
from jarwright.desktop.timetable.bars import (
    LOAD_HEIGHT,
    SPAN_HEIGHT,
    TASK_HEIGHT,
    AgendaItem,
    BarItem,
    Brush,
    CaptionItem,
    CircuitItem,
    LoadItem,
    SpanItem,
    TaskItem,
)
from jarwright.desktop.timetable.frame import (
    AGENDA_HEIGHT,
    AXIS_HEIGHT,
    GROUP_HEIGHT,
    LABEL_COLUMN,
    AxisItem,
    FrameItem,
    HeadingItem,
    PlacedGroup,
    PlacedLane,
)
from jarwright.desktop.timetable.lanes import Bar, Lane, LaneGroup, agenda_bars, lane_groups
from jarwright.desktop.timetable.scale import Scale, reach
from jarwright.desktop.timetable.story import story_of
from jarwright.model.plan import Plan

LANE_HEIGHTS = {"station": 32.0, "canner": 54.0, "burner": 28.0, "circuit": 32.0, "keeper": 28.0}
ROW_HEIGHT = 29.0
# What gives way where there is too little height: groups fold, then rows of tasks grow lower, but never too low for their names.
MAKING_ROOM: tuple[str | float, ...] = ("burners", 22.0, "circuits", "keepers", 18.0)
ITEMS: dict[str, type[BarItem]] = {"task": TaskItem, "load": LoadItem, "burner": SpanItem, "watch": SpanItem, "agenda": AgendaItem}
HEIGHTS = {"task": TASK_HEIGHT, "load": LOAD_HEIGHT, "burner": SPAN_HEIGHT, "watch": SPAN_HEIGHT, "agenda": AGENDA_HEIGHT}


class TimetableChart(QGraphicsView):
    """The chart. `bar_chosen` carries the chosen bar, or None; `story_wanted` is Enter on a bar."""

    bar_chosen = Signal(object)
    story_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        # The view does not own its scene.
        self._scene = QGraphicsScene(self)
        self.setScene(self._scene)
        self.setObjectName("chart")
        self.setAccessibleName("Timetable")
        self.viewport().setAccessibleName("Timetable")
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setMinimumSize(560, 240)
        self.verticalScrollBar().valueChanged.connect(self._keep_axis_in_sight)
        self._plan: Plan | None = None
        self._chosen = ""
        self._folded: dict[str, bool] = {}
        self._rows: list[list[BarItem | HeadingItem]] = []
        self._axis: AxisItem | None = None

    def sizeHint(self) -> QSize:
        """As in the pictures of the window."""
        return QSize(1180, 560)

    def show_plan(self, plan: Plan) -> None:
        """Draw this plan; the chosen bar stays chosen where it is still there, else the first load is."""
        self._plan = plan
        self._draw()

    def plan(self) -> Plan | None:
        """Return the plan that is drawn."""
        return self._plan

    def bars(self) -> list[Bar]:
        """Return the bars on screen, lane by lane."""
        return [item.bar for line in self._rows for item in line if isinstance(item, BarItem)]

    def chosen_bar(self) -> Bar | None:
        """Return the chosen bar, or None."""
        return next((bar for bar in self.bars() if bar.about == self._chosen), None)

    def is_folded(self, group: str) -> bool:
        """Say whether a group is folded."""
        return any(item.about == f"group {group}" and item.placed.is_folded for item in self._headings())

    def choose(self, about: str) -> bool:
        """Choose the bar that is about something ("load L2"); say whether it is there."""
        item = next((item for line in self._rows for item in line if _about(item) == about), None)
        if item is None:
            return False
        self._take(item)
        return True

    def fold(self, group: str, *, folded: bool) -> None:
        """Fold or unfold a group; that choice then holds whatever the height."""
        self._folded[group] = folded
        self._draw()

    def _headings(self) -> list[HeadingItem]:
        return [item for line in self._rows for item in line if isinstance(item, HeadingItem)]

    def _draw(self) -> None:
        self._scene.clear()
        self._rows, self._axis = [], None
        if self._plan is None:
            return
        width = float(self.viewport().width() - 2)
        first, last = reach(self._plan)
        brush = Brush(self._plan.document, colours_of(self), Scale(first, last, LABEL_COLUMN, width - 6))
        groups, bottom = self._placed(lane_groups(self._plan))
        size = QRectF(0, 0, width, bottom)
        self.setBackgroundBrush(QColor(brush.colours.page))
        self._scene.addItem(FrameItem(self._plan, brush, groups, size))
        self._axis = AxisItem(self._plan, brush, width)
        self._scene.addItem(self._axis)
        self._add_line(self._agenda(brush))
        for placed in groups:
            self._add_line([HeadingItem(placed, brush.colours, width)])
            for lane in placed.lanes:
                self._add_lane(lane, brush)
        self.setSceneRect(size)
        self._keep_axis_in_sight()
        self._choose_again()

    def _placed(self, groups: tuple[LaneGroup, ...]) -> tuple[tuple[PlacedGroup, ...], float]:
        folded, row_height = self._fitted(groups)
        top = AXIS_HEIGHT + AGENDA_HEIGHT
        placed = []
        for group in groups:
            lanes, at = [], top + GROUP_HEIGHT
            for lane in () if group.key in folded else group.lanes:
                lanes.append(PlacedLane(lane, at, _lane_height(lane, row_height), row_height))
                at += _lane_height(lane, row_height)
            placed.append(PlacedGroup(group, top, group.key in folded, tuple(lanes)))
            top = at + (4 if lanes else 0)
        return tuple(placed), top

    def _fitted(self, groups: tuple[LaneGroup, ...]) -> tuple[set[str], float]:
        """Return which groups to fold, and how high rows of tasks are, so that the chart fits its height if it can."""
        folded = {key for key, is_folded in self._folded.items() if is_folded}
        room, row_height = self.viewport().height(), ROW_HEIGHT
        for step in MAKING_ROOM:
            if _height(groups, folded, row_height) <= room:
                break
            if isinstance(step, float):
                row_height = step
            elif step not in self._folded:
                folded.add(step)
        return folded, row_height

    def _agenda(self, brush: Brush) -> list[BarItem]:
        """The parts of the class, each with the room for its title that the others and the words at the end leave."""
        assert self._plan is not None
        bars = sorted(agenda_bars(self._plan), key=lambda bar: (bar.start, bar.end))
        items = [self._item(bar, brush, AXIS_HEIGHT, AGENDA_HEIGHT) for bar in bars]
        end, left = brush.scale.x(self._plan.document.end_minute), brush.scale.left
        for i, item in enumerate(items):
            following = items[i + 1].rect.left() if i + 1 < len(items) else brush.scale.right
            right = max(item.rect.right(), min(following, end) if item.rect.left() < end else following)
            if isinstance(item, AgendaItem):
                item.free = QRectF(min(left, item.rect.left()), item.rect.top(), right - min(left, item.rect.left()), item.rect.height())
                left = max(left, item.written_to())
        return items

    def _add_lane(self, placed: PlacedLane, brush: Brush) -> None:
        lane = placed.lane
        if lane.kind == "circuit":
            rect = QRectF(brush.scale.left, placed.top, brush.scale.x(brush.document.end_minute) - brush.scale.left, placed.height)
            self._scene.addItem(CircuitItem(lane, brush, rect))
        if lane.kind == "canner":
            self._scene.addItem(CaptionItem(lane, brush, placed.top + LOAD_HEIGHT + 7))
        self._add_line([self._lane_item(bar, brush, placed) for bar in lane.bars])

    def _lane_item(self, bar: Bar, brush: Brush, placed: PlacedLane) -> BarItem:
        lane = placed.lane
        if lane.kind == "station" and lane.rows > 1 and placed.row_height < ROW_HEIGHT:
            height = placed.row_height
            return self._item(bar, brush, placed.top + 3 + bar.row * height, height, own=height - 2)
        return self._item(bar, brush, placed.top + bar.row * ROW_HEIGHT, LANE_HEIGHTS[lane.kind])

    def _item(self, bar: Bar, brush: Brush, top: float, height: float, *, own: float = 0.0) -> BarItem:
        own = own or HEIGHTS[bar.kind]
        inset = 4.0 if bar.kind == "load" else (height - own) / 2
        left, right = brush.scale.x(bar.start), brush.scale.x(bar.end)
        return ITEMS[bar.kind](bar, brush, QRectF(left, top + inset, max(4.0, right - left - 1), own))

    def _add_line(self, items: list) -> None:
        for item in items:
            self._scene.addItem(item)
        if items:
            self._rows.append(items)

    def _choose_again(self) -> None:
        found = next((item for line in self._rows for item in line if _about(item) == self._chosen), None)
        first = next((item for line in self._rows for item in line if isinstance(item, LoadItem)), None)
        item = found or first or next((item for line in self._rows for item in line if isinstance(item, BarItem)), None)
        if item is None:
            self._chosen = ""
            self.bar_chosen.emit(None)
            return
        self._take(item, is_shown=False)

    def _take(self, item: BarItem | HeadingItem, *, is_shown: bool = True) -> None:
        self._chosen = _about(item)
        for each in (each for line in self._rows for each in line):
            each.is_chosen, each.has_focus = each is item, self.hasFocus()
            each.setZValue(5 if each is item else 0)
            each.update()
        if is_shown:
            self.ensureVisible(item.sceneBoundingRect().adjusted(0, -AXIS_HEIGHT, 0, 24), 0, 4)
        self._speak(item)
        self.bar_chosen.emit(item.bar if isinstance(item, BarItem) else None)

    def _speak(self, item: BarItem | HeadingItem) -> None:
        assert self._plan is not None
        if isinstance(item, HeadingItem):
            placed = item.placed
            spoken = f"{placed.group.title}, {'folded' if placed.is_folded else 'unfolded'}. {placed.group.summary}"
        else:
            spoken = story_of(self._plan, item.bar).spoken
        if spoken != self.accessibleDescription():
            self.setAccessibleDescription(spoken)
            QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.DescriptionChanged))

    def _keep_axis_in_sight(self) -> None:
        if self._axis is not None:
            self._axis.setY(float(self.verticalScrollBar().value()))

    def _line_of_chosen(self) -> tuple[int, int]:
        for i, line in enumerate(self._rows):
            for j, item in enumerate(line):
                if _about(item) == self._chosen:
                    return i, j
        return 0, 0

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows go from bar to bar, Home and End along the lane, Enter tells the story or folds a group."""
        if not self._rows:
            return super().keyPressEvent(event)
        i, j = self._line_of_chosen()
        line, key = self._rows[i], event.key()
        if key in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            j += 1 if key == Qt.Key.Key_Right else -1
            return self._take(line[min(max(j, 0), len(line) - 1)])
        if key in (Qt.Key.Key_Home, Qt.Key.Key_End):
            return self._take(line[0 if key == Qt.Key.Key_Home else -1])
        if key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            other = self._rows[min(max(i + (1 if key == Qt.Key.Key_Down else -1), 0), len(self._rows) - 1)]
            middle = line[j].sceneBoundingRect().center().x()
            return self._take(min(other, key=lambda item: abs(item.sceneBoundingRect().center().x() - middle)))
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            return self._enter(line[j])
        return super().keyPressEvent(event)

    def _enter(self, item: BarItem | HeadingItem) -> None:
        if isinstance(item, HeadingItem):
            self.fold(item.placed.group.key, folded=not item.placed.is_folded)
        else:
            self.story_wanted.emit()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Choose the bar under the mouse, or fold the group whose heading it is on."""
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        for item in self.items(event.position().toPoint()):
            if isinstance(item, HeadingItem):
                self._chosen = item.about
                return self._enter(item)
            if isinstance(item, BarItem):
                return self._take(item, is_shown=False)
        return None

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let the click end here."""
        event.accept()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Tell the whole story of the bar under the mouse."""
        if any(isinstance(item, BarItem) for item in self.items(event.position().toPoint())):
            self.story_wanted.emit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Draw for the new width and height."""
        super().resizeEvent(event)
        self._draw()

    def changeEvent(self, event: QEvent) -> None:
        """Draw in the new colours."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._draw()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show where the keyboard is."""
        super().focusInEvent(event)
        self._show_focus()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Show that the keyboard is elsewhere."""
        super().focusOutEvent(event)
        self._show_focus()

    def _show_focus(self) -> None:
        for each in (each for line in self._rows for each in line):
            each.has_focus = self.hasFocus()
            each.update()


def _about(item: BarItem | HeadingItem) -> str:
    return item.about if isinstance(item, HeadingItem) else item.bar.about


def _lane_height(lane: Lane, row_height: float) -> float:
    if lane.kind == "station" and row_height < ROW_HEIGHT:
        return max(LANE_HEIGHTS["station"], lane.rows * row_height + 6)
    return LANE_HEIGHTS[lane.kind] + (lane.rows - 1) * ROW_HEIGHT


def _height(groups: tuple[LaneGroup, ...], folded: set[str], row_height: float) -> float:
    total = AXIS_HEIGHT + AGENDA_HEIGHT
    for group in groups:
        total += GROUP_HEIGHT
        if group.key not in folded:
            total += sum(_lane_height(lane, row_height) for lane in group.lanes) + 4
    return total
