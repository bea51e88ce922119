"""The cold stores and the bins in the visit pack: what was measured, what was warm, what failed, what left.

A time nobody measured is printed as one. Every function takes records and gives pieces of a page.
"""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.platypus import CondPageBreak, Flowable

from gametrace.documents import brand
from gametrace.documents.pages import TEXT_WIDTH
from gametrace.documents.pieces import escaped, markup, paragraph, ruled_tables
from gametrace.documents.trace_pieces import quiet
from gametrace.documents.wording import NOT_STATED, counted, day, degrees, instant, kg, kg_number
from gametrace.register.visit_records import (
    Collected,
    Evidence,
    ProbeChecked,
    Round,
    StoreCover,
    StoreFailed,
    Warmth,
    WeekOfBins,
)

MOST_CODES = 40  # of one excursion or failure; the register knows them all
MOST_GAPS = 120  # unanswered gaps listed; a larder that reads by hand has one a night


def subhead(words: str) -> list[Flowable]:
    """A heading with room under it for at least its first rows."""
    return [CondPageBreak(90), paragraph(words, brand.SUBHEADING)]


def none_here() -> Flowable:
    return paragraph("None in this period.", brand.BODY)


def temperatures(evidence: Evidence) -> list[Flowable]:
    """How each store was covered, then the rounds and the probes."""
    return [
        *subhead("How well each store was measured"),
        *(cover_table(evidence.covers) if evidence.covers else [none_here()]),
        *subhead(f"Rounds by hand: {len(evidence.rounds):,}"),
        *(rounds_table(evidence.rounds) if evidence.rounds else [none_here()]),
        *subhead("Checks of the probes"),
        *(probes_table(evidence.probes) if evidence.probes else [none_here()]),
    ]


def cover_table(covers: Sequence[StoreCover]) -> list[Flowable]:
    rows = [
        (
            markup(f"<b>{escaped(one.name, 60)}</b><br/>{quiet(escaped(one.sort, 20))}"),
            degrees(one.limit_tenths_c),
            f"{one.readings:,}",
            _range(one),
            paragraph("; ".join(one.files[:12]) or "none"),
            _gaps(one),
        )
        for one in covers
    ]
    heads = ("store", "own limit", "readings", "coldest to warmest", "loggers' files", "nobody measured")
    return ruled_tables(heads, rows, _widths(0.17, 0.1, 0.1, 0.18, 0.23, 0.22), right=(1, 2))


def _range(one: StoreCover) -> str:
    if one.coldest_tenths_c is None or one.warmest_tenths_c is None:
        return "never read"
    return f"{degrees(one.coldest_tenths_c)} to {degrees(one.warmest_tenths_c)}"


def _gaps(one: StoreCover) -> Flowable:
    if not one.readings:
        return markup("<b>the whole period</b>")
    if not one.gaps:
        return paragraph("no gap")
    longest, whole = span_words(one.longest_gap_minutes), span_words(one.gap_minutes)
    return markup(f"<b>{counted(one.gaps, 'gap')}</b>, longest {longest}, in all {whole}")


def span_words(minutes: int) -> str:
    """'3 h 05 min', '2 days 4 h'"""
    hours, rest = divmod(minutes, 60)
    if hours >= 48:
        return f"{hours // 24} days {hours % 24} h"
    return f"{hours} h {rest:02d} min" if hours else f"{rest} min"


def rounds_table(rounds: Sequence[Round]) -> list[Flowable]:
    rows = [
        (
            instant(one.at),
            paragraph(one.by, brand.CELL, 20),
            paragraph(one.probe or NOT_STATED, brand.CELL, 60),
            paragraph("; ".join(f"{store} {degrees(tenths)}" for store, tenths in one.readings)),
        )
        for one in rounds
    ]
    return ruled_tables(("taken", "by", "probe", "read"), rows, _widths(0.19, 0.08, 0.2, 0.53))


def probes_table(checks: Sequence[ProbeChecked]) -> list[Flowable]:
    rows = [
        (
            instant(one.at),
            paragraph(one.by, brand.CELL, 20),
            paragraph(one.probe, brand.CELL, 80),
            degrees(one.ice_tenths_c) if one.ice_tenths_c is not None else "not done",
            degrees(one.boiling_tenths_c) if one.boiling_tenths_c is not None else "not done",
        )
        for one in checks
    ]
    heads = ("checked", "by", "probe", "in melting ice", "in boiling water")
    return ruled_tables(heads, rows, _widths(0.22, 0.1, 0.32, 0.18, 0.18), right=(3, 4))


def excursions(found: Sequence[Warmth]) -> list[Flowable]:
    """Warm times, each with what was done; then the hours nobody measured."""
    warm = [one for one in found if one.sort == "warm"]
    gaps = [one for one in found if one.sort == "gap"]
    answered = [one for one in gaps if one.action]
    open_gaps = [one for one in gaps if not one.action]
    left = len(open_gaps) - MOST_GAPS
    return [
        *subhead("Above the kitchen's own limit"),
        *(warmth_table(warm) if warm else [none_here()]),
        *subhead("Nobody measured"),
        *(warmth_table([*answered, *open_gaps[:MOST_GAPS]]) if gaps else [none_here()]),
        *(
            [paragraph(f"And {left:,} more such gaps that nobody wrote about.", brand.BODY)]
            if left > 0
            else []
        ),
    ]


