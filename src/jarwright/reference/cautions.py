"""Which warnings must show, where, and on whose word? The sentences are ours, the sources are the publications'."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from jarwright.model.plan import Caution
from jarwright.model.recipe import Rule

COMMON_PRACTICE = "common practice"
_COOLING = "USDA AIB 539 (rev. 1994), Guide 1, Cooling Jars; Michigan State Univ. Extension, Preserving Food Safely (1997), 01600950"


@dataclass(frozen=True, slots=True)
class _Entry:
    """A caution; `methods` are those it is for (None: every one), `when` what else must be true of the station."""

    id: str
    text: str
    rules: tuple[str, ...] = ()
    source: str = ""
    methods: tuple[str, ...] | None = None
    when: str = ""


class CautionBook:
    """Every caution, in the order in which they are read."""

    def __init__(self, entries: Iterable[tuple[_Entry, Caution]]) -> None:
        self._entries = tuple(entries)

    @classmethod
    def from_rules(cls, rules: Mapping[str, Rule]) -> CautionBook:
        """Return the book with the rules' numbers and sources filled in."""
        return cls((entry, _caution(entry, rules)) for entry in _ENTRIES)

    def all(self) -> tuple[Caution, ...]:
        """Return every caution, of all methods."""
        return tuple(caution for _, caution in self._entries)

    def find(self, caution_id: str) -> Caution:
        """Return one caution by its id."""
        return next(caution for entry, caution in self._entries if entry.id == caution_id)

    def for_method(
        self,
        method: str,
        *,
        dense: bool = False,
        allergens: Iterable[str] = (),
        acidified: bool = False,
        gauge: str | None = None,
        gloves: bool = False,
    ) -> tuple[Caution, ...]:
        """
        Return what must show on a page about one process.

        Parameters
        ----------
        dense
            The food is dense or a pie filling: an unsealed jar is not processed a second time.
        allergens
            Those of the recipe; they are named in the caution.
        acidified
            The recipe adds acid.
        gauge
            dial or weighted; None shows what holds for either.
        gloves
            Hot peppers are cut.
        """
        named = tuple(allergens)
        true = {
            "": True,
            "dense": dense,
            "not dense": not dense,
            "allergens": bool(named),
            "acidified": acidified,
            "dial": gauge != "weighted",
            "gloves": gloves,
        }
        return tuple(
            Caution(caution.id, caution.text.replace("{allergens}", _listed(named)), caution.source)
            for entry, caution in self._entries
            if (entry.methods is None or method in entry.methods) and true[entry.when]
        )

    def for_class(self, methods: Iterable[str]) -> tuple[Caution, ...]:
        """Return what must show on a page about the whole class: what holds for any station by the methods in use."""
        used = set(methods)
        return tuple(
            caution
            for entry, caution in self._entries
            if (entry.methods is None or used & set(entry.methods)) and entry.when not in ("allergens", "gloves", "acidified")
        )


def _caution(entry: _Entry, rules: Mapping[str, Rule]) -> Caution:
    known = [rules[each] for each in entry.rules]
    text = entry.text
    numbers = [f"{rule.number:g}" for rule in known if rule.number is not None]
    for name, number in zip(("{figure}", "{upper}"), numbers, strict=False):
        text = text.replace(name, number)
    sources = [rule.citation.source for rule in known] + ([entry.source] if entry.source else [])
    return Caution(entry.id, text, "; ".join(dict.fromkeys(sources)) or COMMON_PRACTICE)


def _listed(words: tuple[str, ...]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}" if words else ""


_ENTRIES = (
    _Entry(
        "tested-recipe",
        "Use the tested recipe as it stands: same amounts of acid, same pack, same jar size or smaller, no thickener of your own.",
        ("GR-149",),
    ),
    _Entry(
        "low-acid", "Low-acid food (pH above {figure}) goes into a pressure canner, never into boiling water or steam.", ("GR-49", "ST-38")
    ),
    _Entry(
        "elevation",
        "The time or pressure is for the elevation printed here; at another elevation look it up again.",
        ("GR-17", "GR-18"),
    ),
    _Entry(
        "bottled-acid",
        "Use the acid the recipe names, bottled and of the strength it says (vinegar {figure} %); never less, never home-made.",
        ("GR-40",),
        when="acidified",
    ),
    _Entry(
        "steam-limit",
        "Steam canner: acid or acidified food only, at most {figure} minutes after the elevation is counted, jars up to a quart, "
        "never opened meanwhile.",
        ("ST-02", "ST-03", "ST-23", "ST-32", "ST-38"),
        methods=("steam",),
    ),
    _Entry(
        "vent-steam",
        "Start the timer only when a full, steady column of steam is as hot as boiling water here.",
        ("ST-07", "ST-08"),
        methods=("steam",),
    ),
    _Entry(
        "vent-pressure",
        "Vent the pressure canner for {figure} minutes before it is closed: trapped air makes it too cold.",
        ("GR-98",),
        methods=("pressure",),
    ),
    _Entry(
        "dial-gauge",
        "Have the dial gauge tested every year, before the first class of the season.",
        ("GR-117",),
        methods=("pressure",),
        when="dial",
    ),
    _Entry(
        "interrupted",
        "If the boil, the steam or the pressure is lost, the process starts again for its full time.",
        ("GR-08", "ST-24", "GR-113"),
    ),
    _Entry(
        "lid-off",
        "Boiling water: heat off, lid off, then {figure} minutes before the jars are lifted.",
        ("GR-07",),
        methods=("boiling-water",),
    ),
    _Entry(
        "lid-on",
        "Steam canner: heat off, the lid stays on for {figure} minutes before it is opened, away from you.",
        ("ST-28",),
        methods=("steam",),
    ),
    _Entry(
        "open-at-zero",
        "Pressure canner: open it only at zero and {figure} minutes later, with the lid tilted away from you.",
        ("GR-106",),
        methods=("pressure",),
    ),
    _Entry(
        "no-forced-cooling",
        "Nothing is cooled by force: no water or fan on the canner, no draught, refrigerator or cold water on the jars.",
        ("ST-29", "GR-101"),
    ),
    _Entry("screw-bands", "Do not tighten the screw bands again after the process.", source=_COOLING),
    _Entry("still", "Leave the jars still for {figure} to {upper} hours, then check every seal.", ("GR-09", "GR-10")),
    _Entry(
        "unsealed",
        "A jar that did not seal: into the refrigerator or freezer, or processed again within {figure} hours in a sound jar with a new lid "
        "for the full time, where hot-pack directions exist.",
        ("GR-12", "GR-13"),
        when="not dense",
    ),
    _Entry(
        "unsealed-dense",
        "Dense food or pie filling in a jar that did not seal: into the refrigerator or freezer; it is not processed a second time.",
        ("GR-13",),
        when="dense",
    ),
    _Entry(
        "wrong-process",
        "Jars that had the wrong time, method or start temperature are put right within {figure} hours, or chilled or frozen.",
        ("GR-152",),
    ),
    _Entry("allergens", "Contains {allergens}. Read every label: what a package adds is not in this list.", when="allergens"),
    _Entry("gloves", "Wear gloves for hot peppers, and keep your hands from your face.", when="gloves"),
    _Entry("burns-knives", "Steam, syrup and jars burn, knives cut, a full canner is too heavy to carry: ask before you lift or load."),
    _Entry("not-for-sale", "What is made here is for your own table; selling it needs a licence."),
    _Entry(
        "authority",
        "The local health authority, the host's licence, the maker's manual and the current publication come before this page.",
    ),
    _Entry("tool", "This plan schedules and counts; it does not license, test a recipe, or replace training."),
)
