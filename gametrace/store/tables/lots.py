"""Lots, the steps between them, what stops them, and which entries speak of them."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Index, text

from gametrace.store.tables.base import STRICT, STRICT_WITHOUT_ROWID, Row, whole, words

# The lists of what is here never look at what is used up.
_LEFT = text("grams_left > 0")
_OPEN, _NOT_LIFTED = text("status = 'open'"), text("released_at IS NULL")
_WITH_SOMETHING_LEFT: dict[str, Any] = {"sqlite_where": _LEFT, "postgresql_where": _LEFT}


class HappeningRow(Row, table=True):
    """When each entry happened and who wrote it, without reading its text."""

    __tablename__ = "happening"
    # By time first: what a visit or Today asks of a kind, it asks of a span.
    __table_args__ = (Index("happening_by_writing", "written_at", "kind"), STRICT)
    seq: int = whole(key=True)
    kind: str = words()
    happened_at: str = words()
    written_at: str = words()
    late_seconds: int = whole()  # how long after it happened it was written down
    person: str = words()


class LotRow(Row, table=True):
    """Anything with a number of its own: an animal, a part, a pack, a mix, a dish, what fell off."""

    __tablename__ = "lot"
    __table_args__ = (
        Index("lot_by_place", "place", **_WITH_SOMETHING_LEFT),
        Index("lot_by_use", "use_by", "id", **_WITH_SOMETHING_LEFT),
        Index("lot_by_kind", "kind", "id"),
        # With the grams in it, it is taken before lot_by_kind, which knows ten years of lots.
        Index("lot_here_by_kind", "kind", "grams_left", **_WITH_SOMETHING_LEFT),
        Index("lot_on_block", "id", sqlite_where=_OPEN, postgresql_where=_OPEN),
        STRICT,
    )
    id: int = whole(key=True)  # the code without its check character
    kind: str = words()
    product: str = words()
    side: str = words()
    name: str = words()
    species: str = words()  # '' where several
    grams_in: int = whole()  # everything that went in, or was received
    grams_made: int = whole()  # as weighed when made
    grams_left: int = whole()
    unaccounted: int = whole()  # grams_in = grams_left + given to children + unaccounted
    status: str = words()  # whole | open (on the block) | closed
    place: str = words()
    made_at: str = words()
    made_by: str = words()
    use_by: str | None = words(null=True)
    date_rule: str = words()
    pack_state: str = words()
    cut_state: str = words()  # bone-in, boneless, diced...; '' where it was not said
    first_packed_on: str | None = words(null=True)
    first_frozen_on: str | None = words(null=True)  # handed down to whatever is made of it
    thawed_on: str | None = words(null=True)
    portions: int = whole()  # about so many in a pack; 0 where nobody said
    note: str = words()


class LineageRow(Row, table=True):
    """How many grams of one lot went into another."""

    __tablename__ = "lineage"
    __table_args__ = (Index("lineage_down", "parent", "child", "grams"), STRICT_WITHOUT_ROWID)
    child: int = whole(key=True, to="lot.id")
    parent: int = whole(key=True, to="lot.id")
    grams: int = whole()


class HoldRow(Row, table=True):
    """What stopped a lot, who said so, and who lifted it."""

    __tablename__ = "hold"
    __table_args__ = (
        Index("hold_by_lot", "lot_id"),
        Index("hold_not_lifted", "id", sqlite_where=_NOT_LIFTED, postgresql_where=_NOT_LIFTED),
        STRICT,
    )
    id: int = whole(key=True)
    lot_id: int = whole(to="lot.id")
    sort: str = words()
    reason: str = words()
    placed_by: str = words()
    placed_at: str = words()
    released_by: str = words()
    released_at: str | None = words(null=True)
    release_reason: str = words()


class StopRow(Row, table=True):
    """Which unreleased holds reach which lots: written down so that no list has to walk the graph."""

    __tablename__ = "stop"
    __table_args__ = (Index("stop_by_hold", "hold_id"), STRICT_WITHOUT_ROWID)
    lot_id: int = whole(key=True, to="lot.id")
    hold_id: int = whole(key=True, to="hold.id")


class DishRow(Row, table=True):
    """What a lot was served as, when and to how many."""

    __tablename__ = "dish"
    __table_args__ = (
        Index("dish_by_name", text("name COLLATE NOCASE")),
        Index("dish_by_service", "on_day", "occasion", "occasion_kind"),
        Index("dish_by_occasion", "occasion", "on_day", "occasion_kind"),
        STRICT,
    )
    lot_id: int = whole(key=True, to="lot.id")
    name: str = words()
    occasion_kind: str = words()
    occasion: str = words()
    on_day: str = words()
    portions: int = whole()


class DishPriceRow(Row, table=True):
    """What a dish is sold at, or how many heads a class is charged for; what it cost is never stored."""

    __tablename__ = "dish_price"
    __table_args__ = STRICT
    lot_id: int = whole(key=True, to="lot.id")
    price_pence: int | None = whole(null=True)  # VAT in it; none for a class charged at cost
    vat_hundredths: int = whole()
    other_pence: int | None = whole(null=True)  # what else is on all the plates; none: not said
    heads: int | None = whole(null=True)  # students of a class
    seq: int = whole()


class IngredientRow(Row, table=True):
    """What went into a mix besides meat: as much of its packet as a person copied."""

    __tablename__ = "ingredient"
    __table_args__ = STRICT
    lot_id: int = whole(key=True, to="lot.id")
    position: int = whole(key=True)
    name: str = words()
    packet_lot: str = words()
    supplier: str = words()
    grams: int = whole()
    allergens: str | None = words(null=True)  # ids with commas; nothing while nobody has read the packet
    use_by: str | None = words(null=True)


class AmendmentRow(Row, table=True):
    """A value that was put right or filled in later; the old one stays beside the new."""

    __tablename__ = "amendment"
    __table_args__ = STRICT
    seq: int = whole(key=True)
    position: int = whole(key=True)
    lot_id: int = whole(to="lot.id")
    field: str = words()
    old: str = words()
    new: str = words()
    reason: str = words()


class LotEntryRow(Row, table=True):
    """Which entries speak of which lot: its story."""

    __tablename__ = "lot_entry"
    __table_args__ = (Index("lot_entry_by_seq", "seq"), STRICT_WITHOUT_ROWID)
    lot_id: int = whole(key=True, to="lot.id")
    seq: int = whole(key=True)


class LabelPrintRow(Row, table=True):
    """How often a label was printed."""

    __tablename__ = "label_print"
    __table_args__ = STRICT
    lot_id: int = whole(key=True, to="lot.id")
    sort: str = words(key=True)
    times: int = whole()
