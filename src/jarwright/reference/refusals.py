"""Which foods does nobody can at home, why, and what is published instead? Named, so that a search for them is answered.

A food is recognised by the words of its name; words that lead to a published product (pickled, relish, cubed) clear it.
Each entry's source was read; the sentences are ours.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from jarwright.errors import TableError
from jarwright.reference.names import plain


@dataclass(frozen=True, slots=True, kw_only=True)
class RefusedFood:
    """
    A food without a safe published process.

    `words` are sets of words of which one set must stand in a name in full; `unless` are words that make it another food.
    """

    id: str
    name: str
    words: tuple[frozenset[str], ...]
    why: str
    instead: str
    source: str
    unless: frozenset[str] = frozenset()

    def error(self) -> TableError:
        """Return the refusal as the error that a look-up raises."""
        return TableError(f"{self.name}: not for canning at home. {self.why}", fix=self.instead, source=self.source)


def refused_food(name: str) -> RefusedFood | None:
    """Return the refused food that a name means, or None; a name of the published tables or recipes is never one."""
    words = {_singular(word) for word in plain(name).split()}
    return next((food for food in REFUSED if not words & food.unless and any(each <= words for each in food.words)), None)


def _singular(word: str) -> str:
    if word.endswith("oes"):
        return word[:-2]
    return word[:-1] if word.endswith("s") and not word.endswith(("ss", "us")) else word


def _sets(*names: str) -> tuple[frozenset[str], ...]:
    return tuple(frozenset(name.split()) for name in names)


def _words(names: str) -> frozenset[str]:
    return frozenset(names.split())


PICKLED: frozenset[str] = _words("pickle pickled relish chutney sauerkraut kraut salsa chow piccalilli dill")


def _crossed(vegetables: Iterable[str]) -> tuple[frozenset[str], ...]:
    """Return each winter squash with each way of making it dense."""
    return tuple(frozenset((each, way)) for each in vegetables for way in ("puree", "pureed", "butter", "mash", "mashed", "pie"))


REFUSED = (
    RefusedFood(
        id="pumpkin-puree",
        name="Pumpkin or winter squash as a purée, butter or pie filling",
        words=_crossed(("pumpkin", "squash", "butternut", "hubbard", "acorn")),
        why="It is low-acid and its thickness differs from batch to batch, so no process time could be established.",
        instead="Can it in cubes under pressure and mash it when the jar is opened, or freeze the purée",
        source="Kansas State Univ. Extension, You Asked It, Preserving Pumpkin Safely (2016), from USDA AIB 539 (rev. 2015); "
        "National Center for Home Food Preservation, Beware: Pumpkin Butter",
    ),
    RefusedFood(
        id="dairy",
        name="Milk, cream, butter or cheese",
        words=_sets(
            "milk", "cream", "cheese", "butter", "ghee", "yogurt", "buttermilk", "custard", "dulce leche", "alfredo",
        ),
        unless=_words(
            "bread apple pear peach plum fruit apricot bean nut peanut cocoa curd corn pea tomato lemon coconut almond squash pumpkin"
        ),
        why="Dairy food is low-acid and its fat shields bacteria from the heat; no process for the home has been tested.",
        instead="Refrigerate or freeze it, and add it when a jar is opened",
        source="Clemson Univ. Cooperative Extension, Canning Controversies: No to Home Canning Dairy Products "
        "(position shared with the National Center for Home Food Preservation)",
    ),
    RefusedFood(
        id="summer-squash",
        name="Summer squash or zucchini by itself",
        words=_sets("summer squash", "zucchini", "courgette", "crookneck", "pattypan"),
        unless=PICKLED | _words("pineapple bread tomato"),
        why="It is low-acid and packs into a jar unevenly; the former process was withdrawn, since nothing shows it heats enough.",
        instead="Freeze or dry it, or choose a tested pickle or relish",
        source="Clemson Univ. HGIC, No Canning Zucchini & Summer Squash; Kansas State Univ. Extension, Preserving Summer Squash (2022)",
    ),
    RefusedFood(
        id="eggplant",
        name="Eggplant by itself",
        words=_sets("eggplant", "aubergine"),
        unless=PICKLED,
        why="It is low-acid and turns to a dense mash; no process time has been developed.",
        instead="Freeze it, or choose a tested pickle",
        source="Penn State Extension, The Uncanny Trio: Eggplant, Summer Squash, Melon (2024)",
    ),
    RefusedFood(
        id="melon",
        name="Melon or watermelon by itself",
        words=_sets("melon", "cantaloupe", "honeydew", "watermelon", "muskmelon"),
        unless=PICKLED | _words("rind"),
        why="It is low-acid, although it is sweet, and turns to mash; no process time has been developed.",
        instead="Freeze it, or choose a tested pickle",
        source="Penn State Extension, The Uncanny Trio: Eggplant, Summer Squash, Melon (2024)",
    ),
    RefusedFood(
        id="cabbage-family",
        name="Cabbage, broccoli, cauliflower or Brussels sprouts by themselves",
        words=_sets("cabbage", "broccoli", "cauliflower", "brussel sprout", "kohlrabi"),
        unless=PICKLED | _words("slaw pepper"),
        why="They discolour and grow strong in taste, and no tested process for them as plain vegetables is on file.",
        instead="Freeze them, or choose sauerkraut or a tested pickle",
        source="Michigan State Univ. Extension, Michigan Fresh: Cauliflower (HNI20, 2023); "
        "Univ. of Idaho Extension, Cabbage Family; Univ. of Missouri Extension, HES134",
    ),
    RefusedFood(
        id="oil",
        name="Herbs, garlic or vegetables in oil, and pesto",
        words=_sets("pesto", "garlic oil", "herb oil", "infused oil", "pepper oil", "tomato oil"),
        why="Oil keeps the air out and shields spores from the heat, and the food in it is low-acid.",
        instead="Keep it in the refrigerator for two or three days, or freeze it",
        source="National Center for Home Food Preservation, FAQ Canning (oil with herbs, pesto)",
    ),
    RefusedFood(
        id="bread",
        name="Bread or cake in a jar",
        words=_sets("bread", "cake", "muffin", "brownie"),
        unless=PICKLED | _words("butter"),
        why="It is moist and low-acid and is only closed while hot, never processed.",
        instead="Bake it in a pan and freeze it",
        source="National Center for Home Food Preservation, FAQ Canning (bread or cake in a jar)",
    ),
    RefusedFood(
        id="starch",
        name="Pasta, rice, noodles or a thickened soup",
        words=_sets("pasta", "noodle", "rice", "macaroni", "spaghetti", "gravy", "barley", "thickened soup", "cream soup"),
        unless=_words("sauce vinegar"),
        why="Starch slows the heat on its way to the middle of the jar, so the time that was tested is too short.",
        instead="Can the soup or the vegetables without it, and add it when a jar is opened",
        source="Iowa State Univ. Extension, AnswerLine, Thickeners for Home Canning (2018), quoting the National Center for Home "
        "Food Preservation",
    ),
    RefusedFood(
        id="dense",
        name="Mashed or puréed low-acid vegetables and refried beans",
        words=_sets("refried bean", "mashed potato", "mashed bean", "hummus", "bean puree", "potato puree", "carrot puree"),
        why="A dense mash does not heat through to the middle of the jar; no process time has been established.",
        instead="Can the vegetable in pieces under pressure and mash it when the jar is opened",
        source="Univ. of Missouri Extension, answer on home-canned stews and mashed foods (2013); "
        "Kansas State Univ. Extension, Preserving Pumpkin Safely (2016)",
    ),
    RefusedFood(
        id="eggs",
        name="Eggs, plain or pickled",
        words=_sets("egg"),
        unless=_words("curd"),
        why="No tested process keeps them on a shelf, not even in vinegar.",
        instead="Keep pickled eggs in the refrigerator",
        source="Penn State Extension, Foods That Are Not Safe to Can",
    ),
)  # fmt: skip
