"""One window opens, edits and saves a class, and never loses what somebody typed."""

from __future__ import annotations

import dataclasses
import itertools
import json
import threading
import time

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QTimer, QUrl
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QLabel

from jarwright.desktop.fields import ChoiceField, TextField
from jarwright.desktop.questions import CANCEL, SAVE
from jarwright.errors import PlanError
from jarwright.storage.documents import read_document
from jarwright.workbench.open_class import OpenClass
from sample_plan import CLASS, sample_plan


@pytest.fixture
def saved(tmp_path):
    """Return the sample class in a file."""
    path = tmp_path / "harvest.json"
    path.write_text(json.dumps(CLASS), encoding="utf-8")
    return path


def type_into(qtbot, window, place, name, text):
    """Type into a field as a person does, and leave it with Enter."""
    window.go(place)
    field = window.places[place].findChild(TextField, name)
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, text)
    qtbot.keyClick(field, Qt.Key.Key_Return)
    return field


def test_the_window_says_at_once_whether_the_class_fits(window):
    """The instructor's first question is answered before anything is clicked."""
    assert window.strip.findChild(QLabel, "verdict-word").text() == "Blocked"
    assert window.strip.accessibleName().startswith("Blocked. Station B cannot be taught as it stands.")


def test_the_elevation_stands_on_every_place(window):
    """It decides every process time, so it is never out of sight."""
    for key in window.places:
        window.go(key)
        elevation = window.rail.findChild(QLabel, "elevation-everywhere")
        assert elevation.isVisible()
        assert elevation.text() == "2,350 ft"
        assert elevation.font().bold()


def test_an_edited_field_is_planned_again_and_undo_brings_the_old_value_back(make_window, qtbot):
    """What is on screen is the plan of what was typed last."""
    planned = []

    def plan(document, *, on_better, cancelled):
        planned.append(document.take_home.jars_each)
        return dataclasses.replace(sample_plan(), document=document)

    window = make_window(plan_function=plan)
    field = type_into(qtbot, window, "day", "jars_each", "3")
    qtbot.waitUntil(lambda: window.plan().document.take_home.jars_each == 3)
    assert window.menus.actions["undo"].text() == "&Undo change jars each"

    qtbot.keyClick(field, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)

    qtbot.waitUntil(lambda: window.plan().document.take_home.jars_each == 2)
    assert field.text() == "2"
    assert planned == [2, 3, 2]
    assert window.menus.actions["redo"].text() == "&Redo change jars each"


def test_title_shows_the_class_and_the_modified_mark(make_window, qtbot, saved, answers):
    """Whoever closes the lid of the laptop sees whether the class is saved."""
    window = make_window(document=read_document(saved), path=saved)
    assert (window.windowTitle(), window.isWindowModified()) == ("Harvest Saturday (harvest.json)[*] - Jarwright", False)

    type_into(qtbot, window, "day", "title", "Harvest Sunday")
    assert (window.windowTitle(), window.isWindowModified()) == ("Harvest Sunday (harvest.json)[*] - Jarwright", True)

    assert window.files.save()
    assert not window.isWindowModified()
    assert read_document(saved).title == "Harvest Sunday"
    window.menus.actions["undo"].trigger()
    assert window.isWindowModified()
    window.menus.actions["redo"].trigger()
    assert not window.isWindowModified()


def test_saving_takes_what_is_still_being_typed(make_window, qtbot, saved):
    """Ctrl+S without leaving the field first saves what can be read on screen."""
    window = make_window(document=read_document(saved), path=saved)
    window.go("day")
    field = window.places["day"].findChild(TextField, "title")
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "Plum evening")

    qtbot.keyClick(field, Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)

    assert read_document(saved).title == "Plum evening"


def test_an_untitled_class_asks_for_a_name(window, answers, tmp_path):
    """The demo class is a copy; saving it never writes into the program's own folder."""
    answers.file = tmp_path / "mine.json"

    window.menus.actions["save"].trigger()

    assert answers.asked == ["save Harvest Saturday.json"]
    assert read_document(tmp_path / "mine.json").title == "Harvest Saturday"
    assert "mine.json" in window.windowTitle()


