"""Which figures of this class did nobody read in a publication? All in one place, to be confirmed one by one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from jarwright.errors import TableError
from jarwright.model.document import ClassDocument
from jarwright.model.plan import Finding, ShoppingLine, UnconfirmedFigure
from jarwright.model.recipe import ProcessRow
from jarwright.model.words import METHOD_NAMES, elevation_range, jars_named
from jarwright.planning.method_rules import is_checked, is_confirmed
from jarwright.planning.resolve import resolve
from jarwright.planning.settings import COMMON_PRACTICE
from jarwright.planning.work import ResolvedStation
from jarwright.reference.library import Reference

CONFIRM_ROW = "Read it in a publication and enter it under confirmed figures, with publication and page."
CONFIRM = 'Read it in a publication and enter "{id}" under checked figures, with publication and page.'


def unconfirmed_figures(
    document: ClassDocument,
    reference: Reference,
    *,
    stations: tuple[ResolvedStation, ...] | None = None,
    shopping: Iterable[ShoppingLine] = (),
) -> tuple[UnconfirmedFigure, ...]:
    """
    Return every figure from memory that this class rests on and that is not confirmed, those that block a station first.

    `stations` are resolved here where they are not given; `shopping` adds the amounts to buy. A process is never shown with its
    minutes: the page must say them.
    """
    if stations is None:
        stations, _ = resolve(document, reference)
    found = (
        *(figure for station in stations for figure in _of_station(document, reference, station)),
        *_of_methods(reference, dict.fromkeys(station.station.method for station in stations if station.ways)),
        *_of_shopping(shopping := tuple(shopping)),
        *_of_packages(document, reference, shopping),
    )
    once = {figure.id: figure for figure in found if not is_checked(document, figure.id)}
    return tuple(sorted(once.values(), key=lambda figure: not figure.blocks))


def unconfirmed_finding(figures: tuple[UnconfirmedFigure, ...]) -> Finding | None:
    """Return the note that counts the figures from memory, or None; each one that blocks has its station's blocker besides."""
    if not figures:
        return None
    count, blocking = len(figures), sum(figure.blocks for figure in figures)
    says = f"{count} figure{'' if count == 1 else 's'} of this class {'is' if count == 1 else 'are'} from memory"
    says += f", and {blocking} of them block{'s' if blocking == 1 else ''} a station." if blocking else "; none of them blocks a station."
    return Finding(
        "unconfirmed", "note", "class", says, "Confirm each with publication and page: they are listed under figures from memory.",
        COMMON_PRACTICE,
    )  # fmt: skip


def _of_station(document: ClassDocument, reference: Reference, resolved: ResolvedStation) -> Iterator[UnconfirmedFigure]:
    recipe, about = resolved.recipe, f"station {resolved.station.id}"
    if recipe is None:
        return
    for row in _rows_needed(document, reference, resolved):
        pounds = f" at {row.psi:g} pounds by {row.gauge} gauge" if row.psi is not None else ""
        what = (
            f"{METHOD_NAMES[row.method].capitalize()} process of {row.product}, {row.pack} pack {jars_named(row.jar)}{pounds}, "
            f"{elevation_range(row.elevation_min_ft, row.elevation_max_ft)}"
        )
        yield UnconfirmedFigure(f"{row.citation.row} {row.method}", about, what, row.citation.source, not resolved.ways, CONFIRM_ROW)
    for choice in resolved.choices:
        if choice.source_kind == "memory":
            is_acid = choice.kind == "acid"
            name = f"{choice.kind} {choice.name} of {recipe.id}"
            yield _figure(name, about, f"Dose of {choice.name} in {recipe.name}", choice.source, blocks=is_acid)
    if recipe.citation.source_kind == "memory":
        yield _figure(f"amounts of {recipe.id}", about, f"Amounts of {recipe.name}", recipe.citation.source)
    if resolved.headspace is not None and resolved.headspace.source_kind == "memory":
        yield _figure(f"headspace of {recipe.id}", about, f"Headspace of {recipe.name}", resolved.headspace.source)


def _rows_needed(document: ClassDocument, reference: Reference, resolved: ResolvedStation) -> Iterator[ProcessRow]:
    """Yield the rows from memory that a canner of the station would need: for its gauge and pressure nothing else may be used."""
    station, recipe = resolved.station, resolved.recipe
    product = recipe and (recipe.pressure_product if station.method == "pressure" else recipe.product)
    if not product:
        return
    gauges = dict.fromkeys(canner.gauge for canner in document.kitchen.canners if canner.kind == station.method)
    try:
        rows = reference.times.lookup(
            product=product, pack=station.pack, jar=station.jar, method=station.method, elevation_ft=document.site.elevation_ft
        )
    except TableError:
        return
    for gauge in gauges:
        own = [row for row in rows if row.gauge in (None, gauge) and (row.psi is None or station.psi in (None, row.psi))]
        if own and all(_is_open(document, row) for row in own):
            yield own[0]


def _is_open(document: ClassDocument, row: ProcessRow) -> bool:
    return row.citation.source_kind == "memory" and not is_confirmed(document, row)


def _of_methods(reference: Reference, methods: Iterable[str]) -> Iterator[UnconfirmedFigure]:
    for method in methods:
        for line in reference.methods.lines(method, sterile=True):
            if line.source_kind == "memory":
                text = line.text.replace("{psi} pounds", "its figure").replace("full {minutes} minutes", "full time")
                yield _figure(f"method {line.id}", f"method {method}", text.rstrip("."), line.source)


def _of_shopping(shopping: Iterable[ShoppingLine]) -> Iterator[UnconfirmedFigure]:
    """Yield one figure for each source of amounts to buy, with all its items."""
    items: dict[str, list[str]] = {}
    for line in shopping:
        if line.source_kind == "memory":
            items.setdefault(line.source, []).append(line.item)
    for source, names in items.items():
        yield _figure(f"shopping of {names[0]}", "class", f"Amounts to buy of {', '.join(names)}", source)


def _of_packages(document: ClassDocument, reference: Reference, shopping: Iterable[ShoppingLine]) -> Iterator[UnconfirmedFigure]:
    """Yield one figure for all usual package sizes from memory that the instructor's own do not replace."""
    own = {each.item for each in document.packages}
    names = [
        line.item
        for line in shopping
        if line.item not in own
        and any(each.citation and each.citation.source_kind == "memory" for each in reference.purchasing.packages(line.item))
    ]
    if names:
        yield _figure("packages", "class", f"Usual package sizes of {', '.join(names)}", "usual retail packages, from memory")


def _figure(name: str, about: str, what: str, source: str, *, blocks: bool = False) -> UnconfirmedFigure:
    return UnconfirmedFigure(name, about, what, source, blocks, CONFIRM.format(id=name))
