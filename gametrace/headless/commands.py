"""The words of the command line and what each leads to. Each command imports what it needs when it runs."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path

from gametrace.domain.errors import Refusal, Trouble
from gametrace.headless.places import place

Command = Callable[[argparse.Namespace], int]


def run(words: Sequence[str]) -> int:
    """Run one command, or open the window. Refusals and trouble are one sentence on standard error."""
    options = _parser().parse_args(_with_window(words))
    try:
        return int(options.command(options))
    except (Refusal, Trouble) as error:
        print(str(error), file=sys.stderr)
        return 1


def _with_window(words: Sequence[str]) -> list[str]:
    """`gametrace` and `gametrace FILE` mean the window, without a word for it."""
    if words and (words[0] in _COMMANDS or words[0] in ("-h", "--help", "--version")):
        return list(words)
    return ["window", *words]


def _window(options: argparse.Namespace) -> int:
    from gametrace.desktop.app import run as run_window

    return int(run_window(options.file, practice=options.practice, officer=options.officer))


def _trace(options: argparse.Namespace) -> int:
    from gametrace.headless.asking import trace

    return trace(options)


def _deliveries(options: argparse.Namespace) -> int:
    from gametrace.headless.asking import deliveries

    return deliveries(options)


def _season(options: argparse.Namespace) -> int:
    from gametrace.headless.asking import season

    return season(options)


def _label(options: argparse.Namespace) -> int:
    from gametrace.headless.paper import label

    return label(options)


def _visit(options: argparse.Namespace) -> int:
    from gametrace.headless.paper import visit

    return visit(options)


def _sheet(options: argparse.Namespace) -> int:
    from gametrace.headless.paper import sheet

    return sheet(options)


def _book(options: argparse.Namespace) -> int:
    from gametrace.headless.paper import book

    return book(options)


def _check(options: argparse.Namespace) -> int:
    from gametrace.headless.keeping import check

    return check(options)


def _rebuild(options: argparse.Namespace) -> int:
    from gametrace.headless.keeping import rebuild

    return rebuild(options)


def _backup(options: argparse.Namespace) -> int:
    from gametrace.headless.keeping import backup

    return backup(options)


def _restore(options: argparse.Namespace) -> int:
    from gametrace.headless.keeping import restore

    return restore(options)


def _export(options: argparse.Namespace) -> int:
    from gametrace.headless.keeping import export

    return export(options)


def _copy(options: argparse.Namespace) -> int:
    from gametrace.headless.copying import copy

    return copy(options)


def _move(options: argparse.Namespace) -> int:
    from gametrace.headless.keeping import move

    return move(options)


def _pin(options: argparse.Namespace) -> int:
    from gametrace.headless.keeping import pin

    return pin(options)


def _tour(options: argparse.Namespace) -> int:
    from gametrace.headless.tour import tour

    return tour(options.out)


_COMMANDS: dict[str, tuple[str, Command]] = {
    "window": ("open the window (the same as no word at all)", _window),
    "trace": ("where a lot is from and where the rest of it went", _trace),
    "deliveries": ("what came in between two days, as lines or as CSV for a spreadsheet", _deliveries),
    "season": ("whether an animal killed on a day was in season", _season),
    "label": ("labels of lots as a PDF", _label),
    "visit": ("the paper for an officer's visit, as a PDF", _visit),
    "sheet": ("one page to hand over: of an animal, a lot, a dish or a supplier", _sheet),
    "book": ("a dealer's old book as a plain list, as CSV or as a PDF", _book),
    "check": ("whether the register is whole: seal, tables, sums", _check),
    "rebuild": ("play the journal into fresh tables", _rebuild),
    "backup": ("a checked copy of the register, also while the window is open", _backup),
    "restore": ("make a new register from a backup, after reading it from end to end", _restore),
    "export": ("everything in open files: CSV, the sealed journal, one SQLite copy", _export),
    "copy": ("old deliveries from a list, CSV or XLSX: a trial row by row, or all of them at once", _copy),
    "move": ("carry the register to a new file or a server, seal unchanged", _move),
    "pin": ("take away the PIN of somebody who forgot it, where no tutor can; Today says so", _pin),
    "tour": ("the whole job on an invented larder, with papers and pictures", _tour),
}


def _parser() -> argparse.ArgumentParser:
    from gametrace import __version__

    parser = argparse.ArgumentParser(
        prog="gametrace",
        description="A register for game carcasses, from delivery to plate and back.",
        epilog="‘gametrace FILE’ opens the window on that register; ‘gametrace --practice’ on a sample.",
    )
    parser.add_argument("--version", action="version", version=f"gametrace {__version__}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    made = {}
    for name, (words, command) in _COMMANDS.items():
        made[name] = commands.add_parser(name, help=words, description=words.capitalize() + ".")
        made[name].set_defaults(command=command)
    _arguments(made)
    return parser


def _arguments(made: dict[str, argparse.ArgumentParser]) -> None:
    made["window"].add_argument("file", nargs="?", type=place, help="the register; your own when left out")
    made["window"].add_argument("--practice", action="store_true", help="open a fresh copy of the sample")
    made["window"].add_argument("--officer", action="store_true", help="only to be looked at, for a visit")
    for name in (
        "trace",
        "deliveries",
        "label",
        "visit",
        "sheet",
        "book",
        "check",
        "rebuild",
        "backup",
        "export",
        "copy",
        "pin",
    ):
        made[name].add_argument(
            "--register", type=place, metavar="R", help="the register: a file or a server"
        )
    made["trace"].add_argument("code", help="a lot code, a supplier's tag, a dish or a supplier")
    made["trace"].add_argument("--json", action="store_true", help="for programs")
    made["trace"].add_argument("--csv", action="store_true", help="the list, for a spreadsheet")
    season = made["season"]
    season.add_argument("--species", required=True, metavar="S", help="fallow, chinese-water-deer, ...")
    season.add_argument("--sex", required=True, choices=("male", "female"))
    season.add_argument("--on", required=True, type=_day, metavar="DATE", help="day of the kill, YYYY-MM-DD")
    season.add_argument(
        "--in",
        required=True,
        dest="jurisdiction",
        metavar="WHERE",
        choices=("england-wales", "scotland", "northern-ireland"),
        help="england-wales, scotland or northern-ireland",
    )
    season.add_argument("--origin", default="wild-shot", metavar="O", help="wild-shot, park, ...")
    season.add_argument("--json", action="store_true", help="for programs")
    made["label"].add_argument("codes", nargs="+", metavar="CODE", help="lot codes")
    made["label"].add_argument("--out", required=True, type=Path, metavar="FILE", help="the PDF to write")
    made["label"].add_argument("--stock", default="single-100x50", help="the label stock; 'list' names them")
    for name in ("deliveries", "visit"):
        made[name].add_argument("--from", required=True, dest="first", type=_day, metavar="DATE")
        made[name].add_argument("--to", required=True, dest="last", type=_day, metavar="DATE")
    made["deliveries"].add_argument("--csv", action="store_true", help="every field, for a spreadsheet")
    made["visit"].add_argument("--lot", default="", metavar="CODE", help="a lot to trace both ways")
    made["visit"].add_argument("--out", required=True, type=Path, metavar="FILE", help="the PDF to write")
    made["visit"].add_argument(
        "--pictures", action="store_true", help="pictures of papers and tags as an annex"
    )
    made["sheet"].add_argument("code", help="a lot code, a supplier's tag, a dish or a supplier")
    made["sheet"].add_argument("--out", required=True, type=Path, metavar="FILE", help="the PDF to write")
    made["book"].add_argument("which", metavar="BOOK", help="scotland-venison, ni-game or ew-venison")
    made["book"].add_argument("--from", dest="first", type=_day, metavar="DATE")
    made["book"].add_argument("--to", dest="last", type=_day, metavar="DATE", help="its own year if left out")
    made["book"].add_argument("--out", type=Path, metavar="FILE", help="a PDF; without it CSV is printed")
    made["check"].add_argument("--json", action="store_true", help="for programs")
    made["backup"].add_argument("--out", required=True, type=Path, metavar="FILE", help="the copy to write")
    made["restore"].add_argument("copy", type=Path, help="the backup")
    made["restore"].add_argument("to", type=Path, nargs="?", help="the new register; left out: only read it")
    made["export"].add_argument(
        "--out", required=True, type=Path, metavar="DIR", help="a new or empty folder"
    )
    made["copy"].add_argument("file", type=Path, metavar="FILE", help="the list, as CSV or XLSX")
    made["copy"].add_argument("--sheet", default="", metavar="NAME", help="which sheet, where it has several")
    made["copy"].add_argument("--by", required=True, metavar="PERSON", help="who copies, by initials or code")
    made["copy"].add_argument(
        "--map", action="append", default=[], metavar="FIELD=HEAD", help="name a column"
    )
    made["copy"].add_argument("--still-here", action="store_true", help="the animals still hang here")
    made["copy"].add_argument("--write", action="store_true", help="write it; without this it is only tried")
    made["pin"].add_argument("initials", help="whose PIN, by initials or code")
    made["move"].add_argument("source", type=place, help="the register as it is: a file or a server")
    made["move"].add_argument(
        "destination", type=place, help="where to: a new file or postgresql+psycopg://..."
    )
    made["tour"].add_argument("--out", required=True, type=Path, metavar="DIR", help="an empty or new folder")


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"“{text}” is not a day; write 2026-11-25") from None
