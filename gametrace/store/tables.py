"""The shape of a register file. Declared with SQLModel, every column's type explicit, every table STRICT.

`entry` is the register; `name_card` holds personal names outside the sealed entries. All other tables are a
reading aid played from the entries (store.projection) and can be thrown away. Rows never leave the store.

Units: grams, pence, tenths of a degree; instants as UTC text ('2026-11-25T09:53:45Z'), days as ISO text.
This module is only imported to create, rebuild or check a file: importing SQLModel costs a start-up dearly.
"""

from __future__ import annotations

from typing import Any

from sqlalchemy import Column, ForeignKey, Index, Integer, MetaData, Text, text
from sqlmodel import Field, SQLModel

metadata = MetaData()
STRICT: dict[str, Any] = {"sqlite_strict": True}
STRICT_WITHOUT_ROWID: dict[str, Any] = {"sqlite_strict": True, "sqlite_with_rowid": False}


class _Row(SQLModel):
    metadata = metadata


def _text(*, key: bool = False, to: str = "", unique: bool = False, null: bool = False) -> Any:
    return Field(sa_column=Column(Text, *_foreign(to), primary_key=key, unique=unique or None, nullable=null))


def _whole(*, key: bool = False, to: str = "", null: bool = False) -> Any:
    return Field(
        sa_column=Column(Integer, *_foreign(to), primary_key=key, nullable=null, autoincrement=False)
    )


def _foreign(to: str) -> tuple[ForeignKey, ...]:
    return (ForeignKey(to),) if to else ()


class EntryRow(_Row, table=True):
    __tablename__ = "entry"
    __table_args__ = STRICT
    seq: int = _whole(key=True)
    key: str = _text(unique=True)  # idempotency: the same act twice is written once
    text: str = _text()  # the canonical JSON of the entry, sealed as it stands
    seal: str = _text()


class NameCardRow(_Row, table=True):
    __tablename__ = "name_card"
    __table_args__ = STRICT
    code: str = _text(key=True)
    salt: str = _text()
    card: str = _text()


class SettingRow(_Row, table=True):
    __tablename__ = "setting"
    __table_args__ = STRICT
    key: str = _text(key=True)
    value: str = _text()


class PersonRow(_Row, table=True):
    __tablename__ = "person"
    __table_args__ = STRICT
    code: str = _text(key=True)
    role: str = _text()
    is_active: int = _whole()
    card: str = _text()  # digest of the name card, as sealed


class SupplierRow(_Row, table=True):
    __tablename__ = "supplier"
    __table_args__ = STRICT
    code: str = _text(key=True)
    route: str = _text()
    origin: str = _text()
    approval_number: str = _text()
    trained_person: str = _text()
    certificate_number: str = _text()
    card: str = _text()


class HunterRow(_Row, table=True):
    """The trained persons named on declarations, by code, with the sealed digest of the card."""

    __tablename__ = "hunter"
    __table_args__ = STRICT
    code: str = _text(key=True)
    card: str = _text()


class PlaceRow(_Row, table=True):
    __tablename__ = "place"
    __table_args__ = STRICT
    code: str = _text(key=True)
    store: str = _text()
    kind: str = _text()
    sort: str = _text()
    name: str = _text()
    position: int = _whole()


class HappeningRow(_Row, table=True):
    """When each entry happened and who wrote it, without reading its text."""

    __tablename__ = "happening"
    __table_args__ = STRICT
    seq: int = _whole(key=True)
    kind: str = _text()
    happened_at: str = _text()
    written_at: str = _text()
    late_seconds: int = _whole()  # how long after it happened it was written down
    person: str = _text()


class LotRow(_Row, table=True):
    __tablename__ = "lot"
    __table_args__ = (
        Index("lot_by_place", "place", sqlite_where=text("grams_left > 0")),
        Index("lot_by_use", "use_by", "id", sqlite_where=text("grams_left > 0")),
        Index("lot_by_kind", "kind", "id"),
        STRICT,
    )
    id: int = _whole(key=True)  # the code without its check character
    kind: str = _text()
    product: str = _text()
    side: str = _text()
    name: str = _text()
    species: str = _text()  # '' where several
    grams_in: int = _whole()  # everything that went in, or was received
    grams_made: int = _whole()  # as weighed when made
    grams_left: int = _whole()
    unaccounted: int = _whole()  # grams_in = grams_left + given to children + unaccounted
    status: str = _text()  # whole | open (on the block) | closed
    place: str = _text()
    made_at: str = _text()
    made_by: str = _text()
    use_by: str | None = _text(null=True)
    date_rule: str = _text()
    pack_state: str = _text()
    note: str = _text()


