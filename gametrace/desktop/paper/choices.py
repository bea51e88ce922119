"""What this machine remembers of printing: stock, printer, how far off it feeds. And what is to be printed.

The house's own stocks are the register's; a machine keeps only which of them lies in its printer.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from gametrace.desktop.bench import Bench

PDF = ""  # no printer: a PDF, opened in the machine's own viewer
FIRST_STOCK = "single-62x40"
STOCK_KEY, PRINTER_KEY, PLACE_KEY = "label_stock", "label_printer", "label_place"
LAST_KEY = "labels_last"  # the codes printed last, to be had again
RIGHT_KEY, DOWN_KEY = "label_move_right", "label_move_down"  # hundredths of a millimetre


@dataclass(frozen=True, slots=True)
class LabelJob:
    """Labels somebody asked for at a station, which is where they go back to."""

    codes: tuple[str, ...]
    sort: str = ""
    back: str = ""
    first_line: str = ""  # stands in for what the register would say first


@dataclass(frozen=True, slots=True)
class Ready:
    """Labels worded and their stock, as they are drawn."""

    sheets: tuple[Any, ...]
    stock: Any
    start_at: int = 1
    codes: tuple[str, ...] = field(default=())

    @property
    def sorts(self) -> tuple[str, ...]:
        return tuple(sheet.sort for sheet in self.sheets)

    def draw(self) -> bytes:
        from gametrace.documents.labels import label_pdf

        return label_pdf(self.sheets, self.stock, start_at=self.start_at)


def stocks(bench: Bench) -> dict[str, Any]:
    """Every stock by its name: those the program knows, then the house's own."""
    from gametrace.documents.stocks import STOCKS

    return {**STOCKS, **{one.name: one for one in bench.ask("label_stocks")}}


def moved(bench: Bench, stock: Any) -> Any:
    """The stock as this machine's printer has to be told it."""
    right, down = (bench.settings.number(key, 0) / 100 for key in (RIGHT_KEY, DOWN_KEY))
    return stock.nudged(right, down) if right or down else stock


def chosen_stock(bench: Bench) -> Any:
    known = stocks(bench)
    return known.get(bench.settings.text(STOCK_KEY, FIRST_STOCK)) or known[FIRST_STOCK]


def first_place(bench: Bench, stock: Any) -> int:
    """The first empty place of the sheet lying in the printer, where that stock was used last."""
    name, _, place = bench.settings.text(PLACE_KEY).rpartition("|")
    if name != stock.name or stock.is_single or not place.isdigit():
        return 1
    return int(place) if 1 <= int(place) <= stock.labels_a_page else 1


def note_sent(bench: Bench, made: Ready) -> None:
    """What was printed last, and where the next labels begin on a sheet that is not used up."""
    next_place = (made.start_at - 1 + len(made.sheets)) % made.stock.labels_a_page + 1
    bench.settings.keep(PLACE_KEY, f"{made.stock.name}|{next_place}")
    bench.settings.keep(LAST_KEY, " ".join(dict.fromkeys(made.codes)))


def last_codes(bench: Bench) -> tuple[str, ...]:
    return tuple(bench.settings.text(LAST_KEY).split())


def ready(bench: Bench, job: LabelJob, stock: Any, start_at: int, copies: int) -> Ready:
    """Ask the register what the labels say."""
    from dataclasses import replace

    sheets = bench.ask("label_sheets", job.codes, job.sort, copies)
    if job.first_line:
        sheets = tuple(replace(one, lines=(job.first_line, *one.lines[1:])) for one in sheets)
    return Ready(tuple(sheets), moved(bench, stock), start_at, tuple(sheet.code for sheet in sheets))
