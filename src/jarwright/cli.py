"""What does Jarwright answer without a screen? `templates`, `new`, `plan`, `what-if`, `export` and `times`.

Exit status: 0 done (a late plan too), 1 the plan has blockers or the process is refused, 2 bad input or usage.
"""

from __future__ import annotations

import argparse
import json
import math
import os
import sys
import textwrap
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

import jarwright
from jarwright.errors import DocumentError, JarwrightError, PlanError, TableError
from jarwright.model.words import GAUGES, JAR_SIZES, METHODS, PACKS, jars_named

if TYPE_CHECKING:
    from jarwright.model.document import ClassDocument
    from jarwright.model.plan import Plan
    from jarwright.model.recipe import ProcessRow
    from jarwright.planning.explain import Explanation
    from jarwright.reference.library import Reference
    from jarwright.reference.ways import Asked, HomeTable, Refused

DONE, BLOCKED, BAD_INPUT = 0, 1, 2
INTERRUPTED = 130
MOST_HOMES = 12
SOURCES_DIFFER_ABOVE_FT = 8_000
WIDTH = 100
WINDOW = "With the name of a class document and no command the window opens on it; with nothing at all, on the demo class."


def main(arguments: Sequence[str] | None = None) -> int:
    """
    Run one command and return its exit status.

    Parameters
    ----------
    arguments
        The words after `jarwright`; those of this process where it is None.
    """
    _loosen_output()
    try:
        status = _run(arguments)
        sys.stdout.flush()
    except JarwrightError as error:
        return _complain(str(error))
    except BrokenPipeError:
        # Whoever read us has enough; the interpreter must not complain when it flushes at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE
    except KeyboardInterrupt:
        return INTERRUPTED
    except Exception as error:
        if os.environ.get("JARWRIGHT_TRACEBACK"):
            raise
        return _complain(f"Something unforeseen went wrong ({type(error).__name__}: {error}); please send this to the maintainers.")
    return status


def _run(arguments: Sequence[str] | None) -> int:
    try:
        options = _parser().parse_args(arguments)
    except SystemExit as answered:
        return int(answered.code or DONE)
    status: int = options.run(options)
    return status


def _loosen_output() -> None:
    """Let a terminal that lacks a sign show a stand-in for it."""
    for stream in (sys.stdout, sys.stderr):
        if reconfigure := getattr(stream, "reconfigure", None):
            reconfigure(errors="backslashreplace")


def _complain(sentence: str) -> int:
    sys.stderr.write(f"jarwright: {_one_line(sentence)}\n")
    return BAD_INPUT


def _one_line(text: str) -> str:
    return " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        raise JarwrightError(message[:1].upper() + message[1:], fix=f"See {self.prog} --help")


