"""Edits change what their name says, and leave no loose ends behind."""

import pytest

from jarwright.errors import DocumentError
from jarwright.model.document import AgendaItem, Canner, GroupSize, OnHand, Package, Pin, document_from_json
from jarwright.workbench import edits
from jarwright.workbench.open_class import OpenClass, checked

SMALL = GroupSize(minimum=2, maximum=4)


@pytest.fixture
def open_class(document):
    """Return the small class, open and untitled."""
    return OpenClass(document)


@pytest.mark.parametrize(
    ("edit", "name", "value"),
    [
        (edits.set_title("Plums"), "Change title", lambda d: d.title == "Plums"),
        (edits.set_date("2027-10-02"), "Change date", lambda d: d.date == "2027-10-02"),
        (edits.set_elevation(5280), "Change elevation", lambda d: d.site.elevation_ft == 5280),
        (edits.rename_site("Mill kitchen"), "Change place", lambda d: d.site.name == "Mill kitchen"),
        (edits.rename_station("B", "Tomatoes"), "Rename station B", lambda d: d.stations[1].name == "Tomatoes"),
        (edits.rename_canner("k1", "Green"), "Rename canner k1", lambda d: d.kitchen.canners[0].name == "Green"),
        (edits.rename_staff("s1", "Rowan"), "Rename to Rowan", lambda d: d.staff[0].name == "Rowan"),
        (edits.change_hours(end="12:30"), "Change hours", lambda d: d.end_minute == 210),
        (edits.set_jars_each(3), "Change jars each", lambda d: d.take_home.jars_each == 3),
        (edits.change_attendance(fee="25.00"), "Change seats and fee", lambda d: d.attendance.fee == "25.00"),
        (edits.change_costs(fixed="40.00"), "Change costs", lambda d: d.costs.fixed == "40.00"),
        (edits.change_timing(cushion_minutes=20), "Change timing", lambda d: d.timing.cushion_minutes == 20),
        (edits.rename_person("p01", "Sorrel"), "Rename to Sorrel", lambda d: d.people[0].name == "Sorrel"),
        (edits.set_attending("p02", False), "Note a no-show", lambda d: [p.id for p in d.attending] == ["p01"]),
        (edits.set_attending("p03", True), "Bring a person back", lambda d: len(d.attending) == 3),
        (edits.change_station("A", jar="pint"), "Change station A", lambda d: d.stations[0].jar == "pint"),
        (edits.set_group_size("A", minimum=2, maximum=4), "Change group size of station A", lambda d: d.stations[0].group_size == SMALL),
        (edits.remove_station("B"), "Remove station B", lambda d: [s.id for s in d.stations] == ["A"]),
        (edits.add_staff("Rowan"), "Add a staff member", lambda d: (d.staff[1].id, d.staff[1].duties) == ("s2", ("canner",))),
        (edits.change_staff("s1", duties=("teach",)), "Change a staff member", lambda d: d.staff[0].duties == ("teach",)),
        (edits.change_canner("k1", water_qt=14), "Change a canner", lambda d: d.kitchen.canners[0].water_qt == 14),
        (edits.remove_canner("k1"), "Remove a canner", lambda d: [c.id for c in d.kitchen.canners] == ["k2"]),
        (edits.change_burner("b2", power_w=1500), "Change a burner", lambda d: d.kitchen.burners[1].power_w == 1500),
        (edits.add_circuit(), "Add a circuit", lambda d: [c.id for c in d.kitchen.circuits] == ["c1", "c2"]),
        (edits.change_circuit("c1", amps=15), "Change a circuit", lambda d: d.kitchen.circuits[0].amps == 15),
        (edits.add_pot(8), "Add a pot", lambda d: [(p.id, p.qt) for p in d.kitchen.pots] == [("q1", 16), ("q2", 8)]),
        (edits.change_pot("q1", 12), "Change a pot", lambda d: d.kitchen.pots[0].qt == 12),
        (edits.remove_pot("q1"), "Remove a pot", lambda d: d.kitchen.pots == ()),
        (edits.set_cooling_jars(40), "Change cooling room", lambda d: d.kitchen.cooling_jars == 40),
        (edits.set_on_hand([OnHand(item="sugar", amount=5, unit="lb")]), "Change what is on hand", lambda d: d.on_hand[0].amount == 5),
        (edits.set_packages([Package(item="sugar", amount=4, unit="lb")]), "Change packages and prices", lambda d: len(d.packages) == 1),
    ],
    ids=lambda value: value.name if isinstance(value, edits.Edit) else "",
)  # fmt: skip
def test_edit_does_what_its_name_says(open_class, edit, name, value):
    """The undo menu tells the truth, and one undo takes the whole edit back."""
    before = open_class.document

    assert open_class.apply(edit)
    assert open_class.undo_name == name
    assert value(open_class.document)
    open_class.undo()
    assert open_class.document is before


