"""What holds a class back, from its end back to the start."""

from demo_class import JAM, PEACHES, TOMATOES, canner, gas, make, people, stations
from jarwright.planning.binding import binding_chain, binding_stations, own_room
from jarwright.planning.pipeline import plan_class
from jarwright.reference.library import load_reference


def planned(**changes):
    """Return the plan of a class with one boiling-water canner."""
    kitchen = {"canners": [canner("k1", name="Blue")], "burners": [gas("b1"), gas("b2"), gas("b3")]}
    return plan_class(make(**{"kitchen": kitchen, **changes}), load_reference())


def test_a_canner_that_is_taken_is_named_with_who_has_it():
    """Two stations, one canner: the second waits for the first, and the first for its own work."""
    plan = planned(stations=stations(PEACHES, TOMATOES))

    links = binding_chain(plan)

    assert [(link.kind, link.about) for link in links] == [
        ("process", "station B"), ("canner", "canner k1"), ("process", "station A"), ("work", "station A"),
    ]  # fmt: skip
    assert links[1].says == (
        "Blue is taken until 10:45 by station A (Peaches, halved or sliced), and its water is ready again at 10:50; "
        "station B (Tomatoes, crushed) waits for it"
    )
    assert binding_stations(links) == ("B", "A")


def test_the_work_of_one_station_is_told_in_its_order():
    """Where a single load is the last, it is the station's own steps that count."""
    (load, work) = binding_chain(planned(people=people(2)))

    assert load.says.startswith("4 quarts of station A go into Blue at ")
    assert load.says.endswith(": 53 minutes, 25 of them the process")
    assert work.kind == "work"
    assert work.says.startswith("Station A works one after the other: Peel, halve and pit 9:00 to ")


def test_a_talk_that_stops_work_begins_the_chain():
    """The first task could not start before the talk had ended."""
    agenda = [{"title": "Safety talk", "start_minute": 0, "minutes": 20, "stops_work": True, "led_by": "s1"}]

    links = binding_chain(planned(people=people(2), agenda=agenda))

    assert (links[-1].kind, links[-1].says) == ("agenda", "Nobody works at the stations until 9:20: Safety talk")


def test_water_that_heats_since_the_kitchen_opened_is_the_cause():
    """A weak burner and a late key: the jars are full, and the water is not hot."""
    hours = {"access": "09:00", "start": "09:00", "end": "12:00", "clear_by": "13:00"}
    weak, pots = gas("b1", power_w=1200, suits=["canner"]), [gas("b2", suits=["pot"]), gas("b3", suits=["pot"])]
    kitchen = {"canners": [canner("k1", name="Blue", water_qt=16)], "burners": [weak, *pots]}

    links = binding_chain(planned(people=people(2), hours=hours, kitchen=kitchen))

    assert [link.kind for link in links] == ["process", "heat"]
    assert links[1].says.startswith("Blue heats its water from 9:00 to ")
    assert links[1].says.endswith(" on burner b1, on since the kitchen opened")


def test_own_room_is_what_a_station_would_have_alone():
    """The second station waits an hour for the canner; alone it would have that hour more."""
    plan = planned(stations=stations(PEACHES, JAM))

    rooms = own_room(plan)

    assert min(rooms.values()) >= plan.verdict.spare_minutes
    last = max(plan.loads, key=lambda load: load.end)
    waits = next(batch.station for batch in plan.batches if batch.id == last.jars[0].batch)
    assert rooms[waits] > plan.document.loads_out_minute - last.end


def test_an_empty_plan_has_no_chain():
    """Blocked stations make nothing; there is nothing to follow back."""
    plan = planned(stations=stations({**PEACHES, "method": "pressure"}))
    assert binding_chain(plan) == ()
