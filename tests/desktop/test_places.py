"""Every place edits what it shows, by keyboard, as one undoable step."""

from __future__ import annotations

import dataclasses

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QLabel, QPushButton

from jarwright.desktop.fields import ChoiceField, TextField
from jarwright.desktop.table import EditTable
from sample_plan import sample_plan


def table(window, place, name):
    """Open a place and return a table of it."""
    window.go(place)
    return window.places[place].findChild(EditTable, name)


def put(table, row, title, value, role=Qt.ItemDataRole.EditRole):
    """Set a cell by the title of its column."""
    column = [each.title for each in table.rows_model.columns].index(title)
    return table.rows_model.setData(table.rows_model.index(row, column), value, role)


def cell(table, row, title):
    """Return what a cell shows."""
    column = [each.title for each in table.rows_model.columns].index(title)
    return table.rows_model.index(row, column).data()


def document(window):
    """Return the class as it is now."""
    return window.open_class().document


def test_a_name_is_typed_into_the_roster(window, qtbot):
    """Enter opens the cell, Enter takes the name."""
    people = table(window, "people", "people")
    people.setFocus()
    people.choose("p01")

    qtbot.keyClick(people, Qt.Key.Key_Return)
    editor = window.focusWidget()
    editor.selectAll()
    qtbot.keyClicks(editor, "Sorrel")
    qtbot.keyClick(editor, Qt.Key.Key_Return)

    qtbot.waitUntil(lambda: document(window).people[0].name == "Sorrel")
    assert window.menus.actions["undo"].text() == "&Undo rename to Sorrel"


def test_someone_who_stays_away_is_unticked(window):
    """A no-show stays on the roster and out of the plan."""
    people = table(window, "people", "people")

    put(people, 2, "Comes", Qt.CheckState.Unchecked.value, Qt.ItemDataRole.CheckStateRole)

    assert [person.attending for person in document(window).people[:4]] == [True, True, False, True]
    assert any(each.text() == "11 people come, 1 stay away" for each in window.places["people"].findChildren(QLabel))


def test_a_mistyped_allergen_is_refused_with_the_nearest_word(window):
    """An allergen that the plan would not know must never be accepted."""
    people = table(window, "people", "people")

    assert not put(people, 0, "Allergens", "milk, pea nut butter")
    assert "nine major allergens" in window.message.text()
    assert not put(people, 0, "Allergens", "penut")
    assert "Did you mean 'peanut'?" in window.message.text()
    assert document(window).people[0].allergens == ()

    put(people, 0, "Allergens", "Tree nut; milk")
    assert document(window).people[0].allergens == ("tree-nut", "milk")


def test_people_are_added_and_removed(window):
    """The last person on the list leaves, and comes back with undo."""
    people = table(window, "people", "people")
    window.places["people"].findChild(QPushButton, "add-person").click()
    assert document(window).people[-1].name == "Seat 13"

    people.choose("p01")
    window.places["people"].findChild(QPushButton, "remove-person").click()
    assert [person.id for person in document(window).people[:2]] == ["p02", "p03"]

    window.menus.actions["undo"].trigger()
    assert document(window).people[0].name == "Aster"


def test_groups_are_shown_by_station_with_what_people_must_avoid(window):
    """Who works where is read off beside the roster."""
    people = table(window, "people", "people")

    texts = [each.text() for each in window.places["people"].findChildren(QLabel)]

    assert "Aster, Bramble, Clover (milk), Damson, Elder" in texts
    assert [cell(people, row, "Station") for row in (0, 5, 8)] == ["A", "B", "C"]


def test_a_staff_member_gets_a_duty(window):
    """Whoever tends canners is ticked so."""
    staff = table(window, "people", "staff")

    put(staff, 1, "Teaches", Qt.CheckState.Checked.value, Qt.ItemDataRole.CheckStateRole)

    assert document(window).staff[1].duties == ("teach", "canner")


def test_a_station_takes_another_jar(window):
    """The remedy of the first finding, done by hand."""
    window.go("stations")
    jar = window.places["stations"].card("B").findChild(ChoiceField, "jar")

    jar.setCurrentIndex(jar.findData("pint"))
    jar.activated.emit(jar.currentIndex())

    assert document(window).stations[1].jar == "pint"
    assert window.menus.actions["undo"].text() == "&Undo change jar of station B"


def test_recipes_come_from_the_tables_and_refused_ones_say_so(window):
    """Only tested recipes can be chosen."""
    window.go("stations")
    recipe = window.places["stations"].card("A").findChild(ChoiceField, "recipe")

    names = [recipe.itemText(i) for i in range(recipe.count())]

    assert recipe.currentText() == "Peaches, halved or sliced"
    assert "14-day sweet pickles (not for a class)" in names


def test_a_pack_or_method_without_a_table_is_marked(window):
    """Beans in boiling water is not a choice like any other."""
    window.go("stations")
    method = window.places["stations"].card("C").findChild(ChoiceField, "method")

    assert [method.itemText(i) for i in range(method.count())] == ["pressure", "boiling water (not published)", "steam (not published)"]


def test_a_blocked_station_shows_the_reason_instead_of_a_time(window):
    """No figure is shown that must not be used."""
    window.go("stations")
    texts = [each.text() for each in window.places["stations"].card("B").findChildren(QLabel)]

    assert "No time" in texts
    assert any(text.startswith("Crushed tomatoes in quarts take 50 minutes") for text in texts)


