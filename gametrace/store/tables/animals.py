"""Animals: their paper, what was found, looked at, asked, claimed and answered."""

from __future__ import annotations

from sqlalchemy import Index, text

from gametrace.store.tables.base import STRICT, STRICT_WITHOUT_ROWID, Row, whole, words


class CarcassRow(Row, table=True):
    """An animal, or a batch of small game, with everything its paper said."""

    __tablename__ = "carcass"
    __table_args__ = (
        Index("carcass_by_tag", text("tag COLLATE NOCASE")),
        Index("carcass_by_declaration", text("declaration_number COLLATE NOCASE")),
        Index("carcass_by_supplier", "supplier", "lot_id"),
        Index("carcass_by_receipt", "received_at"),
        STRICT,
    )
    lot_id: int = whole(key=True, to="lot.id")
    supplier: str = words(to="supplier.code")
    tag: str = words()
    count: int = whole()
    species: str = words()
    sex: str = words()
    age_class: str = words()
    origin: str = words()
    route: str = words()
    received_at: str = words()
    dispatched_on: str | None = words(null=True)
    killed_on: str | None = words(null=True)
    kill_time: str = words()
    kill_place: str = words()
    has_declaration: int = whole()
    declaration_number: str = words()
    no_abnormal_characteristics: str = words()
    no_abnormal_behaviour: str = words()
    no_contamination: str = words()
    trained_person: str = words()
    certificate_number: str = words()
    approval_number: str = words()
    inspection_notes: str = words()
    grams_received: int = whole()
    received_basis: str = words()  # four letters of y/n: skin, head, feet, pluck
    basis: str = words()  # the same, as it hangs now
    supplier_grams: int | None = whole(null=True)
    pence_per_kg: int | None = whole(null=True)
    decision: str = words()
    decision_reason: str = words()
    exception_type: str = words()
    exception_number: str = words()
    latitude_millionths: int | None = whole(null=True)
    longitude_millionths: int | None = whole(null=True)
    probe: str = words()
    ammunition: str = words()  # lead | not lead | not stated
    number_on: str = words()
    dressed_at: str | None = words(null=True)


class FindingRow(Row, table=True):
    """What was found when a delivery or an examination was ruled on, with the reason given for it."""

    __tablename__ = "finding"
    __table_args__ = STRICT
    lot_id: int = whole(key=True, to="lot.id")
    rests_on: str = words(key=True)  # delivery | examination | second examination
    position: int = whole(key=True)
    code: str = words()
    severity: str = words()
    sentence: str = words()
    what_to_do: str = words()
    source: str = words()
    status: str = words()
    reason: str = words()


class ReadingRow(Row, table=True):
    """Temperatures taken of an animal at the door."""

    __tablename__ = "reading"
    __table_args__ = STRICT
    lot_id: int = whole(key=True, to="lot.id")
    position: int = whole(key=True)
    place: str = words()
    tenths_c: int = whole()


class CallRow(Row, table=True):
    """A question put to the supplier by telephone, with the spoken answer."""

    __tablename__ = "call"
    __table_args__ = (Index("call_by_lot", "lot_id"), STRICT)
    seq: int = whole(key=True)
    lot_id: int = whole(to="lot.id")
    about: str = words()
    answer: str = words()
    spoken_by: str = words()


class PictureRow(Row, table=True):
    __tablename__ = "picture"
    __table_args__ = (Index("picture_by_lot", "lot_id"), STRICT)
    seq: int = whole(key=True)
    lot_id: int = whole(to="lot.id")
    what: str = words()
    hash: str = words()
    original_hash: str = words()
    media_type: str = words()


class LookRow(Row, table=True):
    """One point of an examination, as answered last at that stage."""

    __tablename__ = "look"
    __table_args__ = STRICT_WITHOUT_ROWID
    lot_id: int = whole(key=True, to="lot.id")
    stage: str = words(key=True)  # in the skin | out of the skin
    point: str = words(key=True)
    answer: str = words()
    note: str = words()
    seq: int = whole()


class MarkRow(Row, table=True):
    """Something seen at a place on the outline of the beast; thousandths of its width and height."""

    __tablename__ = "mark"
    __table_args__ = STRICT_WITHOUT_ROWID
    lot_id: int = whole(key=True, to="lot.id")
    stage: str = words(key=True)
    position: int = whole(key=True)
    x_thousandths: int = whole()
    y_thousandths: int = whole()
    side: str = words()
    what: str = words()


class SecondDecisionRow(Row, table=True):
    """What was decided out of the skin; price and claim stay open until then."""

    __tablename__ = "second_decision"
    __table_args__ = STRICT
    lot_id: int = whole(key=True, to="lot.id")
    decision: str = words()
    reason: str = words()
    seq: int = whole()


class ClaimRow(Row, table=True):
    """What was asked of a supplier, and what came of it."""

    __tablename__ = "claim"
    __table_args__ = STRICT
    id: int = whole(key=True)
    lot_id: int = whole(to="lot.id")
    rule: str = words()
    grams: int = whole()
    pence: int = whole()
    reason: str = words()
    raised_at: str = words()
    raised_by: str = words()
    status: str = words()  # raised | agreed | credited | refused | struck
    settled_pence: int | None = whole(null=True)
    settled_at: str | None = words(null=True)
    settled_note: str = words()


class LaboratoryRow(Row, table=True):
    """The answer of the laboratory."""

    __tablename__ = "laboratory"
    __table_args__ = STRICT
    lot_id: int = whole(key=True, to="lot.id")
    reference: str = words()
    result: str = words()
    seq: int = whole()
