"""The house: people, suppliers, places, the kitchen's rules, temperatures, by-product papers."""

from __future__ import annotations

from gametrace.store.tables.base import STRICT, STRICT_WITHOUT_ROWID, Row, whole, words


class SettingRow(Row, table=True):
    """Whose register this is."""

    __tablename__ = "setting"
    __table_args__ = STRICT
    key: str = words(key=True)
    value: str = words()


class PersonRow(Row, table=True):
    """People of the house, by code."""

    __tablename__ = "person"
    __table_args__ = STRICT
    code: str = words(key=True)
    role: str = words()
    is_active: int = whole()
    card: str = words()  # digest of the name card, as sealed
    pin_seq: int = whole()  # the entry that set the PIN; 0 where there is none


class HunterRow(Row, table=True):
    """The trained persons named on declarations, by code, with the sealed digest of the card."""

    __tablename__ = "hunter"
    __table_args__ = STRICT
    code: str = words(key=True)
    card: str = words()


class SupplierRow(Row, table=True):
    """Suppliers and their papers; names lie on cards."""

    __tablename__ = "supplier"
    __table_args__ = STRICT
    code: str = words(key=True)
    route: str = words()
    origin: str = words()
    approval_number: str = words()
    trained_person: str = words()
    certificate_number: str = words()
    certificate_until: str | None = words(null=True)
    insured_until: str | None = words(null=True)
    review_on: str | None = words(null=True)
    lead_free: str = words()  # yes | no | not stated
    lead_free_until: str | None = words(null=True)
    damage_rule: str = words()  # none | bought price | cut price | fixed
    damage_pence: int = whole()
    claim_days: int = whole()
    price_basis: str = words()
    card: str = words()


class PlaceRow(Row, table=True):
    """Stores, rails, hooks and shelves."""

    __tablename__ = "place"
    __table_args__ = STRICT
    code: str = words(key=True)
    store: str = words()
    kind: str = words()
    sort: str = words()
    name: str = words()
    position: int = whole()


class ExpectedRow(Row, table=True):
    """A delivery that was announced: a word given, no meat yet."""

    __tablename__ = "expected"
    __table_args__ = STRICT
    code: str = words(key=True)
    supplier: str = words(to="supplier.code")
    on_day: str = words()
    at: str = words()  # 'HH:MM' or ''
    species: str = words()  # '' where not said
    bodies: int = whole()
    came: int = whole()
    store: str = words()
    note: str = words()
    status: str = words()  # expected | arrived | cancelled
    reason: str = words()
    seq: int = whole()


class TickedRow(Row, table=True):
    """A body or bag that was expected."""

    __tablename__ = "ticked"
    __table_args__ = STRICT
    lot_id: int = whole(key=True, to="lot.id")
    expected: str = words(to="expected.code")


class PolicyRow(Row, table=True):
    """The kitchen's own figures and choices, each with its reason; facts hold what the sources say."""

    __tablename__ = "policy"
    __table_args__ = STRICT
    name: str = words(key=True)
    value: str = words()
    reason: str = words()
    seq: int = whole()


class ProbeRow(Row, table=True):
    """Thermometers with their last check."""

    __tablename__ = "probe"
    __table_args__ = STRICT
    code: str = words(key=True)
    name: str = words()
    checked_at: str | None = words(null=True)
    ice_tenths_c: int | None = whole(null=True)
    boiling_tenths_c: int | None = whole(null=True)


class StoreReadingRow(Row, table=True):
    """Temperatures of the stores."""

    __tablename__ = "store_reading"
    __table_args__ = STRICT_WITHOUT_ROWID
    store: str = words(key=True)
    at: int = whole(key=True)  # seconds since 1970, UTC: a million of them must sort and sum
    tenths_c: int = whole()
    seq: int = whole()


class ExcursionRow(Row, table=True):
    """What was done about a store that was too warm, or about hours nobody measured."""

    __tablename__ = "excursion"
    __table_args__ = STRICT
    seq: int = whole(key=True)
    store: str = words()
    first_at: int = whole()
    last_at: int = whole()
    sort: str = words()  # warm | gap
    action: str = words()
    result: str = words()


class CollectionRow(Row, table=True):
    """By-products that left with a collector, and the commercial document that went with them."""

    __tablename__ = "collection"
    __table_args__ = STRICT
    seq: int = whole(key=True)
    on_day: str = words()
    collector: str = words()
    document_number: str = words()
    destination: str = words()
    note: str = words()


class BinWaitingRow(Row, table=True):
    """By-products and waste that no collector has taken: so that nobody counts through those of all years."""

    __tablename__ = "bin_waiting"
    __table_args__ = STRICT
    lot_id: int = whole(key=True, to="lot.id")


class CollectedRow(Row, table=True):
    """Which lots left with which collection."""

    __tablename__ = "collected"
    __table_args__ = STRICT
    lot_id: int = whole(key=True, to="lot.id")
    seq: int = whole(to="collection.seq")
    category: int = whole()
    pence: int | None = whole(null=True)  # what was paid for it, where it was sold


class BackupRow(Row, table=True):
    """Copies that were kept, each read from end to end before it was noted here."""

    __tablename__ = "backup"
    __table_args__ = STRICT
    seq: int = whole(key=True)
    place: str = words()
    entries: int = whole()
    seal: str = words()
