"""Prints the labels of lots from any station: at once, or by way of the page where everything is chosen.

At once they go the way the last ones went: the stock, the printer and the place on the sheet are those of
this machine. What is printed is counted only after the paper was delivered.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

from gametrace.desktop.bench import Bench


def ask_for_labels(
    bench: Bench, codes: Sequence[str], *, sort: str = "", back: str = "", first_line: str = ""
) -> None:
    """Bring these lots to the page of labels; from there it goes back to the station `back`."""
    from gametrace.desktop.paper.choices import LabelJob

    bench.hand("paper", LabelJob(tuple(codes), sort, back, first_line))


def print_labels(
    bench: Bench, codes: Sequence[str], *, sort: str = "", done: Callable[[], None] | None = None
) -> None:
    """Print the labels of these lots as the last ones were, and remember that they were printed."""
    from gametrace.desktop.paper import choices

    stock = bench.guarded(partial(choices.chosen_stock, bench))
    if stock is None:
        return
    job = choices.LabelJob(tuple(codes), sort)
    ready = bench.guarded(partial(choices.ready, bench, job, stock, choices.first_place(bench, stock), 1))
    if ready is not None:
        send(bench, ready, bench.settings.text(choices.PRINTER_KEY), sort=sort, done=done)


def send(
    bench: Bench, ready: Any, printer: str, *, sort: str = "", done: Callable[[], None] | None = None
) -> None:
    """To the printer of that name, or as a PDF where there is none; then it is noted, then `done`."""
    work = partial(_drawn, ready) if not printer else partial(_printed, ready, printer)
    bench.errands.run(
        work, done=partial(_sent, bench, ready, printer, sort, done), failed=bench.errand_failed
    )


def _drawn(ready: Any, progress: Callable[[int, int], None]) -> bytes:
    progress(0, 1)
    return ready.draw()


def _printed(ready: Any, printer: str, progress: Callable[[int, int], None]) -> bytes:
    return print_ready(ready, printer, progress)


def print_ready(ready: Any, printer: str, progress: Callable[[int, int], None] | None = None) -> bytes:
    """Straight to the printer of that name; Trouble where it does not take them."""
    from gametrace.desktop.paper_printer import print_paper, printer_called

    pdf, stock = ready.draw(), ready.stock
    page = (stock.page_w_mm, stock.page_h_mm)
    print_paper(pdf, page, printer_called(printer), "gametrace labels", progress or _unseen, stock.dpi)
    return pdf


def _unseen(_done: int, _total: int) -> None:
    """Nobody watches."""


def _sent(
    bench: Bench, ready: Any, printer: str, sort: str, done: Callable[[], None] | None, pdf: bytes
) -> None:
    from gametrace.desktop.paper.choices import note_sent

    codes = ready.codes
    name = f"labels-{codes[0]}.pdf" if len(codes) > 1 else f"label-{codes[0]}.pdf"
    if not printer and bench.guarded(partial(bench.printing.deliver, pdf, name, ask=False)) is None:
        return
    note_sent(bench, ready)
    words = f"The label of {codes[0]}" if len(codes) == 1 else f"{len(codes)} labels"
    where = f"sent to {printer}" if printer else "open, ready to print"
    said = "" if done is not None else f"{words}: {where}."
    noted = bench.attempt("note_labels_printed", codes=codes, sort=sort, sorts=ready.sorts, said=said)
    if noted is not None and done is not None:
        done()
