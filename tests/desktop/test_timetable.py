"""The drawn timetable says what the plan says, with the mouse, with the keyboard and read aloud."""

from __future__ import annotations

import dataclasses

import pytest
from PySide6.QtCore import QPointF, Qt

from jarwright.desktop.colours import LIGHT
from jarwright.desktop.timetable.bars import AgendaItem, Brush, captions
from jarwright.desktop.timetable.chart import TimetableChart
from jarwright.desktop.timetable.lanes import lane_groups, sums, watched
from jarwright.desktop.timetable.scale import Scale, clock_marks, reach
from jarwright.desktop.timetable.story import story_of
from jarwright.model import document as model
from jarwright.model.plan import Load, Phase, Task
from sample_plan import sample_plan

LOAD_1 = "Peaches, 7 quarts in Canner 1"


@pytest.fixture
def chart(dressed, qtbot, plan):
    """Return the chart of the sample plan, as high as it likes."""
    made = TimetableChart()
    qtbot.addWidget(made)
    made.resize(1180, 900)
    made.show()
    made.show_plan(plan)
    return made


def lanes(plan, group):
    """Return the lanes of a group."""
    return next(each for each in lane_groups(plan) if each.key == group).lanes


def test_every_task_and_load_of_the_plan_has_a_bar(chart, plan):
    """What is planned is what is drawn."""
    about = {bar.about for bar in chart.bars()}

    assert {f"task {task.id}" for task in plan.tasks} <= about
    assert {f"load {load.id}" for load in plan.loads} <= about


def test_bars_lie_where_the_clock_says(chart, plan):
    """Ten o'clock on the axis is ten o'clock for every bar."""
    scale = Scale(-8, 232, 200, 1160)

    assert (scale.x(-8), scale.x(112), scale.x(232)) == (200, 680, 1160)
    assert scale.x(999) == 1160


def test_axis_reaches_from_the_first_burner_on_to_after_clear_by(plan):
    """The first canner is turned on at 8:55; the kitchen is handed back at 12:45."""
    assert reach(plan) == (-8, 232)


def test_start_end_and_clear_by_are_bold_and_nothing_crowds_them(plan):
    """Half hours are labelled, those too close to a bold one are not."""
    marks = clock_marks(plan, Scale(-8, 232, 200, 860))

    assert [mark.text for mark in marks if mark.is_bold] == ["9:00", "12:00", "12:45"]
    assert [mark.text for mark in marks if not mark.is_bold] == ["9:30", "10:00", "10:30", "11:00", "11:30"]


def test_overlapping_tasks_of_a_station_lie_in_rows(plan):
    """Both can be seen and chosen."""
    task = plan.tasks[1]
    other = dataclasses.replace(task, id="A1-side", name="side", start=task.start + 2)
    lane = lanes(dataclasses.replace(plan, tasks=(*plan.tasks, other)), "stations")[0]

    assert {bar.about: bar.row for bar in lane.bars}["task A1-side"] == 1
    assert lane.rows == 2


def test_the_same_task_of_two_batches_at_once_is_one_bar(plan):
    """Two pots of jam side by side are told as two."""
    task = plan.tasks[2]
    twin = dataclasses.replace(task, id="A2-cook", batch="A2", burners=("b5",))
    doubled = dataclasses.replace(plan, tasks=(*plan.tasks, twin))
    bar = next(bar for bar in lanes(doubled, "stations")[0].bars if bar.about == "task A1-cook")

    assert bar.text == "2 x cook"
    story = story_of(doubled, bar)
    assert story.line == "9:46 to 9:58, 12 minutes, 2 people, burner b4, b5."
    assert "Batches A1 and A2 at once." in story.details


def test_circuit_steps_follow_the_burners_on_it(plan):
    """The steam canner draws 1,800 W from on until its process ends, then nothing."""
    assert lanes(plan, "circuits")[0].steps == ((40, 113, 1800.0),)


def test_what_overlaps_is_added_up():
    """Two burners on one circuit, with a gap before a third."""
    assert sums([(0, 10, 1.0), (5, 15, 2.0), (20, 30, 1.0)]) == (
        (0, 5, 1.0),
        (5, 10, 3.0),
        (10, 15, 2.0),
        (15, 20, 0.0),
        (20, 30, 1.0),
    )


