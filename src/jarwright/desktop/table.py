"""How are lists edited? A table of rows whose columns say how they are read and which edit a new value makes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QAbstractItemModel, QAbstractTableModel, QModelIndex, QPersistentModelIndex, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QHeaderView,
    QLineEdit,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from jarwright.desktop.lettering import SMALL, letters
from jarwright.errors import JarwrightError
from jarwright.workbench.edits import Edit

Index = QModelIndex | QPersistentModelIndex
ROW_HEIGHT = 38
LEFT = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
RIGHT = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
CHECKED, UNCHECKED = int(Qt.CheckState.Checked.value), int(Qt.CheckState.Unchecked.value)
DISPLAY, EDIT, ALIGN = int(Qt.ItemDataRole.DisplayRole), int(Qt.ItemDataRole.EditRole), int(Qt.ItemDataRole.TextAlignmentRole)
CHECK, TIP, SPOKEN = int(Qt.ItemDataRole.CheckStateRole), int(Qt.ItemDataRole.ToolTipRole), int(Qt.ItemDataRole.AccessibleTextRole)


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """
    A column.

    `read` gives what stands in a row: text, or True and False for a check box. `write` makes the edit for a new value and may
    raise a JarwrightError; without it the column is only read. `choices` are the (value, words) to choose from. `width` is in
    pixels, 0 takes what is left.
    """

    title: str
    read: Callable[[Any], Any]
    write: Callable[[Any, Any], Edit] | None = None
    choices: Callable[[], Sequence[tuple[object, str]]] | None = None
    width: int = 0
    is_number: bool = False
    tip: Callable[[Any], str] | None = None


class RowsModel(QAbstractTableModel):
    """The rows of one list; each row has a key by which it is known from one showing to the next."""

    edit_wished = Signal(object)
    refused = Signal(object)

    def __init__(self, columns: Sequence[Column], key: Callable[[Any], str], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.columns, self._key = tuple(columns), key
        self.rows: tuple[Any, ...] = ()

    def show_rows(self, rows: Sequence[Any]) -> None:
        """Show these rows; where their keys are as before only their contents are shown anew, so that nothing loses its place."""
        new = tuple(rows)
        if [self._key(each) for each in new] == [self._key(each) for each in self.rows]:
            self.rows = new
            if new:
                self.dataChanged.emit(self.index(0, 0), self.index(len(new) - 1, len(self.columns) - 1))
            return
        self.beginResetModel()
        self.rows = new
        self.endResetModel()

    def row_of(self, key: str) -> int | None:
        """Return where a row stands."""
        return next((i for i, each in enumerate(self.rows) if self._key(each) == key), None)

    def key_at(self, place: int) -> str | None:
        """Return the key of a row."""
        return self._key(self.rows[place]) if 0 <= place < len(self.rows) else None

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        """Count the rows."""
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        """Count the columns."""
        return 0 if parent.isValid() else len(self.columns)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = DISPLAY) -> Any:
        """Return a column's title."""
        if orientation != Qt.Orientation.Horizontal:
            return None
        if role == DISPLAY:
            return self.columns[section].title
        return (RIGHT if self.columns[section].is_number else LEFT) if role == ALIGN else None

    def data(self, index: Index, role: int = DISPLAY) -> Any:
        """Return what a cell shows, or how."""
        if role not in (DISPLAY, EDIT, ALIGN, CHECK, TIP, SPOKEN):
            return None
        column = self.columns[index.column()]
        if role == ALIGN:
            return RIGHT if column.is_number else LEFT
        row = self.rows[index.row()]
        if role == TIP:
            return column.tip(row) if column.tip else None
        value = column.read(row)
        if isinstance(value, bool):
            if role == CHECK:
                return CHECKED if value else UNCHECKED
            return ("yes" if value else "no") if role == SPOKEN else None
        if role == CHECK:
            return None
        if role == EDIT:
            return value
        return self._words(column, value)

    def _words(self, column: Column, value: Any) -> str:
        if column.choices is not None:
            return next((words for each, words in column.choices() if each == value), "" if value is None else str(value))
        return "" if value is None else str(value)

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Say whether a cell can be edited or ticked."""
        plain = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        column = self.columns[index.column()]
        if column.write is None:
            return plain
        is_tick = isinstance(column.read(self.rows[index.row()]), bool)
        return plain | (Qt.ItemFlag.ItemIsUserCheckable if is_tick else Qt.ItemFlag.ItemIsEditable)

    def setData(self, index: Index, value: Any, role: int = EDIT) -> bool:
        """Wish for the edit that this value makes; the rows change when the class does."""
        column, row = self.columns[index.column()], self.rows[index.row()]
        if column.write is None or role not in (EDIT, CHECK):
            return False
        if role == CHECK:
            value = value in (CHECKED, Qt.CheckState.Checked)
        if value == column.read(row):
            return False
        try:
            edit = column.write(row, value)
        except JarwrightError as error:
            self.refused.emit(error)
            return False
        self.edit_wished.emit(edit)
        return True


class CellEditor(QStyledItemDelegate):
    """Edits text in a line and choices in a list that commits at once."""

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        """Return the editor for a cell."""
        column = self._column(index)
        if column.choices is None:
            editor = QLineEdit(parent)
            editor.setFont(letters(SMALL))
            editor.setAccessibleName(column.title)
            return editor
        box = QComboBox(parent)
        box.setFont(letters(SMALL))
        box.setAccessibleName(column.title)
        for value, words in column.choices():
            box.addItem(words, value)
        box.activated.connect(lambda: self._take(box))
        return box

    def _column(self, index: Index) -> Column:
        model = index.model()
        assert isinstance(model, RowsModel)
        return model.columns[index.column()]

    def _take(self, editor: QWidget) -> None:
        self.commitData.emit(editor)
        self.closeEditor.emit(editor)

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        """Put the present value into the editor."""
        value = index.data(EDIT)
        if isinstance(editor, QComboBox):
            editor.setCurrentIndex(max(0, next((i for i in range(editor.count()) if editor.itemData(i) == value), 0)))
        elif isinstance(editor, QLineEdit):
            editor.setText("" if value is None else str(value))
            editor.selectAll()

    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:
        """Take what was typed or chosen."""
        value = editor.currentData() if isinstance(editor, QComboBox) else editor.text().strip()  # type: ignore[attr-defined]
        model.setData(index, value, EDIT)


class EditTable(QTableView):
    """The table, as high as `rows_shown` rows (0: as there is room). `removal_wished` carries the key of the row to remove."""

    removal_wished = Signal(str)

    def __init__(self, columns: Sequence[Column], *, key: Callable[[Any], str], name: str, title: str, rows_shown: int = 0) -> None:
        super().__init__()
        self.setObjectName(name)
        self.setAccessibleName(title)
        self.rows_model = RowsModel(columns, key, self)
        self.setModel(self.rows_model)
        self.setItemDelegate(CellEditor(self))
        self.setFont(letters(SMALL))
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(
            QAbstractItemView.EditTrigger.DoubleClicked
            | QAbstractItemView.EditTrigger.SelectedClicked
            | QAbstractItemView.EditTrigger.EditKeyPressed
            | QAbstractItemView.EditTrigger.AnyKeyPressed
        )
        # Tab leaves the table, so that the keyboard is never caught in it; the arrows go from cell to cell.
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setAlternatingRowColors(True)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(ROW_HEIGHT)
        header = self.horizontalHeader()
        header.setHighlightSections(False)
        header.setFont(letters(SMALL))
        header.setMinimumSectionSize(44)
        for place, column in enumerate(columns):
            if column.width:
                self.setColumnWidth(place, column.width)
            else:
                header.setSectionResizeMode(place, QHeaderView.ResizeMode.Stretch)
        self._rows_shown = rows_shown

    def show_rows(self, rows: Sequence[Any]) -> None:
        """Show these rows; the chosen one stays chosen."""
        key, column = self.chosen_key(), self.currentIndex().column()
        self.rows_model.show_rows(rows)
        if key is not None and self.currentIndex().row() < 0:
            self.choose(key, column=max(0, column))
        if self._rows_shown:
            self.setFixedHeight(self.sizeHint().height())

    def chosen_key(self) -> str | None:
        """Return the key of the chosen row."""
        return self.rows_model.key_at(self.currentIndex().row())

    def choose(self, key: str, *, column: int = 0) -> bool:
        """Choose a row and bring it into sight; say whether it is there."""
        place = self.rows_model.row_of(key)
        if place is None:
            return False
        self.setCurrentIndex(self.rows_model.index(place, column))
        self.scrollTo(self.currentIndex())
        return True

    def sizeHint(self) -> QSize:
        """As high as its rows, as many as it is asked to show."""
        if not self._rows_shown:
            return super().sizeHint()
        rows = min(self.rows_model.rowCount(), self._rows_shown)
        return QSize(super().sizeHint().width(), ROW_HEIGHT * rows + self.horizontalHeader().sizeHint().height() + 6)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Delete wishes the chosen row away; Enter edits the cell."""
        key = self.chosen_key()
        if event.key() == Qt.Key.Key_Delete and key is not None:
            self.removal_wished.emit(key)
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.state() != QAbstractItemView.State.EditingState:
            self.edit(self.currentIndex())
        else:
            super().keyPressEvent(event)
