"""Which papers does a class get, under which names, and are they all there or none?"""

from __future__ import annotations

import contextlib
import os
import shutil
import tempfile
from collections.abc import Callable, Collection
from dataclasses import dataclass
from pathlib import Path

from jarwright.errors import PlanError, nearest
from jarwright.model.plan import Plan
from jarwright.papers.plan_file import write_plan_file

ASIDE = ".jarwright-"


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper: its name, the file it becomes, and what writes it."""

    name: str
    file: str
    write: Callable[[Plan, Path], None]


def _write_cards(plan: Plan, path: Path) -> None:
    from jarwright.papers.station_cards import write_station_cards

    write_station_cards(plan, path, stations=_taught(plan))


def _write_workbook(plan: Plan, path: Path) -> None:
    from jarwright.papers.workbook import write_workbook

    write_workbook(plan, path)


PAPERS = (
    Paper("station cards", "1 station cards.pdf", _write_cards),
    Paper("shopping", "2 shopping.xlsx", _write_workbook),
    Paper("plan", "plan.json", write_plan_file),
)


def export_papers(plan: Plan, folder: Path, *, only: Collection[str] | None = None, overwrite: bool = False) -> tuple[Path, ...]:
    """
    Write the papers of a plan into a folder, made if it is not there, and return their paths in the order of their names.

    A blocked station gets no card; where no station is left, the file of cards is left out. Either all files appear or none.

    Parameters
    ----------
    only
        Names of papers ("station cards") or of their files; None is all of them.
    overwrite
        Replace files of the same names.

    Raises
    ------
    PlanError
        `only` names no paper, a file is there already, or the folder cannot be written to.
    """
    papers = [paper for paper in _chosen(only) if paper.write is not _write_cards or _taught(plan)]
    if folder.exists() and not folder.is_dir():
        raise PlanError("This is a file, not a folder", where=str(folder), fix="Name a folder for the papers")
    there = [paper.file for paper in papers if os.path.lexists(folder / paper.file)]
    if there and not overwrite:
        named = f"{there[0]} and {len(there) - 1} more are" if len(there) > 1 else f"{there[0]} is"
        raise PlanError(
            f"{named} there already", where=str(folder), fix="Name another folder, move the old papers away, or ask for them to be replaced"
        )
    try:
        return _written(plan, folder, papers)
    except OSError as error:
        raise PlanError(
            f"The papers cannot be written: {error.strerror or error}", where=str(folder), fix="Name a folder you may write to"
        ) from error


def _chosen(only: Collection[str] | None) -> tuple[Paper, ...]:
    if only is None:
        return PAPERS
    known = {_key(name): paper for paper in PAPERS for name in _names(paper)}
    for word in only:
        if _key(word) not in known:
            guess = nearest(_key(word), known)
            meant = f"Did you mean {known[guess].name!r}? " if guess else ""
            names = ", ".join(paper.name for paper in PAPERS)
            raise PlanError(f"There is no paper called {word[:60]!r}; known: {names}", fix=f"{meant}Name one of these")
    wanted = {known[_key(word)].name for word in only}
    return tuple(paper for paper in PAPERS if paper.name in wanted)


def _names(paper: Paper) -> tuple[str, ...]:
    return paper.name, paper.name.split()[-1], paper.file, paper.file.rsplit(".", 1)[0]


def _key(word: str) -> str:
    return " ".join(word.lower().replace("-", " ").replace("_", " ").split())


def _taught(plan: Plan) -> tuple[str, ...]:
    """Return the stations that have something to do: not blocked, not closed for want of people."""
    ready = (brief for brief in plan.briefs if not brief.blocked and brief.station not in plan.blocked_stations)
    return tuple(brief.station for brief in ready if brief.lines or brief.group)


def _written(plan: Plan, folder: Path, papers: list[Paper]) -> tuple[Path, ...]:
    """Write every paper aside in the same folder, then give them their names: nobody meets half a file."""
    made = not folder.exists()
    folder.mkdir(parents=True, exist_ok=True)
    aside = Path(tempfile.mkdtemp(prefix=ASIDE, dir=folder))
    named: list[Path] = []
    try:
        for paper in papers:
            paper.write(plan, aside / paper.file)
            _flush(aside / paper.file)
        for paper in papers:
            target = folder / paper.file
            named += [] if target.exists() else [target]
            os.replace(aside / paper.file, target)
    except BaseException:
        for path in named:
            path.unlink(missing_ok=True)
        shutil.rmtree(aside, ignore_errors=True)
        if made:
            with contextlib.suppress(OSError):
                folder.rmdir()
        raise
    aside.rmdir()
    return tuple(folder / paper.file for paper in papers)


def _flush(path: Path) -> None:
    with path.open("rb+") as file:
        os.fsync(file.fileno())
