"""What does each station make, and how may its jars be processed? Recipe, batches and lawful ways, or the reason why not."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from jarwright.errors import TableError
from jarwright.model.document import ClassDocument, Station
from jarwright.model.plan import Finding
from jarwright.model.recipe import Choice, Ingredient, ProcessRow, PublishedBatch, Recipe
from jarwright.model.words import JAR_QUARTS, METHOD_NAMES
from jarwright.planning.ahead import blocking_wait, is_long_wait, steps_in_class
from jarwright.planning.kitchen_rules import CIRCUIT_SOURCE, circuit_fault, pot_burners
from jarwright.planning.method_rules import (
    canners_for,
    disagreement,
    is_checked,
    other_pressures,
    shallow_canners,
    sterile_minutes,
    unconfirmed,
    way_of,
)
from jarwright.planning.settings import COMMON_PRACTICE
from jarwright.planning.untested import published_for, untested_changes
from jarwright.planning.work import ResolvedStation, Way
from jarwright.reference.library import Reference
from jarwright.reference.names import plain
from jarwright.reference.process_times import CANNERS
from jarwright.reference.refusals import refused_food


def resolve(document: ClassDocument, reference: Reference) -> tuple[tuple[ResolvedStation, ...], tuple[Finding, ...]]:
    """
    Return every station with its recipe, batches and ways, and all findings on them, in the order of the document.

    A station with a blocker about itself is `blocked`; everything that could be found out about it is still there.
    """
    done = [_Resolving(document, reference, station) for station in document.stations]
    return tuple(each.run() for each in done), tuple(finding for each in done for finding in each.findings)


class _Resolving:
    """One station on its way through the rules; `findings` grows."""

    def __init__(self, document: ClassDocument, reference: Reference, station: Station) -> None:
        self.document, self.reference, self.station = document, reference, station
        self.findings: list[Finding] = []
        self.choices: tuple[Choice, ...] = ()

    def run(self) -> ResolvedStation:
        station = self.station
        if not any("canner" in member.duties for member in self.document.staff):
            self.block(
                "keeper", "Nobody on the staff has the duty 'canner', so nobody tends the canner of this station.",
                "Give a staff member the duty 'canner'.", COMMON_PRACTICE,
            )  # fmt: skip
        recipe = self.find_recipe()
        if recipe is None:
            return ResolvedStation(station, None, (), (), None, 0, True)
        self.check_recipe(recipe)
        batches = self.batches(recipe)
        rows = self.rows(recipe)
        ways = self.ways(rows)
        row = ways[0].row if ways else rows[0] if rows else None
        sterile = sterile_minutes(self.reference.times, row, self.reference.rules, elevation_ft=self.document.elevation_ft) if row else 0
        if batches:
            batches = self.check_batches(recipe, batches, sterile)
        headspace = recipe.headspace(pack=station.pack, jar=row.jar if row else station.jar)
        if headspace is None:
            self.say("headspace", "warning", f"{recipe.name}: no headspace is on file for {station.pack} pack {station.jar}s.",
                     "Look the headspace up and write it on the card.")  # fmt: skip
        is_blocked = any(finding.level == "blocker" for finding in self.findings)
        return ResolvedStation(station, recipe, batches, ways, headspace, sterile, is_blocked, self.choices)

    def say(self, rule: str, level: str, says: str, remedy: str = "", source: str = COMMON_PRACTICE) -> None:
        self.findings.append(Finding(rule, level, f"station {self.station.id}", says, remedy, source or COMMON_PRACTICE))

    def block(self, rule: str, says: str, remedy: str, source: str = COMMON_PRACTICE) -> None:
        self.say(rule, "blocker", says, remedy, source)

    # recipe
    def find_recipe(self) -> Recipe | None:
        wanted = self.station.recipe
        own = next((recipe for recipe in self.document.recipes if wanted in (recipe.id, *recipe.aliases)), None)
        try:
            published = self.reference.recipes.find(wanted)
        except TableError as error:
            if own is None:
                food = refused_food(wanted)
                error = food.error() if food else error
                self.block(error.rule, f"{error.what.rstrip('.')}.", error.fix or "Choose a recipe that is on file.", error.source)
            return own
        if own is not None:
            self.say("own-recipe", "warning", f"Your own recipe {own.name} is used instead of the published one of the same id.",
                     "Give it an id of its own, or take it out.", own.citation.source)  # fmt: skip
        return own or published

    def check_own_recipe(self, recipe: Recipe) -> None:
        """Block a recipe of the instructor's that was changed from what is tested, or whose work cannot be followed."""
        if food := refused_food(recipe.name):
            error = food.error()
            self.block("not-published", f"Your own recipe {recipe.name} is not for canning at home. {food.why}", error.fix, error.source)
        self.findings += untested_changes(self.station.id, recipe, self.reference)
        faults = [fault for batch in recipe.batches for fault in _faults(batch)]
        if faults:
            self.block("own-recipe", f"Your own recipe {recipe.name} cannot be followed: {faults[0]}.", "Correct the recipe.",
                       recipe.citation.source)  # fmt: skip

    def check_recipe(self, recipe: Recipe) -> None:
        if recipe in self.document.recipes:
            self.check_own_recipe(recipe)
        if not recipe.citation.source.strip():
            near = published_for(recipe, self.reference)
            instead = f"{near.name} (recipe {near.id}), which is published" if near else "a published recipe"
            self.block("not-published", f"{recipe.name} has no source, and only tested recipes are taught.",
                       f"Enter the publication it was tested for, or choose {instead}.", near.citation.source if near else "")  # fmt: skip
        elif recipe.citation.source_kind == "memory" and not is_checked(self.document, f"amounts of {recipe.id}"):
            self.say("unconfirmed", "warning", f"The amounts of {recipe.name} are from memory.",
                     "Compare them with the publication before the class.", recipe.citation.source)  # fmt: skip
        if recipe.refused:
            waits = any(is_long_wait(step) for each in recipe.batches for step in each.steps)
            self.block("ahead" if waits else "not-published", f"{recipe.name} cannot be taught in a class. {recipe.refused}",
                       "Choose another recipe.", recipe.citation.source)  # fmt: skip

    def batches(self, recipe: Recipe) -> tuple[PublishedBatch, ...]:
        """Return the batches for the station's pack with the chosen liquid, acid and salt in them."""
        fits = [batch for batch in recipe.batches if batch.pack == self.station.pack]
        if not fits:
            known = " and ".join(dict.fromkeys(batch.pack for batch in recipe.batches))
            self.block("not-published", f"{recipe.name} is published for {known} pack, not for {self.station.pack} pack.",
                       f"Choose {known} pack, or another recipe.", recipe.citation.source)  # fmt: skip
        self.choices = tuple(choice for kind in ("liquid", "acid", "salt") for choice in self.chosen(recipe, kind))
        return tuple(_with_choices(recipe, batch, self.choices) for batch in fits)

    def chosen(self, recipe: Recipe, kind: str) -> Iterator[Choice]:
        """Yield the choice of one kind, if any; the default where the station names none."""
        known = [choice for choice in recipe.choices if choice.kind == kind]
        if kind == "salt":
            if self.station.salt and known:
                yield known[0]
            elif self.station.salt:
                self.say("choice", "note", f"{recipe.name} has no salt to choose, so none is added beyond its own.")
            return
        wanted = getattr(self.station, kind)
        if not known:
            if wanted is not None:
                says = f"{recipe.name} has no {kind} to choose, so {wanted!r} is not used: the recipe is made as published."
                self.say("choice", "warning", says,
                         f"Clear the {kind} of this station.", recipe.citation.source)  # fmt: skip
            return
        if wanted is None:
            choice = next((choice for choice in known if choice.default), known[0])
            others = ", ".join(each.name for each in known if each is not choice)
            more = f" ({others} would do too)" if others else ""
            self.say("choice", "note", f"No {kind} is chosen for {recipe.name}: {choice.name} is planned{more}.",
                     f"Set the station's {kind} to choose another.", choice.source)  # fmt: skip
        else:
            match = next((choice for choice in known if plain(choice.name) == plain(wanted)), None)
            if match is None:
                names = ", ".join(each.name for each in known)
                self.block("not-published", f"{wanted!r} is no {kind} that {recipe.name} is published with; known: {names}.",
                           f"Choose one of these: {names}.", known[0].source)  # fmt: skip
                return
            choice = match
        name = f"{kind} {choice.name} of {recipe.id}"
        if kind == "acid" and choice.source_kind == "memory" and not is_checked(self.document, name):
            self.block("unconfirmed", f"The dose of {choice.name} for {recipe.name} is on file from memory only.",
                       f'Choose an acid whose dose has been read, or enter "{name}" under checked figures.', choice.source)  # fmt: skip
        yield choice

    # process
    def rows(self, recipe: Recipe) -> tuple[ProcessRow, ...]:
        """Return every row that answers here, of all gauges; none comes with its blocker."""
        station, method = self.station, self.station.method
        largest = max((JAR_QUARTS[jar] for jar in recipe.jars), default=None)
        if recipe.acid_class == "low-acid" and method != "pressure":
            self.block(
                "not-published",
                f"{recipe.name} is low-acid: only a pressure canner makes it safe, never {METHOD_NAMES[method]}.",
                "Change the method to pressure and borrow a pressure canner, or choose an acid recipe.",
                self.reference.rules["GR-49"].citation.source,
            )
            return ()
        product = recipe.pressure_product if method == "pressure" else recipe.product
        if product is None:
            other = "boiling-water" if method == "pressure" else "pressure"
            self.block("not-published", f"{recipe.name}: no process time is published for the {CANNERS[method]}.",
                       f"Use a {CANNERS[other]}, or choose another recipe.", recipe.citation.source)  # fmt: skip
            return ()
        if largest is not None and JAR_QUARTS[station.jar] > largest and station.jar == "half-gallon":
            juices = self.reference.times.too_large_a_jar(recipe.name, self.reference.times.table(product, method))
            self.block(juices.rule, f"{juices.what}.", f"{juices.fix}.", juices.source)
            return ()
        if largest is not None and JAR_QUARTS[station.jar] > largest:
            sizes = " and ".join(f"{jar}s" for jar in recipe.jars)
            self.block("not-published", f"{recipe.name} is published in {sizes}, never in larger jars such as a {station.jar}.",
                       f"Choose {sizes}.", recipe.citation.source)  # fmt: skip
            return ()
        try:
            return self.reference.times.lookup(
                product=product, pack=station.pack, jar=station.jar, method=method, elevation_ft=self.document.site.elevation_ft
            )
        except TableError as error:
            self.block(error.rule, f"{error.what}.", error.fix or "Choose another recipe, jar or method.", error.source)
            return ()

    def ways(self, rows: tuple[ProcessRow, ...]) -> tuple[Way, ...]:
        """Return one way for each canner that may be used."""
        station = self.station
        canners, findings = canners_for(self.document, station, self.reference.rules)
        self.findings += findings
        if station.psi is not None and station.method != "pressure":
            self.say("psi", "note", f"The {station.psi:g} pounds set for this station are for pressure canners and are not used.")
        if not rows:
            return ()
        if conflict := disagreement(self.document, station, rows):
            self.findings.append(conflict)
        self.smaller_jar(rows[0])
        self.findings += shallow_canners(canners, station, rows[0], self.reference)
        wanted = tuple(row for row in rows if station.psi is None or station.method != "pressure" or row.psi == station.psi)
        found: list[Way] = []
        without_row, from_memory = [], []
        for canner in canners:
            own = tuple(row for row in wanted if row.method != "pressure" or row.gauge == canner.gauge)
            way = way_of(self.document, canner, own)
            if way is not None:
                found.append(way)
            elif own:
                from_memory.append(own[0])
            else:
                without_row.append(canner.id)
        if without_row:
            self.no_row(without_row, rows, is_blocking=not found and not from_memory)
        if from_memory and not found:
            self.findings.append(unconfirmed(self.document, station, from_memory[0]))
        if station.method == "pressure" and found and (note := other_pressures(station, rows, tuple(found))):
            self.findings.append(note)
        return tuple(found)

    def smaller_jar(self, row: ProcessRow) -> None:
        if row.jar != self.station.jar:
            self.say(
                "jars", "warning",
                f"{row.product}: {self.station.jar}s are not published and are processed as long as {row.jar}s; softer product.",
                f"Use {row.jar}s for the best result.", self.reference.rules["GR-149"].citation.source,
            )  # fmt: skip

    def no_row(self, canners: list[str], rows: tuple[ProcessRow, ...], *, is_blocking: bool) -> None:
        """Tell which canners have no published row: their gauge is not covered up here, or not at the pressure asked for."""
        names = " and ".join(canners)
        by_gauge = dict.fromkeys(f"{row.psi:g} pounds by {row.gauge} gauge" for row in rows if row.psi is not None)
        asked = f" at {self.station.psi:g} pounds" if self.station.psi is not None else " for its gauge at this elevation"
        says = f"{rows[0].product}: nothing is published{asked} that canner {names} can do. Published here: {', '.join(by_gauge)}."
        remedy = "Choose a published pressure." if self.station.psi is not None else "Use a canner with a gauge that is covered."
        self.say("not-published", "blocker" if is_blocking else "warning", says, remedy, rows[0].citation.source)

    # batches
    def check_batches(self, recipe: Recipe, batches: tuple[PublishedBatch, ...], sterile: int) -> tuple[PublishedBatch, ...]:
        if not recipe.refused and (blocked := blocking_wait(self.document, self.station, batches)):
            self.findings.append(blocked)
        return self.with_burners(recipe, self.with_pots(recipe, batches), sterile)

    def with_pots(self, recipe: Recipe, batches: tuple[PublishedBatch, ...]) -> tuple[PublishedBatch, ...]:
        """Return the batches that a pot on the list holds; a plain pack is cooked in as many goes as its pots allow."""
        largest = max((pot.qt for pot in self.document.kitchen.pots), default=None)
        if largest is None or recipe.scaling == "jar":
            return batches
        fits = tuple(batch for batch in batches if batch.pot_qt is None or batch.pot_qt <= largest)
        if batches and not fits:
            least = min(batch.pot_qt for batch in batches if batch.pot_qt is not None)
            room = ", with room to boil up" if recipe.scaling == "single" else ""
            self.block("pot", f"A batch of {recipe.name} needs a pot of {least:g} quarts{room}; the largest listed holds {largest:g}.",
                       f"Bring a pot of {least:g} quarts.", COMMON_PRACTICE)  # fmt: skip
        return fits

    def with_burners(self, recipe: Recipe, batches: tuple[PublishedBatch, ...], sterile: int) -> tuple[PublishedBatch, ...]:
        """Return the batches whose pots find burners; a steam station also needs one to boil its empty jars."""
        ready = len(pot_burners(self.document))
        boils_jars = self.station.method == "steam" and sterile > 0
        needs = [max(_burners_needed(batch), 1 if boils_jars else 0) for batch in batches]
        fits = tuple(batch for batch, need in zip(batches, needs, strict=True) if need <= ready)
        if batches and not fits:
            overloaded = [fault for burner in self.document.kitchen.burners if "pot" in burner.suits
                          if (fault := circuit_fault(self.document, burner))]  # fmt: skip
            least = min(needs)
            what = f"{recipe.name} needs {least} burner{'' if least == 1 else 's'} for pots"
            has = f"the kitchen has {ready}" if ready else "the kitchen has none"
            why = f" ({'; '.join(overloaded)})" if overloaded else ""
            self.block("circuit" if overloaded else "burner", f"{what}, and {has}{why}.",
                       "Bring a burner for pots, or choose a recipe that needs fewer.",
                       CIRCUIT_SOURCE if overloaded else COMMON_PRACTICE)  # fmt: skip
        return fits


