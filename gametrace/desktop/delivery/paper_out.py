"""Tags and hold labels as paper: asks the register what they say, has them drawn,
and remembers the printing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path

from gametrace.desktop.bench import Bench

DEFAULT_STOCK = "single-62x40"


def print_tags(
    bench: Bench, codes: Sequence[str], sort: str = "", *, first_line: str = "", notes: bool = True
) -> Path | None:
    """Draw the labels of these lots and bring them to paper. None, with the reason shown, where it failed.

    `first_line` stands in for what the register would say first: a tag printed during dressing speaks of the
    carcass as it will be. `notes` writes the printing into the register.
    """
    path = bench.guarded(partial(_deliver, bench, tuple(codes), sort, first_line))
    if path is not None and notes:
        bench.attempt("note_labels_printed", codes=list(codes), sort=sort or "tag")
    return path


def _deliver(bench: Bench, codes: tuple[str, ...], sort: str, first_line: str) -> Path | None:
    from gametrace.documents.labels import STOCKS, label_pdf

    sheets = bench.ask("label_sheets", codes, sort)
    if first_line:
        sheets = tuple(replace(sheet, lines=(first_line, *sheet.lines[1:])) for sheet in sheets)
    stock = STOCKS.get(bench.settings.text("label_stock"), STOCKS[DEFAULT_STOCK])
    name = f"{'hold' if sort == 'hold' else 'tag'}-{codes[0]}.pdf"
    return bench.printing.deliver(label_pdf(sheets, stock), name, ask=False)