def test_closing_asks_before_changes_are_lost(window, qtbot, answers):
    """Cancel keeps the window and everything in it."""
    type_into(qtbot, window, "day", "title", "Changed")
    answers.keep = CANCEL

    assert not window.close()

    assert window.isVisible()
    assert answers.asked == ["keep"]


def test_closing_can_save_first(make_window, qtbot, answers, saved):
    """Save in that question saves and then closes."""
    window = make_window(document=read_document(saved), path=saved)
    type_into(qtbot, window, "day", "title", "Changed")
    answers.keep = SAVE

    assert window.close()

    assert read_document(saved).title == "Changed"


def test_a_class_without_changes_closes_without_a_question(window, answers):
    """No question where nothing is at stake."""
    assert window.close()
    assert answers.asked == []


def drop(window, path):
    """Drop a file onto the window."""
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path))])
    event = QDropEvent(QPointF(300, 300), Qt.DropAction.CopyAction, data, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier)
    window.dropEvent(event)


def test_a_file_dragged_onto_the_window_is_opened(window, qtbot, saved):
    """The quickest way from the folder to the plan."""
    drop(window, saved)

    assert "harvest.json" in window.windowTitle()
    qtbot.waitUntil(lambda: window.plan() is not None)


def test_a_broken_file_is_told_in_the_window_and_the_open_class_stays(window, tmp_path):
    """No dialog, no loss: a sentence says what is wrong with the file."""
    broken = tmp_path / "broken.json"
    broken.write_text('{"format": "jarwright.class/1",', encoding="utf-8")

    drop(window, broken)

    assert "breaks off" in window.message.text()
    assert "untitled" in window.windowTitle()


def test_a_value_that_cannot_be_is_refused_at_the_field_and_kept_for_correction(window, qtbot):
    """Typing is never blocked; the field says what is wrong, and the class stays as it was."""
    field = type_into(qtbot, window, "day", "start", "nine")

    assert field.text() == "nine"
    assert field.property("fault")
    assert "not a time" in window.message.text()
    assert not window.isWindowModified()

    qtbot.keyClick(field, Qt.Key.Key_Escape)
    assert (field.text(), bool(field.property("fault"))) == ("09:00", False)


def test_a_late_answer_is_dropped(make_window, qtbot):
    """A slow plan of the class as it was must not replace the plan of the class as it is."""
    gate = threading.Event()

    def plan(document, *, on_better, cancelled):
        if document.take_home.jars_each == 3:
            gate.wait(10)
        return dataclasses.replace(sample_plan(), document=document)

    window = make_window(plan_function=plan)
    shown = []
    window.strip.show_plan = lambda plan: shown.append(plan.document.take_home.jars_each)
    type_into(qtbot, window, "day", "jars_each", "3")
    type_into(qtbot, window, "day", "jars_each", "4")
    gate.set()

    qtbot.waitUntil(lambda: 4 in shown)
    qtbot.wait(50)
    assert shown == [4]


def test_the_window_stays_responsive_while_a_class_is_planned(make_window, qtbot):
    """Planning is off the window's thread: timers tick, fields can be typed into, looking can be stopped."""

    def plan(document, *, on_better, cancelled):
        until = time.monotonic() + 1.0
        while time.monotonic() < until and not cancelled():
            time.sleep(0.005)
        return dataclasses.replace(sample_plan(), document=document)

    window = make_window(plan_function=plan, wait=False)
    ticks = []
    timer = QTimer(window)
    timer.timeout.connect(lambda: ticks.append(time.monotonic()))
    timer.start(10)

    qtbot.wait(600)

    assert window.plan() is None
    assert len(ticks) >= 30
    assert max(later - earlier for earlier, later in itertools.pairwise(ticks)) < 0.2
    timer.stop()
    qtbot.waitUntil(lambda: window.plan() is not None)


def test_a_long_search_can_be_stopped_and_shows_what_it_found(make_window, qtbot):
    """After a second and a half the rail offers to settle for the plan found so far."""

    def plan(document, *, on_better, cancelled):
        found = dataclasses.replace(sample_plan(), document=document)
        on_better(found)
        while not cancelled():
            time.sleep(0.005)
        return found

    window = make_window(plan_function=plan)
    stop = window.rail.findChild(object, "stop-looking")
    qtbot.waitUntil(stop.isVisible, timeout=4000)

    stop.click()

    qtbot.waitUntil(lambda: not stop.isVisible())
    assert window.plan() is not None


