"""What can a window offer to choose from? Recipes with the packs, jars and methods they are published for, and papers."""

from __future__ import annotations

import functools
from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path

from jarwright.model.document import ClassDocument
from jarwright.model.recipe import Recipe
from jarwright.model.words import JAR_SIZES, METHODS, PACKS
from jarwright.papers.export import PAPERS
from jarwright.reference.library import load_reference


@dataclass(frozen=True, slots=True)
class RecipeChoice:
    """A recipe a station may make. `refused` says why it cannot be taught in a class; empty where it can."""

    id: str
    name: str
    packs: tuple[str, ...]
    jars: tuple[str, ...]
    methods: tuple[str, ...]
    liquids: tuple[str, ...]
    acids: tuple[str, ...]
    takes_salt: bool
    refused: str = ""


@functools.cache
def published_recipes() -> tuple[RecipeChoice, ...]:
    """
    Return the recipes that come with Jarwright, by name.

    Raises
    ------
    TableError
        A table is missing, altered or damaged.
    """
    return _by_name(load_reference().recipes.all())


def recipe_choices(document: ClassDocument) -> tuple[RecipeChoice, ...]:
    """
    Return the recipes for the stations of a class, its own among them, by name.

    Raises
    ------
    TableError
        A table is missing, altered or damaged.
    """
    own = _by_name(document.recipes)
    return tuple(sorted((*own, *published_recipes()), key=_name)) if own else published_recipes()


def find_choice(document: ClassDocument, recipe: str) -> RecipeChoice | None:
    """Return the recipe of that id or of an alias, None where there is none."""
    own = next((each for each in document.recipes if recipe in (each.id, *each.aliases)), None)
    found = own or next((each for each in load_reference().recipes.all() if recipe in (each.id, *each.aliases)), None)
    return _choice(found) if found else None


def paper_names() -> tuple[str, ...]:
    """Return the names of the papers that can be printed, in their order."""
    return tuple(paper.name for paper in PAPERS)


def papers_there(folder: Path, only: Collection[str] | None = None) -> tuple[str, ...]:
    """Return the files in a folder that these papers (None: all) would replace."""
    return tuple(paper.file for paper in PAPERS if (only is None or paper.name in only) and (folder / paper.file).exists())


def _by_name(recipes: tuple[Recipe, ...]) -> tuple[RecipeChoice, ...]:
    return tuple(sorted((_choice(recipe) for recipe in recipes), key=_name))


def _name(choice: RecipeChoice) -> str:
    return choice.name.lower()


def _choice(recipe: Recipe) -> RecipeChoice:
    packs = {batch.pack for batch in recipe.batches}
    methods = {"boiling-water", "steam"} if recipe.product else set()
    methods |= {"pressure"} if recipe.pressure_product else set()
    return RecipeChoice(
        recipe.id,
        recipe.name,
        tuple(pack for pack in PACKS if pack in packs),
        tuple(jar for jar in JAR_SIZES if jar in recipe.jars),
        tuple(method for method in METHODS if method in methods),
        _names(recipe, "liquid"),
        _names(recipe, "acid"),
        bool(_names(recipe, "salt")),
        recipe.refused or "",
    )


def _names(recipe: Recipe, kind: str) -> tuple[str, ...]:
    return tuple(choice.name for choice in recipe.choices if choice.kind == kind)
