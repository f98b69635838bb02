"""A class document holds what an instructor typed, and says what is wrong in it."""

import json

import pytest

from jarwright.errors import DocumentError
from jarwright.model.document import (
    Attendance,
    Costs,
    GroupSize,
    TakeHome,
    Timing,
    document_from_json,
    document_to_json,
    minutes_between,
)


def fault(data) -> str:
    """Return the first fault of a class as the command line prints it."""
    with pytest.raises(DocumentError) as caught:
        document_from_json(data)
    return str(caught.value)


def test_class_reads_back_as_it_was_written(small_class):
    """Saving and opening again changes nothing."""
    document = document_from_json(small_class)

    again = json.loads(json.dumps(document_to_json(document)))

    assert document_from_json(again) == document
    assert list(again)[:3] == ["format", "title", "date"]


def test_what_may_be_left_out_has_its_usual_value(small_class):
    """A class of a few lines is enough to plan."""
    for name in ("staff", "agenda"):
        del small_class[name]
    del small_class["stations"][1]

    document = document_from_json(small_class)

    assert (document.language, document.units, document.staff, document.pins) == ("en", "us", (), ())
    assert (document.attendance, document.costs, document.timing) == (Attendance(), Costs(), Timing())
    assert document.take_home == TakeHome(jars_each=2, share="own-station", spare_jars_per_station=1, held_back=0, pick_up="carry-warm")
    assert document.stations[0].group_size == GroupSize(minimum=1, maximum=None)
    assert document.kitchen.canners[0].flat_bottom
    assert document.timing.filled_wait_minutes == 10


def test_unknown_fields_of_a_class_survive(small_class):
    """A note that another program keeps is not ours to lose."""
    small_class["sponsor"] = {"name": "Grange"}
    small_class["kitchen"]["canners"][0]["colour"] = "blue"

    again = document_to_json(document_from_json(small_class))

    assert (again["sponsor"], again["kitchen"]["canners"][0]["colour"]) == ({"name": "Grange"}, "blue")


@pytest.mark.parametrize(
    ("given", "message"),
    [
        ("jarwright.class/2", "format: This class was saved by a newer version (format jarwright.class/2). Open it with that version, "),
        ("jarwright.class/0", "format: 'jarwright.class/0' is not a class document's format; known: jarwright.class/1."),
        (None, "format: 'None' is not a class document's format; known: jarwright.class/1."),
    ],
)
def test_other_formats_are_refused(small_class, given, message):
    """A plan file or a newer class is not read as if it were ours."""
    small_class["format"] = given

    assert fault(small_class).startswith(message)


@pytest.mark.parametrize("data", [[], "class", 3, None])
def test_anything_but_an_object_is_no_class(data):
    """A roster saved as JSON, say."""
    assert fault(data).startswith("This is not a class document.")


