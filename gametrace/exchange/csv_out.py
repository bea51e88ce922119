"""Tables as CSV for spreadsheets, every cell harmless: no text of a user can become a formula.

UTF-8, lines ended as RFC 4180 says, units in the heads. Nothing is rounded: grams and tenths stay whole.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Sequence
from io import StringIO

from gametrace.register.records import Carcass, Trace

# What a spreadsheet may take for the beginning of a formula (OWASP, 'CSV Injection').
_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
_PLAIN_NUMBER = re.compile(r"[+-]?\d+(\.\d+)?", re.ASCII)


def harmless(cell: object) -> str:
    """The cell as text, with an apostrophe before anything a spreadsheet might run."""
    text = "" if cell is None else str(cell)
    # A lone half of a character pair cannot be written as UTF-8 at all.
    text = text.replace("\0", "").encode("utf-8", "replace").decode("utf-8")
    if text.lstrip(" ").startswith(_FORMULA_STARTS) and not _PLAIN_NUMBER.fullmatch(text):
        return "'" + text
    return text


def csv_text(heads: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """Heads and rows as CSV text, to be written as UTF-8."""
    out = StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([harmless(head) for head in heads])
    writer.writerows([harmless(cell) for cell in row] for row in rows)
    return out.getvalue()


def trace_csv(trace: Trace) -> str:
    """Animals, then what was made of them, one line each; `from_g` is what came from the traced thing."""
    heads = (
        "direction", "code", "kind", "name", "tag", "supplier", "killed_at", "kill_place",
        "grams_g", "from_g", "share", "state", "where", "made_at_utc",
    )  # fmt: skip
    back = [
        ("back", a.code, "animal", a.name, a.tag, a.supplier, a.killed_at, a.place,
         a.grams, a.grams, f"{a.share.numerator}/{a.share.denominator}", a.state, "", "")
        for a in trace.animals
    ]  # fmt: skip
    lots = [
        (way, lot.code, lot.kind, lot.name, "", "", "", "",
         lot.grams, lot.grams_from, "", lot.state, lot.where, lot.when.isoformat())
        for way, group in (("back", trace.back), ("forward", trace.forward))
        for lot in group
    ]  # fmt: skip
    return csv_text(heads, [*back, *lots])


def deliveries_csv(carcasses: Iterable[Carcass]) -> str:
    """One line a delivery with every declared field."""
    heads = (
        "code", "received_at_utc", "written_at_utc", "supplier", "supplier_address", "route", "origin", "tag",
        "species", "sex", "age_class", "count", "killed_at_local", "kill_place", "has_declaration",
        "declaration_number", "statements", "trained_person", "certificate_number", "approval_number",
        "inspection_notes", "temperatures_c", "weight_g", "weight_basis", "supplier_weight_g",
        "price_pence_per_kg", "dispatched_on", "decision", "decision_reason", "received_by", "findings",
        "evidence", "state",
    )  # fmt: skip
    return csv_text(heads, (_delivery_row(carcass) for carcass in carcasses))


def _delivery_row(c: Carcass) -> tuple[object, ...]:
    return (
        c.code, c.received_at.isoformat(), c.written_at.isoformat(), c.supplier.name, c.supplier.address,
        c.route, c.origin, c.tag, c.species, c.sex, c.age_class, c.count, c.killed_at, c.kill_place,
        "yes" if c.has_declaration else "no", c.declaration_number,
        "; ".join(f"{s.words}: {s.answer}" for s in c.statements), c.trained_person, c.certificate_number,
        c.approval_number, c.inspection_notes,
        "; ".join(f"{where} {_tenths(value)}" for where, value in c.readings),
        c.grams_received, c.basis_words, c.supplier_grams, c.pence_per_kg, c.dispatched_on,
        c.decision, c.decision_reason, c.received_by, "; ".join(f.sentence for f in c.findings),
        c.evidence, c.lot.state,
    )  # fmt: skip


def _tenths(value: int) -> str:
    """5.2 from 52, without a float."""
    whole, rest = divmod(abs(value), 10)
    return f"{'-' if value < 0 else ''}{whole}.{rest}"
