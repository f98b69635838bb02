"""When is a class planned again, and how does the answer reach the window?

Threads: the window's thread calls the methods of `PlanRunner`; planning and exports run one after another on one worker thread;
answers are handed to `post`, which must run what it is given on the window's thread. A callback of ours is therefore only ever
called there, and never for a class that has changed since.
"""

from __future__ import annotations

import threading
import traceback
from collections.abc import Callable, Collection
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Protocol, TypeVar

from jarwright.errors import JarwrightError, PlanError
from jarwright.model.document import ClassDocument
from jarwright.model.plan import Plan
from jarwright.workbench.open_class import OpenClass

Post = Callable[[Callable[[], None]], None]
T = TypeVar("T")


class PlanFunction(Protocol):
    """Turns a class into a plan; `on_better` gets plans found on the way, `cancelled` says when to stop looking."""

    def __call__(self, document: ClassDocument, *, on_better: Callable[[Plan], None], cancelled: Callable[[], bool]) -> Plan:
        """Return the best plan found."""
        ...


class ExportFunction(Protocol):
    """Writes the papers of a plan into a folder."""

    def __call__(self, plan: Plan, folder: Path, *, only: Collection[str] | None, overwrite: bool) -> tuple[Path, ...]:
        """Return the files written."""
        ...


@dataclass(frozen=True, slots=True)
class Answer:
    """
    What became of a request to plan.

    `generation` counts the requests. `plan` is None only where `error` says why. A plan that is not `is_final` is the best so
    far; more may come. `details` is for a report to the maintainers where the error was not foreseen.
    """

    generation: int
    plan: Plan | None
    is_final: bool
    error: JarwrightError | None = None
    details: str = ""


@dataclass(frozen=True, slots=True)
class Exported:
    """The files written, or why none were."""

    paths: tuple[Path, ...]
    error: JarwrightError | None = None
    details: str = ""


class PlanRunner:
    """
    Plans on one background thread; only the answer to the latest request is ever delivered.

    Parameters
    ----------
    deliver
        Called on the window's thread with each answer that still counts.
    post
        Runs a callable on the window's thread; called from the worker.
    plan, export
        What the worker runs; the real planner and the papers where they are None (imported there, at first use).
    """

    def __init__(
        self, deliver: Callable[[Answer], None], post: Post, *, plan: PlanFunction | None = None, export: ExportFunction | None = None
    ) -> None:
        self._deliver, self._post = deliver, post
        self._plan: PlanFunction = plan or plan_on_file
        self._export: ExportFunction = export or export_on_file
        self._worker = ThreadPoolExecutor(1, thread_name_prefix="planner")
        self._asked = _Request(0)
        self._busy = False
        self._closed = False

    @property
    def generation(self) -> int:
        """Number of the latest request."""
        return self._asked.generation

    @property
    def is_planning(self) -> bool:
        """Whether the answer to the latest request is still to come (window's thread)."""
        return self._busy

    def request(self, document: ClassDocument) -> int:
        """Plan this class; whatever was being planned before is stopped and its answer dropped. Return the request's number."""
        self.cancel()
        self._asked = _Request(self._asked.generation + 1)
        self._busy = True
        self._worker.submit(self._run, self._asked, document)
        return self._asked.generation

    def cancel(self) -> None:
        """Stop planning; nothing more is delivered for requests made so far."""
        self._asked.dropped.set()
        self._asked.stop.set()
        self._busy = False

    def stop_looking(self) -> None:
        """Stop looking for a better plan; the best found so far is delivered as the final answer."""
        self._asked.stop.set()

    def follow(self, open_class: OpenClass) -> Callable[[], None]:
        """Plan this class now and after each change of its document; the answer ends that."""
        planned: list[ClassDocument] = []

        def plan_again(changed: OpenClass) -> None:
            if not planned or planned[-1] is not changed.document:
                planned[:] = [changed.document]
                self.request(changed.document)

        plan_again(open_class)
        return open_class.subscribe(plan_again)

    def export(
        self, plan: Plan, folder: Path, done: Callable[[Exported], None], *, only: Collection[str] | None = None, overwrite: bool = False
    ) -> None:
        """
        Write the papers of a plan after what is running now; `done` is called on the window's thread.

        `only` names the papers wanted, None is all; `overwrite` lets them take the place of files of the same names.
        """
        self._worker.submit(self._write, partial(self._export, plan, folder, only=only, overwrite=overwrite), done)

    def close(self) -> None:
        """Stop everything and wait for the worker; an export under way is finished, nothing is delivered any more."""
        self.cancel()
        self._closed = True
        self._worker.shutdown(wait=True, cancel_futures=True)

    def _run(self, asked: _Request, document: ClassDocument) -> None:
        """Plan (worker thread)."""
        if asked.dropped.is_set():
            return

        def better(plan: Plan) -> None:
            if not asked.stop.is_set():
                self._send(Answer(asked.generation, plan, is_final=False))

        plan, error, details = _attempt(lambda: self._plan(document, on_better=better, cancelled=asked.stop.is_set), "planned")
        self._send(Answer(asked.generation, plan, is_final=True, error=error, details=details))

    def _send(self, answer: Answer) -> None:
        self._post(lambda: self._receive(answer))

    def _receive(self, answer: Answer) -> None:
        """Pass on what is not stale (window's thread)."""
        if answer.generation == self._asked.generation and self._busy:
            self._busy = not answer.is_final
            self._deliver(answer)

    def _write(self, export: Callable[[], tuple[Path, ...]], done: Callable[[Exported], None]) -> None:
        """Export (worker thread)."""
        paths, error, details = _attempt(export, "printed")
        result = Exported(paths or (), error, details)
        self._post(lambda: None if self._closed else done(result))


class _Request:
    """A request to plan; `stop` ends the search, `dropped` says that nobody wants the answer."""

    def __init__(self, generation: int) -> None:
        self.generation = generation
        self.stop, self.dropped = threading.Event(), threading.Event()


def _attempt(act: Callable[[], T], what: str) -> tuple[T | None, JarwrightError | None, str]:
    """Return what `act` gives, or why it failed: on a worker thread nobody else would hear of it."""
    try:
        return act(), None, ""
    except JarwrightError as error:
        return None, error, ""
    except Exception as error:
        return None, unforeseen(what, error), traceback.format_exc()


def unforeseen(what: str, error: Exception) -> PlanError:
    """Return a failure that nobody foresaw as one a person can act on."""
    said = f"{type(error).__name__}: {error}" if str(error) else type(error).__name__
    return PlanError(f"The class could not be {what} ({said[:200]})", fix="Save the class and send it with this message to the maintainers")


def plan_on_file(document: ClassDocument, *, on_better: Callable[[Plan], None], cancelled: Callable[[], bool]) -> Plan:
    """Plan with the published tables; planner and solver are imported at first use, so that no window waits for them."""
    from jarwright.planning.pipeline import plan_class
    from jarwright.reference.library import load_reference

    return plan_class(document, load_reference(), on_better=on_better, cancelled=cancelled)


def export_on_file(plan: Plan, folder: Path, *, only: Collection[str] | None, overwrite: bool) -> tuple[Path, ...]:
    """Write the papers; the typesetter is imported at first use."""
    from jarwright.papers.export import export_papers

    return export_papers(plan, folder, only=only, overwrite=overwrite)
