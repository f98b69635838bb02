"""The window can be read, reached and heard: contrast, sizes, names, keys."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QFontDatabase, QPalette
from PySide6.QtWidgets import QAbstractScrollArea, QApplication, QLabel, QLineEdit, QMenu, QWidget

from jarwright.desktop.colours import DARK, LIGHT, colours_of, contrast, palette_of
from jarwright.desktop.lettering import FAMILY, NARROW, SMALL, letters, load_fonts
from jarwright.desktop.look import dress

PLACES = ("day", "people", "stations", "kitchen", "timetable", "shopping", "papers")


def visible(window, kind=QWidget):
    """Return the widgets that can be seen now."""
    return [each for each in window.findChildren(kind) if each.isVisible()]


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_text_stands_out_from_its_ground(colours):
    """4.5 to 1 or more for every text, 3 to 1 for the edges of controls, in both schemes."""
    texts = [(ink, ground) for ink in (colours.ink, colours.quiet) for ground in (colours.page, colours.card, colours.rail, colours.chosen)]
    texts += [(colours.accent, colours.page), (colours.accent, colours.card), (colours.accent, colours.chosen)]
    texts += [(colours.on_accent, colours.accent), (colours.fits, colours.fits_tint), (colours.tight, colours.tight_tint)]
    texts += [(colours.late, colours.late_tint), (colours.late, colours.card), (colours.tight, colours.card), (colours.fits, colours.card)]
    texts += [(colours.ink, tint) for tint in (colours.fits_tint, colours.tight_tint, colours.late_tint)]
    texts += [(colours.on_station, station) for station in colours.stations]
    edges = [(colours.edge, ground) for ground in (colours.page, colours.card)]

    assert [pair for pair in texts if contrast(*pair) < 4.5] == []
    assert [pair for pair in edges if contrast(*pair) < 3.0] == []


def test_contrast_is_counted_as_the_guidelines_do():
    """Black on white is 21 to 1, and mid grey #767676 on white the well-known 4.54."""
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)
    assert contrast("#767676", "#FFFFFF") == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_palette_keeps_disabled_and_selected_text_readable(colours):
    """The style's own palette fails here; ours does not."""
    palette = palette_of(colours)
    pairs = [
        (QPalette.ColorGroup.Disabled, QPalette.ColorRole.ButtonText, QPalette.ColorRole.Button),
        (QPalette.ColorGroup.Active, QPalette.ColorRole.HighlightedText, QPalette.ColorRole.Highlight),
        (QPalette.ColorGroup.Active, QPalette.ColorRole.PlaceholderText, QPalette.ColorRole.Base),
        (QPalette.ColorGroup.Active, QPalette.ColorRole.Link, QPalette.ColorRole.Window),
    ]

    ratios = [contrast(palette.color(group, ink).name(), palette.color(group, ground).name()) for group, ink, ground in pairs]

    assert min(ratios) >= 4.5


def test_dark_clothes_reach_the_widgets_that_paint_themselves(make_window, dressed):
    """A scheme that changes while the window is open changes all of it."""
    window = make_window()
    light = window.grab().toImage().pixelColor(600, 600).lightness()

    dress(dressed, DARK)
    QApplication.processEvents()

    assert colours_of(window.strip) is DARK
    assert light > 200 > window.grab().toImage().pixelColor(600, 600).lightness()
    dress(dressed, LIGHT)


def test_the_fonts_are_the_packaged_ones(dressed):
    """The same letters on every machine, with the fractions a cook writes."""
    load_fonts()

    assert {FAMILY, NARROW} <= set(QFontDatabase.families()) | {letters().families()[0], NARROW}
    assert letters(SMALL).pixelSize() == 14


@pytest.mark.parametrize("place", PLACES)
def test_no_text_is_smaller_than_fourteen(window, place):
    """Numbers must be read from two steps away."""
    window.go(place)

    small = {each.objectName() or each.text() for each in visible(window, QLabel) if 0 < each.font().pixelSize() < 14}

    assert small == set()


@pytest.mark.parametrize("place", PLACES)
def test_everything_that_takes_the_keyboard_has_a_name(window, place):
    """A screen reader says what each field, button and table is."""
    window.go(place)
    window.panel.setVisible(True)
    nameless = []
    for widget in visible(window):
        if widget.focusPolicy() == Qt.FocusPolicy.NoFocus or not widget.isEnabled():
            continue
        spoken = QAccessible.queryAccessibleInterface(widget)
        if not spoken.text(QAccessible.Text.Name).strip():
            nameless.append(f"{type(widget).__name__} {widget.objectName()}")

    assert nameless == []


