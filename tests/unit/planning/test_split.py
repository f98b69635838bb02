"""Who works where, and what is said when that cannot be."""

from dataclasses import replace

import pytest

from demo_class import BEANS, JAM, PEACHES, TOMATOES, make, people, stations
from jarwright.planning.resolve import resolve
from jarwright.planning.split import is_minor, split
from jarwright.reference.library import load_reference


def split_class(document, **recipe_changes):
    """Return who is at which station, and the findings; recipes may be changed by station."""
    resolved = resolve(document, load_reference())[0]
    if recipe_changes:
        resolved = tuple(
            replace(each, recipe=replace(each.recipe, **recipe_changes.get(each.station.id, {}))) for each in resolved if each.recipe
        )
    groups, findings = split(document, resolved)
    return {group.station: group.people for group in groups}, findings


def test_everybody_who_comes_is_in_one_group():
    """Who does not come has no place; the others are shared evenly, in the order of the list."""
    groups, findings = split_class(make(people=people(5, p02={"attending": False}), stations=stations(PEACHES, TOMATOES)))

    assert groups == {"A": ("p01", "p03"), "B": ("p04", "p05")}
    assert findings == ()


def test_a_demonstration_has_no_group():
    """The staff member works it alone."""
    demonstration = {**PEACHES, "demonstration": "s1"}

    groups, _ = split_class(make(stations=stations(demonstration, TOMATOES)))

    assert groups == {"B": ("p01", "p02", "p03", "p04")}


def test_an_allergy_keeps_a_person_away_from_a_recipe():
    """Milk at station A sends the person with the milk allergy to B."""
    document = make(people=people(4, p01={"allergens": ["milk"]}), stations=stations(PEACHES, TOMATOES))

    groups, findings = split_class(document, A={"allergens": ("milk",)})

    assert "p01" in groups["B"]
    assert findings == ()


def test_a_person_who_can_work_nowhere_is_named_with_the_reason():
    """All recipes carry the allergen: a blocker, and no seat beside the milk."""
    document = make(people=people(3, p02={"allergens": ["milk", "egg"]}))

    groups, findings = split_class(document, A={"allergens": ("milk",)})

    assert groups == {"A": ("p01", "p03")}
    assert [(f.rule, f.level, f.about) for f in findings] == [("groups", "blocker", "person p02")]
    assert findings[0].says == "Person p02 (p02) can work at no station: station A works with milk."
    assert findings[0].remedy


@pytest.mark.parametrize(("age", "station"), [(13, "B"), (14, "A"), (None, "B")])
def test_minors_work_under_pressure_from_fourteen(age, station):
    """Thirteen is too young, fourteen is not, and an age nobody entered counts as too young."""
    everyone = people(2, p01={"minor": True, "age": age}, p02={"allergens": ["milk" if station == "A" else "egg"]})
    document = make(people=everyone, stations=stations(BEANS, PEACHES))

    groups, _ = split_class(document, A={"allergens": ("milk",)}, B={"allergens": ("egg",)})

    assert groups[station] == ("p01",)


@pytest.mark.parametrize(("age", "groups"), [(13, {}), (14, {"A": ("p01",)})])
def test_a_pressure_station_alone_takes_nobody_under_fourteen(age, groups):
    """There is nowhere else to go: the thirteen-year-old is named, not squeezed in."""
    found, findings = split_class(make(people=people(1, p01={"age": age}), stations=stations(BEANS)))

    assert found == groups
    assert [f.about for f in findings if f.level == "blocker"] == ([] if groups else ["person p01"])


@pytest.mark.parametrize(("count", "names"), [(4, "Person p03 (p03), Person p04 (p04), Person p05 (p05), Person p06 (p06):"),
                                              (186, "Person p06 (p06) and 182 more:")])  # fmt: skip
def test_a_crowd_without_a_place_is_counted_after_a_few_names(count, names):
    """A hundred and eighty-six names in one sentence are read by nobody."""
    document = make(people=people(count + 2), stations=stations(PEACHES, group_size={"minimum": 1, "maximum": 2}))

    (finding,) = [f for f in split_class(document)[1] if f.level == "blocker"]

    assert names in finding.says
    assert f"{count + 2} people come, the stations take 2." in finding.says


def test_a_site_without_minors_places_none():
    """A seventeen-year-old is a minor even where nobody ticked the box."""
    groups, findings = split_class(make(site={"minors": False}, people=people(3, p03={"age": 17})))

    assert groups == {"A": ("p01", "p02")}
    assert findings[0].says == "Person p03 (p03) can work at no station: the site does not take minors."