def _faults(batch: PublishedBatch) -> Iterator[str]:
    """Yield what is wrong with the work of a batch, as parts of a sentence."""
    if not batch.steps or batch.steps[-1].kind != "fill":
        yield f"the {batch.name} does not end with filling jars"
    if batch.yield_low > batch.yield_high:
        yield f"the {batch.name} yields {batch.yield_low:g} at least and {batch.yield_high:g} at most"
    for i, step in enumerate(batch.steps):
        if any(not 0 <= earlier < i for earlier in step.after or ()):
            yield f"the step {step.name!r} follows a step that does not come before it"
        if not step.minutes.low <= step.minutes.likely <= step.minutes.high:
            yield f"the minutes of {step.name!r} are not low, likely, high in that order"


def _burners_needed(batch: PublishedBatch) -> int:
    """Return the most burners one step of the class needs; what cooks needs one at least."""
    return max((max(step.burners, 1 if step.kind == "cook" else 0) for step in steps_in_class(batch)), default=0)


def _with_choices(recipe: Recipe, batch: PublishedBatch, choices: tuple[Choice, ...]) -> PublishedBatch:
    """Add what was chosen: per quart where the recipe scales by the jar, else for all jars of the batch at its high yield."""
    quarts = 1.0 if recipe.scaling == "jar" else batch.yield_high * JAR_QUARTS[batch.yield_jar]
    added = tuple(_times(ingredient, quarts) for choice in choices for ingredient in choice.ingredients)
    return replace(batch, ingredients=(*batch.ingredients, *added)) if added else batch


def _times(ingredient: Ingredient, quarts: float) -> Ingredient:
    bought = ingredient.purchase
    if bought is not None:
        bought = replace(bought, amount=bought.amount * quarts, amount_likely=bought.amount_likely * quarts)
    return replace(ingredient, amount=ingredient.amount * quarts, purchase=bought)
