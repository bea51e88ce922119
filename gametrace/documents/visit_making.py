"""What was made, dated, served, supplied and practised, and what an officer would find, in the visit pack."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from reportlab.platypus import Flowable

from gametrace.documents import brand
from gametrace.documents.marks import FindingMark, Mark
from gametrace.documents.pages import TEXT_WIDTH
from gametrace.documents.pieces import escaped, long_table, markup, paragraph, ruled_tables
from gametrace.documents.trace_pieces import quiet
from gametrace.documents.visit_rooms import none_here, subhead
from gametrace.documents.way import Way
from gametrace.documents.wording import counted, day, instant, kg_number
from gametrace.register.readiness import ASK, Found
from gametrace.register.records import Amendment
from gametrace.register.visit_records import BrokenDown, DatesGiven, Dished, Drilled, Making, Mixed

MOST_PARTS = 24  # parents of one mix in its row; a row must stay on one page


def production(making: Making, way: Way) -> Iterator[Flowable]:
    """Break-downs and mixes; each mix with every parent and its grams."""
    yield from subhead(f"Broken down and closed: {len(making.broken):,}")
    yield from broken_table(way.over(making.broken)) if making.broken else [none_here()]
    yield from subhead(f"Mixed of several lots: {len(making.mixed):,}")
    yield from mixed_table(way.over(making.mixed)) if making.mixed else [none_here()]
    yield from subhead(f"Dishes: {len(making.dishes):,}")
    yield from dishes_table(way.over(making.dishes)) if making.dishes else [none_here()]


def broken_table(found: Iterable[BrokenDown]) -> Iterator[Flowable]:
    rows = (
        (
            markup(f"<b>{escaped(one.code, 40)}</b> {escaped(one.name, 60)}"),
            markup(f"{instant(one.at)}<br/>{quiet(escaped(one.by, 20))}"),
            kg_number(one.grams_in),
            kg_number(one.meat_grams),
            kg_number(one.off_grams),
            kg_number(one.other_grams),
            kg_number(one.unaccounted_grams),
            paragraph(one.reason or "none given"),
        )
        for one in found
    )
    heads = (
        "lot", "closed, by", "in, kg", "meat, kg", "by-products, waste, kg", "dried, back, kg",
        "unaccounted, kg", "reason",
    )  # fmt: skip
    widths = _widths(0.2, 0.17, 0.09, 0.09, 0.11, 0.09, 0.12, 0.13)
    return long_table(heads, rows, widths, right=(2, 3, 4, 5, 6))


def mixed_table(found: Iterable[Mixed]) -> Iterator[Flowable]:
    rows = (
        (
            markup(f"<b>{escaped(one.code, 40)}</b><br/>{escaped(one.name, 60)}"),
            markup(f"{instant(one.at)}<br/>{quiet(escaped(one.by, 20))}"),
            markup(_parts(one)),
            kg_number(one.grams),
            kg_number(one.unaccounted_grams),
            day(one.use_by) if one.use_by else "no date",
        )
        for one in found
    )
    heads = ("mix", "made, by", "of which lots, kg each", "kg", "unaccounted, kg", "use by")
    return long_table(heads, rows, _widths(0.14, 0.17, 0.38, 0.08, 0.11, 0.12), right=(3, 4))


def _parts(one: Mixed) -> str:
    told = "; ".join(
        f"{escaped(code, 40)} {escaped(name, 40)} {kg_number(grams)}"
        for code, name, grams in one.parts[:MOST_PARTS]
    )
    left = len(one.parts) - MOST_PARTS
    return told + (f" and {left} more" if left > 0 else "")


def dishes_table(found: Iterable[Dished]) -> Iterator[Flowable]:
    rows = (
        (
            markup(f"<b>{escaped(one.code, 40)}</b>"),
            paragraph(one.name, brand.CELL, 120),
            day(one.on),
            paragraph(one.occasion, brand.CELL, 120),
            str(one.portions),
            kg_number(one.grams),
        )
        for one in found
    )
    heads = ("dish", "name", "for the day", "occasion", "portions", "game, kg")
    return long_table(heads, rows, _widths(0.14, 0.3, 0.13, 0.23, 0.1, 0.1), right=(4, 5))


def dates(given: Sequence[DatesGiven], amendments: Sequence[Amendment]) -> list[Flowable]:
    """By which rule lots were dated, then every date that a person set otherwise."""
    overrides = [one for one in amendments if one.field == "use by"]
    return [
        *subhead("By which rule lots were dated"),
        *(dates_table(given) if given else [none_here()]),
        *subhead("Dates set otherwise, with the reason"),
        *(overrides_table(overrides) if overrides else [none_here()]),
    ]


def dates_table(given: Sequence[DatesGiven]) -> list[Flowable]:
    rows = [
        (
            paragraph(one.rule or "no rule named", brand.CELL, 400),
            paragraph(one.pack_state or "not stated", brand.CELL, 60),
            f"{one.lots:,}",
            f"{day(one.earliest)} to {day(one.latest)}",
        )
        for one in given
    ]
    heads = ("rule", "kept", "lots", "earliest to latest date")
    return ruled_tables(heads, rows, _widths(0.48, 0.16, 0.08, 0.28), right=(2,))


def overrides_table(found: Sequence[Amendment]) -> list[Flowable]:
    rows = [
        (
            markup(f"<b>{escaped(one.code, 40)}</b>"),
            markup(f"{instant(one.at)}<br/>{quiet(escaped(one.by, 20))}"),
            paragraph(one.old or "none"),
            paragraph(one.new or "none"),
            paragraph(one.reason or "no reason given"),
        )
        for one in found
    ]
    return ruled_tables(
        ("lot", "when, by", "was", "is", "reason"), rows, _widths(0.15, 0.2, 0.15, 0.15, 0.35)
    )


def drills_table(found: Sequence[Drilled]) -> list[Flowable]:
    rows = [
        (
            markup(f"<b>{escaped(one.code, 40)}</b>"),
            markup(f"{instant(one.at)}<br/>{quiet(escaped(one.by, 20))}"),
            f"{one.found} of {one.asked}",
            counted(one.seconds, "second"),
            kg_number(one.received_grams),
            kg_number(one.unaccounted_grams),
            paragraph(one.note or "none"),
        )
        for one in found
    ]
    heads = ("drill", "ended, by", "lots found", "time", "traced, kg", "unaccounted, kg", "note")
    return ruled_tables(heads, rows, _widths(0.12, 0.2, 0.11, 0.13, 0.1, 0.12, 0.22), right=(2, 4, 5))


def ready_tables(found: Sequence[Found]) -> list[Flowable]:
    """Group by group: what would be found, and the answer the records give."""
    pieces: list[Flowable] = []
    groups: dict[str, list[Found]] = {}
    for one in found:
        groups.setdefault(one.group, []).append(one)
    for group, lines in groups.items():
        rows = [
            (
                FindingMark("ask", 6.5) if one.state == ASK else Mark(one.state, 7),
                paragraph(one.sentence, brand.CELL, 600),
                paragraph(one.answer or "", brand.CELL, 600),
                paragraph(one.record or "", brand.CELL, 80),
            )
            for one in lines
        ]
        heads = ("", "what would be found", "what the records answer", "record")
        pieces += [*subhead(group), *ruled_tables(heads, rows, _widths(0.04, 0.44, 0.38, 0.14))]
    return pieces or [none_here()]


def _widths(*parts: float) -> list[float]:
    return [TEXT_WIDTH * part for part in parts]
