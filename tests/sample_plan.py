"""A whole plan written by hand, for tests of screens and papers that must not wait for the planner.

Three stations at 2,350 ft: A peaches (one batch in a boiling-water and a steam canner), B tomatoes in quarts for the steam
canner (blocked: 50 minutes), C beans under pressure. Process times and pressures are rows of resources/published; people,
prices and clock times are invented.
"""

from __future__ import annotations

import dataclasses
from typing import Any

from jarwright.model.document import ClassDocument, document_from_json
from jarwright.model.plan import (
    AheadTask,
    Batch,
    CardAmount,
    CardLine,
    Caution,
    CircuitUse,
    Cost,
    Finding,
    Group,
    JarCount,
    JarsHome,
    Load,
    LoadJars,
    PackageCount,
    Phase,
    Plan,
    ProcessUsed,
    Quantity,
    RecipeUsed,
    ScheduleLine,
    ShoppingLine,
    StationBrief,
    TakeHomeLine,
    Task,
    Verdict,
)
from jarwright.model.recipe import Citation, Headspace, Ingredient, ProcessRow, PublishedBatch, Recipe, Span, Step

PEACH_SOURCE = "USDA Complete Guide to Home Canning, AIB 539 (rev. 1994), Guide 1 and 2 table (public-domain transcription)"
BEAN_SOURCE = "Michigan State Univ. Extension, Preserving Food Safely (1997), USDA Guide 4:9"
TOMATO_SOURCE = "USDA Complete Guide to Home Canning, AIB 539 (rev. 2009/2015), Guide 3"
PEACHES, BEANS = "Peaches, halved or sliced", "Beans, snap and Italian, pieces"
NAMES = ("Aster", "Bramble", "Clover", "Damson", "Elder", "Fennel", "Ginger", "Hyssop", "Iris", "Juniper", "Kale", "Linden")
GROUPS = {"A": ("p01", "p02", "p03", "p04", "p05"), "B": ("p06", "p07", "p08"), "C": ("p09", "p10", "p11", "p12")}

CLASS: dict[str, Any] = {
    "format": "jarwright.class/1",
    "title": "Harvest Saturday",
    "date": "2027-08-14",
    "site": {"name": "Corner kitchen", "elevation_ft": 2350},
    "hours": {"access": "07:30", "doors": "08:40", "start": "09:00", "end": "12:00", "clear_by": "12:45"},
    "take_home": {"jars_each": 2, "spare_jars_per_station": 1},
    "attendance": {"minimum": 6, "maximum": 14, "fee": "25.00", "currency": "USD"},
    "staff": [
        {"id": "s1", "name": "Tansy", "duties": ["teach", "canner"]},
        {"id": "s2", "name": "Yarrow", "duties": ["canner"]},
    ],
    "people": [
        {"id": f"p{number:02d}", "name": name, "allergens": ["milk"] if name == "Clover" else []} for number, name in enumerate(NAMES, 1)
    ],
    "stations": [
        {
            "id": "A",
            "name": "Peaches",
            "recipe": "peaches-halved-or-sliced",
            "pack": "hot",
            "jar": "quart",
            "method": "boiling-water",
            "liquid": "light syrup",
        },
        {"id": "B", "name": "Tomatoes", "recipe": "tomatoes-crushed", "pack": "hot", "jar": "quart", "method": "steam"},
        {
            "id": "C",
            "name": "Beans",
            "recipe": "beans-snap-and-italian-pieces",
            "pack": "hot",
            "jar": "pint",
            "method": "pressure",
        },
    ],
    "kitchen": {
        "circuits": [{"id": "c1", "volts": 120, "amps": 20}],
        "burners": [
            {"id": "b1", "fuel": "gas", "power_w": 4000},
            {"id": "b2", "fuel": "electric", "power_w": 1800, "circuit": "c1"},
            {"id": "b3", "fuel": "gas", "power_w": 3500},
            {"id": "b4", "fuel": "gas", "power_w": 3000, "suits": ["pot"]},
            {"id": "b5", "fuel": "gas", "power_w": 3000, "suits": ["pot"]},
        ],
        "canners": [
            {"id": "k1", "name": "Canner 1", "kind": "boiling-water", "holds": {"quart": 7, "pint": 9}, "water_qt": 12},
            {"id": "k2", "name": "Canner 2", "kind": "steam", "holds": {"quart": 7, "pint": 8}, "water_qt": 2},
            {
                "id": "k3",
                "name": "Canner 3",
                "kind": "pressure",
                "holds": {"quart": 7, "pint": 9},
                "water_qt": 3,
                "gauge": "dial",
                "gauge_tested": "2027-05-02",
                "gauge_error_psi": 1,
            },
        ],
        "pots": [{"id": "q1", "qt": 16}, {"id": "q2", "qt": 12}],
        "cooling_jars": 60,
    },
    "agenda": [
        {"title": "Welcome and safety talk", "start_minute": 0, "minutes": 20, "stops_work": True, "led_by": "s1"},
        {"title": "Seals, labels and questions", "start_minute": 150, "minutes": 20, "led_by": "s2"},
    ],
    "on_hand": [{"item": "quart jars", "amount": 4, "unit": "each"}, {"item": "pint jars", "amount": 9, "unit": "each"}],
    "packages": [{"item": "sugar, granulated", "amount": 4, "unit": "lb", "price": "3.79"}],
    "costs": {"fixed": "58.00"},
}


