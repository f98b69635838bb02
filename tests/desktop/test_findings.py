"""Each finding is a step away from the field that cures it."""

from __future__ import annotations

import dataclasses

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QListWidget, QPushButton

from jarwright.desktop.leads import in_order, place_of, to_settle
from jarwright.model.plan import Finding
from sample_plan import sample_plan


def test_the_bar_says_what_matters_most(window):
    """A blocker goes before every warning."""
    assert window.bar.findChild(QLabel, "first-finding").text().startswith("Crushed tomatoes in quarts take 50 minutes")


def test_go_there_leads_to_the_jar_of_the_station(window, qtbot):
    """Quarts are too large for the steam canner: the jar is what to change."""
    qtbot.mouseClick(window.bar.findChild(QPushButton, "go-there"), Qt.MouseButton.LeftButton)

    assert window.current_place().key == "stations"
    assert window.focusWidget().accessibleName() == "Jar of station B"


def test_enter_in_the_list_leads_to_the_field(window, qtbot):
    """The whole list works without a mouse."""
    window.menus.actions["findings"].trigger()
    listed = window.panel.findChild(QListWidget, "findings")
    assert listed.hasFocus()
    qtbot.keyClick(listed, Qt.Key.Key_Down)

    qtbot.keyClick(listed, Qt.Key.Key_Return)

    assert window.current_place().key == "shopping"


def test_all_findings_are_listed_with_remedy_and_source(window):
    """Nothing is dropped silently, and every line says what to do and where that stands."""
    listed = window.panel.findChild(QListWidget, "findings")

    texts = [listed.item(row).text() for row in range(listed.count())]

    assert len(texts) == 3
    assert texts[0].startswith("Blocker. Crushed tomatoes")
    assert "Use pint jars (40 minutes), or a boiling-water canner. USDA Complete Guide" in texts[0]


def test_escape_puts_the_list_away(window, qtbot):
    """As every person expects."""
    window.panel.open()

    qtbot.keyClick(window.panel.findChild(QListWidget, "findings"), Qt.Key.Key_Escape)

    assert not window.panel.isVisible()


def test_the_rail_counts_what_is_to_be_settled_where(window):
    """A ring leads to the place, and a screen reader hears it."""
    assert window.rail.item("stations").accessibleName() == "Stations, 1 to settle"
    assert window.rail.item("day").accessibleName() == "The day"


def test_a_plan_without_blockers_has_nothing_to_settle(make_window):
    """The bar is calm when the class is."""

    def plan(document, *, on_better, cancelled):
        return dataclasses.replace(sample_plan(ready=True), document=document, findings=())

    window = make_window(plan_function=plan)

    assert window.bar.findChild(QLabel, "first-finding").text() == "Nothing is to be settled."
    assert not window.bar.findChild(QPushButton, "go-there").isVisible()


@pytest.mark.parametrize(
    ("about", "rule", "place"),
    [
        ("station B", "not-published", "stations"),
        ("canner k1", "gauge-test", "kitchen"),
        ("circuit c1", "circuit", "kitchen"),
        ("person p01", "groups", "people"),
        ("load L2", "small-load", "timetable"),
        ("class", "late", "timetable"),
        ("class", "price", "shopping"),
        ("class", "keeper", "people"),
        ("class", "minors", "people"),
        ("class", "on-hand", "shopping"),
        ("class", "kettle", "kitchen"),
        ("class", "something new", "day"),
    ],
)
def test_a_finding_leads_to_its_place(window, about, rule, place):
    """By what it is about, else by its rule; an unknown one leads to the day, never nowhere."""
    finding = Finding(rule, "warning", about, "Something is to be settled")

    assert place_of(finding) == place
    window.follow(finding)
    assert window.current_place().key == place


def test_a_finding_about_a_canner_chooses_its_row(window):
    """Three canners look alike; the right one is marked."""
    window.follow(Finding("gauge-test", "blocker", "canner k3", "The gauge was not tested"))

    assert window.places["kitchen"]._canners.table.chosen_key() == "k3"


def test_findings_stand_in_the_order_of_their_weight():
    """Blockers, warnings, notes."""
    findings = [Finding("x", level, "class", level) for level in ("note", "warning", "blocker", "warning")]

    assert [finding.level for finding in in_order(findings)] == ["blocker", "warning", "warning", "note"]
    assert to_settle(findings) == {"day": 3}


def test_a_long_finding_ends_with_an_ellipsis_and_is_whole_in_its_tooltip(make_window):
    """Two lines at most, cut between words; nothing is cut through the middle of its letters."""
    says = "24 minutes to spare, a plan on likely minutes wants 27, for delays are more common than gains, and the last load ends last " * 2

    def plan(document, *, on_better, cancelled):
        return dataclasses.replace(sample_plan(), document=document, findings=(Finding("tight", "warning", "class", says),))

    window = make_window(plan_function=plan, size=(1100, 700))
    shown = window.bar.findChild(QLabel, "first-finding")

    assert shown.text().endswith(" …")
    assert shown.height() == 2 * shown.fontMetrics().height()
    assert shown.toolTip() == says.rstrip(".") + "."
