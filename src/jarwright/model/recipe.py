"""What a published figure, a process time row and a tested recipe are."""

from __future__ import annotations

from dataclasses import dataclass

from jarwright.model.codec import Unknown, field
from jarwright.model.words import (
    ACID_CLASSES,
    ALLERGENS,
    JAR_SIZES,
    PACKS,
    SCALINGS,
    SOURCE_KINDS,
    STEP_KINDS,
)

# Thirty days: a wait of more than a day can be written down, and planning says that no class waits so long.
LONGEST_STEP = 43_200


@dataclass(frozen=True, slots=True, kw_only=True)
class Citation:
    """Where a figure stands: title, agency, year; `row` is the file and line of our copy."""

    source: str
    source_kind: str = field(known=SOURCE_KINDS, what="a kind of source", default="seen")
    row: str = ""
    confidence: str = "high"


@dataclass(frozen=True, slots=True, kw_only=True)
class ProcessRow:
    """
    One published process time.

    Both printed ends of the elevation range belong to it [ft]; `elevation_max_ft` None is "and above".
    `minutes` [min]; `psi` [lb/in2] and `gauge` for pressure only.
    """

    product: str
    pack: str
    jar: str
    method: str
    gauge: str | None
    elevation_min_ft: int
    elevation_max_ft: int | None
    minutes: int
    psi: float | None
    citation: Citation

    def covers(self, elevation_ft: float) -> bool:
        """Say whether whole feet `elevation_ft` lie in the range (its lowest range also holds below sea level)."""
        return self.elevation_min_ft <= elevation_ft and (self.elevation_max_ft is None or elevation_ft <= self.elevation_max_ft)


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """Minutes of work: low, likely, high. [min]"""

    low: float = field(least=0, most=LONGEST_STEP)
    likely: float = field(least=0, most=LONGEST_STEP)
    high: float = field(least=0, most=LONGEST_STEP)


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """
    What an ingredient means at the shop, for the ingredient's own amount.

    `amount` is what to buy when it yields low (the larger amount), `amount_likely` when it yields as usual; both in `unit`
    (produce and dry goods in lb or oz, liquids in a volume, the rest in "each" or "package").
    """

    item: str
    amount: float
    amount_likely: float
    unit: str
    aisle: str
    source: str
    source_kind: str = field(known=SOURCE_KINDS, default="seen")
    produce: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ingredient:
    """One line of a recipe, for one published batch (or for one quart of a recipe that scales by jar)."""

    item: str
    amount: float = field(least=0)
    unit: str = "each"
    preparation: str = ""
    note: str = ""
    optional: bool = False
    purchase: Purchase | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """
    One task of station work, in our own words.

    `minutes` are for one published batch and a group of four (fill and jars: see `per_jar`). `hands` is the people it takes
    (0 look in, 1 stir), `burners` the pots on a burner at once. `after` holds the positions of the steps that end before it;
    None means the step before. `place` is where a wait happens. `text` is what the card says. `published` tells minutes read
    in a publication from common practice. `day_before` says the step may be done ahead.
    With `per_jar` the minutes are for one jar, and `setup_minutes` come once on top. [min]
    """

    kind: str = field(known=STEP_KINDS, what="a kind of task")
    name: str
    text: str
    minutes: Span
    hands: int = field(least=0, most=20, default=1)
    burners: int = field(least=0, most=2, default=0)
    after: tuple[int, ...] | None = None
    place: str | None = None
    published: bool = False
    per_jar: bool = False
    setup_minutes: float = field(least=0, most=240, default=0.0)
    scales_with_people: bool = False
    day_before: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedBatch:
    """A batch as published: what goes in, what is done, what comes out (jars of `yield_jar`)."""

    name: str
    pack: str = field(known=PACKS, what="a pack")
    yield_low: float = field(least=0.5)
    yield_high: float = field(least=0.5)
    yield_jar: str = field(known=JAR_SIZES, what="a jar size")
    ingredients: tuple[Ingredient, ...]
    steps: tuple[Step, ...]
    pot_qt: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """
    Something the instructor chooses for a station: a syrup, the acid, salt.

    `kind` is liquid, acid or salt; `name` what the document says ("light syrup", "lemon juice"); `ingredients` are for one
    quart jar (halved for a pint). `card` is the line the fill step gets ("2 tbsp bottled lemon juice in each quart").
    """

    kind: str = field(known=("liquid", "acid", "salt"))
    name: str
    default: bool
    ingredients: tuple[Ingredient, ...]
    card: str
    source: str
    source_kind: str = field(known=SOURCE_KINDS, default="seen")


@dataclass(frozen=True, slots=True, kw_only=True)
class Headspace:
    """Published space between food and rim [in] for a pack and a jar (None: every pack, every jar)."""

    inches: float = field(least=0, most=3)
    source: str
    source_kind: str = field(known=SOURCE_KINDS, default="seen")
    pack: str | None = None
    jar: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """
    A tested recipe.

    `product` names the boiling-water (and steam) rows, `pressure_product` the pressure rows, None where there are none.
    `scaling`: "single" (jams and jellies: whole single batches, one pot each), "batch" (whole batches), "jar" (by the jar;
    ingredient amounts are then for one quart). `refused` is the reason this recipe cannot be taught in a class, if any.
    """

    id: str
    name: str
    category: str
    acid_class: str = field(known=ACID_CLASSES, what="an acid class")
    scaling: str = field(known=SCALINGS, what="a way of scaling")
    product: str | None
    pressure_product: str | None
    jars: tuple[str, ...] = field(known=JAR_SIZES, what="a jar size")
    headspaces: tuple[Headspace, ...]
    acid_rule: str
    batches: tuple[PublishedBatch, ...] = field(least=1)
    citation: Citation
    aliases: tuple[str, ...] = ()
    choices: tuple[Choice, ...] = ()
    allergens: tuple[str, ...] = field(known=ALLERGENS, what="an allergen", default=())
    allergen_note: str = ""
    gloves: bool = False
    dense: bool = False
    notes: tuple[str, ...] = ()
    refused: str | None = None
    unknown: Unknown = ()

    def headspace(self, *, pack: str, jar: str) -> Headspace | None:
        """Return the most exact published headspace for this pack and jar. [in]"""
        fits = [h for h in self.headspaces if h.pack in (None, pack) and h.jar in (None, jar)]
        return max(fits, key=lambda h: (h.pack is not None) + (h.jar is not None), default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A rule of the trade with its number and source (`GR-07`, `ST-02`)."""

    id: str
    text: str
    number: float | None
    unit: str
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class MarketUnit:
    """A unit that produce is sold in and the range it weighs. [lb]"""

    name: str
    low_lb: float
    high_lb: float
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopPackage:
    """A usual retail package; the instructor's own sizes and prices replace it."""

    item: str
    label: str
    amount: float
    unit: str
    price: str | None = None
    citation: Citation | None = None
