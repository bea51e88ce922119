"""What the larder's own records and the supplier book say of a supplier whose deliveries are traced."""

from __future__ import annotations

from gametrace.desktop.bench import Bench
from gametrace.register.records import Trace


def supplier_told(bench: Bench, trace: Trace) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """(what has lapsed or will, the scorecard) in sentences; both empty where no supplier is traced."""
    if trace.kind != "supplier":
        return (), ()
    from gametrace.register.supplier_words import lapse_lines, score_lines

    code = next((one.code for one in bench.ask("suppliers") if one.name == trace.name), "")
    if trace.animals:
        code = bench.ask("carcass", trace.animals[0].code).supplier.code
    approval = bench.ask("approvals").get(code)
    if approval is None:
        return (), ()
    return lapse_lines(approval, bench.today()), score_lines(bench.ask("scores", code).get(code))