def warmth_table(found: Sequence[Warmth]) -> list[Flowable]:
    rows = [
        (
            markup(f"<b>{escaped(one.store, 60)}</b>"),
            markup(f"{instant(one.first_at)}<br/>to {instant(one.last_at)}"),
            _height(one),
            paragraph(codes_text(one.lots), limit=900),
            _answer(one),
        )
        for one in found
    ]
    heads = ("store", "from, to", "how warm", "what stood there", "what was done, what came of it")
    return ruled_tables(heads, rows, _widths(0.13, 0.19, 0.14, 0.24, 0.3))


def _height(one: Warmth) -> str:
    if one.highest_tenths_c is None:
        minutes = int((one.last_at - one.first_at).total_seconds()) // 60
        return f"not known, {span_words(minutes)}"
    return f"{degrees(one.highest_tenths_c)}, limit {degrees(one.limit_tenths_c)}"


def _answer(one: Warmth) -> Flowable:
    if not one.action:
        return markup("<b>Nothing written down.</b>")
    result = f"<br/>Result: {escaped(one.result)}" if one.result else "<br/>Result not written down."
    return markup(f"{escaped(one.action)}{result}<br/>{quiet(escaped(one.by, 20) or NOT_STATED)}")


def codes_text(codes: Sequence[str]) -> str:
    """Every code; of very many the first ones and how many more."""
    left = len(codes) - MOST_CODES
    return ", ".join(codes[:MOST_CODES]) + (f" and {left:,} more" if left > 0 else "") or "nothing"


def failures_table(found: Sequence[StoreFailed]) -> list[Flowable]:
    rows = [
        (
            markup(f"{instant(one.at)}<br/>{quiet(escaped(one.by, 20))}"),
            markup(f"<b>{escaped(one.store, 60)}</b><br/>{escaped(one.reason)}"),
            paragraph(codes_text(one.held), limit=900),
            paragraph(codes_text(one.still_held) if one.still_held else "all decided", limit=900),
        )
        for one in found
    ]
    heads = ("when, by", "store, what happened", "put on hold", "held still")
    return ruled_tables(heads, rows, _widths(0.2, 0.28, 0.28, 0.24))


def by_products(evidence: Evidence) -> list[Flowable]:
    """What was taken away on which document, the weekly totals, and what waits."""
    words, grams = evidence.bins_waiting
    waits = f"Waiting for a collector when this was printed: {words}, {kg(grams)}." if words else (
        "Nothing waited for a collector when this was printed."
    )  # fmt: skip
    return [
        *subhead("Collected"),
        *(collections_table(evidence.collections) if evidence.collections else [none_here()]),
        *subhead("Fallen in each week, by category"),
        *(weeks_table(evidence.weeks) if evidence.weeks else [none_here()]),
        paragraph(waits, brand.BODY),
    ]


def collections_table(found: Sequence[Collected]) -> list[Flowable]:
    """A row for each kind of thing one visit took, with the numbers of the lots; then the visit's sum."""
    rows: list[tuple[object, ...]] = []
    for one in found:
        visit: object = markup(
            f"<b>{day(one.on)}</b><br/>{escaped(one.collector, 80)}<br/>to {escaped(one.destination, 80)}"
        )
        paper: object = markup(
            f"{escaped(one.document_number, 80)}<br/>{quiet('keep until ' + day(one.keep_until))}"
            + (f"<br/>{escaped(one.note)}" if one.note else "")
        )
        kinds: dict[tuple[int, str], list[tuple[str, int]]] = {}
        for code, name, category, grams in one.lots:
            kinds.setdefault((category, name), []).append((code, grams))
        for (category, name), lots in sorted(kinds.items()):
            codes = codes_text([code for code, _ in lots])
            what = markup(f"<b>{escaped(name, 60)}</b>, category {category}: {escaped(codes, 900)}")
            rows.append((visit, paper, what, str(len(lots)), kg_number(sum(grams for _, grams in lots))))
            visit = paper = ""
        rows.append(
            (
                "",
                "",
                markup("<b>together</b>"),
                str(len(one.lots)),
                kg_number(sum(lot[3] for lot in one.lots)),
            )
        )
    heads = ("day, collector", "document", "what, from which lots", "lots", "kg")
    return ruled_tables(heads, rows, _widths(0.2, 0.18, 0.44, 0.08, 0.1), right=(3, 4))


def weeks_table(weeks: Sequence[WeekOfBins]) -> list[Flowable]:
    categories = sorted({category for week in weeks for category, _ in week.grams_by_category})
    rows = []
    for week in weeks:
        grams = dict(week.grams_by_category)
        rows.append(
            (
                f"week of {day(week.first_day)}",
                *(kg_number(grams.get(category, 0)) for category in categories),
                kg_number(sum(grams.values())),
            )
        )
    heads = ("week, from Monday", *(f"category {category}, kg" for category in categories), "together, kg")
    part = 0.6 / (len(categories) + 1)
    widths = _widths(0.4, *([part] * (len(categories) + 1)))
    return ruled_tables(heads, rows, widths, right=tuple(range(1, len(categories) + 2)))


def _widths(*parts: float) -> list[float]:
    return [TEXT_WIDTH * part for part in parts]
