"""Figures from memory: all of them in one list, gone when confirmed with publication and page."""

from dataclasses import replace

from demo_class import BEANS, PEACHES, PICKLES, canner, gas, make, stations
from jarwright.papers.plan_text import plan_text
from jarwright.planning.pipeline import plan_class
from jarwright.planning.resolve import resolve
from jarwright.planning.unconfirmed import unconfirmed_figures, unconfirmed_finding
from jarwright.reference.library import load_reference
from jarwright.reference.process_times import ProcessTimes

REFERENCE = load_reference()
SWEET = {**PICKLES, "recipe": "quick-sweet-pickles", "ahead": {"who": "Holly", "where": "Home refrigerator", "kept_cold": "under ice"}}
READ = {
    "product": "Quick sweet pickles", "pack": "hot", "jar": "pint", "method": "boiling-water", "elevation_min_ft": 0,
    "elevation_max_ft": 1000, "minutes": 5, "publication": "Demo guide", "page": "12",
}  # fmt: skip


def checked(*figures, publication="Demo guide", page="3"):
    """Return checked figures of a document."""
    return [{"figure": figure, "publication": publication, "page": page} for figure in figures]


def listed(document):
    """Return ids and whether they block."""
    return [(figure.id, figure.blocks) for figure in unconfirmed_figures(document, REFERENCE)]


def test_a_process_from_memory_blocks_and_comes_first():
    """It is named by product, pack, jar and range, without its minutes: the page must say them."""
    document = make(stations=stations(BEANS, SWEET))
    figures = unconfirmed_figures(document, REFERENCE)

    assert figures[0].about == "station B"
    assert figures[0].blocks
    assert figures[0].what == "Boiling water process of Quick sweet pickles, hot pack pints, 0 to 1,000 ft"
    assert "confirmed figures" in figures[0].remedy
    assert not any(figure.blocks for figure in figures[1:])


def test_a_confirmed_process_is_listed_no_longer():
    """Publication and page are there."""
    assert all(name.startswith("method") for name, _ in listed(make(stations=stations(SWEET), confirmed=[READ])))
    assert any(blocks for _, blocks in listed(make(stations=stations(SWEET), confirmed=[{**READ, "page": ""}])))


def test_a_process_that_was_read_is_not_listed():
    """Peaches in boiling water rest on read figures alone."""
    assert listed(make(stations=stations(PEACHES))) == []


def test_a_gauge_whose_only_row_is_from_memory_is_listed_with_its_pounds():
    """The weight's row was read and works; the dial's was not: it is named, and the station waits only where it has no other canner."""
    rules = REFERENCE.rules
    rows = [
        replace(row, citation=replace(row.citation, source_kind="memory")) if row.gauge == "dial" else row for row in REFERENCE.times.rows
    ]
    reference = replace(REFERENCE, times=ProcessTimes(rows, steam_limit=rules["ST-02"], half_gallons=rules["GR-121"]))

    for canners, blocks in ((("k3", "k4"), False), (("k4",), True)):
        document = make(stations=stations(BEANS), kitchen={"burners": [gas()], "canners": [canner(each) for each in canners]})
        (figure,) = [each for each in unconfirmed_figures(document, reference) if "process_times" in each.id]
        assert "raw pack pints at 11 pounds by dial gauge, 0 to 2,000 ft" in figure.what
        assert figure.blocks is blocks


def test_the_method_s_remembered_rules_are_listed_until_they_are_checked():
    """Ten minutes of waiting at zero stand in a newer text than the one that was read."""
    open_ones = [name for name, _ in listed(make(stations=stations(BEANS)))]
    assert open_ones == ["method pc-restart", "method pc-wait"]

    assert [name for name, _ in listed(make(stations=stations(BEANS), checked=checked("method pc-wait")))] == ["method pc-restart"]
    assert [name for name, _ in listed(make(stations=stations(BEANS), checked=checked("method pc-wait", page=" ")))] == open_ones


def own(**changes):
    """Return an own recipe whose amounts are from memory, with an acid from memory to choose."""
    return {
        "id": "own", "name": "Own plums", "category": "fruit", "acid_class": "high-acid", "scaling": "batch", "pressure_product": None,
        "product": "Peaches, halved or sliced", "jars": ["quart"], "acid_rule": "",
        "headspaces": [{"inches": 0.5, "source": "a card", "source_kind": "memory"}],
        "citation": {"source": "a card", "source_kind": "memory"},
        "choices": [{"kind": "acid", "name": "sour drops", "default": True, "ingredients": [], "card": "Drops.", "source": "a card",
                     "source_kind": "memory"}],
        "batches": [{"name": "full", "pack": "hot", "yield_low": 7, "yield_high": 7, "yield_jar": "quart", "ingredients": [],
                     "steps": [{"kind": "fill", "name": "Fill", "text": "Fill.", "minutes": {"low": 5, "likely": 7, "high": 9}}]}],
        **changes,
    }  # fmt: skip