class _Version(argparse.Action):
    """Prints the version and the editions of the tables; they are read only when asked for."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> NoReturn:
        from jarwright.reference.library import load_reference

        sys.stdout.write(f"jarwright {jarwright.__version__}\n")
        for table, edition in load_reference().editions.items():
            sys.stdout.write(f"{table}: {edition}\n")
        parser.exit(DONE)


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(prog="jarwright", description=jarwright.__doc__, epilog=WINDOW)
    parser.add_argument("--version", action=_Version, nargs=0, help="show the version and the editions of the tables")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)
    for add in (_add_templates, _add_new, _add_plan, _add_what_if, _add_export, _add_times):
        add(commands)
    return parser


def _add_templates(commands: Any) -> None:
    command = commands.add_parser("templates", help="list the ready-made classes")
    command.add_argument("--json", action="store_true", help="print JSON")
    command.set_defaults(run=_templates)


def _add_new(commands: Any) -> None:
    command = commands.add_parser("new", help="start a class from a ready-made one")
    command.add_argument("template", metavar="TEMPLATE", help="its name, from: jarwright templates")
    command.add_argument("-o", "--output", metavar="FILE", type=Path, required=True, help="the new class document; never written over")
    command.set_defaults(run=_new)


def _add_plan(commands: Any) -> None:
    command = commands.add_parser("plan", help="say whether a class fits, and how")
    command.add_argument("file", metavar="FILE", type=Path, help="a class document")
    command.add_argument("--json", action="store_true", help="print the plan as JSON")
    explains = "say what holds the class back and what would help, or what breaks it first; plans it many times"
    command.add_argument("--explain", action="store_true", help=explains)
    _add_time_limit(command)
    command.set_defaults(run=_plan)


def _add_what_if(commands: Any) -> None:
    command = commands.add_parser("what-if", help="plan a class with something changed, and say what is different")
    command.add_argument("file", metavar="FILE", type=Path, help="a class document; it stays as it is")
    command.add_argument(
        "changes", metavar="CHANGE", nargs="*", help="people=-3, canner-out=k1, late=B:15, ...; without one, all are listed"
    )
    command.add_argument("--json", action="store_true", help="print both plans and their difference as JSON")
    _add_time_limit(command)
    command.set_defaults(run=_what_if)


def _add_export(commands: Any) -> None:
    command = commands.add_parser("export", help="write the papers of a class")
    command.add_argument("file", metavar="FILE", type=Path, help="a class document")
    command.add_argument("-d", "--directory", metavar="DIR", type=Path, required=True, help="folder for the papers, made where needed")
    command.add_argument("--only", metavar="NAME", nargs="+", help="only these papers: station-cards, shopping, plan")
    command.add_argument("--replace", action="store_true", help="replace papers of the same names")
    _add_time_limit(command)
    command.set_defaults(run=_export)


def _add_time_limit(command: argparse.ArgumentParser) -> None:
    command.add_argument("--time-limit", metavar="S", type=_seconds, help="search at most this many seconds; may change the plan")


def _add_times(commands: Any) -> None:
    command = commands.add_parser("times", help="look up a process time with its source")
    command.add_argument("product", metavar="PRODUCT", nargs="*", help="a product or a recipe; without it, all that are on file")
    command.add_argument("--pack", choices=PACKS)
    command.add_argument("--jar", choices=JAR_SIZES)
    place = command.add_mutually_exclusive_group()
    place.add_argument(
        "--elevation", metavar="FT", type=_elevation, help="elevation of the kitchen in feet: every way, and what is refused"
    )
    place.add_argument("--home", metavar="FT,FT,...", type=_homes, help="a take-home table for the elevations of some homes")
    command.add_argument("--method", choices=METHODS)
    command.add_argument("--gauge", choices=GAUGES)
    command.add_argument("--json", action="store_true", help="print JSON")
    command.set_defaults(run=_times)


def _number(text: str) -> float:
    try:
        value = float(text.replace(",", ""))
    except ValueError:
        value = math.nan
    if not math.isfinite(value):
        raise argparse.ArgumentTypeError(f"{text[:40]!r} is not a number")
    return value


def _seconds(text: str) -> float:
    value = _number(text)
    if not 0 < value <= 3600:
        raise argparse.ArgumentTypeError("a search takes more than 0 and at most 3600 seconds")
    return value


def _elevation(text: str) -> float:
    from jarwright.model.document import HIGHEST_FT, LOWEST_FT

    value = _number(text)
    if not LOWEST_FT <= value <= HIGHEST_FT:
        raise argparse.ArgumentTypeError(f"{value:,g} ft is no kitchen's elevation; give {LOWEST_FT:,} to {HIGHEST_FT:,} ft")
    return value


def _homes(text: str) -> tuple[float, ...]:
    homes = tuple(dict.fromkeys(_elevation(each) for each in text.split(",") if each.strip()))
    if not 0 < len(homes) <= MOST_HOMES:
        raise argparse.ArgumentTypeError(f"give 1 to {MOST_HOMES} elevations with commas between, such as 600,2350")
    return homes


def _print_json(value: Any) -> None:
    sys.stdout.write(json.dumps(value, indent=1) + "\n")


def _print(lines: Iterator[str] | Sequence[str]) -> None:
    for line in lines:
        sys.stdout.write("".join(sign if sign.isprintable() else " " for sign in line) + "\n")


def _print_folded(lines: Iterable[str]) -> None:
    """Print sentences, long ones folded under their own indent."""
    for line in lines:
        indent = " " * (len(line) - len(line.lstrip()) + 2)
        _print(textwrap.wrap(line, WIDTH, subsequent_indent=indent, break_on_hyphens=False) or [""])


def _templates(options: argparse.Namespace) -> int:
    from jarwright.storage.templates import templates

    found = templates()
    if options.json:
        _print_json([{"name": each.name, "title": each.title, "description": each.description} for each in found])
    else:
        widest = max(len(each.name) for each in found)
        _print([f"{each.name:{widest}}  {each.title}: {each.description}" for each in found])
    return DONE


def _new(options: argparse.Namespace) -> int:
    from jarwright.storage.documents import save_document
    from jarwright.storage.templates import new_from_template

    document = new_from_template(options.template)
    path: Path = options.output
    if path.is_file() and path.stat().st_size:
        raise DocumentError("There is a file of that name already", where=str(path), fix="Choose another name, or remove it first")
    save_document(document, path)
    _print([f"{path}: {document.title}"])
    return DONE


def _planned(options: argparse.Namespace, document: ClassDocument | None = None) -> Plan:
    from jarwright.storage.documents import read_document

    document = document or read_document(options.file)
    # A file that cannot be read is said so before the planner is loaded.
    from jarwright.planning.pipeline import plan_class
    from jarwright.reference.library import load_reference

    with _Progress() as progress:
        return plan_class(document, load_reference(), on_better=progress.report, time_limit=options.time_limit)


class _Progress:
    """Tells a person at a terminal how far the search is, and leaves nothing behind."""

    def __init__(self) -> None:
        self._shows = sys.stderr.isatty()

    @property
    def report(self) -> Callable[[Plan], None] | None:
        """Return what to call with a better plan; None where nobody watches."""
        return self._show if self._shows else None

    def _show(self, plan: Plan) -> None:
        sys.stderr.write(f"\r\x1b[KPlanning: ends at {plan.document.clock(plan.verdict.finish_minute)} so far")
        sys.stderr.flush()

    def __enter__(self) -> _Progress:
        return self

    def __exit__(self, *_: object) -> None:
        if self._shows:
            sys.stderr.write("\r\x1b[K")


def _plan(options: argparse.Namespace) -> int:
    plan = _planned(options)
    explained = _explained(plan, options) if options.explain else None
    if options.json:
        from jarwright.model.plan import plan_to_json

        _print_json(plan_to_json(plan) | (explained.as_json() if explained else {}))
    else:
        from jarwright.papers.plan_text import plan_text

        sys.stdout.write(plan_text(plan))
        if explained:
            _print_folded(explained.lines())
    return BLOCKED if plan.blockers else DONE


def _explained(plan: Plan, options: argparse.Namespace) -> Explanation:
    from jarwright.planning.explain import explain
    from jarwright.reference.library import load_reference

    return explain(plan, load_reference(), limit=options.time_limit)


def _what_if(options: argparse.Namespace) -> int:
    from jarwright.storage.documents import read_document

    document = read_document(options.file)
    from jarwright.planning.changes import WORDS, change_all

    if not options.changes:
        widest = max(len(word.example) for word in WORDS.values())
        _print([f"{word.example:{widest}}  {word.help}" for word in WORDS.values()])
        return DONE
    changes = change_all(document, options.changes)
    before, after = _planned(options, document), _planned(options, changes[-1].document)
    from jarwright.planning.compare import compare, difference_words

    difference = compare(before, after)
    if options.json:
        from jarwright.model.codec import encode
        from jarwright.model.plan import plan_to_json

        _print_json(
            {
                "format": "jarwright.what-if/1",
                "changes": [{"word": each.word, "name": each.name} for each in changes],
                "before": plan_to_json(before),
                "after": plan_to_json(after),
                "difference": encode(difference),
            }
        )
    else:
        _print_folded([f"What if: {each.name}" for each in changes])
        _print_folded(difference_words(before, after, difference))
    return BLOCKED if after.blockers else DONE


def _export(options: argparse.Namespace) -> int:
    folder: Path = options.directory
    if folder.exists() and not folder.is_dir():
        raise PlanError("This is a file, not a folder", where=str(folder), fix="Name a folder for the papers")
    plan = _planned(options)
    from jarwright.papers.export import export_papers

    _print([str(path) for path in export_papers(plan, folder, only=options.only, overwrite=options.replace)])
    if not plan.blockers:
        return DONE
    sys.stderr.write(f"jarwright: {_one_line(plan.verdict.headline)}; to see what: jarwright plan {_one_line(str(options.file))}\n")
    return BLOCKED


def _times(options: argparse.Namespace) -> int:
    from jarwright.reference.library import load_reference
    from jarwright.reference.ways import home_table, home_words, named_products, ways_to_process

    if options.gauge and options.method not in (None, "pressure"):
        raise JarwrightError("A gauge belongs to a pressure canner only", where="--gauge", fix="Leave it out, or ask for --method pressure")
    reference, asked = load_reference(), _asked(options)
    name = " ".join(options.product)
    if not name:
        return _list_times(options, reference)
    try:
        products = named_products(name, reference)
    except TableError as error:
        if error.rule == "unknown":
            raise
        return _show_times(options, [], [_refusal(error)])
    if options.home:
        table = home_table(products, reference, homes_ft=options.home, asked=asked)
        if options.json:
            _print_json(_home_json(table))
        else:
            _print([*home_words(table), *_sources_differ(max(options.home))])
        return DONE if table.lines else BLOCKED
    if options.elevation is None:
        rows = [row for method in asked.methods for product in products for row in reference.times.table(product, method)]
        rows = [row for row in rows if asked.fits(row)]
        return _show_times(options, rows, [] if rows else [_nothing_fits(options, products)])
    found = ways_to_process(products, reference, elevation_ft=options.elevation, asked=asked)
    return _show_times(options, found.rows, found.refused, found.notes)


def _asked(options: argparse.Namespace) -> Asked:
    from jarwright.reference.ways import Asked

    return Asked(pack=options.pack, jar=options.jar, method=options.method, gauge=options.gauge)


def _refusal(error: TableError) -> Refused:
    from jarwright.reference.ways import Refused

    return Refused("", "", error.rule, error.what, error.fix, error.source)


def _list_times(options: argparse.Namespace, reference: Reference) -> int:
    times, asked = reference.times, _asked(options)
    on_file = (
        [row for product in times.products("steam") for row in times.table(product, "steam")] if options.method == "steam" else times.rows
    )
    rows = [row for row in on_file if asked.fits(row) and options.method in (None, row.method)]
    if options.elevation is not None:
        feet = max(0, math.ceil(options.elevation))
        rows = [row for row in rows if row.covers(feet)]
    if options.json:
        _print_json([_as_json(row) for row in rows])
    else:
        _print([f"{method}: {product}" for method, product in dict.fromkeys((row.method, row.product) for row in rows)])
    return DONE


def _nothing_fits(options: argparse.Namespace, products: Sequence[str]) -> Refused:
    words = [
        options.pack and f"{options.pack} pack",
        options.jar and jars_named(options.jar),
        options.method,
        options.gauge and f"{options.gauge} gauge",
    ]
    what = f"{' and '.join(products) or 'This recipe'}: no process time is published for {', '.join(filter(None, words)) or 'it'}"
    return _refusal(TableError(what, fix="Ask without these words to see what is published"))


def _show_times(
    options: argparse.Namespace, rows: Sequence[ProcessRow], refused: Sequence[Refused], notes: Sequence[tuple[str, str]] = ()
) -> int:
    if options.json:
        _print_json([*(_as_json(row) for row in rows), *(_refused_json(each) for each in refused)])
    else:
        from jarwright.reference.ways import row_words

        for row in rows:
            _print([row_words(row, jar=options.jar)])
            if row.citation.source_kind == "memory":
                _print(["  FROM MEMORY: check it in the publication before anybody uses it"])
            _print([f"  Source: {row.citation.source} [{row.citation.row}]"])
        told = [(each.words(), each.source) for each in refused]
        _print([line for says, source in (*told, *notes) for line in (says, *([f"  Source: {source}"] if source else []))])
        if rows:
            _print(_sources_differ(options.elevation or 0))
    return DONE if rows else BLOCKED


def _sources_differ(elevation_ft: float) -> list[str]:
    if elevation_ft <= SOURCES_DIFFER_ABOVE_FT:
        return []
    return [f"Sources differ above {SOURCES_DIFFER_ABOVE_FT:,} ft: ask your extension office before you can there."]


def _home_json(table: HomeTable) -> list[dict[str, Any]]:
    """Return one object for each home and row, and for each refusal with its home."""
    rows = [
        {"home_elevation_ft": feet, **_as_json(row)}
        for line in table.lines
        for feet, there in zip(table.homes_ft, line.rows, strict=True)
        for row in there
    ]
    return rows + [{"home_elevation_ft": feet, **_refused_json(each)} for each, homes in table.refused for feet in homes]


def _refused_json(each: Refused) -> dict[str, Any]:
    return {
        "product": each.product or None, "method": each.method or None, "minutes": None,
        "refused": each.says, "rule": each.rule, "remedy": each.remedy, "source": each.source,
    }  # fmt: skip


def _as_json(row: ProcessRow) -> dict[str, Any]:
    return {
        "product": row.product,
        "pack": row.pack,
        "jar": row.jar,
        "method": row.method,
        "gauge": row.gauge,
        "elevation_min_ft": row.elevation_min_ft,
        "elevation_max_ft": row.elevation_max_ft,
        "minutes": row.minutes,
        "psi": row.psi,
        "source": row.citation.source,
        "source_kind": row.citation.source_kind,
    }