@pytest.mark.parametrize(("age", "ticked", "minor"), [(17, False, True), (18, False, False), (30, True, True), (None, False, False)])
def test_who_counts_as_a_minor(age, ticked, minor):
    """Under eighteen, or ticked."""
    (person,) = make(people=people(1, p01={"age": age, "minor": ticked})).people

    assert is_minor(person) is minor


def test_a_wish_that_is_given_up_is_named():
    """Three pairs in two groups of three: one pair parts, and the warning says which."""
    everyone = people(6, p01={"with": ["p02"]}, p03={"with": ["p04"]}, p05={"with": ["p06"]})
    size = {"minimum": 1, "maximum": 3}

    groups, findings = split_class(make(people=everyone, stations=stations(PEACHES, TOMATOES, group_size=size)))

    assert {len(ids) for ids in groups.values()} == {3}
    assert [(f.rule, f.level) for f in findings] == [("groups", "warning")]
    assert findings[0].says.startswith("Person p03 (p03) and Person p04 (p04) work apart although they wish to be together")
    assert [p in groups["A"] for p in ("p01", "p02")] in ([True, True], [False, False])


def test_someone_who_does_not_come_is_no_wish():
    """With and apart count only among those who are there."""
    everyone = people(3, p01={"with": ["p03"]}, p03={"attending": False})

    assert split_class(make(people=everyone))[1] == ()


def test_two_who_must_be_apart_at_one_station_are_named():
    """There is only one station: the wish is given up in the open."""
    _, findings = split_class(make(people=people(2, p01={"apart": ["p02"]})))

    assert findings[0].level == "warning"
    assert findings[0].says.startswith("Person p01 (p01) and Person p02 (p02) share station A although they wish to be apart")


def test_a_station_nobody_is_sent_to_is_closed():
    """Three people cannot fill two groups of two: the second station closes, with a warning and not a blocker."""
    size = {"minimum": 2, "maximum": 4}

    groups, findings = split_class(make(people=people(3), stations=stations(PEACHES, TOMATOES, group_size=size)))

    assert groups == {"A": ("p01", "p02", "p03")}
    assert [(f.rule, f.level, f.about) for f in findings] == [("groups", "warning", "station B")]


def test_more_people_than_places_is_a_blocker_that_names_them():
    """Six people, room for four: the last two have no place."""
    size = {"minimum": 1, "maximum": 2}

    groups, findings = split_class(make(people=people(6), stations=stations(PEACHES, TOMATOES, group_size=size)))

    assert sum(map(len, groups.values())) == 4
    (finding,) = findings
    assert (finding.rule, finding.level) == ("groups", "blocker")
    assert "Person p05 (p05), Person p06 (p06): 6 people come, the stations take 4" in finding.says


def test_a_group_below_its_least_is_a_blocker():
    """One person cannot make a group of two, and there is nowhere else to go."""
    size = {"minimum": 2, "maximum": 4}

    groups, findings = split_class(make(people=people(1), stations=stations(PEACHES, group_size=size)))

    assert groups == {"A": ("p01",)}
    assert findings[0].says == "Station A has 1 of the 2 people its group needs, and they fit nowhere else."
    assert findings[0].level == "blocker"


def test_a_class_of_demonstrations_has_no_place_for_people():
    """Everybody would only look on; that is said before the flyer goes out."""
    _, findings = split_class(make(people=people(2), stations=stations({**PEACHES, "demonstration": "s1"})))

    assert findings[0].level == "blocker"
    assert "p02" in findings[0].says


def test_labels_are_read_for_people_with_allergies():
    """Pectin, vinegar and spice mixes tell their allergens on the label only."""
    document = make(people=people(2, p01={"allergens": ["wheat"]}), stations=stations(JAM))

    _, findings = split_class(document, A={"allergen_note": "Read the pectin's label."})

    assert findings[0].says == "Read the labels before station A starts, for Person p01 (p01) (wheat). Read the pectin's label."


def test_a_name_of_three_hundred_letters_does_not_drown_the_sentence():
    """The id still tells who is meant."""
    everyone = people(2, p01={"name": "N" * 300, "apart": ["p02"]})

    _, findings = split_class(make(people=everyone))

    assert "NNN... (p01)" in findings[0].says
    assert len(findings[0].says) < 300


def test_a_class_where_nobody_comes_closes_every_station():
    """Everybody called off: warnings, and no groups to print."""
    groups, findings = split_class(make(people=people(1, p01={"attending": False}), stations=stations(PEACHES, TOMATOES)))

    assert groups == {}
    assert [(f.level, f.about) for f in findings] == [("warning", "station A"), ("warning", "station B")]
