"""A plan prints the part that others read, and knows what blocks it."""

import json

import pytest

from jarwright.model.document import document_from_json
from jarwright.model.plan import Finding, Load, Phase, Plan, Verdict, plan_to_json


@pytest.fixture
def plan(small_class):
    """Return a plan of the small class with one load and three findings."""
    load = Load("L1", "k1", "b1", "boiling-water", "s1", 25, None, None, (), (Phase("preheat", -40, 20), Phase("unload", 90, 94)))
    findings = (
        Finding("not-published", "blocker", "station B", "no row", "choose another jar"),
        Finding("circuit", "blocker", "class", "too much", "borrow gas"),
        Finding("tight", "warning", "class", "little room"),
    )
    return Plan(
        document=document_from_json(small_class),
        verdict=Verdict("blocked", False, 94, 180, 86, 0, None, True, 94, 0.2, "Blocked"),
        findings=findings,
        groups=(),
        batches=(),
        tasks=(),
        loads=(load,),
        circuits=(),
        jars=(),
        take_home=(),
        shopping=(),
        cost=None,
        ahead=(),
        schedule=(),
        briefs=(),
        recipes=(),
        cautions=(),
        editions={"process times": "2015"},
    )


def test_printed_plan_keeps_its_contract(plan):
    """Other programs read these names; the inner ones (briefs, recipes) stay inside."""
    printed = json.loads(json.dumps(plan_to_json(plan)))

    assert (printed["format"], printed["class"]["elevation_ft"], printed["class"]["end"]) == ("jarwright.plan/1", 2350, "12:00")
    assert printed["verdict"]["finish_bound_minute"] == 94
    assert printed["loads"][0]["phases"][0] == {"name": "preheat", "start": -40, "end": 20, "low": None, "high": None, "likely": None}
    assert {"groups", "batches", "tasks", "circuits", "jars", "take_home", "shopping", "cost", "ahead"} <= printed.keys()
    assert not {"briefs", "recipes", "document"} & printed.keys()


def test_blocked_stations_are_those_with_a_blocker_of_their_own(plan):
    """A blocker about the class keeps every card back, but marks no single station."""
    assert plan.blocked_stations == {"B"}
    assert [finding.rule for finding in plan.blockers] == ["not-published", "circuit"]


def test_load_runs_from_heat_to_the_last_jar(plan):
    """The burner is on before the jars go in."""
    load = plan.loads[0]

    assert (load.start, load.end, load.phase("preheat").end, load.phase("vent")) == (-40, 94, 20, None)
