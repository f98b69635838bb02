"""Does the plan that other tests start from agree with itself and with the tables?"""

import csv

from jarwright.reference.folders import resource_folder
from sample_plan import sample_plan


def test_jars_in_the_loads_are_the_jars_of_the_batches():
    """A sample that does not add up would hide what does not add up on paper."""
    plan = sample_plan()

    carried = {batch.id: sum(jars.count for load in plan.loads for jars in load.jars if jars.batch == batch.id) for batch in plan.batches}

    assert carried == {"A1": 11, "C1": 9}
    assert [count.made_low - count.promised - count.held_back for count in plan.jars] == [1, 1]


def test_process_figures_are_rows_of_the_published_tables():
    """Even a test never carries an invented process time."""
    folder = resource_folder() / "published"
    published = set()
    for name in ("process_times_bwc.csv", "process_times_pressure.csv"):
        with (folder / name).open(encoding="utf-8", newline="") as file:
            for row in csv.DictReader(file):
                published.add((row["product"], row["pack_style"], row["jar_size"], row["elevation_min_ft"], row["minutes"], row["source"]))

    used = {jars.process for load in sample_plan().loads for jars in load.jars}

    assert len(used) == 2
    for process in used:
        row = (process.product, process.pack, process.jar, str(process.elevation_min_ft), str(process.minutes), process.source)
        assert row in published


def test_a_ready_plan_has_no_blocker_and_no_blocked_station():
    """Papers of a good class are tested with a class that is good."""
    plan = sample_plan(ready=True)

    assert plan.blockers == ()
    assert [brief.station for brief in plan.briefs] == ["A", "C"]
