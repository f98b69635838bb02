"""What is done with a canner, line by line? Heating, loading, timing, resting, opening and cooling belong to the method.

A recipe ends at the filled jar. Lines are in our own words; each names the rule it rests on, or says that it is common
practice. `{figure}` and `{upper}` are filled with the numbers of a line's rules when the tables are read, the other
fields when a card is written.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from jarwright.model.recipe import Rule

COMMON_PRACTICE = "common practice"


@dataclass(frozen=True, slots=True, kw_only=True)
class MethodLine:
    """
    One sentence for the card of a method.

    `phase` is the load's phase it is said in, or "cool" after the last. `pack` and `gauge` are the ones it holds for (None:
    every), `sterile` that it is said only where empty jars must be boiled. `text` may hold the fields {minutes}, {psi} and
    {sterile_minutes}.
    """

    id: str
    phase: str
    text: str
    source: str
    source_kind: str
    pack: str | None = None
    gauge: str | None = None
    sterile: bool = False

    def say(self, *, minutes: float | None = None, psi: float | None = None, sterile_minutes: float | None = None) -> str:
        """
        Return the sentence with its figures.

        Parameters
        ----------
        psi
            What this canner's gauge must read (its error taken into account), or the weight. [lb/in2]
        """
        given = {"minutes": minutes, "psi": psi, "sterile_minutes": sterile_minutes}
        return self.text.format(**{name: f"{value:g}" for name, value in given.items() if value is not None})


class Methods:
    """The lines of every method, in the order in which they are done."""

    def __init__(self, lines: Mapping[str, tuple[MethodLine, ...]]) -> None:
        self._lines = dict(lines)

    @classmethod
    def from_rules(cls, rules: Mapping[str, Rule]) -> Methods:
        """Return the lines with the rules' numbers and sources filled in."""
        return cls({method: tuple(_filled(lines + _COOLING, rules)) for method, lines in _LINES.items()})

    def lines(
        self, method: str, *, pack: str | None = None, gauge: str | None = None, sterile: bool = False, phase: str | None = None
    ) -> tuple[MethodLine, ...]:
        """Return what is said for a pack and a gauge (None: for every one), of one phase or of all."""
        return tuple(
            line
            for line in self._lines[method]
            if (line.pack is None or pack in (None, line.pack))
            and (line.gauge is None or gauge in (None, line.gauge))
            and (sterile or not line.sterile)
            and phase in (None, line.phase)
        )


def _filled(lines: tuple[_Line, ...], rules: Mapping[str, Rule]) -> Iterator[MethodLine]:
    for line in lines:
        known = [rules[each] for each in line.rules]
        numbers = [f"{rule.number:g}" for rule in known if rule.number is not None]
        text = line.text
        for name, number in zip(("{figure}", "{upper}", "{third}"), numbers, strict=False):
            text = text.replace(name, number)
        kinds = {rule.citation.source_kind for rule in known} | ({"seen"} if line.source else set())
        sources = [rule.citation.source for rule in known] + ([line.source] if line.source else [])
        yield MethodLine(
            id=line.id,
            phase=line.phase,
            text=text,
            source="; ".join(dict.fromkeys(sources)) or COMMON_PRACTICE,
            source_kind="memory" if "memory" in kinds else "seen" if kinds else COMMON_PRACTICE,
            pack=line.pack,
            gauge=line.gauge,
            sterile=line.sterile,
        )


@dataclass(frozen=True, slots=True)
class _Line:
    id: str
    phase: str
    text: str
    rules: tuple[str, ...] = ()
    pack: str | None = None
    gauge: str | None = None
    sterile: bool = False
    source: str = ""


