"""The plan in words, for a terminal: does it fit, what to settle, who works where, which load when, what to buy."""

from __future__ import annotations

import textwrap
from collections import Counter
from collections.abc import Iterator

from jarwright.model.chance_words import chance_words
from jarwright.model.plan import Finding, Load, Plan, ShoppingLine
from jarwright.model.words import LEVELS, METHOD_NAMES, elevation_range, jar_words, packages_words

WIDTH = 100
WHOLE_WORDS = ("package", "quart", "gallon")


def plan_text(plan: Plan, *, width: int = WIDTH) -> str:
    """Return the plan as lines of at most `width` characters, ending in a line feed."""
    parts = (_head(plan), _findings(plan), _groups(plan), _loads(plan), _ahead(plan), _shopping(plan), _unconfirmed(plan), _cautions(plan))
    lines: list[str] = []
    for part in parts:
        own = [wrapped for line in part for wrapped in _wrapped(line, width)]
        lines += ["", *own] if own and lines else own
    return "\n".join(lines) + "\n"


def _wrapped(line: str, width: int) -> list[str]:
    """Fold a line under its own indent; what people typed cannot steer the terminal."""
    text = "".join(sign if sign.isprintable() else " " for sign in line)
    indent = " " * (len(text) - len(text.lstrip()) + 2)
    return textwrap.wrap(text, width, subsequent_indent=indent, break_on_hyphens=False) or [""]


def _head(plan: Plan) -> Iterator[str]:
    document, verdict = plan.document, plan.verdict
    hours = document.hours
    place = f"{document.site.name}, " if document.site.name else ""
    yield f"{document.title}: {document.date}, {hours.start} to {hours.end}, {place}{document.site.elevation_ft:,g} ft"
    yield ""
    yield verdict.headline
    if plan.tasks or plan.loads:
        proof = "no plan ends earlier" if verdict.proven_best else "an earlier end is not ruled out"
        finish, end = document.clock(verdict.finish_minute), document.clock(verdict.end_minute)
        yield f"The last work ends at {finish} ({proof}), the class at {end}."
        if verdict.bound_reason:
            yield verdict.bound_reason
        if document.loads_out_minute > document.end_minute:
            clear = document.clock(document.loads_out_minute)
            yield f"Jars are not carried home warm: the last load may come out until the kitchen is clear at {clear}."
    yield from _chance(plan)


def _chance(plan: Plan) -> Iterator[str]:
    """Say how likely the class ends on time, and what decides it."""
    if plan.chance is None:
        return
    document, chance = plan.document, plan.chance
    words = chance_words(chance.chance_on_time, document.hours.start)
    half, most = document.clock(chance.finish_p50), document.clock(chance.finish_p90)
    yield f"{words[:1].upper()}{words[1:]}; half are done by {half}, 9 in 10 by {most}."
    if chance.drivers:
        named = "; ".join(f"{driver.name}, {driver.minutes:g}" for driver in chance.drivers[:3])
        yield f"What costs most minutes beyond the plan, on average: {named}."


def _findings(plan: Plan) -> Iterator[str]:
    if plan.findings:
        yield "Findings"
    for finding in sorted(plan.findings, key=lambda each: LEVELS.index(each.level)):
        yield from _finding(finding)


def _finding(finding: Finding) -> Iterator[str]:
    yield f"  {finding.level.upper() if finding.level == 'blocker' else finding.level}, {finding.about}: {_sentence(finding.says)}"
    if finding.remedy:
        yield f"    Do: {_sentence(finding.remedy)}"
    if finding.source:
        yield f"    Source: {finding.source}"


def _sentence(text: str) -> str:
    return text if text.endswith((".", "?")) else f"{text}."


def _groups(plan: Plan) -> Iterator[str]:
    names = {person.id: person.name for person in plan.document.people}
    stations = {station.id: station.name or station.recipe for station in plan.document.stations}
    if plan.groups:
        yield "Groups"
    for group in plan.groups:
        yield f"  {group.station}, {stations[group.station]}: {', '.join(names[person] for person in group.people)} ({len(group.people)})"


def _loads(plan: Plan) -> Iterator[str]:
    if plan.loads:
        yield "Loads"
    for load in plan.loads:
        yield from _load(plan, load)


