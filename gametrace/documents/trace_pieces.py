"""The parts of a trace on paper, used by the one-page sheet and by the visit pack.

Animals with their exact shares and papers; the list of where the rest is; the balance, with what is
unaccounted always shown; the findings. Every function takes how much it may show and says what it folded.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape as escape_ours

from reportlab.platypus import Flowable, Table, TableStyle

from gametrace.documents import brand
from gametrace.documents.marks import FindingMark
from gametrace.documents.pieces import escaped, markup, paragraph, ruled_tables, state_cell
from gametrace.documents.trace_folding import Fold, count_folded, folded
from gametrace.documents.wording import (
    NOT_STATED,
    counted,
    fraction,
    kg,
    kg_number,
    killed,
    local_day,
    percent,
)
from gametrace.domain.findings import Finding, Severity, rests_on
from gametrace.register.records import Balance, Trace, TraceAnimal

QUIET = "#47545F"
UNACCOUNTED = "unaccounted"


def quiet(words: str) -> str:
    """Our own markup for second text around words already escaped."""
    return f'<font color="{QUIET}" size="7">{words}</font>'


def animals_table(trace: Trace, width: float, most: int = 0, is_short: bool = False) -> list[Flowable]:
    """A row an animal; where there are more than `most` (0: no end), the last row counts the others."""
    shown = trace.animals[:most] if most else trace.animals
    rows: list[Sequence[object]] = [_animal_row(animal, is_short) for animal in shown]
    others = trace.animals[len(shown) :]
    if others:
        share = sum((animal.share for animal in others[1:]), others[0].share)
        words = f"and {counted(len(others), 'more animal')}, in the register and by code below"
        codes = ", ".join(animal.code for animal in others)
        rows.append(
            (
                markup(f"<b>{words}</b>"),
                paragraph(codes, brand.SMALL, 600),
                "",
                _share(kg_number(sum(animal.grams for animal in others)), fraction(share), percent(share)),
            )
        )
    heads = ("animal", "supplier and place of killing", "declaration", "kg · share of it")
    widths = [width * part for part in (0.22, 0.33, 0.29, 0.16)]
    return ruled_tables(heads, rows, widths, right=(3,))


def _animal_row(animal: TraceAnimal, is_short: bool) -> tuple[object, ...]:
    limit = 50 if is_short else 120
    tag = f"tag {escaped(animal.tag, 40)}" if animal.tag else f"tag {NOT_STATED}"
    place = escaped(animal.place, limit) if animal.place else f"place {NOT_STATED}"
    origin = escaped(animal.origin_type, 40)
    supplier = f"<b>{escaped(animal.supplier, limit)}</b>"
    if not is_short:
        supplier += f"<br/>{escaped(animal.supplier_address, limit)}"
    killed_words = f"killed {escaped(killed(animal.killed_at), 60)}, {place}"
    answers = "<br/>".join(
        f"{escaped(statement.words, 90)}: <b>{escaped(statement.answer, 40)}</b>"
        for statement in animal.statements
    )
    if is_short:
        answers = ", ".join(f"<b>{escaped(statement.answer, 20)}</b>" for statement in animal.statements)
    return (
        markup(f"<b>{escaped(animal.code, 40)}</b><br/>{escaped(animal.name, limit)}<br/>"
               f"{quiet(f'{tag} · {origin} · {escaped(animal.state, 40)}')}"),
        markup(f"{supplier}<br/>{killed_words}"),
        markup(f"{escaped(animal.declaration, limit)}<br/>{quiet(answers)}"),
        _share(kg_number(animal.grams), fraction(animal.share), percent(animal.share)),
    )  # fmt: skip


def _share(grams: str, exact: str, rounded: str) -> Flowable:
    return markup(f"<b>{grams}</b><br/>{exact}<br/>{rounded}", brand.CELL_RIGHT)


def forward_table(trace: Trace, width: float, most: int = 0, are_codes_shown: bool = True) -> list[Flowable]:
    """Where the rest is, in at most `most` lines (0: no end)."""
    if not trace.forward:
        return [paragraph("Nothing further has been made of it.", brand.BODY)]
    lines = folded(trace.forward, most or len(trace.forward))
    heads = ("what", "state", "where", "when", "kg", "kg from this")
    widths = [width * part for part in (0.37, 0.13, 0.2, 0.12, 0.08, 0.1)]
    drawn = ruled_tables(heads, [_forward_row(line) for line in lines], widths, right=(4, 5))
    lots, folds = count_folded(lines)
    if lots:
        words = (
            f"{counted(lots, 'lot')} alike folded into {counted(folds, 'line')}; the register holds each one."
        )
        drawn.append(paragraph(words, brand.SMALL))
    if are_codes_shown:
        drawn += [_codes(line) for line in lines if not line.is_one]
    return drawn


def _codes(line: Fold) -> Flowable:
    return markup(f"<b>{escaped(line.words, 80)}</b> · {escaped(', '.join(line.codes), 1200)}", brand.SMALL)


def _forward_row(line: Fold) -> tuple[object, ...]:
    if line.is_one:
        what = f"<b>{escaped(line.codes[0], 40)}</b> {escaped(line.words, 80)}"
    else:
        what = f"<b>{escaped(line.words, 80)}</b>, {kg(line.grams)}"
    if line.detail:
        what += f"<br/>{quiet(escaped(line.detail, 120))}"
    first, last = (local_day(when) for when in line.first_and_last)
    return (
        markup(what),
        state_cell(line.state),
        paragraph(line.where or NOT_STATED, brand.CELL, 80),
        paragraph(first if first == last else f"{first} to {last}", brand.CELL),
        kg_number(line.grams),
        kg_number(line.grams_from),
    )


def balance_table(balance: Balance | None, width: float) -> list[Flowable]:
    """A bar a row, so that the eye weighs it too; 'unaccounted' is never left out, even at nought."""
    if balance is None:
        return [
            paragraph("A balance of weight is drawn for animals; ask for one of those above.", brand.BODY)
        ]
    rows = [("received", balance.received_grams, True)]
    rows += [(row.words, row.grams, row.words == UNACCOUNTED) for row in balance.rows]
    if all(row.words != UNACCOUNTED for row in balance.rows):
        rows.append((UNACCOUNTED, balance.unaccounted_grams, True))
    full = max(balance.received_grams, *(grams for _, grams, _ in rows), 1)
    drawn = [
        [
            paragraph(words, brand.CELL_STRONG if is_strong else brand.CELL, 60),
            paragraph(kg(grams), brand.CELL_RIGHT_STRONG if is_strong else brand.CELL_RIGHT),
            _Bar(grams, full, width * 0.59, words == UNACCOUNTED),
        ]
        for words, grams, is_strong in rows
    ]
    table = Table(drawn, colWidths=[width * 0.26, width * 0.13, width * 0.61])
    table.setStyle(_TIGHT)
    return [table]


class _Bar(Flowable):
    """A weight as a length; what is unaccounted is an outline, because nobody holds it."""

    def __init__(self, grams: int, full: int, width: float, is_hollow: bool) -> None:
        super().__init__()
        self.length = max(0.0, width * grams / full)
        self.is_hollow = is_hollow
        self.width, self.height = width, 6.5

    def draw(self) -> None:
        self.canv.setLineWidth(0.6)
        self.canv.setStrokeColor(brand.INK)
        self.canv.setFillColor(brand.WHITE if self.is_hollow else brand.LINE)
        if self.length:
            self.canv.rect(0, -1, self.length, self.height, stroke=int(self.is_hollow), fill=1)


def findings_list(findings: Sequence[Finding], most: int = 0, limit: int = 600) -> list[Flowable]:
    """Sentences with their source; what stops comes first."""
    worst_first = sorted(findings, key=_gravity)
    shown = worst_first[:most] if most else worst_first
    rows = [[FindingMark(finding.severity, 6.5), markup(finding_words(finding, limit))] for finding in shown]
    drawn: list[Flowable] = []
    if rows:
        table = Table(rows, colWidths=[12, None])
        table.setStyle(_TIGHT)
        drawn.append(table)
    if len(shown) < len(worst_first):
        drawn.append(paragraph(f"and {len(worst_first) - len(shown)} more in the register.", brand.SMALL))
    return drawn


def finding_words(finding: Finding, limit: int = 600) -> str:
    """'Sentence. What to do. [source (standing)]' as our markup."""
    words = f"<b>{escape_ours(str(finding.severity))}</b> {escaped(finding.sentence, limit)}"
    if finding.what_to_do:
        words += f" {escaped(finding.what_to_do, limit)}"
    rule = rests_on(finding.source, finding.status)
    return words + (f" {quiet(f'[{escaped(rule, 240)}]')}" if rule else "")


def _gravity(finding: Finding) -> int:
    return (Severity.STOP, Severity.ASK, Severity.NOTE).index(Severity(finding.severity))


_TIGHT = TableStyle(
    [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("VALIGN", (2, 0), (2, -1), "MIDDLE"),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 6),
        ("TOPPADDING", (0, 0), (-1, -1), 1),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 1.5),
    ]
)
