"""What the stages answer together."""

from demo_class import make, people
from jarwright.planning.pipeline import plan_class
from jarwright.reference.library import load_reference


def test_break_even_is_not_reached_by_stations_that_make_nothing():
    """Five people at 20 quarts each are more batches than a station makes: nothing to buy is no reason to say it pays at five."""
    document = make(
        people=people(1), take_home={"jars_each": 20}, attendance={"fee": "10.00", "maximum": 12}, costs={"fixed": "45.00"}
    )  # fmt: skip

    plan = plan_class(document, load_reference())

    assert plan.cost.total == "45.00"
    assert plan.cost.break_even_people is None


def test_a_wish_about_nothing_is_named():
    """A pin on a station that was since removed must not vanish without a word; one on a station that is there is kept."""
    document = make(people=people(3), pins=[{"about": "station Z", "not_before": 20}, {"about": "station A", "not_before": 40}])

    plan = plan_class(document, load_reference())

    (finding,) = [finding for finding in plan.findings if finding.rule == "pins"]
    assert finding.level == "warning"
    assert "station Z" in finding.says
    assert "station A" not in finding.says
    assert min(task.start for task in plan.tasks if task.station == "A") == 40