_BOILING_WATER = (
    _Line("bw-water", "preheat", "Put the rack in the canner, fill it about half full of water and turn the burner on.", ("GR-06",)),
    _Line("bw-heat-hot", "preheat", "Bring the water to {figure} °F and keep it there until the jars are full.", ("GR-05",), pack="hot"),
    _Line("bw-heat-raw", "preheat", "Bring the water to {figure} °F and keep it there until the jars are full.", ("GR-04",), pack="raw"),
    _Line(
        "bw-refresh-hot",
        "refresh",
        "Before a further load replace part of the hot water, so that it is back at {figure} °F.",
        ("GR-05",),
        pack="hot",
    ),
    _Line(
        "bw-refresh-raw",
        "refresh",
        "Before a further load replace part of the hot water, so that it is back at {figure} °F: raw food must not go into boiling water.",
        ("GR-04",),
        pack="raw",
    ),
    _Line(
        "bw-sterile",
        "sterilise",
        "Boil the empty jars in the canner for {sterile_minutes} minutes, just before they are filled; the water stays in for the load.",
        ("GR-14", "GR-15", "GR-16"),
        sterile=True,
    ),
    _Line("bw-load", "load", "Lower the full jars onto the rack with the lifter, upright the whole way."),
    _Line(
        "bw-level",
        "load",
        "Top up with boiling water, poured between the jars: at least {figure} in. over the lids, "
        "{upper} in. where the process is longer than {third} minutes.",
        ("GR-01", "GR-02", "GR-03"),
    ),
    _Line(
        "bw-lid",
        "come-up",
        "Lid on, heat high, until the water boils hard; a full canner takes {figure} to {upper} minutes.",
        ("GR-90", "GR-91"),
    ),
    _Line("bw-timer", "process", "Set the timer to {minutes} minutes when the full boil is there, not before."),
    _Line(
        "bw-hold", "process", "Keep it boiling under the lid for the whole {minutes} minutes; if the level falls, add boiling water only."
    ),
    _Line("bw-restart", "process", "If the boil stops, bring it back and start the full {minutes} minutes again.", ("GR-08",)),
    _Line("bw-rest", "rest", "Heat off, lid off with its far edge first, and wait {figure} minutes before a jar is lifted.", ("GR-07",)),
    _Line("bw-out", "unload", "Lift the jars straight up, without tipping, onto a dry towel or rack, {figure} in. apart.", ("GR-11",)),
)

_STEAM = (
    _Line(
        "st-water",
        "preheat",
        "Pour in the water the manual asks for (about {figure} quarts, level with the rack, below the jars) and turn the burner on.",
        ("ST-16", "ST-15"),
    ),
    _Line("st-heat-hot", "preheat", "Bring the water to {figure} °F and keep it there until the jars are full.", ("ST-22",), pack="hot"),
    _Line("st-heat-raw", "preheat", "Bring the water to {figure} °F and keep it there until the jars are full.", ("ST-21",), pack="raw"),
    _Line("st-refresh", "refresh", "Before a further load look at the water in the base and top it up.", ("ST-37",)),
    _Line("st-refresh-hot", "refresh", "Bring it back to {figure} °F.", ("ST-22",), pack="hot"),
    _Line("st-refresh-raw", "refresh", "Bring it back to {figure} °F.", ("ST-21",), pack="raw"),
    _Line(
        "st-sterile",
        "sterilise",
        "Boil the empty jars in a deep pot for {sterile_minutes} minutes, just before they are filled.",
        ("GR-14", "GR-15", "GR-16"),
        sterile=True,
    ),
    _Line("st-load", "load", "Set the full jars on the rack at once, upright, while they are hot.", ("ST-14",)),
    _Line("st-lid", "come-up", "Lid on, heat high; steam first comes in puffs."),
    _Line(
        "st-column",
        "come-up",
        "Wait for a full, steady column of steam, {figure} to {upper} in. long, from the side holes.",
        ("ST-08", "ST-09"),
    ),
    _Line(
        "st-check",
        "come-up",
        "Check it with a thermometer in the vent: the steam must be as hot as water boils at this elevation.",
        ("ST-12", "ST-07"),
    ),
    _Line(
        "st-timer",
        "process",
        "Set the timer to {minutes} minutes when the column is full and the thermometer agrees, not before.",
        ("ST-07",),
    ),
    _Line(
        "st-hold", "process", "Lid on for the whole {minutes} minutes: keep the full column, never open, add no water.", ("ST-11", "ST-23")
    ),
    _Line(
        "st-restart",
        "process",
        "If the lid was lifted or the steam weakened, bring the full column back and start the full {minutes} minutes again.",
        ("ST-24",),
    ),
    _Line("st-rest", "rest", "Heat off; the lid stays on for {figure} minutes.", ("ST-28",)),
    _Line("st-open", "unload", "Then take the lid off with its far edge first, away from your face."),
    _Line("st-out", "unload", "Lift the jars straight up, without tipping, onto a dry towel or rack, {figure} in. apart.", ("GR-11",)),
)

