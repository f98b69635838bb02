"""How is every widget dressed? One style, one palette and one sheet of rules, made from a colour scheme."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from jarwright.desktop.colours import DARK, LIGHT, Colours, palette_of
from jarwright.desktop.lettering import letters, load_fonts
from jarwright.reference.folders import resource_folder


def dress(application: QApplication, colours: Colours) -> None:
    """Give the whole application this scheme; may be called again when the scheme changes."""
    load_fonts()
    application.setStyle("Fusion")
    application.setFont(letters())
    application.setPalette(palette_of(colours))
    application.setStyleSheet(sheet(colours))


def follow_system(application: QApplication) -> None:
    """Dress in the scheme of the system now, and again whenever it changes."""
    hints = application.styleHints()

    def again(scheme: Qt.ColorScheme) -> None:
        dress(application, DARK if scheme == Qt.ColorScheme.Dark else LIGHT)

    again(hints.colorScheme())
    hints.colorSchemeChanged.connect(again)


def sheet(colours: Colours) -> str:
    """Return the rules for what the palette alone does not say: edges, heights, roles."""
    kind = "dark" if colours.is_dark else "light"
    icons = (resource_folder() / "icons").as_posix()
    values = {name: getattr(colours, name) for name in Colours.__dataclass_fields__ if isinstance(getattr(colours, name), str)}
    return _RULES.format(**values, chevron=f'"{icons}/chevron-on-{kind}.svg"', check=f'"{icons}/check-on-{kind}.svg"')


_RULES = """
QLabel {{ background: transparent; }}
QLabel[role="quiet"] {{ color: {quiet}; }}
QLabel[role="accent"] {{ color: {accent}; }}
QFrame[role="card"] {{ background: {card}; border: 1px solid {hairline}; border-radius: 8px; }}
QFrame[role="line"] {{ background: {hairline}; border: none; }}
QWidget[role="page"] {{ background: {page}; }}
QScrollArea {{ background: {page}; border: none; }}

QPushButton {{
    background: {card}; color: {accent}; border: 1px solid {edge}; border-radius: 6px; padding: 0 15px; min-height: 38px;
}}
QPushButton:hover {{ background: {chosen}; }}
QPushButton:focus {{ border: 2px solid {accent}; padding: 0 14px; min-height: 36px; }}
QPushButton:pressed {{ background: {hairline}; }}
QPushButton:disabled {{ color: {quiet}; border-color: {hairline}; }}
QPushButton[role="primary"] {{ background: {accent}; color: {on_accent}; border-color: {accent}; }}
QPushButton[role="primary"]:focus {{ border: 2px solid {ink}; }}
QPushButton[role="flat"] {{ border-color: transparent; padding: 0 7px; background: transparent; }}
QPushButton[role="flat"]:focus {{ border: 2px solid {accent}; padding: 0 6px; }}

QLineEdit, QComboBox, QSpinBox, QDoubleSpinBox, QDateEdit, QTimeEdit {{
    background: {card}; color: {ink}; border: 1px solid {edge}; border-radius: 6px; padding: 0 9px; min-height: 34px;
    selection-background-color: {accent}; selection-color: {on_accent};
}}
QLineEdit:focus, QComboBox:focus, QSpinBox:focus, QDoubleSpinBox:focus, QDateEdit:focus, QTimeEdit:focus {{
    border: 2px solid {accent}; padding: 0 8px; min-height: 32px;
}}
QLineEdit[fault="true"] {{ border: 2px solid {late}; padding: 0 8px; min-height: 32px; }}
QComboBox {{ padding-right: 2px; }}
QComboBox::drop-down {{ border: none; width: 22px; }}
QComboBox::down-arrow {{ image: url({chevron}); width: 16px; height: 16px; }}
QComboBox QAbstractItemView {{
    background: {card}; color: {ink}; border: 1px solid {edge}; selection-background-color: {chosen}; selection-color: {ink}; outline: none;
}}

QCheckBox {{ spacing: 10px; min-height: 34px; color: {ink}; }}
QCheckBox::indicator, QTableView::indicator {{
    width: 18px; height: 18px; border: 1px solid {edge}; border-radius: 4px; background: {card};
}}
QCheckBox::indicator:checked, QTableView::indicator:checked {{ background: {accent}; border-color: {accent}; image: url({check}); }}
QCheckBox:focus {{ color: {accent}; }}
QCheckBox::indicator:focus {{ border: 2px solid {accent}; }}

QTableView, QListView {{
    background: {card}; alternate-background-color: {page}; color: {ink}; border: 1px solid {hairline}; border-radius: 8px;
    gridline-color: {hairline}; selection-background-color: {chosen}; selection-color: {ink}; outline: none;
}}
QTableView:focus, QListView:focus {{ border: 2px solid {accent}; }}
QTableView::item {{ padding: 0 9px; }}
QTableView::item:selected {{ background: {chosen}; color: {ink}; }}
QTableView::item:focus {{ border: 2px solid {accent}; padding: 0 7px; }}
QTableView QLineEdit, QTableView QComboBox {{ min-height: 0; border-radius: 0; }}
QHeaderView {{ background: transparent; border: none; }}
QHeaderView::section {{
    background: transparent; color: {quiet}; border: none; border-bottom: 1px solid {hairline}; padding: 0 12px; min-height: 34px;
}}
QTableCornerButton::section {{ background: {card}; border: none; }}

QMenuBar {{ background: {rail}; color: {ink}; }}
QMenuBar::item {{ padding: 5px 10px; background: transparent; }}
QMenuBar::item:selected {{ background: {chosen}; }}
QMenu {{ background: {card}; color: {ink}; border: 1px solid {edge}; padding: 4px; }}
QMenu::item {{ padding: 7px 26px 7px 14px; border-radius: 4px; }}
QMenu::item:selected {{ background: {chosen}; }}
QMenu::item:disabled {{ color: {quiet}; }}
QMenu::separator {{ height: 1px; background: {hairline}; margin: 4px 8px; }}
QToolTip {{ background: {card}; color: {ink}; border: 1px solid {edge}; padding: 5px; }}

QScrollBar:vertical {{ background: transparent; width: 12px; margin: 0; }}
QScrollBar:horizontal {{ background: transparent; height: 12px; margin: 0; }}
QScrollBar::handle {{ background: {edge}; border-radius: 4px; margin: 2px; min-height: 28px; min-width: 28px; }}
QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
QScrollBar::add-page, QScrollBar::sub-page {{ background: transparent; }}
"""
