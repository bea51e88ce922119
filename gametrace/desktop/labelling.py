"""Prints the labels of lots from any station: sheets from the register, drawn off the GUI thread, then noted.

The label stock is the one kept in the settings of this machine. What is printed is counted only after the
paper was delivered.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

from gametrace.desktop.bench import Bench
from gametrace.desktop.errands import Stopped

STOCK_KEY, FIRST_STOCK = "label_stock", "single-62x40"


def print_labels(
    bench: Bench, codes: Sequence[str], *, sort: str = "", done: Callable[[], None] | None = None
) -> None:
    """Draw the labels of these lots, show them for printing, and remember that they were printed."""
    sheets = bench.guarded(partial(bench.ask, "label_sheets", tuple(codes), sort))
    if sheets is None:
        return
    name = f"labels-{sheets[0].code}.pdf" if len(sheets) > 1 else f"label-{sheets[0].code}.pdf"
    stock = bench.settings.text(STOCK_KEY, FIRST_STOCK)
    bench.errands.run(
        partial(_draw, sheets, stock),
        done=partial(_deliver, bench, tuple(codes), sort, name, done),
        failed=partial(_failed, bench),
    )


def _draw(sheets: Sequence[Any], stock: str, progress: Callable[[int, int], None]) -> bytes:
    from gametrace.documents.labels import STOCKS, label_pdf

    progress(0, 1)
    return label_pdf(sheets, STOCKS.get(stock) or STOCKS[FIRST_STOCK])


def _deliver(
    bench: Bench, codes: tuple[str, ...], sort: str, name: str, done: Callable[[], None] | None, pdf: bytes
) -> None:
    if bench.guarded(partial(bench.printing.deliver, pdf, name, ask=False)) is None:
        return
    words = f"The label of {codes[0]}" if len(codes) == 1 else f"{len(codes)} labels"
    said = "" if done is not None else f"{words}: open, ready to print."
    noted = bench.attempt("note_labels_printed", codes=codes, sort=sort, said=said)
    if noted is not None and done is not None:
        done()


def _failed(bench: Bench, error: Exception) -> None:
    if not isinstance(error, Stopped):
        bench.guarded(partial(_raise, error))


def _raise(error: Exception) -> None:
    raise error
