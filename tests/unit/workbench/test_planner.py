"""Planning goes on behind the window, and only answers that still count arrive."""

import queue
import threading
from dataclasses import replace
from pathlib import Path

import pytest

from jarwright.errors import PlanError
from jarwright.storage.templates import new_from_template
from jarwright.workbench import edits
from jarwright.workbench.open_class import OpenClass
from jarwright.workbench.planner import Answer, Exported, PlanRunner

PATIENCE = 10


class Window:
    """Stands for the window's event loop: what is posted runs when the window gets round to it."""

    def __init__(self):
        self.posted = queue.Queue()
        self.answers = []

    def post(self, act):
        """Take a callable from any thread."""
        self.posted.put(act)

    def run_one(self):
        """Run the next thing posted, waiting for it."""
        self.posted.get(timeout=PATIENCE)()

    def run_until_final(self):
        """Run what is posted until a final answer is there."""
        while not (self.answers and self.answers[-1].is_final):
            self.run_one()


def write_fake(plan, folder, *, only, overwrite):
    """Answer with a path that names what was asked for."""
    return (folder / f"{plan}, {only}, {'anew' if overwrite else 'first'}.pdf",)


class FakePlanner:
    """Answers with the title of the class, and waits where it is told to."""

    def __init__(self):
        self.threads, self.planned = [], []
        self.begun, self.go_on = threading.Event(), threading.Event()
        self.waits = False
        self.fails = None

    def __call__(self, document, *, on_better, cancelled):
        """Plan: one better answer on the way, then the last one."""
        self.threads.append(threading.current_thread())
        self.planned.append(document.title)
        self.begun.set()
        on_better(f"first of {document.title}")
        if self.waits:
            while not cancelled() and not self.go_on.wait(0.005):
                pass
        if self.fails:
            raise self.fails
        return f"{'stopped' if cancelled() else 'last'} of {document.title}"


@pytest.fixture
def window():
    """Return a window."""
    return Window()


@pytest.fixture
def planner():
    """Return a planner."""
    return FakePlanner()


@pytest.fixture
def runner(window, planner):
    """Return a runner that is closed after the test."""
    runner = PlanRunner(window.answers.append, window.post, plan=planner, export=write_fake)
    yield runner
    planner.go_on.set()
    runner.close()


def test_better_answers_arrive_before_the_last(document, window, runner):
    """The timetable is drawn early and improves while one looks at it."""
    number = runner.request(document)
    window.run_until_final()

    assert window.answers == [
        Answer(number, "first of Pears after work", is_final=False),
        Answer(number, "last of Pears after work", is_final=True),
    ]


def test_planning_runs_beside_the_window(document, window, planner, runner):
    """The window never waits, and nothing is drawn from the other thread."""
    planner.waits = True

    runner.request(document)

    assert planner.begun.wait(PATIENCE)
    assert planner.threads[0] is not threading.current_thread()
    assert (runner.is_planning, window.answers) == (True, [])


def test_newer_class_stops_the_older_plan(document, window, planner, runner):
    """Typing on while it plans never shows an answer to what stood there before."""
    planner.waits = True
    runner.request(document)
    assert planner.begun.wait(PATIENCE)
    planner.waits = False

    number = runner.request(replace(document, title="New"))
    window.run_until_final()

    assert window.answers == [Answer(number, "first of New", is_final=False), Answer(number, "last of New", is_final=True)]


def test_classes_in_between_are_not_planned_at_all(document, window, planner, runner):
    """Five quick edits cost one plan, not five."""
    planner.waits = True
    runner.request(document)
    assert planner.begun.wait(PATIENCE)
    planner.waits = False

    for title in ("One", "Two", "Three"):
        runner.request(replace(document, title=title))
    window.run_until_final()

    assert planner.planned == ["Pears after work", "Three"]


