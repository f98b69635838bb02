"""What does it cost, what rides when, who works where? The sheets for the class itself."""

from __future__ import annotations

import datetime

from jarwright.model.document import clock_minutes
from jarwright.model.plan import Load, LoadJars, Plan
from jarwright.model.words import JAR_SIZES, METHOD_NAMES, elevation_range, jar_words
from jarwright.papers.workbook_sheet import FIRST_ROW, Formula, columns_of
from jarwright.papers.workbook_shopping import SheetMaker, by_aisle, source_of


def write_costs(make: SheetMaker, plan: Plan, *, shopping_total: str) -> None:
    """Write what the class costs and what a seat costs, worked out from the cells above."""
    currency = plan.document.attendance.currency
    sheet = make(
        "Costs",
        f"in {currency}; pale yellow cells are yours to change",
        columns_of(("What", 34), (currency, 14, "money", True), ("Notes", 60, "wrap")),
    )
    bought = sum(package.count * float(package.price or 0) for line in plan.shopping for package in line.packages)
    cost, people = plan.cost, len(plan.document.attending)
    each, fuel = float(plan.document.costs.per_person), float(cost.fuel) if cost else 0.0
    fixed = float(cost.fixed) - each * people if cost else float(plan.document.costs.fixed)
    total, fee = round(bought + fixed + each * people + fuel, 2), float(plan.document.attendance.fee)
    unpriced = f"Without a price, not counted: {', '.join(cost.unpriced)}" if cost and cost.unpriced else ""
    sheet.row("Packages bought", Formula(f"={shopping_total}", round(bought, 2)), unpriced)
    sheet.row("Fixed costs", round(fixed, 2), "")
    sheet.row("Costs for each person", each, "")
    sheet.row("People who come", people, "")
    sheet.row("Costs for all people", Formula("=B7*B8", round(each * people, 2)), "")
    sheet.row("Fuel", fuel, "")
    sheet.row("Together", Formula("=ROUND(B5+B6+B9+B10,2)", total), "", bold=True)
    sheet.row("Cost of a seat", Formula("=IF(B8>0,ROUND(B11/B8,2),0)", round(total / people, 2) if people else 0.0), "", bold=True)
    sheet.row("Fee", fee, "")
    sheet.row("Fees together", Formula("=B8*B13", people * fee), "")
    sheet.row("Left over", Formula("=ROUND(B14-B11,2)", round(people * fee - total, 2)), "")
    even = cost.break_even_people if cost else None
    says = f"{even} people" if even is not None else "no number of people"
    sheet.row("Breaks even at", None, f"{says}; what is bought changes with the people, so plan again for another number")
    sheet.cells["B8"].number_format = "0"
    for cells, what in (("B6:B7", "Cost"), ("B8", "People"), ("B10", "Fuel"), ("B13", "Fee")):
        sheet.check_typed(cells, what=what, whole=what == "People")
    sheet.finish()


def write_loads(make: SheetMaker, plan: Plan, *, cautions: str) -> None:
    """Write what rides in which canner and when, with the published process of each; its cautions on every page."""
    sheet = make(
        "Loads",
        "what rides in which canner, by which published process",
        columns_of(
            ("Load", 7), ("Canner", 12, "wrap"), ("Method", 12, "wrap"), ("Keeper", 11, "wrap"), ("Station", 9), ("Jars", 6, "count"),
            ("Size", 11), ("Product", 24, "wrap"), ("Process time", 9, "minutes"), ("Published pressure", 11, "psi"),
            ("Hold on this gauge", 9, "psi"), ("For elevations", 13, "wrap"), ("Burner on", 8, "clock"), ("Jars in", 7, "clock"),
            ("Timer on", 7, "clock"), ("Timer off", 7, "clock"), ("Jars out", 7, "clock"), ("Source", 30, "wrap"),
        ),
        cautions=cautions,
    )  # fmt: skip
    for load in plan.loads:
        for jars in load.jars:
            sheet.row(*_load_cells(plan, load, jars))
    sheet.finish()


def write_people(make: SheetMaker, plan: Plan) -> None:
    """Write who works where, what to mind, and what goes home; then how many work at each station."""
    sheet = make(
        "People and groups",
        "who works where, and what goes home",
        columns_of(
            ("Station", 10), ("Name", 32, "wrap"), ("Allergens", 20, "wrap"), ("Minor", 8), ("Home elevation, ft", 11, "count"),
            ("Takes home", 24, "wrap"), ("From", 16),
        ),
    )  # fmt: skip
    stations = {person: group.station for group in plan.groups for person in group.people}
    order = {station.id: position for position, station in enumerate(plan.document.stations)}
    home = {line.person: line for line in plan.take_home}
    letters = {brief.station: brief.letter for brief in plan.briefs}
    for person in sorted(plan.document.attending, key=lambda each: order.get(stations.get(each.id, ""), len(order))):
        line, station = home.get(person.id), stations.get(person.id)
        jars = (
            ", ".join(f"{jar_words(each.size, each.count)} ({letters.get(each.station, each.station)})" for each in line.jars)
            if line
            else ""
        )
        sheet.row(
            letters.get(station, station) if station else "",
            person.name,
            ", ".join(person.allergens),
            "yes" if person.minor else "",
            person.home_elevation_ft,
            jars,
            _ready(plan, line.ready) if line else "",
        )
    last = sheet.next_row - 1
    sheet.gap()
    sheet.line("People at each station", bold=True)
    for group in plan.groups:
        row, letter = sheet.next_row, letters.get(group.station, group.station)
        blocked = "not ready to teach" if group.station in plan.blocked_stations else ""
        count = Formula(f"=SUMPRODUCT(--(A${FIRST_ROW}:A${last}=A{row}))", len(group.people))
        sheet.row(letter, _station_name(plan, group.station), blocked, None, count)
    sheet.finish()