def sample_plan(*, ready: bool = False) -> Plan:
    """
    Return the plan; `ready` leaves out the blocked station B and its people, so that nothing forbids teaching it.
    """
    plan = Plan(
        document=document_from_json(CLASS),
        verdict=_verdict(blocked=True),
        findings=_findings(),
        groups=tuple(Group(station, people) for station, people in GROUPS.items()),
        batches=(
            Batch("A1", "A", "peaches-halved-or-sliced", 11, {"quart": 11}, 11, 11),
            Batch("C1", "C", "beans-snap-and-italian-pieces", 9, {"pint": 9}, 9, 9),
        ),
        tasks=_tasks(),
        loads=_loads(),
        circuits=(CircuitUse("c1", 1920, 1800),),
        jars=(JarCount("pint", 9, 9, 8, 1, 0, 0, 9), JarCount("quart", 11, 11, 10, 1, 0, 7, 4)),
        take_home=tuple(
            TakeHomeLine(person, (JarsHome(station, size, 2),), ready_at)
            for station, size, ready_at in (("A", "quart", "2027-08-14T11:25"), ("C", "pint", "2027-08-14T11:50"))
            for person in GROUPS[station]
        ),
        shopping=_shopping(),
        cost=Cost("USD", "143.78", "11.98", 6, packages="85.78", fixed="58.00", fuel="0.00", unpriced=("ascorbic acid",)),
        ahead=(AheadTask("C", "Order the beans and keep them cold", -1440, -120, 120, "refrigerator", "Yarrow"),),
        schedule=_schedule(),
        briefs=(_peach_brief(), _tomato_brief(), _bean_brief()),
        recipes=_recipes(),
        cautions=_cautions("class"),
        editions={"process_times_bwc.csv": PEACH_SOURCE, "process_times_pressure.csv": BEAN_SOURCE},
    )
    return _without_tomatoes(plan) if ready else plan


def _without_tomatoes(plan: Plan) -> Plan:
    document: ClassDocument = plan.document
    return dataclasses.replace(
        plan,
        document=dataclasses.replace(
            document,
            stations=tuple(station for station in document.stations if station.id != "B"),
            people=tuple(person for person in document.people if person.id not in GROUPS["B"]),
        ),
        verdict=_verdict(blocked=False),
        findings=tuple(finding for finding in plan.findings if finding.level != "blocker"),
        groups=tuple(group for group in plan.groups if group.station != "B"),
        briefs=tuple(brief for brief in plan.briefs if not brief.blocked),
        recipes=tuple(used for used in plan.recipes if used.stations != ("B",)),
        cost=Cost("USD", "143.78", "15.98", 6, packages="85.78", fixed="58.00", fuel="0.00", unpriced=("ascorbic acid",)),
    )


def _verdict(*, blocked: bool) -> Verdict:
    return Verdict(
        grade="blocked" if blocked else "comfortable",
        fits=not blocked,
        finish_minute=150,
        end_minute=180,
        spare_minutes=30,
        late_minutes=0,
        chance_on_time=None,
        proven_best=True,
        finish_bound_minute=150,
        solve_seconds=0.2,
        headline="Blocked: station B cannot be taught as it stands" if blocked else "Fits: 30 minutes to spare of 180",
    )