def test_answer_that_was_on_its_way_is_dropped(document, window, runner):
    """An answer already posted when the class changes is stale too."""
    runner.request(document)
    late = [window.posted.get(timeout=PATIENCE), window.posted.get(timeout=PATIENCE)]
    runner.cancel()

    for act in late:
        act()

    assert (window.answers, runner.is_planning) == ([], False)


def test_stop_looking_takes_the_best_so_far(document, window, planner, runner):
    """A person content with the plan does not wait for the proof."""
    planner.waits = True
    runner.request(document)
    assert planner.begun.wait(PATIENCE)

    runner.stop_looking()
    window.run_until_final()

    assert window.answers[-1].plan == "stopped of Pears after work"


def test_refusal_arrives_as_an_answer(document, window, planner, runner):
    """A foreseen failure keeps its own sentence."""
    planner.fails = PlanError("no burner left", fix="Borrow one")

    runner.request(document)
    window.run_until_final()

    assert (window.answers[-1].plan, str(window.answers[-1].error)) == (None, "no burner left. Borrow one.")


def test_failure_nobody_foresaw_is_not_lost(document, window, planner, runner):
    """The window says so, keeps the details for a report, and goes on planning."""
    planner.fails = ZeroDivisionError("division by zero")
    runner.request(document)
    window.run_until_final()
    failed = window.answers.pop()
    planner.fails = None

    runner.request(document)
    window.run_until_final()

    assert str(failed.error).startswith("The class could not be planned (ZeroDivisionError: division by zero).")
    assert "in __call__" in failed.details
    assert window.answers[-1].plan == "last of Pears after work"


def test_class_is_planned_again_when_it_changes(tmp_path, document, window, planner, runner):
    """Edits and undo plan again; saving does not, nor anything after the window stops following."""
    open_class = OpenClass(document)
    stop_following = runner.follow(open_class)
    window.run_until_final()
    window.answers.clear()
    open_class.apply(edits.set_title("New"))
    window.run_until_final()
    open_class.save_as(tmp_path / "new.json")
    stop_following()
    open_class.apply(edits.set_title("Other"))

    assert (planner.planned, runner.is_planning) == (["Pears after work", "New"], False)


def test_papers_are_written_on_the_worker(window, runner):
    """A slow printer does not freeze the window."""
    done = []

    runner.export("plan", Path("folder"), done.append, only=["shopping"], overwrite=True)
    window.run_one()

    assert done == [Exported((Path("folder/plan, ['shopping'], anew.pdf"),))]


def test_failed_export_says_why(window):
    """A full disk is reported where the papers were asked for."""

    def write(plan, folder, *, only, overwrite):
        raise PlanError("the disk is full")

    runner = PlanRunner(window.answers.append, window.post, plan=FakePlanner(), export=write)
    done = []
    runner.export("plan", Path("folder"), done.append)
    window.run_one()
    runner.close()

    assert (done[0].paths, str(done[0].error)) == ((), "the disk is full.")


def test_closing_stops_the_plan_and_delivers_nothing(document, window, planner, runner):
    """The window can go away in the middle of a plan."""
    planner.waits = True
    runner.request(document)
    assert planner.begun.wait(PATIENCE)
    done = []
    runner.export("plan", Path("folder"), done.append)

    runner.close()
    while not window.posted.empty():
        window.run_one()

    assert (window.answers, done) == ([], [])


def test_real_planner_and_papers_answer_to_the_same_call(tmp_path, window):
    """What the fakes stand for takes the arguments the runner gives."""
    runner = PlanRunner(window.answers.append, window.post)
    done = []

    runner.request(new_from_template("tomato-evening"))
    window.run_until_final()
    runner.export(window.answers[-1].plan, tmp_path, done.append, only=["plan"])
    window.run_one()
    runner.close()

    assert (window.answers[-1].error, window.answers[-1].plan.verdict.fits) == (None, True)
    assert [(path.name, path.exists()) for path in done[0].paths] == [("plan.json", True)]