def test_a_keeper_has_a_pressure_canner_in_hand_until_its_process_ends(plan):
    """Water and steam need watching to the start of the timer, pressure to its end."""
    water, _, pressure = plan.loads

    assert watched(water) == [(63, 85, 1.0), (120, 125, 1.0)]
    assert watched(pressure) == [(57, 106, 1.0), (146, 150, 1.0)]


def test_story_of_a_load_says_what_who_when_and_from_which_table(plan):
    """Everything a colleague would ask, in one line, with its source."""
    bar = lanes(plan, "canners")[0].bars[0]

    story = story_of(plan, bar)

    assert story.title == LOAD_1
    assert story.line == "In 10:03, timer 10:25 to 10:55, heat off, lid off, out 11:05. Tansy watches."
    assert story.proof == "30 min: hot pack, quarts, 1,001 to 3,000 ft"
    assert story.source.startswith("USDA Complete Guide to Home Canning")
    assert story.source.endswith("row seen on the page")


def test_story_of_steam_keeps_the_lid_on_and_of_pressure_waits(plan):
    """The opening is the method's, and each gauge has its own reading."""
    steam, pressure = lanes(plan, "canners")[1].bars[0], lanes(plan, "canners")[2].bars[0]

    assert "lid stays on" in story_of(plan, steam).line
    assert "pressure falls by itself" in story_of(plan, pressure).line
    assert "12 pounds; hold this gauge at 13." in story_of(plan, pressure).details


def test_story_of_a_task_names_its_people(plan):
    """Who peels, for how long, and what the card says."""
    bar = next(bar for bar in lanes(plan, "stations")[0].bars if bar.about == "task A1-prep")

    story = story_of(plan, bar)

    assert story.line == "9:24 to 9:46, 22 minutes, 4 people."
    assert "At work here: Aster, Bramble, Clover, Damson, Elder." in story.details


def test_arrow_keys_walk_the_bars_and_the_story_is_spoken(chart, qtbot):
    """A person without a mouse, or without sight, reads the same timetable."""
    chart.choose("load L1")
    assert chart.accessibleDescription().startswith(f"{LOAD_1}. In 10:03")

    qtbot.keyClick(chart, Qt.Key.Key_Down)
    assert chart.chosen_bar().about == "load L2"

    chart.choose("task A1-prep")
    qtbot.keyClick(chart, Qt.Key.Key_Right)
    assert chart.chosen_bar().about == "task A1-cook"
    qtbot.keyClick(chart, Qt.Key.Key_Home)
    assert chart.chosen_bar().about == "task A1-jars"


def test_every_bar_is_reached_by_the_arrow_keys(chart, qtbot):
    """Down to the last lane, and along each."""
    chart.choose("agenda 0")
    seen = set()
    for _ in range(40):
        qtbot.keyClick(chart, Qt.Key.Key_Home)
        for _ in range(10):
            seen.add(chart.chosen_bar().about if chart.chosen_bar() else "")
            qtbot.keyClick(chart, Qt.Key.Key_Right)
        qtbot.keyClick(chart, Qt.Key.Key_Down)

    assert {bar.about for bar in chart.bars()} <= seen


def test_a_click_chooses_a_bar(chart, qtbot):
    """The mouse does the same."""
    item = next(item for line in chart._rows for item in line if getattr(item, "bar", None) and item.bar.about == "load L3")
    place = chart.mapFromScene(item.rect.center())

    qtbot.mouseClick(chart.viewport(), Qt.MouseButton.LeftButton, pos=place)

    assert chart.chosen_bar().about == "load L3"