def _findings() -> tuple[Finding, ...]:
    return (
        Finding(
            "steam-limit",
            "blocker",
            "station B",
            "Crushed tomatoes in quarts take 50 minutes at 2,350 ft; a steam canner runs at most 45 minutes",
            "Use pint jars (40 minutes), or a boiling-water canner",
            TOMATO_SOURCE,
        ),
        Finding("price", "warning", "class", "1 package has no price: ascorbic acid", "Enter its price under packages"),
        Finding("minutes", "note", "station A", "Minutes for station work are common practice", "", "common practice"),
    )


def _tasks() -> tuple[Task, ...]:
    def task(name: str, batch: str, kind: str, start: int, end: int, after: tuple[str, ...], text: str, **more: Any) -> Task:
        span = end - start
        return Task(
            f"{batch}-{name}",
            batch[0],
            batch,
            kind,
            start,
            end,
            more.get("hands", 2),
            more.get("burners", ()),
            after,
            name=name,
            text=text,
            low=span * 0.8,
            high=span * 1.4,
        )

    return (
        task("jars", "A1", "jars", 20, 24, (), "Wash the jars and keep them hot"),
        task("prep", "A1", "prep", 24, 46, ("A1-jars",), "Peel, halve and pit the peaches", hands=4),
        task("cook", "A1", "cook", 46, 58, ("A1-prep",), "Heat the fruit in the syrup", hands=1, burners=("b4",)),
        task("fill", "A1", "fill", 58, 63, ("A1-cook",), "Fill 7 jars", hands=3),
        task("fill-2", "A1", "fill", 66, 70, ("A1-fill",), "Fill 4 jars", hands=3),
        task("jars", "C1", "jars", 20, 24, (), "Wash the jars and keep them hot"),
        task("prep", "C1", "prep", 24, 42, ("C1-jars",), "Trim the beans and cut them", hands=4),
        task("cook", "C1", "cook", 42, 50, ("C1-prep",), "Boil the beans for 5 minutes", hands=1, burners=("b5",)),
        task("fill", "C1", "fill", 50, 57, ("C1-cook",), "Fill 9 jars", hands=3),
    )


def _phases(start: int, *ends: tuple[str, int]) -> tuple[Phase, ...]:
    found, at = [], start
    for name, end in ends:
        found.append(Phase(name, at, end, low=(end - at) * 0.8, high=(end - at) * 1.3))
        at = end
    return tuple(found)


def _peach_process() -> ProcessUsed:
    return ProcessUsed(PEACHES, "hot", "quart", 30, None, None, 1001, 3000, PEACH_SOURCE, "seen")


def _loads() -> tuple[Load, ...]:
    beans = ProcessUsed(BEANS, "hot", "pint", 20, 12, "dial", 2001, 4000, BEAN_SOURCE, "seen")
    return (
        Load(
            "L1", "k1", "b1", "boiling-water", "s1", 30, None, None, (LoadJars("A1", "quart", 7, _peach_process(), "A1-fill"),),
            _phases(-5, ("preheat", 63), ("load", 67), ("come-up", 85), ("process", 115), ("rest", 120), ("unload", 125)),
        ),
        Load(
            "L2", "k2", "b2", "steam", "s2", 30, None, None, (LoadJars("A1", "quart", 4, _peach_process(), "A1-fill-2"),),
            _phases(40, ("preheat", 70), ("load", 73), ("come-up", 83), ("process", 113), ("rest", 118), ("unload", 121)),
        ),
        Load(
            "L3", "k3", "b3", "pressure", "s1", 20, 12, 13, (LoadJars("C1", "pint", 9, beans, "C1-fill"),),
            _phases(
                20, ("preheat", 57), ("load", 61), ("come-up", 71), ("vent", 81), ("pressurise", 86), ("process", 106),
                ("depressurise", 136), ("wait", 146), ("unload", 150),
            ),
        ),
    )  # fmt: skip


