"""Deliveries as the visit pack shows them: a list at a glance, then every declared field of each.

What is empty is printed as 'not stated': the gaps of a paper are part of what it says.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, HRFlowable, KeepTogether, Spacer

from gametrace.documents import brand
from gametrace.documents.grid import Grid, Room
from gametrace.documents.marks import FindingMark, Mark
from gametrace.documents.pages import TEXT_WIDTH
from gametrace.documents.pieces import escaped, long_table, markup, pair, pairs_grid, paragraph, state_cell
from gametrace.documents.trace_pieces import finding_words
from gametrace.documents.wording import (
    NOT_STATED,
    counted,
    day,
    degrees,
    instant,
    kg,
    kg_number,
    killed,
    local_day,
    pounds,
)
from gametrace.domain.findings import Finding
from gametrace.register.records import Carcass, Hold

MOST_FINDINGS = 30  # of one delivery; the register knows them all
MOST_HOLDS = 20
_MARKED = (12, TEXT_WIDTH - 12)  # a shape, and the words beside it


def at_a_glance(deliveries: Iterable[Carcass]) -> Iterator[Flowable]:
    """A row a delivery."""
    rows = (
        (
            local_day(c.received_at),
            markup(f"<b>{escaped(c.code, 40)}</b>"),
            paragraph(c.title, brand.CELL, 60),
            paragraph(c.supplier.name, brand.CELL, 60),
            kg_number(c.grams_received),
            degrees(max(tenths for _, tenths in c.readings)) if c.readings else NOT_STATED,
            paragraph(c.decision, brand.CELL, 40),
            paragraph(c.evidence, brand.CELL, 60),
        )
        for c in deliveries
    )
    heads = ("received", "number", "animal", "supplier", "kg", "warmest", "decision", "paper")
    widths = [TEXT_WIDTH * part for part in (0.12, 0.13, 0.15, 0.18, 0.09, 0.09, 0.11, 0.13)]
    return long_table(heads, rows, widths, right=(4, 5))


def delivery_block(carcass: Carcass) -> Flowable:
    """Everything declared, measured, found and decided about one delivery, kept on one page."""
    pieces: list[Flowable] = [
        HRFlowable(width="100%", thickness=0.8, color=brand.INK, spaceBefore=7, spaceAfter=3),
        _head(carcass),
        pairs_grid(delivery_pairs(carcass), TEXT_WIDTH, 5),
        *_findings(carcass),
        *_holds(carcass),
    ]
    return KeepTogether(pieces)


def _head(c: Carcass) -> Grid:
    left = markup(f'<font size="11"><b>{escaped(c.code, 40)}</b></font>&nbsp;&nbsp; {escaped(c.title, 80)}')
    decision = f"<b>{escaped(c.decision, 60)}</b>"
    if c.decision_reason:
        decision += f": {escaped(c.decision_reason, 200)}"
    now = state_cell(c.lot.state, c.lot.where)
    widths = [TEXT_WIDTH * part for part in (0.36, 0.32, 0.32)]
    return Grid([[left, markup(decision), now]], widths, _HEAD)


def delivery_pairs(c: Carcass) -> list[Flowable]:
    """Names and values along the way of the paper: who, what, when, declared, measured, decided."""
    late = "" if c.written_at == c.received_at else f", written {instant(c.written_at)}"
    pairs = [
        ("Received", f"{instant(c.received_at)}{late}"),
        ("Received by", c.received_by),
        ("Dispatched", day(c.dispatched_on)),
        ("Supplier's tag", c.tag),
        ("Number hangs on", c.number_on),
        ("Supplier", _joined(c.supplier.name, c.supplier.address)),
        ("Supply route", c.route_words),
        ("Origin", c.origin_words),
        ("Registration or approval", c.approval_number or c.supplier.approval_number),
        ("Price a kilo", NOT_STATED if c.pence_per_kg is None else pounds(c.pence_per_kg)),
        ("Species", c.species_name),
        ("Sex, age class", _joined(c.sex, c.age_class)),
        ("Bodies", str(c.count)),
        ("Killed", killed(c.killed_at)),
        ("Place of killing", c.kill_place),
        ("Declaration", _declaration(c)),
        *((_capital(statement.words), statement.answer) for statement in c.statements),
        ("Trained person, certificate", _joined(c.trained_person, c.certificate_number)),
        ("Inspection notes", c.inspection_notes),
        ("Temperatures", ", ".join(f"{where} {degrees(tenths)}" for where, tenths in c.readings)),
        ("Weight received, as it was", f"{kg(c.grams_received)}, {c.basis_words}"),
        ("Weight by the supplier", NOT_STATED if c.supplier_grams is None else kg(c.supplier_grams)),
        ("Hung, dressed", _hung(c)),
        ("Now", c.basis_now),
        ("Paper", c.evidence),
        ("Still to finish", ", ".join(c.missing) or "nothing"),
    ]
    return [pair(name, value) for name, value in pairs]


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _joined(*parts: str) -> str:
    return ", ".join(part for part in parts if part.strip())


def _declaration(c: Carcass) -> str:
    if not c.has_declaration:
        return "none came with it"
    return c.declaration_number or "came with it, without a number"


def _hung(c: Carcass) -> str:
    hung = f"days hung {NOT_STATED}" if c.days_hung is None else counted(c.days_hung, "day")
    return f"{hung}, {f'dressed {instant(c.dressed_at)}' if c.dressed_at else 'not dressed yet'}"


def _findings(c: Carcass) -> list[Flowable]:
    """Each finding with the reason that was given for it."""
    if not c.findings:
        return [paragraph("No findings.", brand.SMALL)]
    rows = [
        [FindingMark(finding.severity, 6.5), markup(finding_words(finding) + _reason(c, finding))]
        for finding in c.findings[:MOST_FINDINGS]
    ]
    left_off = len(c.findings) - len(rows)
    more = (
        [paragraph(f"and {counted(left_off, 'more finding')} in the register.", brand.SMALL)]
        if left_off
        else []
    )
    return [Grid(rows, _MARKED, _LIST), *more]


def _reason(c: Carcass, finding: Finding) -> str:
    reason = c.reasons.get(finding.code, "")
    if reason:
        return f"<br/>Reason given: <b>{escaped(reason)}</b>"
    return "" if finding.severity == "note" else "<br/>No reason given."


def _holds(c: Carcass) -> list[Flowable]:
    rows = [[Mark(_shape(one), 6.5), markup(hold_words(one))] for one in c.holds[:MOST_HOLDS]]
    if not rows:
        return []
    return [Grid(rows, _MARKED, _LIST), Spacer(1, 1 * mm)]


def _shape(one: Hold) -> str:
    return "on hold" if one.sort == "hold" else one.sort


def hold_words(one: Hold) -> str:
    """Who stopped it, when and why, and what was done: our own markup."""
    words = f"<b>{escaped(one.sort, 30)}</b> by {escaped(one.placed_by, 20)}, {instant(one.placed_at)}"
    words += f": {escaped(one.reason)}<br/>"
    if one.released_at is None:
        return words + "<b>Not released.</b>"
    released = f"Released by {escaped(one.released_by, 20)}, {instant(one.released_at)}"
    return words + f"{released}: {escaped(one.release_reason)}"


_HEAD = Room(right=4, last_right=4, top=3, bottom=3, first_top=0)
_LIST = Room(right=4, last_right=4, top=1, bottom=1, first_top=2.5)
