"""Station work in the model: starts, order, agenda items that stop work, pots on burners."""

from __future__ import annotations

from typing import Any

from ortools.sat.python import cp_model

from jarwright.planning.timetable.model import Model
from jarwright.planning.timetable.problem import Job


def place_jobs(model: Model) -> None:
    """Place all work of fixed length."""
    for job in model.problem.jobs:
        start = model.cp.new_int_var_from_domain(_allowed(model, job), f"{job.id} start")
        interval = model.cp.new_fixed_size_interval_var(start, job.minutes, job.id)
        model.job_starts.append(start)
        meets_deadline(model, start + job.minutes, job.latest_end, is_work=job.station is not None)
        if job.latest_start is not None:
            model.cp.add(start <= job.latest_start)
        for before in job.after:
            model.cp.add(start >= model.job_starts[before] + model.problem.jobs[before].minutes)
        for before in job.hot_after:
            model.cp.add(start <= model.job_starts[before] + model.problem.jobs[before].minutes + model.problem.hot_wait)
        if job.station is not None and job.hands:
            model.hands[job.station].append((interval, job.hands))
            demonstrator = model.problem.stations[job.station][2]
            if demonstrator is not None:
                model.alone[demonstrator].append(interval)
        model.job_pots.append(put_on_burners(model, interval, job.burners, job.id))


def _allowed(model: Model, job: Job) -> cp_model.Domain:
    """Return the starts that keep a job off the agenda items that stop work."""
    domain = cp_model.Domain(job.earliest, model.horizon - job.minutes)
    if job.ignores_stops:
        return domain
    for start, end in model.problem.stops:
        domain = domain.intersection_with(cp_model.Domain(start - job.minutes + 1, end - 1).complement())
    return domain


def meets_deadline(model: Model, end: Any, deadline: int, *, is_work: bool) -> None:
    """Hold an end against its deadline; work counts for the finish, chores of the whole class do not."""
    model.cp.add(end <= deadline + model.late)
    if is_work:
        model.cp.add(model.finish >= end)


def put_on_burners(
    model: Model, interval: Any, count: int, name: str, present: cp_model.IntVar | None = None
) -> list[cp_model.IntVar | None]:
    """Give `count` pots of a job a burner each, by class; returns how many of each class it takes."""
    if not count:
        return []
    taken: list[cp_model.IntVar | None] = []
    for index, burner in enumerate(model.problem.burners):
        if not burner.for_pots:
            taken.append(None)
            continue
        number = model.cp.new_int_var(0, min(count, len(burner.ids)), f"{name} on {index}")
        taken.append(number)
        model.standing[index].append((interval, number))
        if burner.circuit is not None:
            model.drawn[burner.circuit].append((interval, burner.demand_w * number))
    total = cp_model.LinearExpr.sum([number for number in taken if number is not None])
    model.cp.add(total == (count if present is None else count * present))
    return taken