def test_new_person_gets_a_free_id_and_seat(document):
    """Somebody signs up before their name is known."""
    changed = checked(edits.add_person().change(document))

    assert (changed.people[-1].id, changed.people[-1].name) == ("p04", "Seat 4")


def test_person_who_leaves_is_out_of_others_wishes(document):
    """Aster asked to work with Bramble; without Bramble the wish is void and the class still opens."""
    changed = checked(edits.remove_person("p02").change(document))

    assert [(person.id, person.companions) for person in changed.people] == [("p01", ()), ("p03", ())]


@pytest.mark.parametrize(
    ("count", "coming"),
    [(1, ["p01"]), (2, ["p01", "p02"]), (3, ["p01", "p02", "p03"]), (5, ["p01", "p02", "p03", "p04", "p05"])],
)
def test_head_count_keeps_the_roster(document, count, coming):
    """Trying six people and then eighteen loses nobody's name."""
    changed = checked(edits.set_people_attending(count).change(document))

    assert [person.id for person in changed.attending] == coming
    assert [person.name for person in changed.people][:3] == ["Aster", "Bramble", "Clover"]


def test_staff_member_who_leaves_leads_nothing(document):
    """The talk stays on the agenda, the demonstration becomes a station for a group."""
    changed = checked(edits.remove_staff("s1").change(document))

    assert (changed.staff, changed.agenda[0].led_by, changed.stations[1].demonstration) == ((), None, None)


def test_canner_loses_its_own_heat_with_the_burner(document):
    """A plug-in canner whose element is taken away is set on another burner."""
    changed = checked(edits.remove_burner("b2").change(document))

    assert changed.kitchen.canners[1].burner is None


def test_circuit_with_burners_is_not_removed(document):
    """Without its circuit nobody would count the watts of a burner."""
    with pytest.raises(DocumentError, match=r"Circuit c1 feeds b2\. Move these burners to another circuit, or remove them first"):
        edits.remove_circuit("c1").change(document)

    changed = checked(edits.remove_circuit("c1").change(edits.remove_burner("b2").change(document)))

    assert changed.kitchen.circuits == ()


def test_new_station_takes_the_next_letter(document):
    """It starts as another of the last one, without its demonstrator."""
    changed = checked(edits.add_station().change(document))

    assert [(each.id, each.recipe, each.demonstration) for each in changed.stations[1:]] == [
        ("B", "tomatoes-crushed", "s1"),
        ("C", "tomatoes-crushed", None),
    ]


def test_new_canner_is_like_the_last_but_stands_on_any_burner(document):
    """A second borrowed canner is usually the same make as the first."""
    changed = checked(edits.add_canner().change(document))

    assert (changed.kitchen.canners[2].id, changed.kitchen.canners[2].kind, changed.kitchen.canners[2].burner) == ("k3", "steam", None)


def test_first_canner_and_burner_of_an_empty_kitchen(small_class):
    """A borrowed kitchen may have nothing."""
    small_class["kitchen"] = {"burners": [], "canners": []}
    empty = document_from_json(small_class)

    changed = checked(edits.add_burner().change(edits.add_canner().change(empty)))

    assert changed.kitchen.canners == (Canner(id="k1", kind="boiling-water", holds={"quart": 7, "pint": 9, "half-pint": 12}, water_qt=12),)
    assert changed.kitchen.burners[0].fuel == "gas"


def test_agenda_is_kept_in_the_order_of_the_clock(document):
    """A break entered first does not come before the welcome."""
    items = [AgendaItem(title="Break", start_minute=90, minutes=10), AgendaItem(title="Welcome", start_minute=0, minutes=15)]

    changed = checked(edits.set_agenda(items).change(document))

    assert [item.title for item in changed.agenda] == ["Welcome", "Break"]


def test_pin_is_set_moved_and_taken_back(document):
    """One wish for each station, and none once its limits are gone; a closed station takes its wish along."""
    pinned = edits.set_pin(Pin(about="station B", not_before=40)).change(document)
    moved = edits.set_pin(Pin(about="station B", not_before=50)).change(pinned)

    assert [pin.not_before for pin in moved.pins] == [50]
    assert edits.set_pin(Pin(about="station B")).change(moved).pins == ()
    assert edits.remove_station("B").change(moved).pins == ()


def test_unknown_name_is_answered_with_the_nearest(document):
    """A change asked for on the command line may be mistyped."""
    with pytest.raises(DocumentError, match=r"There is no person 'p1'; known: p01, p02, p03. Did you mean 'p01'\?"):
        edits.rename_person("p1", "Rue").change(document)