def _shopping() -> tuple[ShoppingLine, ...]:
    def line(
        item: str, unit: str, need: float, have: float, packages: tuple[PackageCount, ...], stations: dict[str, float], aisle: str,
        source: str, kind: str = "seen", **more: Any,
    ) -> ShoppingLine:  # fmt: skip
        buy = max(0, round(need - have, 2))
        return ShoppingLine(
            item, Quantity(need, unit), Quantity(have, unit), Quantity(buy, unit), packages, stations, aisle, source, kind, **more
        )

    usual = "common practice"
    return (
        line(
            "peaches", "lb", 33, 0, (PackageCount("lug", 19, "lb", 2, "18.50"),), {"A": 33}, "produce", PEACH_SOURCE,
            cost="37.00", market="about 2 lugs",
        ),
        line(
            "beans, snap", "lb", 11.25, 0, (PackageCount("peck", 8, "lb", 2, "9.75"),), {"C": 11.25}, "produce", BEAN_SOURCE,
            cost="19.50", market="about 2 pecks",
        ),
        line(
            "sugar, granulated", "lb", 1.56, 0.5, (PackageCount("4 lb bag", 4, "lb", 1, "3.79"),), {"A": 1.56}, "baking",
            "AIB 539 Guide 2", cost="3.79",
        ),
        line(
            "ascorbic acid", "tsp", 1, 0, (PackageCount("2 oz jar", 20, "tsp", 1, None),), {"A": 1}, "canning", usual, usual,
            note="no price on file",
        ),
        line("lids, regular", "each", 22, 0, (PackageCount("box of 12", 12, "each", 2, "4.25"),), {"A": 12, "C": 10}, "canning", usual,
             usual, cost="8.50", note="10 % more than jars"),
        line("quart jars", "each", 11, 4, (PackageCount("case of 12", 12, "each", 1, "16.99"),), {"A": 11}, "canning", usual, usual,
             cost="16.99"),
        line("pint jars", "each", 9, 9, (), {"C": 9}, "canning", usual, usual, cost="0.00"),
    )  # fmt: skip


def _schedule() -> tuple[ScheduleLine, ...]:
    return (
        ScheduleLine(-90, "Tansy", "Kitchen opens: set up the stations", "class", "class"),
        ScheduleLine(-5, "Tansy", "Canner 1: burner on", "load L1", "burner"),
        ScheduleLine(0, "Tansy", "Welcome and safety talk", "class", "agenda"),
        ScheduleLine(20, "Station A", "Wash the jars and keep them hot", "station A", "task"),
        ScheduleLine(20, "Station C", "Wash the jars and keep them hot", "station C", "task"),
        ScheduleLine(20, "Tansy", "Canner 3: burner on", "load L3", "burner"),
        ScheduleLine(40, "Yarrow", "Canner 2: burner on", "load L2", "burner"),
        ScheduleLine(57, "Tansy", "Canner 3: 9 pints in", "load L3", "load"),
        ScheduleLine(63, "Tansy", "Canner 1: 7 quarts in", "load L1", "load"),
        ScheduleLine(70, "Yarrow", "Canner 2: 4 quarts in", "load L2", "load"),
        ScheduleLine(83, "Yarrow", "Canner 2: timer on, 30 minutes", "load L2", "process"),
        ScheduleLine(85, "Tansy", "Canner 1: timer on, 30 minutes", "load L1", "process"),
        ScheduleLine(86, "Tansy", "Canner 3: timer on, 20 minutes at 13 pounds on its gauge", "load L3", "process"),
        ScheduleLine(106, "Tansy", "Canner 3: heat off, let the pressure fall by itself", "load L3", "rest"),
        ScheduleLine(150, "Yarrow", "Seals, labels and questions", "class", "agenda"),
        ScheduleLine(180, "Tansy", "Class ends", "class", "class"),
    )


def _cautions(kind: str) -> tuple[Caution, ...]:
    guide = "USDA Complete Guide to Home Canning, AIB 539, Guide 1"
    every = (
        Caution("tested-recipe", "Use the tested recipe as it stands: change nothing.", guide),
        Caution("elevation", "The time is for the elevation printed here; at another elevation look it up again.", guide),
        Caution("interrupted", "If the boil, the steam or the pressure is lost, the process starts again for its full time.", guide),
    )
    own = {
        "water": (
            Caution("lid-off", "Boiling water: heat off, lid off, then 5 minutes before the jars are lifted.", guide),
            Caution("lid-on", "Steam canner: heat off, the lid stays on for 5 minutes before it is opened, away from you.", guide),
        ),
        "pressure": (
            Caution("vent-pressure", "Vent the pressure canner for 10 minutes before it is closed: trapped air makes it too cold.", guide),
            Caution("open-at-zero", "Pressure canner: open it only at zero and 10 minutes later, lid tilted away from you.", guide),
        ),
        "class": (Caution("low-acid", "Low-acid food goes into a pressure canner, never into boiling water or steam.", guide),),
    }
    after = (
        Caution("screw-bands", "Do not tighten the screw bands again after the process.", guide),
        Caution("still", "Leave the jars still for 12 to 24 hours, then check every seal.", guide),
        Caution(
            "unsealed",
            "A jar that did not seal: into the refrigerator or freezer, or processed again within 24 hours with a new lid for the full "
            "time, where hot-pack directions exist.",
            guide,
        ),
        Caution("burns-knives", "Steam, syrup and jars burn, knives cut: ask before you lift or load.", "common practice"),
    )
    return every + own[kind] + after


