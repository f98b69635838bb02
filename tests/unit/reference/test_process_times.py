"""Looking a process time up: which row answers, and what a refusal says."""

import pytest

from jarwright.errors import TableError
from jarwright.model.recipe import Citation, ProcessRow, Rule
from jarwright.reference.folders import resource_folder
from jarwright.reference.process_times import ProcessTimes, load_process_times
from jarwright.reference.rules import load_rules

STEAM_LIMIT = Rule(id="ST-02", text="at most", number=45, unit="min", citation=Citation(source="Demo steam sheet, 2015"))


def row(*, product="Demo fruit", pack="hot", jar="pint", low=0, high=None, minutes=20, kind="seen", gauge=None, psi=None):
    """Return one row of a made-up table: placeholders, not kitchen advice."""
    return ProcessRow(
        product=product,
        pack=pack,
        jar=jar,
        method="pressure" if gauge else "boiling-water",
        gauge=gauge,
        elevation_min_ft=low,
        elevation_max_ft=high,
        minutes=minutes,
        psi=psi,
        citation=Citation(source="Demo guide, 2000", source_kind=kind, row="demo.csv:2"),
    )


def demo(*rows: ProcessRow) -> ProcessTimes:
    """Return a table of these rows only."""
    return ProcessTimes(rows, steam_limit=STEAM_LIMIT)


def ask(times, *, product="Demo fruit", pack="hot", jar="pint", method="boiling-water", elevation_ft=0, gauge=None):
    """Look one up with the usual words filled in."""
    return times.lookup(product=product, pack=pack, jar=jar, method=method, elevation_ft=elevation_ft, gauge=gauge)


@pytest.fixture(scope="module")
def published() -> ProcessTimes:
    """Return the tables as they ship."""
    folder = resource_folder() / "published"
    return load_process_times(folder, load_rules(folder))


@pytest.mark.parametrize(("feet", "minutes"), [(-1_400, 10), (0, 10), (999.2, 10), (1_000, 10), (1_000.1, 15), (1_001, 15), (12_000, 15)])
def test_both_printed_ends_belong_to_a_range_and_fractions_round_up(feet, minutes):
    """A kitchen at 1,000.1 ft is above 1,000 ft; one below sea level is not off the table."""
    times = demo(row(high=1_000, minutes=10), row(low=1_001, minutes=15))

    assert [found.minutes for found in ask(times, elevation_ft=feet)] == [10 if minutes == 10 else 15]


def test_product_is_found_by_its_id_or_in_any_spelling():
    """The document says `demo-fruit-sliced`, the publication prints 'Demo fruit, sliced'."""
    times = demo(row(product="Demo fruit, sliced"))

    assert ask(times, product="demo-fruit-sliced") == ask(times, product="DEMO FRUIT (Sliced)")


def test_smaller_jar_takes_the_time_of_the_next_larger_published_one():
    """Half-pints of a product published for pints and quarts run as pints (GR-149)."""
    times = demo(row(jar="pint", minutes=20), row(jar="quart", minutes=25))

    assert [(found.jar, found.minutes) for found in ask(times, jar="half-pint")] == [("pint", 20)]


def test_own_size_is_never_replaced_by_a_larger_one():
    """Where half-pints are published their own time holds."""
    times = demo(row(jar="half-pint", minutes=15), row(jar="pint", minutes=20))

    assert [(found.jar, found.minutes) for found in ask(times, jar="half-pint")] == [("half-pint", 15)]


def test_size_known_only_from_memory_gives_way_to_the_next_larger_one_that_was_read():
    """A remembered 10 minutes is no published size; the pint's 20 minutes were read."""
    times = demo(row(jar="half-pint", minutes=10, kind="memory"), row(jar="pint", minutes=20))

    assert [(found.jar, found.minutes) for found in ask(times, jar="half-pint")] == [("pint", 20)]


def test_rows_from_memory_answer_where_nothing_was_read():
    """They come back marked, so that the planner can block the station until somebody checks the page."""
    (found,) = ask(demo(row(jar="pint", minutes=20, kind="memory")), jar="half-pint")

    assert (found.jar, found.citation.source_kind) == ("pint", "memory")


def test_larger_jar_than_published_is_refused():
    """A quart is never run by the time of a pint."""
    with pytest.raises(TableError, match="quarts") as refusal:
        ask(demo(row(jar="pint")), jar="quart")

    assert (refusal.value.rule, refusal.value.fix) == ("not-published", "Published: hot pack in pints")


def test_all_pressures_come_back_read_ones_first_then_the_highest():
    """Where a table offers 5, 10 and 15 pounds the instructor may choose; the remembered 15 is never the first."""
    times = demo(
        row(gauge="weighted", psi=5, minutes=40),
        row(gauge="weighted", psi=10, minutes=25),
        row(gauge="weighted", psi=15, minutes=15, kind="memory"),
    )

    assert [found.psi for found in ask(times, method="pressure", gauge="weighted")] == [10, 5, 15]