def test_a_group_folds_by_key_and_by_click(chart, qtbot):
    """What is not needed now makes room."""
    assert not chart.is_folded("burners")
    chart.choose("group burners")
    qtbot.keyClick(chart, Qt.Key.Key_Return)
    assert chart.is_folded("burners")

    heading = next(item for item in chart._headings() if item.placed.group.key == "burners")
    place = chart.mapFromScene(QPointF(30, heading.boundingRect().center().y()))
    qtbot.mouseClick(chart.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert not chart.is_folded("burners")


def test_groups_fold_by_themselves_where_there_is_no_room(chart):
    """Type is never shrunk; burners go first."""
    chart.resize(1180, 460)

    assert chart.is_folded("burners")
    assert not chart.is_folded("canners")


def test_the_chosen_bar_stays_chosen_in_a_new_plan(chart, plan):
    """Planning again must not take the eye away from what was read."""
    chart.choose("load L3")

    chart.show_plan(dataclasses.replace(plan, loads=plan.loads[1:]))
    assert chart.chosen_bar().about == "load L3"

    chart.show_plan(dataclasses.replace(plan, loads=plan.loads[:1]))
    assert chart.chosen_bar().about == "load L1"


def test_captions_never_run_into_each_other(plan):
    """Where there is no room the caption loses its end, then goes."""
    second = dataclasses.replace(
        plan.loads[0],
        id="L9",
        phases=(Phase("refresh", 125, 130), Phase("load", 130, 134), Phase("process", 140, 155), Phase("unload", 160, 164)),
    )
    doubled = dataclasses.replace(plan, loads=(plan.loads[0], second))
    lane = lanes(doubled, "canners")[0]

    wide = captions(lane, Brush(plan.document, LIGHT, Scale(-8, 232, 200, 1160)))
    small = captions(lane, Brush(plan.document, LIGHT, Scale(-8, 232, 200, 560)))

    assert [text for _, text in wide] == ["on 8:55", "7 quarts, out 11:05", "7 quarts, out 11:44"]
    assert [text for _, text in small] == ["on 8:55", "7 quarts", "7 quarts, out 11:44"]


def test_a_short_part_of_the_class_is_named_beside_itself(chart, plan):
    """Ten minutes of welcome are narrower than their title: it runs on to the right, the last one to the left of the end."""
    first, last = (
        model.AgendaItem(title="Welcome and safety talk", start_minute=0, minutes=10),
        model.AgendaItem(title="Seal check and questions", start_minute=170, minutes=10),
    )
    document = dataclasses.replace(plan.document, agenda=(first, last))
    chart.show_plan(dataclasses.replace(plan, document=document))

    items = [item for item in chart.scene().items() if isinstance(item, AgendaItem)]
    one, two = sorted(items, key=lambda item: item.bar.start)
    assert [item.room()[1] for item in (one, two)] == [Qt.AlignmentFlag.AlignLeft, Qt.AlignmentFlag.AlignRight]
    assert one.room()[0].width() > one.rect.width()
    assert two.room()[0].left() >= one.written_to()


def test_a_plan_without_loads_is_drawn(chart, plan):
    """A blocked class has an empty timetable, not a broken one."""
    chart.show_plan(dataclasses.replace(plan, loads=(), tasks=(), groups=(), circuits=()))

    assert [bar.about for bar in chart.bars()] == ["agenda 0", "agenda 1"]


def test_enter_on_a_bar_opens_its_whole_story(window, qtbot):
    """All phases with their times, under the chart."""
    place = window.places["timetable"]
    place.chart.setFocus()
    place.chart.choose("load L1")

    qtbot.keyClick(place.chart, Qt.Key.Key_Return)

    assert place.story._details.isVisible()
    assert "10:25 to 10:55: timer runs, 30 minutes (between 24 and 39)." in place.story._details.text()


def test_bars_know_what_they_draw(chart):
    """Loads are drawn from loads and tasks from tasks."""
    kinds = {bar.kind: type(bar.thing) for bar in chart.bars() if bar.kind in ("task", "load")}

    assert kinds == {"task": Task, "load": Load}


def test_a_hundred_bars_are_drawn_well_within_a_blink(chart, plan, qtbot):
    """An edit must be on screen at once, also on a big day."""
    many = tuple(
        dataclasses.replace(task, id=f"{task.id}{i}", start=task.start + i, end=task.end + i) for i in range(12) for task in plan.tasks
    )
    big = dataclasses.replace(plan, tasks=many)
    assert len(lane_groups(big)[0].lanes) == len(sample_plan().document.stations)

    chart.show_plan(big)

    assert len(chart.bars()) > 100