def _peach_brief() -> StationBrief:
    return StationBrief(
        station="A",
        letter="A",
        title="Peaches",
        subtitle="halves or slices, hot pack, quarts",
        recipe="peaches-halved-or-sliced",
        blocked=False,
        group=NAMES[:5],
        jars="11 quarts",
        headspace_in=0.5,
        headspace_source="AIB 539 Guides 2, 3, 6",
        process_minutes=30,
        psi=None,
        hold_psi=(),
        process_text="full boil, or full steam",
        elevation_range="1,001 to 3,000 ft",
        process_sources=(PEACH_SOURCE,),
        work_start=20,
        work_end=70,
        keepers="Tansy at Canner 1, Yarrow at Canner 2",
        lines=(
            CardLine(20, "Wash hands. Wash 11 jars and keep them hot.", "jars"),
            CardLine(24, "Peel, halve and pit. Hold the fruit in the ascorbic acid bath so that it does not brown.", "prep"),
            CardLine(46, "Boil the light syrup, add the drained fruit, bring it back to the boil.", "cook"),
            CardLine(
                58, "Fill 7 hot jars, cut side down. Cover with syrup, leave 1/2 in. Free the bubbles, wipe the rims, new lid.", "fill"
            ),
            CardLine(63, "7 jars to Tansy, Canner 1, boiling water.", "load"),
            CardLine(66, "Fill 4 hot jars in the same way.", "fill"),
            CardLine(70, "4 jars to Yarrow, Canner 2, steam.", "load"),
            CardLine(85, "Timer starts at the full boil, or full steam: 30 minutes.", "process"),
            CardLine(115, "Heat off. Canner 1: lid off, wait 5 minutes. Canner 2: lid stays on, wait 5 minutes.", "rest"),
            CardLine(120, "Jars out, straight up, onto a towel. Do not tighten the screw bands.", "unload"),
            CardLine(None, "Leave the jars still for 12 to 24 hours.", "cool"),
        ),
        amounts=(
            CardAmount("33", "lb", "peaches", "at the low yield"),
            CardAmount("14 1/8", "cups", "water"),
            CardAmount("3 1/2", "cups", "sugar"),
            CardAmount("1", "tsp", "ascorbic acid"),
            CardAmount("11", "", "quart jars"),
            CardAmount("12", "", "new lids"),
        ),
        tools=("2 pots", "peeler", "knife", "slotted spoon", "funnel", "bubble tool", "jar lifter", "timer", "towels"),
        take_home="2 quarts each, from 11:25. 1 quart is spare.",
        cautions=_cautions("water"),
        figure_notes=("Minutes for station work are common practice.",),
        allergens=(),
    )


def _tomato_brief() -> StationBrief:
    return StationBrief(
        station="B",
        letter="B",
        title="Tomatoes",
        subtitle="crushed, hot pack, quarts",
        recipe="tomatoes-crushed",
        blocked=True,
        group=NAMES[5:8],
        jars="",
        headspace_in=None,
        headspace_source="",
        process_minutes=None,
        psi=None,
        hold_psi=(),
        process_text="",
        elevation_range="",
        process_sources=(),
        work_start=None,
        work_end=None,
        keepers="",
        lines=(),
        amounts=(),
        tools=(),
        take_home="",
        cautions=(),
        figure_notes=(),
        allergens=(),
    )