_PRESSURE = (
    _Line(
        "pc-water",
        "preheat",
        "Put the rack in and {figure} to {upper} in. of water, or what the canner's manual asks for; turn the burner on.",
        ("GR-114", "GR-115"),
    ),
    _Line("pc-heat-hot", "preheat", "Bring the water to {figure} °F, not to the boil, until the jars are full.", ("GR-05",), pack="hot"),
    _Line("pc-heat-raw", "preheat", "Bring the water to {figure} °F until the jars are full.", ("GR-04",), pack="raw"),
    _Line(
        "pc-refresh-hot", "refresh", "Before a further load bring the water back to its level and to {figure} °F.", ("GR-05",), pack="hot"
    ),
    _Line(
        "pc-refresh-raw", "refresh", "Before a further load bring the water back to its level and to {figure} °F.", ("GR-04",), pack="raw"
    ),
    _Line("pc-load", "load", "Set the full jars on the rack with the lifter, upright."),
    _Line(
        "pc-lid",
        "come-up",
        "Fasten the lid, leave the vent open, heat high until steam streams out; it takes {figure} to {upper} minutes.",
        ("GR-96", "GR-97"),
    ),
    _Line("pc-vent", "vent", "Let the steam stream from the open vent for {figure} minutes by the timer.", ("GR-98",)),
    _Line("pc-close", "pressurise", "Close the vent; the pressure comes up in {figure} to {upper} minutes.", ("GR-99", "GR-100")),
    _Line(
        "pc-timer-dial",
        "process",
        "Set the timer to {minutes} minutes when the gauge reads {psi} pounds; hold it there or a little above, never below.",
        gauge="dial",
    ),
    _Line(
        "pc-timer-weighted",
        "process",
        "Set the timer to {minutes} minutes when the {psi}-pound weight moves as the canner's manual says; keep it moving so.",
        gauge="weighted",
    ),
    _Line(
        "pc-restart",
        "process",
        "If the pressure falls below {psi} pounds, bring it back and start the full {minutes} minutes again.",
        ("GR-113",),
    ),
    _Line(
        "pc-fall",
        "depressurise",
        "Heat off. Let the pressure fall to zero by itself, {figure} to {upper} minutes: no water, no fan, no lifting of the weight.",
        ("GR-101", "GR-102"),
    ),
    _Line("pc-wait", "wait", "At zero take the weight off or open the vent, then wait {figure} minutes more.", ("GR-106",)),
    _Line("pc-open", "unload", "Unlock the lid and lift it far edge first, away from you: the steam burns."),
    _Line("pc-out", "unload", "Lift the jars straight up, without tipping, onto a dry towel or rack, {figure} in. apart.", ("GR-11",)),
)

_COOLING = (
    _Line("cool-still", "cool", "Leave the jars still and uncovered for {figure} to {upper} hours, out of draughts.", ("GR-09", "GR-10")),
    _Line(
        "cool-bands",
        "cool",
        "Do not tighten the screw bands again, not even loose ones: it cuts the seal that is forming.",
        source="USDA AIB 539 (rev. 1994), Guide 1, Cooling Jars; Michigan State Univ. Extension, Preserving Food Safely (1997), 01600950",
    ),
    _Line("cool-check", "cool", "Then take the screw bands off and check each seal: the lid is drawn down and does not spring."),
)

_LINES = {"boiling-water": _BOILING_WATER, "steam": _STEAM, "pressure": _PRESSURE}