def test_a_station_is_added_and_removed(window):
    """A fourth group, and back to three."""
    window.go("stations")
    window.places["stations"].findChild(QPushButton, "add-station").click()
    assert [station.id for station in document(window).stations] == ["A", "B", "C", "D"]

    window.places["stations"].card("D").findChild(QPushButton, "remove").click()
    assert [station.id for station in document(window).stations] == ["A", "B", "C"]


def test_the_last_station_cannot_be_removed(make_window):
    """A class without a station is refused in words, and stays as it was."""
    plan = sample_plan()
    window = make_window(document=dataclasses.replace(plan.document, stations=plan.document.stations[:1]))
    window.go("stations")

    window.places["stations"].card("A").findChild(QPushButton, "remove").click()

    assert "at least 1 needed" in window.message.text()
    assert len(document(window).stations) == 1


def test_group_size_is_typed_on_the_card(window, qtbot):
    """Two fields, one edit each."""
    window.go("stations")
    most = window.places["stations"].card("A").findChild(TextField, "most")
    most.setFocus()
    qtbot.keyClicks(most, "6")
    qtbot.keyClick(most, Qt.Key.Key_Return)

    assert document(window).stations[0].group_size.maximum == 6


def test_a_burner_gets_another_power_and_circuit(window):
    """The kitchen is typed in as it was found."""
    burners = table(window, "kitchen", "burners")

    put(burners, 0, "Power, W", "3,200")
    put(burners, 0, "Circuit", "c1")

    assert (document(window).kitchen.burners[0].power_w, document(window).kitchen.burners[0].circuit) == (3200, "c1")


def test_a_canner_holds_what_is_typed(window):
    """Room for jars is read off the canner's own rack."""
    canners = table(window, "kitchen", "canners")

    put(canners, 0, "Half-pints", "12")
    put(canners, 0, "Pints", "")

    assert document(window).kitchen.canners[0].holds == {"quart": 7, "half-pint": 12}


@pytest.mark.parametrize("text", ["many", "1e999", "nan"])
def test_a_power_that_is_no_number_is_refused(window, text):
    """The class keeps the old figure and the window says why."""
    burners = table(window, "kitchen", "burners")

    assert not put(burners, 0, "Power, W", text)
    assert "is not a number" in window.message.text()
    assert document(window).kitchen.burners[0].power_w == 4000


def test_a_circuit_that_feeds_burners_stays(window):
    """Without it nobody would count their watts."""
    circuits = table(window, "kitchen", "circuits")
    circuits.choose("c1")
    window.places["kitchen"].findChild(QPushButton, "remove-circuits").click()

    assert "Circuit c1 feeds b2" in window.message.text()
    assert len(document(window).kitchen.circuits) == 1


def test_the_peak_of_a_circuit_is_read_from_the_plan(window):
    """The question whether the breakers hold is answered beside the breakers."""
    assert cell(table(window, "kitchen", "circuits"), 0, "Peak in this plan") == "1,800 of 1,920 W"


def test_choices_in_a_table_commit_at_once(window, qtbot):
    """A fuel is chosen from a list, without a further key."""
    burners = table(window, "kitchen", "burners")
    index = burners.rows_model.index(0, 1)
    burners.setCurrentIndex(index)
    burners.edit(index)
    box = burners.findChild(QComboBox)

    box.setCurrentIndex(box.findData("electric"))
    box.activated.emit(box.currentIndex())

    assert document(window).kitchen.burners[0].fuel == "electric"


def test_the_agenda_moves_by_the_clock(window):
    """People type 9:30, not minute 30."""
    agenda = table(window, "day", "agenda")

    put(agenda, 0, "Starts", "9:30")

    assert document(window).agenda[0].start_minute == 30
    assert not put(agenda, 0, "Starts", "soon")


def test_shopping_is_sorted_by_aisle_with_whole_packages(window):
    """The list is read off in the shop."""
    shopping = table(window, "shopping", "shopping")

    assert [cell(shopping, row, "Aisle") for row in range(4)] == ["produce", "", "baking", "canning"]
    assert [cell(shopping, row, "Buy") for row in (0, 6)] == ["2 lugs", "have enough"]


def test_what_is_on_hand_is_typed_into_the_list(window):
    """Three pounds in the cupboard need not be bought."""
    shopping = table(window, "shopping", "shopping")

    put(shopping, 2, "On hand", "3 lb")

    assert [(each.item, each.amount, each.unit) for each in document(window).on_hand][-1] == ("sugar, granulated", 3, "lb")


def test_tab_leaves_a_table(window, qtbot):
    """The keyboard is never caught in a table."""
    people = table(window, "people", "people")
    people.setFocus()
    people.choose("p01")

    qtbot.keyClick(people, Qt.Key.Key_Tab)

    assert not people.hasFocus()


def test_names_that_look_like_markup_are_shown_as_they_are(window):
    """A person called <b>Bold</b> stays a person."""
    people = table(window, "people", "people")

    put(people, 0, "Name", "<b>Bold</b> & co")

    texts = [each.text() for each in window.places["people"].findChildren(QLabel)]
    assert cell(people, 0, "Name") == "<b>Bold</b> & co"
    assert all(each.textFormat() == Qt.TextFormat.PlainText for each in window.places["people"].findChildren(QLabel) if each.text())
    assert texts