def _bean_brief() -> StationBrief:
    return StationBrief(
        station="C",
        letter="C",
        title="Beans",
        subtitle="snap, pieces, hot pack, pints",
        recipe="beans-snap-and-italian-pieces",
        blocked=False,
        group=NAMES[8:],
        jars="9 pints",
        headspace_in=1.0,
        headspace_source="AIB 539 Guides 4 and 5",
        process_minutes=20,
        psi=12,
        hold_psi=("Canner 3: hold 13 pounds (published 12; its gauge reads 1 high)",),
        process_text="at 12 pounds, dial gauge",
        elevation_range="2,001 to 4,000 ft",
        process_sources=(BEAN_SOURCE,),
        work_start=20,
        work_end=57,
        keepers="Tansy at Canner 3",
        lines=(
            CardLine(20, "Wash hands. Wash 9 jars and keep them hot.", "jars"),
            CardLine(24, "Trim the beans and cut them into even pieces.", "prep"),
            CardLine(42, "Cover with boiling water and boil for 5 minutes.", "cook"),
            CardLine(50, "Fill loosely, cover with the cooking water, leave 1 in. Free the bubbles, wipe the rims, new lid.", "fill"),
            CardLine(57, "9 jars to Tansy, Canner 3, pressure.", "load"),
            CardLine(71, "Steam streams from the vent: 10 minutes by the timer, then close it.", "vent"),
            CardLine(86, "Timer starts at 13 pounds on this gauge: 20 minutes. Below it, the full time starts again.", "process"),
            CardLine(106, "Heat off. The pressure falls by itself.", "depressurise"),
            CardLine(146, "Lid far edge first, away from you. Jars out, straight up, onto a towel.", "unload"),
        ),
        amounts=(
            CardAmount("11 1/4", "lb", "beans, snap"),
            CardAmount("9", "", "pint jars"),
            CardAmount("10", "", "new lids"),
        ),
        tools=("pot", "knives", "funnel", "bubble tool", "jar lifter", "timer"),
        take_home="2 pints each, from 11:50. 1 pint is spare.",
        cautions=_cautions("pressure"),
        figure_notes=("Minutes for station work are common practice.",),
        allergens=(),
    )


def _row(product: str, jar: str, minutes: int, lowest: int, highest: int | None, psi: float | None = None) -> ProcessRow:
    pressure = psi is not None
    return ProcessRow(
        product=product,
        pack="hot",
        jar=jar,
        method="pressure" if pressure else "boiling-water",
        gauge="dial" if pressure else None,
        elevation_min_ft=lowest,
        elevation_max_ft=highest,
        minutes=minutes,
        psi=psi,
        citation=Citation(source=BEAN_SOURCE if pressure else PEACH_SOURCE),
    )


def _recipe(recipe_id: str, name: str, *, acid_class: str, product: str | None, pressure: str | None, inches: float, source: str) -> Recipe:
    few = Span(low=10, likely=15, high=25)
    return Recipe(
        id=recipe_id,
        name=name,
        category="fruit" if acid_class == "high-acid" else "vegetables",
        acid_class=acid_class,
        scaling="jar",
        product=product,
        pressure_product=pressure,
        jars=("pint", "quart"),
        headspaces=(Headspace(inches=inches, source=source),),
        acid_rule="",
        batches=(
            PublishedBatch(
                name="by the jar",
                pack="hot",
                yield_low=1,
                yield_high=1,
                yield_jar="quart",
                ingredients=(Ingredient(item=name.lower(), amount=3, unit="lb"),),
                steps=(
                    Step(kind="jars", name="jars", text="Wash the jars and keep them hot.", minutes=few),
                    Step(kind="prep", name="prep", text="Prepare the food.", minutes=few),
                    Step(kind="fill", name="fill", text="Fill the jars.", minutes=few),
                ),
            ),
        ),
        citation=Citation(source=source),
    )


def _recipes() -> tuple[RecipeUsed, ...]:
    peaches = _recipe("peaches-halved-or-sliced", "Peaches", acid_class="high-acid", product=PEACHES, pressure=None, inches=0.5,
                      source=PEACH_SOURCE)  # fmt: skip
    tomatoes = _recipe("tomatoes-crushed", "Tomatoes", acid_class="acidified", product="Tomatoes, crushed (no added liquid)",
                       pressure=None, inches=0.5, source=TOMATO_SOURCE)  # fmt: skip
    beans = _recipe("beans-snap-and-italian-pieces", "Beans", acid_class="low-acid", product=None, pressure=BEANS, inches=1,
                    source=BEAN_SOURCE)  # fmt: skip
    return (
        RecipeUsed(
            peaches,
            ("A",),
            (
                _row(PEACHES, "quart", 25, 0, 1000),
                _row(PEACHES, "quart", 30, 1001, 3000),
                _row(PEACHES, "quart", 35, 3001, 6000),
                _row(PEACHES, "quart", 40, 6001, None),
            ),
        ),
        RecipeUsed(tomatoes, ("B",), ()),
        RecipeUsed(
            beans,
            ("C",),
            (
                _row(BEANS, "pint", 20, 0, 2000, 11),
                _row(BEANS, "pint", 20, 2001, 4000, 12),
                _row(BEANS, "pint", 20, 4001, 6000, 13),
                _row(BEANS, "pint", 20, 6001, 8000, 14),
            ),
        ),
    )