class CarcassRow(_Row, table=True):
    __tablename__ = "carcass"
    __table_args__ = (
        Index("carcass_by_tag", text("tag COLLATE NOCASE")),
        Index("carcass_by_supplier", "supplier", "lot_id"),
        Index("carcass_by_receipt", "received_at"),
        STRICT,
    )
    lot_id: int = _whole(key=True, to="lot.id")
    supplier: str = _text(to="supplier.code")
    tag: str = _text()
    count: int = _whole()
    species: str = _text()
    sex: str = _text()
    age_class: str = _text()
    origin: str = _text()
    route: str = _text()
    received_at: str = _text()
    dispatched_on: str | None = _text(null=True)
    killed_on: str | None = _text(null=True)
    kill_time: str = _text()
    kill_place: str = _text()
    has_declaration: int = _whole()
    declaration_number: str = _text()
    no_abnormal_characteristics: str = _text()
    no_abnormal_behaviour: str = _text()
    no_contamination: str = _text()
    trained_person: str = _text()
    certificate_number: str = _text()
    approval_number: str = _text()
    inspection_notes: str = _text()
    grams_received: int = _whole()
    received_basis: str = _text()  # four letters of y/n: skin, head, feet, pluck
    basis: str = _text()  # the same, as it hangs now
    supplier_grams: int | None = _whole(null=True)
    pence_per_kg: int | None = _whole(null=True)
    decision: str = _text()
    decision_reason: str = _text()
    number_on: str = _text()
    dressed_at: str | None = _text(null=True)


class FindingRow(_Row, table=True):
    __tablename__ = "finding"
    __table_args__ = STRICT
    lot_id: int = _whole(key=True, to="lot.id")
    position: int = _whole(key=True)
    code: str = _text()
    severity: str = _text()
    sentence: str = _text()
    what_to_do: str = _text()
    source: str = _text()
    status: str = _text()
    reason: str = _text()


class ReadingRow(_Row, table=True):
    __tablename__ = "reading"
    __table_args__ = STRICT
    lot_id: int = _whole(key=True, to="lot.id")
    position: int = _whole(key=True)
    place: str = _text()
    tenths_c: int = _whole()


class LineageRow(_Row, table=True):
    __tablename__ = "lineage"
    __table_args__ = (Index("lineage_down", "parent", "child", "grams"), STRICT_WITHOUT_ROWID)
    child: int = _whole(key=True, to="lot.id")
    parent: int = _whole(key=True, to="lot.id")
    grams: int = _whole()


class HoldRow(_Row, table=True):
    __tablename__ = "hold"
    __table_args__ = (Index("hold_by_lot", "lot_id"), STRICT)
    id: int = _whole(key=True)
    lot_id: int = _whole(to="lot.id")
    sort: str = _text()
    reason: str = _text()
    placed_by: str = _text()
    placed_at: str = _text()
    released_by: str = _text()
    released_at: str | None = _text(null=True)
    release_reason: str = _text()


class StopRow(_Row, table=True):
    """Which unreleased holds reach which lots: written down so that no list has to walk the graph."""

    __tablename__ = "stop"
    __table_args__ = (Index("stop_by_hold", "hold_id"), STRICT_WITHOUT_ROWID)
    lot_id: int = _whole(key=True, to="lot.id")
    hold_id: int = _whole(key=True, to="hold.id")


class DishRow(_Row, table=True):
    __tablename__ = "dish"
    __table_args__ = (Index("dish_by_name", text("name COLLATE NOCASE")), STRICT)
    lot_id: int = _whole(key=True, to="lot.id")
    name: str = _text()
    occasion_kind: str = _text()
    occasion: str = _text()
    on_day: str = _text()
    portions: int = _whole()


class AmendmentRow(_Row, table=True):
    __tablename__ = "amendment"
    __table_args__ = STRICT
    seq: int = _whole(key=True)
    position: int = _whole(key=True)
    lot_id: int = _whole(to="lot.id")
    field: str = _text()
    old: str = _text()
    new: str = _text()
    reason: str = _text()


class LotEntryRow(_Row, table=True):
    """Which entries speak of which lot: its story."""

    __tablename__ = "lot_entry"
    __table_args__ = STRICT_WITHOUT_ROWID
    lot_id: int = _whole(key=True, to="lot.id")
    seq: int = _whole(key=True)


class LabelPrintRow(_Row, table=True):
    __tablename__ = "label_print"
    __table_args__ = STRICT
    lot_id: int = _whole(key=True, to="lot.id")
    sort: str = _text(key=True)
    times: int = _whole()


KEPT_TABLES = ("entry", "name_card")  # never rebuilt
READING_TABLES = tuple(table.name for table in metadata.sorted_tables if table.name not in KEPT_TABLES)