def write_schedule(make: SheetMaker, plan: Plan, *, cautions: str) -> None:
    """Write the class schedule; it names process times, so that every page of it has the cautions."""
    sheet = make(
        "Class schedule",
        "who does what, when",
        columns_of(("Time", 8, "clock"), ("Minute", 8, "count"), ("Who", 26, "wrap"), ("What", 66, "wrap"), ("About", 14, "wrap")),
        cautions=cautions,
    )
    for line in plan.schedule:
        sheet.row(_clock(plan, line.minute), line.minute, line.who, line.text, line.about if line.about != "class" else "")
    sheet.finish()


def write_jars(make: SheetMaker, plan: Plan) -> None:
    """Write the count of jars by size and whether it comes out even with the loads."""
    sheet = make(
        "Jars",
        "made, promised, kept back, to buy; the last column checks that the counts agree",
        columns_of(
            ("Size", 14), ("Made, low yield", 10, "count"), ("Made, high yield", 10, "count"), ("Promised", 10, "count"),
            ("Held back", 10, "count"), ("Spare", 10, "count"), ("Ride in loads", 10, "count"), ("On hand", 10, "count"),
            ("To buy", 10, "count"), ("Agrees?", 12),
        ),
    )  # fmt: skip
    rides = {size: sum(jars.count for load in plan.loads for jars in load.jars if jars.size == size) for size in JAR_SIZES}
    most = FIRST_ROW + 500
    for count in plan.jars:
        row = sheet.next_row
        spare = count.made_low - count.promised - count.held_back
        sheet.row(
            count.size,
            count.made_low,
            count.made_high,
            count.promised,
            count.held_back,
            Formula(f"=B{row}-D{row}-E{row}", spare),
            Formula(f"=SUMIF(Loads!G${FIRST_ROW}:G${most},A{row},Loads!F${FIRST_ROW}:F${most})", rides[count.size]),
            count.on_hand,
            Formula(f"=MAX(0,C{row}-H{row})", max(0, count.made_high - count.on_hand)),
            Formula(
                f'=IF(AND(F{row}>=0,G{row}=C{row}),"yes","look again")',
                "yes" if spare >= 0 and rides[count.size] == count.made_high else "look again",
            ),
        )
    sheet.finish()


def write_cautions(make: SheetMaker, plan: Plan) -> None:
    """Write what is to be settled, every caution with its source, and the editions of the tables."""
    sheet = make(
        "Cautions & sources",
        "what is to be settled, what to take care of, and who says so",
        columns_of(("Kind", 16), ("About", 18, "wrap"), ("What", 80, "wrap"), ("What to do", 44, "wrap"), ("Source", 50, "wrap")),
    )
    for finding in plan.findings:
        sheet.row(finding.level, finding.about, finding.says, finding.remedy, finding.source, bold=finding.level == "blocker")
    for caution in plan.cautions:
        sheet.row("caution", "", caution.text, "", caution.source)
    for brief in plan.briefs:
        for source in brief.process_sources:
            sheet.row("process time", f"station {brief.letter}", brief.elevation_range, "", source)
        for note in brief.figure_notes:
            sheet.row("figures", f"station {brief.letter}", note, "", "")
    for line in by_aisle(plan):
        sheet.row("amount to buy", line.item, "", "", source_of(line))
    for name, edition in plan.editions.items():
        sheet.row("table", name, "", "", edition)
    sheet.finish()


def _load_cells(plan: Plan, load: Load, jars: LoadJars) -> list[str | float | datetime.time | None]:
    process = jars.process
    batch = next((batch for batch in plan.batches if batch.id == jars.batch), None)
    canner = next((each.name or each.id for each in plan.document.kitchen.canners if each.id == load.canner), load.canner)
    keeper = next((each.name or each.id for each in plan.document.staff if each.id == load.keeper), load.keeper)
    letters = {brief.station: brief.letter for brief in plan.briefs}
    phases = {name: load.phase(name) for name in ("load", "process")}
    inside, timed = phases["load"], phases["process"]
    marks = {"memory": "From memory: ", "common practice": "Common practice: "}
    return [
        load.id,
        canner,
        METHOD_NAMES[load.method] + (f", {process.gauge} gauge" if process.gauge else ""),
        keeper,
        letters.get(batch.station, batch.station) if batch else "",
        jars.count,
        jars.size,
        f"{process.product}, {process.pack} pack" + ("" if process.jar == jars.size else f" (time of the {process.jar})"),
        process.minutes,
        process.psi,
        load.hold_psi,
        elevation_range(process.elevation_min_ft, process.elevation_max_ft),
        _clock(plan, load.start),
        _clock(plan, inside.start) if inside else None,
        _clock(plan, timed.start) if timed else None,
        _clock(plan, timed.end) if timed else None,
        _clock(plan, load.end),
        marks.get(process.source_kind, "") + process.source,
    ]


def _clock(plan: Plan, minute: float) -> datetime.time:
    total = (clock_minutes(plan.document.hours.start) + round(minute)) % 1440
    return datetime.time(total // 60, total % 60)


def _ready(plan: Plan, when: str) -> str:
    """Write a local ISO time as its clock, with the day where it is another than the class's."""
    day, _, clock = when.partition("T")
    clock = clock[:5].lstrip("0") if not clock.startswith("00") else clock[1:5]
    return clock if day == plan.document.date else f"{day} {clock}"


def _station_name(plan: Plan, station: str) -> str:
    return next((brief.title for brief in plan.briefs if brief.station == station), station)
