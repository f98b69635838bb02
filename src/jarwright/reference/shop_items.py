"""What does an ingredient of a published recipe mean at the shop: which item, which aisle, by weight, volume or count?

The names of items are those of `packaged_goods.csv`, `densities.csv` and the produce of `purchase_units.csv`. Nothing here is
a figure but the weight of one whole clove, which is common practice.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopItem:
    """
    How one ingredient is bought.

    `unit` is what the shopping list counts in: lb, oz, a volume, each or package. `produce` is the key of the tables of
    produce, `each` the market unit that one piece of it is. `density` names the line of `densities.csv` that turns spoons and
    cups into weight, `piece` the one that weighs a piece (a stick, a pouch), `piece_g` a piece without a line. [g]
    """

    item: str
    aisle: str
    unit: str
    produce: str | None = None
    each: str | None = None
    density: str | None = None
    piece: str | None = None
    piece_g: float | None = None


def _produce(key: str, item: str, *names: str, each: str | None = None) -> dict[str, ShopItem]:
    return _named(ShopItem(item=item, aisle="produce", unit="lb", produce=key, each=each), *names)


def _dry(item: str, density: str, *names: str, aisle: str = "baking", unit: str = "lb") -> dict[str, ShopItem]:
    return _named(ShopItem(item=item, aisle=aisle, unit=unit, density=density), *names)


def _spice(item: str, density: str, *names: str, piece: str | None = None, piece_g: float | None = None) -> dict[str, ShopItem]:
    return _named(ShopItem(item=item, aisle="spices", unit="oz", density=density, piece=piece, piece_g=piece_g), *names)


def _liquid(item: str, *names: str, unit: str = "fl oz", aisle: str = "baking") -> dict[str, ShopItem]:
    return _named(ShopItem(item=item, aisle=aisle, unit=unit), *names)


def _counted(item: str, *names: str, unit: str = "each", aisle: str = "other") -> dict[str, ShopItem]:
    return _named(ShopItem(item=item, aisle=aisle, unit=unit), *names)


def _named(item: ShopItem, *names: str) -> dict[str, ShopItem]:
    return dict.fromkeys((item.item, *names), item)


FROM_THE_TAP = ("water", "hot water", "boiling water")

SHOP_ITEMS: dict[str, ShopItem] = {
    **_produce("apples", "apples", "tart apples"),
    **_produce("apricots", "apricots"),
    **_produce("asparagus", "asparagus"),
    **_produce("beans_lima", "lima beans, in pods", "lima beans"),
    **_produce("beans_snap", "green beans", "snap beans", "green or yellow beans"),
    **_produce("beets", "beets"),
    **_produce("berries", "berries", "berries or cherries or grapes"),
    **_produce("blueberries", "blueberries"),
    **_produce("cabbage", "cabbage"),
    **_produce("carrots", "carrots"),
    **_produce("cauliflower", "cauliflower", "cauliflower florets"),
    **_produce("cherries", "cherries"),
    **_produce("cherries", "sour cherries"),
    **_produce("corn_sweet", "sweet corn, in husk", "whole kernel corn"),
    **_produce("crabapples", "crab apples"),
    **_produce("cranberries", "cranberries"),
    **_produce("cucumbers", "pickling cucumbers", "cucumbers"),
    **_produce("dill_fresh", "dill, fresh", "dill", each="each (head)"),
    **_produce("figs", "figs"),
    **_produce("garlic", "garlic", each="clove"),
    **_produce("ginger_root", "ginger, fresh", "ginger"),
    **_produce("grapes", "seedless green grapes"),
    **_produce("grapes", "grapes, dark", "Concord grapes"),
    **_produce("mushrooms", "mushrooms, small", "small whole mushrooms"),
    **_produce("nectarines", "nectarines"),
    **_produce("okra", "okra"),
    **_produce("onions", "onions", "onion", "white onion", "white onions", "red onion", each="each, medium 2-1/2 in"),
    **_produce("onions", "small onions"),
    **_produce("peaches", "peaches", "peach pulp"),
    **_produce("pears", "pears"),
    **_produce("peas_green", "peas, in pods"),
    **_produce("peppers_hot", "jalapeno peppers", each="each, jalapeno"),
    **_produce("peppers_hot", "serrano peppers", each="each, serrano"),
    **_produce("peppers_hot", "long green chiles", each="each, chili"),
    **_produce("peppers_hot", "yellow banana peppers"),
    **_produce("peppers_hot", "hot peppers", "hot long peppers", "chile peppers", each="each, chili"),
    **_produce("peppers_sweet", "sweet green peppers", "green peppers", "green pepper", "green bell peppers", each="each, medium"),
    **_produce("peppers_sweet", "sweet red peppers", "red bell pepper", "red bell peppers", each="each, medium"),
    **_produce("peppers_sweet", "yellow bell peppers", each="each, large"),
    **_produce("peppers_sweet", "sweet peppers, red and green", "sweet red and green peppers"),
    **_produce("peppers_sweet", "peppers, firm", "firm peppers"),
    **_produce("plums", "plums"),
    **_produce("potatoes", "potatoes, white"),
    **_produce("rhubarb", "rhubarb", "red rhubarb stalks"),
    **_produce("strawberries", "strawberries"),
    **_produce("tomatoes", "tomatoes", "slicing tomatoes"),
    **_produce("tomatoes", "paste tomatoes"),
    **_produce("tomatoes_green", "green tomatoes"),
    **_produce("zucchini", "zucchini"),
    **_dry("sugar, granulated", "sugar, granulated", "sugar", "white sugar"),
    **_dry("sugar, brown", "sugar, brown, packed", "brown sugar", "light brown sugar"),
    **_dry("honey", "honey", "clover honey", unit="oz"),
    **_dry("starch, cook-type modified", "cornstarch", "cook-type modified starch"),
    **_dry("cornstarch", "cornstarch"),
    **_dry("raisins, golden", "raisins, packed", "golden raisins", "white raisins"),
    **_dry("raisins, dark", "raisins, packed", "dark seedless raisins"),
    **_dry("sugar, superfine", "sugar, superfine", "superfine sugar"),
    **_dry("mustard, prepared", "mustard, prepared", "prepared mustard", "prepared yellow mustard", aisle="other", unit="oz"),
    **_dry("butter", "butter", "unsalted butter", aisle="dairy"),
    **_dry("salt, canning and pickling", "salt, table", "canning salt", "salt", aisle="canning"),
    **_dry("citric acid", "citric acid, granular", aisle="canning", unit="oz"),
    **_dry("ascorbic acid powder or color protector", "ascorbic acid powder", "ascorbic acid", aisle="canning", unit="oz"),
    **_spice("allspice, whole", "allspice berries, whole", "allspice"),
    **_spice("basil, dried", "basil, dried leaves", "basil leaves"),
    **_spice("cayenne, ground", "pepper, red or cayenne", "cayenne"),
    **_spice("celery seed", "celery seed"),
    **_spice("cinnamon, ground", "cinnamon, ground"),
    **_spice("cinnamon sticks", "cinnamon stick", piece="cinnamon stick"),
    **_spice("cloves, ground", "cloves, ground"),
    **_spice("cloves, whole", "cloves, whole", piece_g=0.1),
    **_spice("cumin, ground", "cumin seed", "cumin"),
    **_spice("dill seed", "dill seed"),
    **_spice("ginger, ground", "ginger, ground"),
    **_spice("mustard, ground", "mustard seed, ground", "dry mustard"),
    **_spice("mustard seed", "mustard seed, yellow, whole"),
    **_spice("nutmeg, ground", "nutmeg, ground", "nutmeg", "nutmeg or cinnamon"),
    **_spice("oregano, dried", "oregano, dried leaves", "oregano leaves"),
    **_spice("paprika", "paprika"),
    **_spice("pepper, black, ground", "pepper, black, ground", "black pepper", "pepper"),
    **_spice("peppercorns", "peppercorns, black, whole"),
    **_spice("red pepper flakes", "dried red chili flakes", "hot red pepper flakes"),
    **_spice("pickling spice, mixed", "mixed pickling spice", "mixed pickling spice"),
    **_spice("turmeric, ground", "turmeric, ground", "turmeric"),
    **_liquid(
        "vinegar, white 5 %",
        "vinegar (5%)",
        "white vinegar (5%)",
        "white distilled vinegar (5%)",
        "distilled white vinegar (5%)",
        unit="quart",
        aisle="canning",
    ),
    **_liquid("vinegar, cider 5 %", "cider vinegar (5%)", "apple vinegar (5%)", unit="quart", aisle="canning"),
    **_liquid("lemon juice, bottled", "bottled lemon juice", "lemon juice", "bottled lemon or lime juice", aisle="canning"),
    **_liquid("apple juice", aisle="other"),
    **_liquid("apple cider", "cider", aisle="other"),
    **_liquid("oil, salad", "oil", aisle="other"),
    **_liquid("oil, olive or salad", "olive or salad oil", aisle="other"),
    **_liquid("tomato juice", aisle="other"),
    **_liquid("white grape juice", aisle="other"),
    **_liquid("orange juice", aisle="other"),
    **_counted("pectin, powdered, regular", "powdered pectin", unit="package", aisle="canning"),
    **_counted("pectin, liquid", "liquid pectin", aisle="canning"),
    **_counted("eggs", "egg yolks", aisle="dairy"),
    **_counted("tomato paste, 12 oz can", "tomato paste"),
    **_counted("ice, bagged", "ice", unit="lb"),
}

WITH_PREPARATION = {
    ("cinnamon", "ground"): "cinnamon, ground",
    ("cinnamon", "as is"): "cinnamon sticks",
    ("cinnamon", "crushed"): "cinnamon sticks",
    ("ginger", "ground"): "ginger, ground",
    ("cloves", "ground"): "cloves, ground",
    ("cloves", "whole"): "cloves, whole",
}


def shop_item(name: str, preparation: str) -> ShopItem | None:
    """Return how an ingredient is bought; None where the table does not know it."""
    known = WITH_PREPARATION.get((name, preparation), name)
    return SHOP_ITEMS.get(known)
