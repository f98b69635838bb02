"""The class schedule."""

from demo_class import BEANS, JAM, PICKLES, canner, make, people, stations
from jarwright.planning.agenda import agenda
from jarwright.planning.ahead import ahead
from placed_class import placed


def schedule(document):
    """Return the schedule of a class, its loads and its placed work."""
    at = placed(document)
    early, _ = ahead(document, at.stations, at.groups)
    return agenda(document, at.tasks, at.loads, early), at


def said(lines, about):
    """Return the texts about one thing, in order."""
    return [line.text for line in lines if line.about == about]


def test_every_step_of_a_boiling_water_load_has_its_minute_and_keeper():
    """Burner on, jars in, timer, heat off, jars out: the keeper reads five lines and misses nothing."""
    lines, at = schedule(make(people=people(3)))

    own = [line for line in lines if line.about == "load L1"]
    assert {line.who for line in own} == {"Hazel"}
    assert [line.text.split(": ")[-1].split(",")[0].split(".")[0] for line in own] == [
        "Turn on burner b1 under k1",
        "6 quarts of A1 go in (boiling water)",
        "set the timer to 25 minutes at the full boil",
        "heat off",
        "jars out by " + at.document.clock(at.loads[0].end) + "; leave them still",
    ]
    assert "lid off, wait 5 minutes" in said(lines, "load L1")[3]


def test_steam_load_keeps_its_lid():
    """The lid of a steam canner stays on while the jars rest, and then comes off away from the face."""
    lines, _ = schedule(make(stations=stations({**PICKLES, "method": "steam"}, ahead={"who": "Holly", "where": "refrigerator"})))

    texts = said(lines, "load L1")
    assert any("the lid stays on for 5 minutes" in text for text in texts)
    assert "lid away from you" in texts[-1]
    assert not any("lid off" in text for text in texts)


def test_pressure_load_vents_and_opens_at_zero():
    """Ten minutes of venting, the timer at this gauge's reading, nothing hurried, ten minutes at zero."""
    lines, _ = schedule(make(stations=stations(BEANS), kitchen={"canners": [canner("k4", gauge_error_psi=1)]}))

    text = " ".join(said(lines, "load L1"))
    assert "open vent: 10 minutes" in text
    assert "when the gauge reads 12 pounds" in text
    assert "nothing hurries it" in text
    assert "at zero open the vent or take the weight off, then wait 10 minutes more" in text


def test_weighted_gauge_moves_it_is_not_read():
    """A 10-pound weight has no needle."""
    lines, _ = schedule(make(stations=stations(BEANS), kitchen={"canners": [canner("k3")]}))

    assert any("-pound weight moves" in text for text in said(lines, "load L1"))


def test_batches_are_told_apart_only_where_there_are_several():
    """'Boil hard' at a station with two pots is of one of them."""
    several, _ = schedule(make(people=people(8), stations=stations(JAM)))
    single, _ = schedule(make(people=people(3), stations=stations(JAM)))

    assert any("Boil hard, batch A2" in text for text in said(several, "station A"))
    assert not any("batch" in text for text in said(single, "station A"))


def test_demonstration_is_done_by_the_one_who_shows_it():
    """Nobody at 'station B' would look up: it is Hazel's line."""
    document = make(
        stations=[*stations(JAM), {"id": "B", **BEANS, "demonstration": "s1"}], kitchen={"canners": [canner("k1"), canner("k3")]}
    )
    lines, _ = schedule(document)

    assert {line.who for line in lines if line.about == "station B"} == {"Hazel, station B"}


def test_soak_of_the_night_before_stands_at_the_top():
    """Who slices and salts the cucumbers, and by when, is part of the day."""
    lines, _ = schedule(make(stations=stations(PICKLES, ahead={"who": "Holly", "where": "refrigerator", "kept_cold": "under ice"})))

    assert (lines[0].who, lines[0].about, lines[0].kind) == ("Holly", "station A", "ahead")
    assert "begins by 6:00" in lines[0].text


def test_hours_and_talks_are_in_it():
    """Doors, start, talk, end, hand-over: what everybody asks."""
    hours = {"access": "07:00", "doors": "08:40", "start": "09:00", "end": "12:00", "clear_by": "13:00"}
    talk = [{"title": "Safety talk", "start_minute": 0, "minutes": 20, "stops_work": True, "led_by": "s1"}]
    lines, _ = schedule(make(hours=hours, agenda=talk))

    found = {line.minute: line.text for line in lines if line.kind == "agenda" and line.minute != 0}
    assert found == {
        -120: "The kitchen opens to the staff.",
        -20: "Doors open.",
        180: "The class ends.",
        240: "The kitchen is handed back.",
    }
    assert "Safety talk (20 minutes). Nobody works at the stations meanwhile." in said(lines, "class")


def test_lines_come_in_the_order_of_the_clock():
    """A schedule is read downwards."""
    lines, _ = schedule(make(people=people(8), stations=stations(JAM)))

    assert [line.minute for line in lines] == sorted(line.minute for line in lines)
