"""The labels of lots: what each says, gathered in one read; its words are `label_words`', its place on the
paper the documents'."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.domain.lots import LotKind
from gametrace.register import label_words as words
from gametrace.register.assembling import Assembler
from gametrace.register.bins import confirmed_categories
from gametrace.register.clock import day_text, iso_day_text
from gametrace.register.lot_facts import lot_facts
from gametrace.register.opening import Register
from gametrace.register.records import LabelSheet
from gametrace.store import look_lots, look_plates
from gametrace.store.engine import Connection

MOST_COPIES = 50
# Printed again, these are copies of one label, under whatever word the printing was noted.
_ONE_LABEL = frozenset({"", "tag", "carcass", "pack", "mix", "dish", "by-product"})


def label_sheets(
    register: Register, codes: Sequence[str], sort: str = "", copies: int = 1
) -> tuple[LabelSheet, ...]:
    """The labels of these lots, in the order given, each as its lot asks: tag, pack, mixed lot, frozen...

    `sort` "hold" asks for the hold label instead, whatever the lot is. Of `copies` each says which it is,
    counted on from those printed before.
    """
    if not codes:
        raise Refusal("There is no label to print.", "Choose a lot first.", "codes")
    if not 1 <= copies <= MOST_COPIES:
        raise Refusal(f"{copies} copies cannot be right.", f"Write 1 to {MOST_COPIES}.", "copies")
    with register.store.reading() as connection:
        ids = [lot_facts(connection, code, register.today()).id for code in codes]
        sheets = _sheets(connection, Assembler(connection, register.today()), ids, sort)
        printed = look_lots.labels_printed(connection, ids)
    made: list[LabelSheet] = []
    counted: dict[str, int] = {}
    for one_id, sheet in zip(ids, sheets, strict=True):
        for _ in range(copies):
            first = counted.get(sheet.code) or 1 + _printed(printed.get(one_id, {}), sheet.sort)
            counted[sheet.code] = first + 1
            made.append(replace(sheet, copy=first))
    return tuple(made)


def _printed(times: dict[str, int], sort: str) -> int:
    """How often this label of the lot was printed before."""
    if sort in _ONE_LABEL:
        return sum(many for noted, many in times.items() if noted in _ONE_LABEL)
    return times.get(sort, 0)


def _sheets(connection: Connection, read: Assembler, ids: Sequence[int], sort: str) -> list[LabelSheet]:
    lots = read.lots_by_id(ids)
    papers = {one.code: one for one in read.carcasses(ids)}
    dishes = look_lots.dish_details(connection, ids)
    cooked = look_plates.are_left_overs(connection, ids)
    settled = confirmed_categories(connection)
    larder = read.larder()
    sheets = []
    for one_id in ids:
        lot = lots[one_id]
        if lot.kind == LotKind.STRUCK:
            raise Refusal(
                f"{lot.code} was struck: there is no such thing to label.", "Tear up its label.", "codes"
            )
        own = sort or words.sort(lot)
        parents: tuple[tuple[str, int], ...] = ()
        if paper := papers.get(lot.code):
            lines, date_line = words.carcass_lines(paper), words.killed(paper)
        elif dish := dishes.get(one_id):
            lines = (f"{dish.portions} portions · {dish.occasion}", words.allergens(connection, one_id))
            date_line = f"For {iso_day_text(dish.on_day)}"
        elif lot.kind in (LotKind.BY_PRODUCT, LotKind.WASTE):
            lines, date_line = words.gone_lines(lot, settled), ""
        else:
            allergens = words.allergens(connection, one_id)
            lines = words.pack_lines(lot, read.animals_behind(one_id), allergens, is_cooked=one_id in cooked)
            date_line = words.date_line(lot, own)
            if lot.kind == LotKind.MIX:
                parents = tuple(
                    (code_of(parent), grams) for parent, grams in look_lots.parents_of(connection, one_id)
                )
        sheets.append(
            LabelSheet(
                code=lot.code,
                sort=own,
                title=words.title(lot),
                lines=lines,
                date_line=date_line,
                warning=words.warning(lot, sort, settled),
                larder=larder.name,
                is_practice=larder.is_practice,
                frozen_on=day_text(lot.first_frozen_on) if lot.first_frozen_on else "",
                thawed_on=day_text(lot.thawed_on) if lot.thawed_on else "",
                parents=parents,
            )
        )
    return sheets