def test_a_class_that_cannot_be_planned_says_why(make_window, qtbot):
    """The window opens all the same, and the sentence says what to do."""

    def plan(document, *, on_better, cancelled):
        raise PlanError("Nobody can be seated", where="people", fix="Add a station")

    window = make_window(plan_function=plan, wait=False)

    qtbot.waitUntil(lambda: "Nobody can be seated" in window.message.text())
    assert window.strip.findChild(QLabel, "verdict-word").text() == "No plan"


def test_papers_are_written_to_the_chosen_folder(make_window, qtbot, answers, tmp_path):
    """The names that were written are shown, and only the ticked papers are asked for."""
    asked = []

    def export(plan, folder, *, only, overwrite):
        asked.append(only)
        return (folder / "2 shopping.xlsx",)

    window = make_window(export=export)
    answers.folder = tmp_path
    window.go("papers")
    papers = window.places["papers"]
    papers.findChild(object, "paper-station cards").click()
    papers.findChild(object, "paper-plan").click()

    papers.findChild(object, "export").click()

    qtbot.waitUntil(lambda: any("2 shopping.xlsx" in each.text() for each in papers.findChildren(QLabel)))
    assert asked == [("shopping",)]


def test_papers_that_cannot_be_written_say_why(make_window, qtbot, answers, tmp_path):
    """The reason stands in the window, and the work goes on."""

    def export(plan, folder, *, only, overwrite):
        raise PlanError("The papers cannot be written: the disk is full", where=str(folder), fix="Name another folder")

    window = make_window(export=export)
    answers.folder = tmp_path

    window.export()

    qtbot.waitUntil(lambda: "the disk is full" in window.message.text())


@pytest.mark.parametrize("may_replace", [True, False])
def test_papers_of_last_week_are_replaced_only_when_allowed(make_window, qtbot, answers, tmp_path, may_replace):
    """Nothing is overwritten silently."""
    written = []

    def export(plan, folder, *, only, overwrite):
        written.append(overwrite)
        return ()

    (tmp_path / "2 shopping.xlsx").write_bytes(b"old")
    window = make_window(export=export)
    answers.folder, answers.replace = tmp_path, may_replace

    window.export()

    assert answers.asked == ["folder", "replace 2 shopping.xlsx"]
    if may_replace:
        qtbot.waitUntil(lambda: written == [True])
    assert window.close()
    assert written == ([True] if may_replace else [])


def test_a_new_class_starts_from_a_template(window, qtbot):
    """A ready-made class opens as an untitled copy."""
    window.files.open_template("tomato-evening")

    qtbot.waitUntil(lambda: window.plan() is not None)
    assert "(untitled)" in window.windowTitle()
    assert "Tomato" in window.windowTitle()


def test_templates_are_listed_by_their_titles(window):
    """The menu names classes, not files."""
    window.menus.templates.aboutToShow.emit()

    titles = [action.text() for action in window.menus.templates.actions()]

    assert len(titles) == 5
    assert all(title.startswith(f"&{number} ") for number, title in enumerate(titles, 1))


def test_the_wheel_over_a_field_scrolls_the_page_and_changes_nothing(window):
    """Scrolling past a list must not change the class."""
    window.go("day")
    share = window.places["day"].findChild(ChoiceField, "share")

    class Wheel:
        ignored = False

        def ignore(self):
            self.ignored = True

    wheel = Wheel()
    share.wheelEvent(wheel)

    assert wheel.ignored
    assert not window.isWindowModified()


def test_opening_another_class_shows_it_in_every_place(window, qtbot):
    """Nothing of the class before is left on screen."""
    document = sample_plan().document
    people = tuple(dataclasses.replace(person, attending=person.id < "p05") for person in document.people)
    other = dataclasses.replace(document, title="Second class", people=people)

    window.show_class(OpenClass(other))

    qtbot.waitUntil(lambda: window.plan() is not None)
    window.go("people")
    assert any(each.text() == "4 people come, 8 stay away" for each in window.places["people"].findChildren(QLabel))