def test_no_row_answers_for_the_other_gauge():
    """A dial gauge is not read by a weight's table."""
    with pytest.raises(TableError, match="by dial gauge"):
        ask(demo(row(gauge="weighted", psi=10)), method="pressure", gauge="dial")


def test_dial_gauge_above_its_last_row_is_refused(published):
    """Dial-gauge tables end at 8,000 ft; 8,000.5 ft is above them."""
    beets = {"product": "Beets", "method": "pressure", "gauge": "dial"}
    assert ask(published, **beets, elevation_ft=8_000)[0].psi == 14

    with pytest.raises(TableError, match="above 8,000 ft for hot pack pints"):
        ask(published, **beets, elevation_ft=8_000.5)


def test_steam_reads_the_boiling_water_row_up_to_45_minutes(published):
    """Crushed tomatoes in quarts: 45 minutes at 1,000 ft may be steamed, 50 at 1,001 ft may not."""
    tomatoes = {"product": "Tomatoes, crushed (no added liquid)", "jar": "quart", "method": "steam"}
    assert [(found.method, found.minutes) for found in ask(published, **tomatoes, elevation_ft=1_000)] == [("steam", 45)]

    with pytest.raises(TableError, match="50 minutes") as refusal:
        ask(published, **tomatoes, elevation_ft=1_001)
    assert refusal.value.rule == "steam-limit"
    assert "Steam Canner" in refusal.value.source


def test_steam_takes_no_jar_above_a_quart(published):
    """Grape juice is published in half-gallons for boiling water, but no steam canner was tested with them."""
    with pytest.raises(TableError, match="up to a quart") as refusal:
        ask(published, product="Grape juice", jar="half-gallon", method="steam")

    assert refusal.value.rule == "steam-limit"


def test_low_acid_food_has_no_boiling_water_time(published):
    """Beans in boiling water are the classic way to botulism: the refusal names the canner that is published."""
    with pytest.raises(TableError) as refusal:
        ask(published, product="Beans, snap and Italian, pieces")

    assert "only for the pressure canner" in refusal.value.what
    assert "AIB" in refusal.value.source or "USDA" in refusal.value.source


def test_unknown_product_names_those_that_it_resembles(published):
    """A typo ten minutes before class must not send anybody through the whole list."""
    with pytest.raises(TableError) as refusal:
        ask(published, product="peeches halved")
    assert str(refusal.value) == "No process time of 'peeches halved' is on file. Did you mean 'Peaches, halved or sliced'?"

    assert published.nearest_product("bread and butter pickels") == "Bread-and-butter pickles"
    assert published.nearest_product("qzxv") is None


def test_food_that_nobody_cans_is_refused_with_its_reason(published):
    """Pumpkin butter has no row, and a list of similar names would be the wrong answer."""
    with pytest.raises(TableError, match="not for canning at home") as refusal:
        ask(published, product="pumpkin-butter")

    assert "Kansas State" in refusal.value.source


def test_half_gallons_are_refused_with_the_juices_they_are_for(published):
    """GR-121: apple and grape juice alone."""
    with pytest.raises(TableError, match=r"very acid juices \(Apple juice and Grape juice\)"):
        ask(published, product="Peaches, halved or sliced", jar="half-gallon")

    assert ask(published, product="Apple juice", jar="half-gallon")[0].minutes == 10


def test_raw_pack_is_refused_where_only_hot_pack_is_published(published):
    """Beets are published hot only; the message says what is."""
    with pytest.raises(TableError, match="raw pack") as refusal:
        ask(published, product="Beets", pack="raw", method="pressure", gauge="weighted")

    assert "Published: hot pack in pints and quarts by dial gauge up to 8,000 ft" in refusal.value.fix


def test_remembered_ranges_stand_beside_read_ones(published):
    """Sauerkraut, hot pack: 0 to 1,000 ft was read, the ranges above are remembered and must be marked so."""
    kinds = [ask(published, product="Sauerkraut", elevation_ft=feet)[0].citation.source_kind for feet in (1_000, 1_001)]

    assert kinds == ["seen", "memory"]


def test_whole_table_for_steam_leaves_out_what_steam_may_not_do(published):
    """A handout for a steam class must not print 50 minutes."""
    table = published.table("Tomatoes, crushed (no added liquid)", "steam")

    assert max(found.minutes for found in table) == 45
    assert {found.method for found in table} == {"steam"}
    assert published.table("Beets", "boiling-water") == ()


def test_products_are_listed_by_method(published):
    """106 products for boiling water and for steam, 41 under pressure."""
    assert len(published.products("boiling-water")) == len(published.products("steam")) == 106
    assert len(published.products("pressure")) == 41
    assert published.published_name("apple-butter") == "Apple butter"