def test_amounts_headspace_and_acid_from_memory_are_listed_and_only_the_acid_blocks():
    """A dose of acid is a matter of safety; the others are marked where they show."""
    station = {**PEACHES, "recipe": "own", "liquid": None}
    document = make(stations=stations(station), recipes=[own()])

    assert listed(document) == [("acid sour drops of own", True), ("amounts of own", False), ("headspace of own", False)]
    assert resolve(document, REFERENCE)[0][0].blocked

    names = ("acid sour drops of own", "amounts of own", "headspace of own")
    settled = make(stations=stations(station), recipes=[own()], checked=checked(*names))
    assert listed(settled) == []
    (resolved,), findings = resolve(settled, REFERENCE)
    assert not resolved.blocked
    assert [finding.rule for finding in findings if finding.rule == "unconfirmed"] == []


def test_a_station_without_a_recipe_or_a_row_has_nothing_to_confirm():
    """Nothing is looked up for what is refused anyway."""
    assert (
        listed(make(stations=stations({**PEACHES, "recipe": "nothing"}, {**BEANS, "method": "steam"}, {**PEACHES, "jar": "half-gallon"})))
        == []
    )


def test_a_syrup_from_memory_is_listed_and_does_not_block():
    """It is for taste; only an acid is a matter of safety."""
    document = make(
        stations=stations({**PEACHES, "recipe": "own", "liquid": "syrup"}),
        recipes=[own(choices=[{"kind": "liquid", "name": "syrup", "default": True, "ingredients": [], "card": "", "source": "a card",
                               "source_kind": "memory"}])],
    )  # fmt: skip

    assert ("liquid syrup of own", False) in listed(document)


def test_the_plan_lists_them_and_counts_them_once():
    """In the plan, in its words, and as one note about the class."""
    plan = plan_class(make(stations=stations(BEANS)), REFERENCE)

    assert [figure.id for figure in plan.unconfirmed][:2] == ["method pc-restart", "method pc-wait"]
    (note,) = [finding for finding in plan.findings if finding.rule == "unconfirmed"]
    assert (note.level, note.about) == ("note", "class")
    assert "none of them blocks a station" in note.says
    text = plan_text(plan)
    assert f"Figures from memory ({len(plan.unconfirmed)}): confirm each with publication and page" in text
    assert "falls below its figure" in text


def test_packages_from_memory_give_way_to_the_instructor_s_own():
    """Sugar in usual packages is a guess; what the shop sells is not."""
    sugar = {"item": "sugar, granulated", "amount": 5, "unit": "lb", "price": "4.00"}
    usual = plan_class(make(), REFERENCE)
    own_sizes = plan_class(make(packages=[sugar]), REFERENCE)

    def packages(plan):
        return " ".join(figure.what for figure in plan.unconfirmed if figure.id == "packages")

    assert "sugar, granulated" in packages(usual)
    assert "sugar, granulated" not in packages(own_sizes)


def test_one_that_blocks_is_counted_as_one():
    """Grammar at both ends: one figure, one station; nothing, no note."""
    figures = unconfirmed_figures(make(stations=stations(SWEET)), REFERENCE)

    assert unconfirmed_finding(()) is None
    assert unconfirmed_finding(figures[:1]).says == "1 figure of this class is from memory, and 1 of them blocks a station."


def test_no_row_from_memory_is_ever_planned_without_its_confirmation():
    """Every recipe on file in every pack, jar, method and range: a way rests on a read row, or the station is blocked and listed."""
    combinations = [
        {"recipe": recipe.id, "pack": pack, "jar": jar, "method": method, "ahead": SWEET["ahead"]}
        for recipe in REFERENCE.recipes.all()
        for pack in ("hot", "raw")
        for jar in recipe.jars
        for method in ("boiling-water", "steam", "pressure")
    ]
    from_memory = 0
    for elevation in (0, 1001, 3001, 6001):
        for start in range(0, len(combinations), 24):
            document = make(site={"elevation_ft": elevation}, stations=stations(*combinations[start : start + 24]))
            resolved, findings = resolve(document, REFERENCE)
            assert all(way.row.citation.source_kind != "memory" for each in resolved for way in each.ways)
            told = {finding.about for finding in findings if finding.rule == "unconfirmed" and finding.level == "blocker"}
            names = {f.about for f in unconfirmed_figures(document, REFERENCE, stations=resolved) if f.blocks}
            assert told <= names
            from_memory += len(told)
    assert from_memory > 5