@pytest.mark.parametrize("size", [(1366, 700), (1100, 700)])
@pytest.mark.parametrize("place", PLACES)
def test_nothing_is_squeezed_below_its_least_size_or_pushed_out(make_window, place, size):
    """An old laptop shows 1366 by 768, less its task bar: everything fits, nothing hides at the right."""
    window = make_window(size=size)
    window.go(place)
    window.panel.open()
    QApplication.processEvents()

    assert (window.width(), window.height()) == size
    squeezed = [
        (type(each).__name__, each.objectName(), each.size().toTuple(), each.minimumSizeHint().toTuple())
        for each in visible(window.current_place())
        if each.width() < min(each.minimumSizeHint().width(), each.maximumWidth())
    ]
    assert squeezed == []
    for area in visible(window.current_place(), QAbstractScrollArea):
        assert area.horizontalScrollBar().maximum() == 0, area.objectName()


@pytest.mark.parametrize("place", PLACES)
def test_mnemonics_do_not_clash(window, place):
    """Alt and a letter does one thing, also beside the menus."""
    window.go(place)
    texts = [menu.title() for menu in window.menuBar().findChildren(QMenu, options=Qt.FindChildOption.FindDirectChildrenOnly)]
    texts += [each.text() for each in visible(window, QLabel) if each.buddy() is not None]
    texts += [each.text() for each in visible(window) if hasattr(each, "setShortcut") and not isinstance(each, QLineEdit)]
    letters_used = Counter(found[1].lower() for text in texts if (found := re.search(r"&([^&])", text)))

    assert [letter for letter, times in letters_used.items() if times > 1] == []


def test_every_command_has_a_mnemonic_and_no_key_does_two_things(window):
    """All commands stand in a menu and can be given without a mouse."""
    window.menus.templates.aboutToShow.emit()
    actions = window.menus.actions.values()
    for menu in (window.menus.file, window.menus.edit, window.menus.go):
        found = [re.search(r"&([^&])", action.text())[1].lower() for action in menu.actions() if not action.isSeparator()]
        assert len(found) == len(set(found))
    keys = Counter(key.toString() for action in actions for key in action.shortcuts())

    assert [key for key, times in keys.items() if times > 1] == []
    assert {"Ctrl+O", "Ctrl+S", "Ctrl+Shift+S", "Ctrl+Z", "Ctrl+Q", "Ctrl+P"} <= set(keys)


def test_tab_walks_the_fields_of_the_day_in_reading_order(window, qtbot):
    """From the title to the elevation without a jump."""
    window.go("day")
    first = window.places["day"].findChild(QLineEdit, "title")
    first.setFocus()
    walked = [window.focusWidget().objectName()]
    for _ in range(4):
        qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Tab)
        walked.append(window.focusWidget().objectName())

    assert walked == ["title", "date", "site", "elevation", "minors"]


def test_pictures_are_sharp_at_twice_the_scale(tmp_path):
    """A 4K laptop shows the same window with twice the pixels."""
    script = (
        "import sys; sys.path[:0] = sys.argv[1:3]\n"
        "import dataclasses\n"
        "from PySide6.QtWidgets import QApplication\n"
        "from jarwright.desktop.colours import LIGHT\n"
        "from jarwright.desktop.look import dress\n"
        "from jarwright.desktop.verdict_strip import VerdictStrip\n"
        "from sample_plan import sample_plan\n"
        "application = QApplication([]); dress(application, LIGHT)\n"
        "strip = VerdictStrip(); strip.show_plan(sample_plan()); strip.resize(1200, 72)\n"
        "picture = strip.grab(); print(picture.width(), picture.height(), picture.devicePixelRatio())\n"
    )
    tests = Path(__file__).parents[1]
    environment = {**os.environ, "QT_SCALE_FACTOR": "2", "QT_QPA_PLATFORM": "offscreen"}

    done = subprocess.run(
        [sys.executable, "-c", script, str(tests), str(tests.parent / "src")], env=environment, capture_output=True, text=True, check=True
    )

    assert done.stdout.split() == ["2400", "144", "2.0"]
