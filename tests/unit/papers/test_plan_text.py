"""The plan in words, as a terminal shows it."""

import dataclasses

from jarwright.papers.plan_text import plan_text
from sample_plan import sample_plan


def test_verdict_comes_first_and_the_end_with_it():
    """An instructor on the phone reads two lines."""
    lines = plan_text(sample_plan()).splitlines()

    assert lines[0] == "Harvest Saturday: 2027-08-14, 09:00 to 12:00, Corner kitchen, 2,350 ft"
    assert lines[2] == "Blocked: station B cannot be taught as it stands"
    assert lines[3] == "The last work ends at 11:30 (no plan ends earlier), the class at 12:00."


def test_blockers_stand_before_notes_with_remedy_and_source():
    """What forbids teaching is never below what is nice to know."""
    text = plan_text(sample_plan(), width=500)

    assert text.index("BLOCKER, station B: ") < text.index("warning, class: ") < text.index("note, station A: ")
    assert "    Do: Use pint jars (40 minutes), or a boiling-water canner.\n" in text
    assert "    Source: USDA Complete Guide to Home Canning, AIB 539 (rev. 2009/2015), Guide 3\n" in text


def test_every_load_shows_its_process_with_the_source():
    """The figure that matters most is printed with the page it stands on."""
    text = plan_text(sample_plan(), width=500)

    assert "  L3: 9 pints of station C in Canner 3 (pressure) on burner b3, kept by Tansy\n" in text
    assert (
        "    Burner on 9:20, jars in 9:57, process 10:26 to 10:46 (20 minutes at 12 lb, its gauge reads 13 lb), jars out by 11:30\n" in text
    )
    assert (
        "    Beans, snap and Italian, pieces, hot pack, pint, 2,001 to 4,000 ft: 20 minutes. "
        "Source: Michigan State Univ. Extension, Preserving Food Safely (1997), USDA Guide 4:9\n" in text
    )


def test_shopping_is_summed_up_by_aisle():
    """The list itself is in the workbook; here one line an aisle."""
    text = plan_text(sample_plan(), width=500)

    assert "To buy (1 more on hand)\n  produce: peaches 33 lb (2 lugs); beans, snap 11.25 lb (2 pecks)\n" in text
    assert "  The class costs 143.78 USD, 11.98 a person; 6 people cover it; without a price: ascorbic acid\n" in text


def test_cautions_go_with_the_process_times():
    """Process times are never shown without them."""
    assert "Use the tested recipe as it stands" in plan_text(sample_plan(), width=500)


def test_lines_fit_the_terminal():
    """A folded line keeps its indent, so that the eye finds the next load."""
    assert max(len(line) for line in plan_text(sample_plan(), width=80).splitlines()) <= 80


def test_typed_text_cannot_steer_the_terminal():
    """A title with an escape sequence or a line feed comes out as text."""
    plan = sample_plan()
    named = dataclasses.replace(plan, document=dataclasses.replace(plan.document, title="Jam\x1b[31m\nnow"))

    assert plan_text(named).startswith("Jam [31m now: 2027-08-14")


def test_two_batches_of_a_station_in_one_load_are_counted_together():
    """The keeper lifts ten half-pints, not five and five."""
    plan = sample_plan()
    first = plan.loads[0]
    (jars,) = first.jars
    halves = (dataclasses.replace(jars, count=3), dataclasses.replace(jars, count=4))
    shared = dataclasses.replace(plan, loads=(dataclasses.replace(first, jars=halves), *plan.loads[1:]))

    assert "  L1: 7 quarts of station A in Canner 1 (boiling water)" in plan_text(shared)
