"""Put all rules of a problem into one model for the solver."""

from __future__ import annotations

from jarwright.planning.timetable.canner_rules import place_loads
from jarwright.planning.timetable.jar_rules import place_portions
from jarwright.planning.timetable.model import Model
from jarwright.planning.timetable.problem import Problem
from jarwright.planning.timetable.shared_rules import order_twins, share_burners, share_hands, share_keepers
from jarwright.planning.timetable.work_rules import place_jobs


def build_model(problem: Problem, *, strict: bool, horizon: int, slots: dict[int, int]) -> Model:
    """
    Return the model of a problem.

    `slots` is how many loads each canner (by position) may make, `horizon` the last minute anything may happen; with `strict`,
    deadlines and the wait of filled jars are rules, otherwise they are counted in `late` and `overruns`.
    """
    model = Model(problem, strict=strict, horizon=horizon, slots=slots)
    for rules in (place_jobs, place_loads, place_portions, share_burners, share_hands, share_keepers, order_twins):
        rules(model)
    return model
