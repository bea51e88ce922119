"""Tags at once, while a carcass waits to be hung: drawn and brought to paper before anything else is done."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from gametrace.desktop.bench import Bench
from gametrace.desktop.paper import choices


def print_tags(
    bench: Bench, codes: Sequence[str], sort: str = "", *, first_line: str = "", notes: bool = True
) -> bool:
    """Draw the labels of these lots and bring them to paper. False, with the reason shown, where it failed.

    They go the way the last ones went. `first_line` stands for what the register would say first: a tag
    printed during dressing speaks of the carcass as it will be. `notes` writes the printing down.
    """
    job = choices.LabelJob(tuple(codes), sort, first_line=first_line)
    made = bench.guarded(partial(_deliver, bench, job))
    if made is not None and notes:
        bench.attempt("note_labels_printed", codes=made.codes, sort=sort, sorts=made.sorts)
    return made is not None


def _deliver(bench: Bench, job: choices.LabelJob) -> choices.Ready | None:
    stock = choices.chosen_stock(bench)
    made = choices.ready(bench, job, stock, choices.first_place(bench, stock), 1)
    if printer := bench.settings.text(choices.PRINTER_KEY):
        from gametrace.desktop.labelling import print_ready

        print_ready(made, printer)
    else:
        name = f"{'hold' if job.sort == 'hold' else 'tag'}-{job.codes[0]}.pdf"
        if bench.printing.deliver(made.draw(), name, ask=False) is None:
            return None
    choices.note_sent(bench, made)
    return made
