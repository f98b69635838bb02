"""Which placement is best? Goals in order, each proven or with its gap, by one worker that always gives the same answer."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from jarwright.planning.timetable.bounds import best_bound
from jarwright.planning.timetable.greedy import greedy
from jarwright.planning.timetable.problem import Placement, Problem

SEED = 20270814
CANCEL_POLL_SECONDS = 0.05
# A class that is late is told so either way; less is spent on proving by how much at least.
LATE_LIMIT = 6.0
HOPELESS_MINUTES = 90
LATER_BY = (30, 60, 120, 240, 480, None)


@dataclass(frozen=True, slots=True)
class Answer:
    """
    What the search ended with.

    `status`: "proven" (no earlier finish exists), "found", "none" (nothing found in the limit), "impossible" (proven so).
    `bound` is the earliest finish not ruled out. [min]
    """

    status: str
    placement: Placement | None
    bound: int | None
    seconds: float


def solve(
    problem: Problem,
    *,
    on_better: Callable[[Placement, int | None], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
    time_limit: float | None = None,
) -> Answer:
    """
    Place everything: nothing late, no jar waiting too long, earliest finish, fewest loads, least waiting.

    The same problem gives the same answer unless `time_limit` [s] or `cancelled` ends the search early. Whoever listens to
    `on_better` gets a picture made without search at once; that picture is also the answer where the search found none.
    """
    search = _Search(problem, on_better, cancelled, time_limit)
    if on_better is not None and (picture := greedy(problem, search.far_horizon())) is not None:
        on_better(picture, None)
    try:
        search.run()
    except (ImportError, RuntimeError, MemoryError):
        # A solver that cannot be loaded or gives up must not leave a class without any plan.
        search.status = "none"
    if search.placement is None and search.status == "none" and not search.is_cancelled():
        search.placement = greedy(problem, search.far_horizon())
        search.status = "none" if search.placement is None else "found"
    return Answer(search.status, search.placement, search.bound, time.perf_counter() - search.began)


class _Search:
    def __init__(self, problem: Problem, on_better: Any, cancelled: Any, time_limit: float | None) -> None:
        self.problem, self.on_better, self.cancelled, self.time_limit = problem, on_better, cancelled, time_limit
        self.began = time.perf_counter()
        self.placement: Placement | None = None
        self.values: list[int] = []
        self.bound: int | None = None
        self.status = "none"
        self.spent = 0.0
        loads = sum(portions.most for portions in problem.portions)
        self.finish_limit = min(20.0, 4.0 + 1.5 * loads)
        self.later_limit = 0.1 + 0.02 * loads

    def run(self) -> None:
        """Search on time first; open the hours only where that is proven or found impossible."""
        from jarwright.planning.timetable.build import build_model

        problem = self.problem
        latest = max(problem.end, problem.loads_out, problem.clear_by)
        strict = build_model(problem, strict=True, horizon=latest, slots=self.slots(True))
        outcome = self.minimise(strict, strict.finish, self.finish_limit, reports=True)
        if outcome in ("optimal", "feasible"):
            self.polish(strict)
            return
        if outcome == "unknown" and self.is_over():
            return
        self.run_late()

    def run_late(self) -> None:
        """Nothing on time exists: least lateness, then least waiting of filled jars, then the earliest finish."""
        from jarwright.planning.timetable.build import build_model

        problem = self.problem
        deadline, far = max(problem.end, problem.loads_out, problem.clear_by), self.far_horizon()
        picture, bound = greedy(problem, far), best_bound(problem)
        if picture is not None:
            far = min(far, max(deadline, picture.finish) + picture.late)
        surely = bound.minute - deadline if bound is not None else 0
        outcome, budget = "impossible", LATE_LIMIT if surely < HOPELESS_MINUTES else LATE_LIMIT / 4
        goal_limit = budget / 3
        for extra in LATER_BY:
            if extra is not None and extra < surely and deadline + extra < far:
                continue
            # A near horizon is proven too near in moments, and the first one that is not holds the least lateness too.
            horizon = far if extra is None else min(far, deadline + extra)
            model = build_model(problem, strict=False, horizon=horizon, slots=self.slots(False))
            outcome = self.minimise(model, model.late, max(0.5, budget), reports=True)
            budget -= self.spent
            if outcome in ("optimal", "feasible") or horizon == far or self.is_over():
                break
        if picture is not None and (self.placement is None or picture.late < self.placement.late):
            self.placement, self.status = picture, "found"
            return
        if outcome not in ("optimal", "feasible"):
            self.status = "impossible" if outcome == "impossible" else "none"
            return
        assert self.placement is not None
        model.cp.add(model.late <= self.placement.late)
        overrun = sum(model.overruns)
        if self.overrun() > 0:
            self.minimise(model, overrun, goal_limit)
        model.cp.add(overrun <= self.overrun())
        if problem.loads_out == problem.end and outcome == "optimal":
            # Every deadline is the end of the class, so the least lateness is the earliest finish.
            self.placement = replace(self.placement, finish=problem.end + self.placement.late)
            self.bound = self.placement.finish
        else:
            self.bound = None
            self.minimise(model, model.finish, goal_limit, reports=True)
            self.bound = max(self.bound or 0, bound.minute if bound is not None else 0) or None
        self.polish(model)

    def overrun(self) -> int:
        """Return by how many minutes filled jars wait too long in the answer at hand, all together."""
        assert self.placement is not None
        loaded = {(load.unit, load.slot): load.load for load in self.placement.loads}
        waits = (loaded[portion.unit, portion.slot] - portion.fill_end for portion in self.placement.portions)
        return sum(max(0, wait - self.problem.filled_wait) for wait in waits)

    def polish(self, model: Any) -> None:
        """Keep the finish; fewest loads, then least waiting. A goal cut off keeps the best answer so far."""
        assert self.placement is not None
        finish = self.placement.finish
        self.status = "proven" if self.bound == finish else "found"
        model.cp.add(model.finish <= finish)
        if self.minimise(model, model.loads(), self.later_limit) in ("optimal", "feasible"):
            model.cp.add(model.loads() <= len(self.placement.loads))
        self.minimise(model, model.slack(), self.later_limit)

    def minimise(self, model: Any, goal: Any, limit: float, *, reports: bool = False) -> str:
        if self.is_over():
            return "unknown"
        from ortools.sat.python import cp_model

        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = SEED
        # Both cost more than they bring on classes of 4 to 8 stations: twice to four times the time to the proof.
        solver.parameters.cp_model_probing_level = 0
        solver.parameters.linearization_level = 0
        solver.parameters.max_deterministic_time = limit
        if self.time_limit is not None:
            solver.parameters.max_time_in_seconds = max(0.05, self.time_limit - (time.perf_counter() - self.began))
        if self.values:
            model.hint(self.values)
        model.cp.minimize(goal)
        callback = _reporter(model, self) if reports and self.on_better else None
        with _Watch(solver, self.cancelled):
            status = solver.solve(model.cp, callback)
        self.spent = solver.response_proto.deterministic_time
        if status == cp_model.INFEASIBLE:
            return "impossible"
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return "unknown"
        self.values = list(solver.response_proto.solution)
        self.placement = model.read(solver.value)
        if goal is model.finish:
            self.bound = min(round(solver.best_objective_bound), self.placement.finish)
        return "optimal" if status == cp_model.OPTIMAL else "feasible"

    def is_cancelled(self) -> bool:
        """Say whether nobody wants the answer any more."""
        return self.cancelled is not None and self.cancelled()

    def is_over(self) -> bool:
        """Say whether the time is up or the search was cancelled."""
        out_of_time = self.time_limit is not None and time.perf_counter() - self.began > self.time_limit
        return out_of_time or self.is_cancelled()

    def slots(self, strict: bool) -> dict[int, int]:
        """How many loads a canner may make: as many as there are portions for it, or as fit one after the other."""
        problem, counts = self.problem, {}
        for index, unit in enumerate(problem.units):
            portions = [p for p in problem.portions if any(way.unit == index for way in p.ways)]
            most = sum(p.most for p in portions)
            if portions and not strict:
                rivals = min(len({way.unit for way in p.ways}) for p in portions)
                most = min(most, -(-most // rivals) + 2)
            if strict and portions:
                shortest = min(way.minutes for p in portions for way in p.ways if way.unit == index)
                climb = min(times[p.pack].come_up for times in unit.times.values() for p in portions)
                fall = unit.rest if unit.kind != "pressure" else min(unit.depressurise.values()) + unit.wait
                cycle = unit.load + climb + unit.vent + unit.pressurise + shortest + fall + unit.unload
                refresh = min(times[p.pack].refresh for times in unit.times.values() for p in portions)
                room = problem.loads_out - min(p.earliest for p in portions)
                most = min(most, max(1, (room + refresh) // (cycle + refresh)))
            counts[index] = most
        return counts

    def far_horizon(self) -> int:
        """A day long enough that everything could be done one after the other."""
        problem = self.problem
        work = sum(job.minutes for job in problem.jobs) + sum(p.fill_minutes(p.jars) + p.most for p in problem.portions)
        stops = max((end for _, end in problem.stops), default=0)
        earliest = max([p.earliest for p in problem.portions] + [job.earliest for job in problem.jobs], default=0)
        loads = 0
        for portions in problem.portions:
            worst = 0
            for way in portions.ways:
                unit = problem.units[way.unit]
                fall = unit.rest + unit.wait + max(unit.depressurise.values(), default=0)
                heat = max(
                    max(t.preheat, t.preheat_boil, t.refresh, t.refresh_boil) + t.come_up
                    for times in unit.times.values()
                    for t in times.values()
                )
                worst = max(
                    worst, unit.load + unit.unload + unit.vent + unit.pressurise + way.minutes + fall + heat + portions.sterile + 20
                )
            loads += worst * portions.most
        return max(problem.end, problem.loads_out, problem.clear_by, stops, earliest, 0) + work + 2 * loads


class _Watch:
    """Stops a solver within moments of a cancel, from a thread of its own."""

    def __init__(self, solver: Any, cancelled: Callable[[], bool] | None) -> None:
        self.solver, self.cancelled, self.done = solver, cancelled, threading.Event()

    def __enter__(self) -> None:
        if self.cancelled is not None:
            threading.Thread(target=self.poll, daemon=True).start()

    def __exit__(self, *_: object) -> None:
        self.done.set()

    def poll(self) -> None:
        assert self.cancelled is not None
        while not self.done.wait(CANCEL_POLL_SECONDS):
            if self.cancelled():
                self.solver.stop_search()


def _reporter(model: Any, search: _Search) -> Any:
    from ortools.sat.python import cp_model

    class Reporter(cp_model.CpSolverSolutionCallback):
        def on_solution_callback(self) -> None:
            search.on_better(model.read(self.value), None)

    return Reporter()