@pytest.mark.parametrize(
    ("path", "value", "message"),
    [
        ("site.elevation_ft", -1401, "site.elevation_ft: -1401 is too small, the least is -1,400."),
        ("site.elevation_ft", 12_001, "site.elevation_ft: 12001 is too large, the most is 12,000."),
        ("date", "14 August", "date: '14 August' is not a date; write it as 2027-08-14."),
        ("date", "20270814", "date: '20270814' is not a date; write it as 2027-08-14."),
        ("date", "2027-02-30", "date: '2027-02-30' is not a date; write it as 2027-08-14."),
        ("hours.end", "25:00", "hours.end: '25:00' is not a time; write it as 09:00."),
        ("hours.end", "08:30", "hours.end: end at 08:30 lies before start at 09:00. Put the hours in order."),
        ("hours.end", "09:00", "hours.end: the class ends when it starts. Enter a later end."),
        ("hours.access", "09:30", "hours.start: start at 09:00 lies before access at 09:30. Put the hours in order."),
        ("stations.0.jar", "litre", "stations[0].jar: 'litre' is not a jar size; known: quarter-pint, half-pint, 12-ounce, pint,"),
        ("stations", [], "stations: lists 0, at least 1 needed."),
        ("people", [], "people: lists 0, at least 1 needed."),
        ("people", [{"id": "p", "name": "Rue"}] * 500, "people: lists 500, the most is 200."),
        ("people.0.id", "p02", "people: the id 'p02' is used 2 times. Give each its own id."),
        ("people.0.with", ["p77"], "people[0].with: 'p77' is not another person's id. Name someone on the list."),
        ("people.0.apart", ["p01"], "people[0].apart: 'p01' is not another person's id. Name someone on the list."),
        ("stations.1.demonstration", "s9", "stations[1].demonstration: 's9' is not on the staff. Name a staff member's id."),
        ("stations.0.group_size", {"minimum": 5, "maximum": 2}, "stations[0].group_size: the maximum is below the minimum."),
        ("stations.0.minutes", {"prep": [20, 10, 30]}, "stations[0].minutes.prep: not a number, nor low, likely, high in that order."),
        ("stations.0.minutes", {"prep": [10, 20]}, "stations[0].minutes.prep: not a number, nor low, likely, high in that order."),
        ("stations.0.minutes", {"prep": [1, 2, 900]}, "stations[0].minutes.prep: 900 min is too long, the longest is 720."),
        ("stations.0.minutes", {"prep": 900}, "stations[0].minutes.prep: 900 is too large, the most is 720."),
        ("stations.0.minutes", {"wash": 9}, "stations[0].minutes: 'wash' is not a kind of task; known: jars, prep, cook, wait, fill."),
        ("kitchen.burners.1.circuit", "c9", "kitchen.burners[1].circuit: 'c9' is not a circuit's id. Name a circuit of the list."),
        ("kitchen.canners.0.burner", "b9", "kitchen.canners[0].burner: 'b9' is not a burner's id. Name a burner of the list, or null."),
        ("agenda.0.led_by", "s9", "agenda[0].led_by: 's9' is not on the staff. Name a staff member's id."),
        ("take_home.share", "own", "take_home.share: 'own' is not a way to share jars; known: own-station, one-of-each."),
        ("attendance", {"fee": "12,50"}, "attendance.fee: '12,50' is not an amount of money; write it as 12.50."),
    ],
)
def test_faults_name_the_field_and_the_remedy(small_class, path, value, message):
    """The instructor finds the line without help."""
    *way, last = path.split(".")
    place = small_class
    for step in way:
        place = place[int(step)] if step.isdigit() else place[step]
    place[int(last) if last.isdigit() else last] = value

    assert fault(small_class).startswith(message)


def test_people_who_stay_away_are_on_the_roster_only(small_class):
    """The plan is for those who come."""
    document = document_from_json(small_class)

    assert [person.id for person in document.attending] == ["p01", "p02"]


@pytest.mark.parametrize(("given", "whole"), [(2350, 2350), (1000.2, 1001), (1001, 1001), (-1400, 0), (-0.5, 0), (0.1, 1)])
def test_elevation_is_read_as_tables_want_it(small_class, given, whole):
    """Fractions of a foot round up; below sea level the first range holds."""
    small_class["site"]["elevation_ft"] = given

    assert document_from_json(small_class).elevation_ft == whole


def test_minutes_count_from_the_start(small_class):
    """Everything before the start is negative."""
    document = document_from_json(small_class)

    assert (document.access_minute, document.end_minute, document.clear_by_minute) == (-60, 180, 225)
    assert minutes_between("09:00", "7:45") == -75


def test_jars_carried_warm_are_out_by_the_end(small_class):
    """Jars picked up next day may stay in until the kitchen is handed back."""
    assert document_from_json(small_class).loads_out_minute == 180

    small_class["take_home"]["pick_up"] = "next-day"

    assert document_from_json(small_class).loads_out_minute == 225


def test_kitchen_opens_with_the_doors_where_access_is_not_said(small_class):
    """Nothing is turned on before somebody may be there."""
    del small_class["hours"]["access"]
    small_class["hours"]["doors"] = "08:40"

    assert document_from_json(small_class).access_minute == -20


def test_minutes_read_as_the_clock_shows_them(small_class):
    """Papers show the clock; seal checks may fall on the next day."""
    document = document_from_json(small_class)

    assert (document.clock(25), document.clock(-65)) == ("9:25", "7:55")
    assert document.local_time(166) == "2027-09-18T11:46"
    assert document.local_time(16 * 60) == "2027-09-19T01:00"


@pytest.mark.parametrize(("end", "minutes"), [("12:00", 27), ("12:01", 28), ("12:20", 30), ("12:21", 31)])
def test_cushion_is_fifteen_percent_of_the_class_rounded_up(small_class, end, minutes):
    """27 minutes of 180, 28 of 181; 30 of 200, 31 of 201: delays are more common than gains."""
    small_class["hours"]["end"] = end

    assert document_from_json(small_class).cushion_minutes == minutes


def test_cushion_that_is_set_is_kept(small_class):
    """None at all is a decision, too."""
    small_class["timing"] = {"cushion_minutes": 0}

    assert document_from_json(small_class).cushion_minutes == 0
