"""Single changes of a class: what each does to the document, how it is told, and what is refused."""

import pytest

from demo_class import JAM, PEACHES, canner, gas, make, people, stations
from jarwright.errors import DocumentError
from jarwright.planning.changes import WORDS, change, change_all, earliest_start

PLUG_IN = {
    "circuits": [{"id": "c1", "volts": 120, "amps": 20}],
    "burners": [
        gas("b1"),
        {"id": "b2", "fuel": "electric", "power_w": 1500, "circuit": "c1"},
        {"id": "b3", "fuel": "electric", "power_w": 900, "circuit": "c1"},
    ],
    "canners": [canner("k1", name="Blue"), canner("k2", burner="b2")],
}


def small(**changes):
    """Return a class of two stations with a plug-in steam canner on a circuit, and two keepers."""
    staff = [{"id": "s1", "name": "Hazel", "duties": ["teach", "canner"]}, {"id": "s2", "name": "Rowan", "duties": ["canner"]}]
    agenda = [{"title": "Welcome", "start_minute": 0, "minutes": 15, "stops_work": True, "led_by": "s2"}]
    return make(
        **{"stations": stations(PEACHES, JAM), "kitchen": PLUG_IN, "staff": staff, "agenda": agenda, "people": people(5), **changes}
    )


def refusal(word, document=None):
    """Return the sentence by which a change is refused."""
    with pytest.raises(DocumentError) as caught:
        change(document or small(), word)
    return str(caught.value)


def test_those_who_stay_away_stay_on_the_roster():
    """Three do not come: they are named, and nobody's entry is lost."""
    done = change(small(), "people=-3")

    assert done.name == "3 people fewer: without Person p03, Person p04 and Person p05"
    assert [person.id for person in done.document.attending] == ["p01", "p02"]
    assert len(done.document.people) == 5


def test_those_who_come_after_all_take_their_own_seats_first():
    """Two more: who had stayed away comes back before a new seat is added."""
    away = change(small(), "people=4").document

    done = change(away, "people=+2")

    assert done.name == "2 people more: 6 in all"
    assert [person.name for person in done.document.attending][-2:] == ["Person p05", "Seat 6"]


def test_a_failed_burner_takes_its_plug_in_canner_along():
    """A canner with its own heat stands on no other burner."""
    done = change(small(), "burner-out=b2")

    assert done.name == "Burner b2 is out, and Canner k2 with it"
    assert [each.id for each in done.document.kitchen.canners] == ["k1"]


def test_a_tripped_breaker_takes_all_that_hangs_on_it():
    """No burner may be left on a circuit that is dead."""
    done = change(small(), "circuit-out=c1")

    assert done.name == "The breaker of circuit c1 has tripped, and with it burner b2 and burner b3, and Canner k2 with it"
    assert [each.id for each in done.document.kitchen.burners] == ["b1"]
    assert done.document.kitchen.circuits == ()


def test_a_keeper_who_is_away_neither_leads_nor_demonstrates():
    """What only that person would have shown falls away, and is said."""
    shown = stations(PEACHES, JAM)
    shown[1]["demonstration"] = "s2"

    done = change(small(stations=shown), "keeper-away=s2")

    assert done.name == "Rowan is away, and nobody demonstrates at station B"
    assert [station.id for station in done.document.stations] == ["A"]
    assert done.document.agenda[0].led_by is None


def test_lateness_counts_from_the_first_minute_of_work():
    """After a welcome of 15 minutes, ten minutes late is 9:25."""
    document = small()

    done = change(document, "late=B:10")

    assert earliest_start(document, document.stations[1]) == 15
    assert done.name == "Station B is 10 minutes late and starts at 9:25"
    assert [station.start_minute for station in done.document.stations] == [None, 25]


def test_a_later_end_keeps_the_minutes_for_clearing():
    """Half an hour more of class is half an hour more of kitchen."""
    done = change(small(), "end=12:30")

    assert (done.document.hours.end, done.document.hours.clear_by) == ("12:30", "13:30")


def test_another_circuit_comes_with_a_burner_it_can_carry():
    """15 A at 120 V carry 1,440 W for hours: the burner of 1,500 W is too much, the one of 900 W is not."""
    kitchen = change(small(), "add-circuit=15").document.kitchen

    assert (kitchen.circuits[-1].id, kitchen.circuits[-1].amps) == ("c2", 15)
    assert (kitchen.burners[-1].circuit, kitchen.burners[-1].power_w) == ("c2", 900)


def test_another_plug_in_canner_brings_its_own_heat():
    """It would not stand on a gas burner."""
    kitchen = change(small(), "add-canner=steam").document.kitchen

    assert (kitchen.canners[-1].id, kitchen.canners[-1].burner) == ("k3", "b4")
    assert (kitchen.burners[-1].id, kitchen.burners[-1].power_w) == ("b4", 1500)


