"""What does the solver decide? The variables of a timetable, what may be best about it, and how an answer is read."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from typing import Any

from ortools.sat.python import cp_model

from jarwright.planning.timetable.problem import PlacedLoad, PlacedPortion, Placement, Problem


class Slot:
    """The variables of one possible load of a canner."""

    def __init__(self, model: cp_model.CpModel, name: str, earliest: int, horizon: int) -> None:
        def minute(what: str) -> cp_model.IntVar:
            return model.new_int_var(earliest, horizon, f"{name} {what}")

        self.active = model.new_bool_var(f"{name} active")
        self.on, self.ready, self.load = minute("on"), minute("ready"), minute("load")
        self.process, self.done, self.opened, self.unload, self.end = (
            minute("process"), minute("done"), minute("opened"), minute("unload"), minute("end"),
        )  # fmt: skip
        self.keys: dict[tuple[str, float | None, int], cp_model.IntVar] = {}
        self.sterile: dict[int, cp_model.IntVar] = {}
        self.keepers: list[cp_model.IntVar] = []


@dataclass(slots=True)
class Piece:
    """The variables of one portion of a batch: `inside` says which load (canner, number) it goes into."""

    used: cp_model.IntVar
    count: Any
    start: cp_model.IntVar
    end: Any
    pots: list[cp_model.IntVar | None]
    inside: dict[tuple[int, int], cp_model.IntVar] = field(default_factory=dict)


class Model:
    """
    One problem stated for the solver.

    With `strict`, every deadline and every jar's wait is a rule; without it both may be broken and are counted.
    """

    def __init__(self, problem: Problem, *, strict: bool, horizon: int, slots: dict[int, int]) -> None:
        self.problem, self.strict, self.horizon = problem, strict, horizon
        self.cp = cp_model.CpModel()
        self.slot_counts = slots
        self.first = min(problem.access, 0)
        self.hands: dict[int, list[tuple[Any, int]]] = defaultdict(list)
        self.job_starts: list[cp_model.IntVar] = []
        self.job_pots: list[list[cp_model.IntVar | None]] = []
        self.slots: dict[int, list[Slot]] = {}
        self.stands: dict[int, dict[int, cp_model.IntVar]] = {}
        self.pieces: list[list[Piece]] = []
        self.drawn: dict[int, list[tuple[Any, Any]]] = defaultdict(list)
        self.standing: dict[int, list[tuple[Any, Any]]] = defaultdict(list)
        self.alone: dict[str, list[Any]] = defaultdict(list)
        self.late = self.cp.new_int_var(0, 0 if strict else horizon, "late")
        self.finish = self.cp.new_int_var(0, horizon, "finish")
        self.waits: list[Any] = []
        self.overruns: list[Any] = []
        self.big_jars: dict[tuple[int, int], tuple[cp_model.IntVar, int]] = {}

    def loads(self) -> Any:
        """Return the number of loads."""
        return cp_model.LinearExpr.sum([slot.active for slots in self.slots.values() for slot in slots])

    def slack(self) -> Any:
        """Waiting and idling: jars that stand filled, food that stands ready, canners on for nothing, kettles boiled too early."""
        parts: list[Any] = [4 * stands for stands in self.waits]
        for job, start in zip(self.problem.jobs, self.job_starts, strict=True):
            parts.append(-start if job.station is None else start)
            parts += [2 * (start - self.job_starts[before]) for before in job.after if not self.problem.jobs[before].keeps]
        for portions, pieces in zip(self.problem.portions, self.pieces, strict=True):
            parts += [2 * (pieces[0].start - self.job_starts[before]) for before in portions.after if not self.problem.jobs[before].keeps]
        for slots in self.slots.values():
            parts += [2 * (slot.end - slot.on) for slot in slots] + [slot.end for slot in slots]
        return cp_model.LinearExpr.sum(parts)

    def hint(self, values: list[int]) -> None:
        """Start from an earlier answer of this very model."""
        self.cp.clear_hints()  # type: ignore[no-untyped-call]
        for index, value in enumerate(values):
            self.cp.add_hint(self.cp.get_int_var_from_proto_index(index), value)

    def read(self, value: Any) -> Placement:
        """Return what the solver found; `value` gives the number of a variable."""
        problem = self.problem
        loads, portions = [], []
        for index, slots in self.slots.items():
            unit = problem.units[index]
            burner = next(chosen for chosen, literal in self.stands[index].items() if value(literal))
            for number, slot in enumerate(slots):
                if not value(slot.active):
                    continue
                sterile = next((m for m, var in slot.sterile.items() if value(var)), 0)
                ready, process = value(slot.ready), value(slot.process)
                loads.append(PlacedLoad(
                    unit=index, slot=number, burner=burner, on=value(slot.on), water_ready=ready,
                    sterile=(ready, ready + sterile) if sterile else None, load=value(slot.load),
                    come_up_end=process - unit.vent - unit.pressurise, process_start=process, process_end=value(slot.done),
                    depressurised=value(slot.opened) - (unit.wait if unit.kind == "pressure" else 0), unload=value(slot.unload),
                    keeper=next(k.id for k, kept in zip(problem.keepers, slot.keepers, strict=True) if value(kept)),
                ))  # fmt: skip
        for index, pieces in enumerate(self.pieces):
            for piece in pieces:
                if value(piece.used):
                    unit_index, number = next(place for place, goes in piece.inside.items() if value(goes))
                    count = piece.count if isinstance(piece.count, int) else value(piece.count)
                    portions.append(PlacedPortion(
                        portion=index, jars=count, fill_start=value(piece.start), fill_end=value(piece.end),
                        unit=unit_index, slot=number, burners=_classes(piece.pots, value),
                    ))  # fmt: skip
        return Placement(
            starts=tuple(value(start) for start in self.job_starts),
            portions=tuple(portions),
            loads=tuple(loads),
            job_burners=tuple(_classes(pots, value) for pots in self.job_pots),
            finish=value(self.finish),
            late=value(self.late),
        )


def _classes(pots: list[cp_model.IntVar | None], value: Any) -> tuple[int, ...]:
    return tuple(index for index, number in enumerate(pots) if number is not None for _ in range(value(number)))