def _load(plan: Plan, load: Load) -> Iterator[str]:
    document = plan.document
    canners = {canner.id: canner.name or canner.id for canner in document.kitchen.canners}
    staff = {member.id: member.name or member.id for member in document.staff}
    station = {batch.id: batch.station for batch in plan.batches}
    counts: Counter[tuple[str, str]] = Counter()
    for jar in load.jars:
        counts[jar.size, station[jar.batch]] += jar.count
    jars = " and ".join(f"{jar_words(size, count)} of station {where}" for (size, where), count in counts.items())
    where = f"{canners[load.canner]} ({METHOD_NAMES[load.method]}) on burner {load.burner}"
    yield f"  {load.id}: {jars} in {where}, kept by {staff.get(load.keeper, load.keeper)}"
    process, loading = load.phase("process"), load.phase("load")
    if process and loading:
        at = f" at {load.psi:g} lb" if load.psi is not None else ""
        reads = f", its gauge reads {load.hold_psi:g} lb" if load.hold_psi not in (None, load.psi) else ""
        water = f" into water at {load.water_f:g} °F" if load.water_f is not None else ""
        yield (
            f"    Burner on {document.clock(load.start)}, jars in {document.clock(loading.start)}{water}, "
            f"process {document.clock(process.start)} to {document.clock(process.end)} ({load.minutes} minutes{at}{reads}), "
            f"jars out by {document.clock(load.end)}"
        )
    for used in dict.fromkeys(jar.process for jar in load.jars):
        memory = ", FROM MEMORY" if used.source_kind == "memory" else ""
        yield (
            f"    {used.product}, {used.pack} pack, {used.jar}, {elevation_range(used.elevation_min_ft, used.elevation_max_ft)}: "
            f"{used.minutes} minutes{memory}. Source: {used.source}"
        )


def _ahead(plan: Plan) -> Iterator[str]:
    document = plan.document
    if plan.ahead:
        yield "Before the class"
    for task in plan.ahead:
        first, last = (document.local_time(minute).replace("T", " ") for minute in (task.start_earliest, task.start_latest))
        yield f"  Station {task.station}, {task.who or 'nobody named yet'}: {task.what}, {task.place}; begin between {first} and {last}"


def _shopping(plan: Plan) -> Iterator[str]:
    lines = [line for line in plan.shopping if line.buy.amount > 0]
    if not plan.shopping:
        return
    owned = len(plan.shopping) - len(lines)
    yield "To buy" + (f" ({owned} more on hand)" if owned else "")
    for aisle in dict.fromkeys(line.aisle for line in lines):
        yield f"  {aisle}: " + "; ".join(_bought(line) for line in lines if line.aisle == aisle)
    if plan.cost:
        even = plan.cost.break_even_people
        yield (
            f"  The class costs {plan.cost.total} {plan.cost.currency}, {plan.cost.per_person} a person; "
            + (f"{even} people cover it" if even is not None else "the fee covers it at no number of people")
            + (f"; without a price: {', '.join(plan.cost.unpriced)}" if plan.cost.unpriced else "")
        )


def _unconfirmed(plan: Plan) -> Iterator[str]:
    if plan.unconfirmed:
        yield f"Figures from memory ({len(plan.unconfirmed)}): confirm each with publication and page"
    for figure in plan.unconfirmed:
        yield f"  {'BLOCKS, ' if figure.blocks else ''}{figure.about}: {_sentence(figure.what)} On file as: {figure.source}"
        yield f"    Do: {figure.remedy}"


def _cautions(plan: Plan) -> Iterator[str]:
    if plan.cautions:
        yield "Cautions"
    for caution in plan.cautions:
        yield f"  {caution.text}"


def _bought(line: ShoppingLine) -> str:
    packed = ", ".join(packages_words(package.label, package.count) for package in line.packages if package.count)
    amount = f"{line.buy.amount:,.6g}"
    if line.buy.unit != "each":
        amount += f" {line.buy.unit}" + ("s" if line.buy.unit in WHOLE_WORDS and line.buy.amount != 1 else "")
    return f"{line.item} {amount}" + (f" ({packed})" if packed and packed != amount else "")