def test_a_canner_of_a_kind_nobody_has_is_a_usual_one():
    """A borrowed pressure canner with a weight needs no gauge test."""
    done = change(small(), "add-canner=pressure")

    added = done.document.kitchen.canners[-1]
    assert done.name == "One pressure canner, for 7 quarts"
    assert (added.kind, added.gauge, added.holds["pint"]) == ("pressure", "weighted", 9)


def test_people_of_a_closed_station_find_room_at_the_others():
    """Five people, and the other station took three: it takes five, and that is said."""
    limited = stations(PEACHES, JAM, group_size={"minimum": 1, "maximum": 3})

    done = change(small(stations=limited), "without=B")

    assert done.name == "Without station B, groups of up to 5"
    assert done.document.stations[0].group_size.maximum == 5


@pytest.mark.parametrize(
    ("word", "name", "read", "value"),
    [
        ("elevation=5,430", "The kitchen lies at 5,430 ft", lambda d: d.site.elevation_ft, 5430),
        ("canner-out=k1", "Blue (k1) is out", lambda d: [each.id for each in d.kitchen.canners], ["k2"]),
        ("low-yield=B", "Station B yields the low end of its yield", lambda d: d.stations[1].yield_share, 1),
        ("low-yield=B:80", "Station B yields 80 % of the low end of its yield", lambda d: d.stations[1].yield_share, 0.8),
        ("add-burner=gas", "One more gas burner of 4,000 W", lambda d: d.kitchen.burners[-1].fuel, "gas"),
        ("add-keeper", "One more keeper of the canners", lambda d: d.staff[-1].duties, ("canner",)),
        ("jar=A:pint", "Station A fills pints", lambda d: d.stations[0].jar, "pint"),
        ("method=A:steam", "Station A processes by atmospheric steam", lambda d: d.stations[0].method, "steam"),
        ("water=120", "Hot tap water of 120 F in the canners", lambda d: [each.water_from_f for each in d.kitchen.canners], [120, 120]),
        ("access=06:30", "The kitchen opens to the staff at 06:30", lambda d: d.access_minute, -150),
        ("groups=A:2,B:3", "Other groups: 2 at station A and 3 at station B", lambda d: d.stations[1].group_size.minimum, 3),
        ("jars-each=1", "1 jar each to take home", lambda d: d.take_home.jars_each, 1),
        ("spares=0", "No spare jars at each station", lambda d: d.take_home.spare_jars_per_station, 0),
        ("ahead=A", "The preparation of station A is done ahead", lambda d: d.stations[0].minutes, {"prep": 0.0}),
    ],
)
def test_each_change_is_told_and_done(word, name, read, value):
    """What the sentence says is what the document holds."""
    done = change(small(), word)

    assert (done.name, read(done.document)) == (name, value)


def test_changes_add_up():
    """A canner fails and two people stay away: one morning."""
    first, second = change_all(small(), ["canner-out=k1", "people=-2"])

    assert len(first.document.attending) == 5
    assert (len(second.document.attending), len(second.document.kitchen.canners)) == (3, 1)


def test_a_change_leaves_the_class_it_was_asked_of():
    """The kept class is the kept class."""
    document = small()
    change(document, "canner-out=k1")
    assert document == small()


@pytest.mark.parametrize(
    ("word", "says"),
    [
        ("caner-out=k1", "'caner-out=k1' is no change that is known. Did you mean 'canner-out=k1'?"),
        ("canner-out=k9", "There is no canner 'k9'; known: k1, k2. Choose one of them."),
        ("canner-out", "'canner-out' does not say which, or how many. Write it as 'canner-out=k1'."),
        ("people=few", "'few' is not a number. Write it as 'people=-3'."),
        ("people=-5", "'-5' leaves nobody of the 5 who come. Keep one person at least."),
        ("late=B", "'B' does not name a station and what changes there. Write it as 'late=B:15'."),
        ("late=B:-5", "'B:-5' is not late. Write it as 'late=B:15'."),
        ("late=B:1.5", "'1.5' is not a whole number up to 720. Write it as 'late=B:15'."),
        ("method=A:stem", "'stem' is not a method; known: boiling-water, steam, pressure. Did you mean 'steam'?"),
        (
            "add-burner=electric",
            "'electric' is no burner that needs no circuit. Write 'add-burner=gas', or 'add-circuit=20' for a plug-in burner.",
        ),
    ],
)  # fmt: skip
def test_what_cannot_be_changed_is_said_in_one_sentence(word, says):
    """A typo on the command line: what is wrong and what was probably meant."""
    assert refusal(word) == says


@pytest.mark.parametrize("word", ["elevation=20000", "access=25:00", "end=08:00", "low-yield=A:5", "people=400", "access=09:30"])
def test_no_change_makes_a_class_that_a_file_could_not_hold(word):
    """The limits of a document hold for what-ifs, too."""
    assert "is no class any more" in refusal(word)


def test_the_last_station_stays():
    """A class without a station is none."""
    assert "is no class any more" in refusal("without=A", make())


def test_every_example_can_be_read():
    """The help shows words that work: each one is known by its own name."""
    assert [word.example.partition("=")[0] for word in WORDS.values()] == list(WORDS)
