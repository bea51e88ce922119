"""A dish after it is made, and meat handed on without one: records, plates, issues, supplies."""

from __future__ import annotations

from sqlalchemy import Index

from gametrace.store.tables.base import STRICT, Row, whole, words


class KitchenRecordRow(Row, table=True):
    """One temperature with its time: cooked, kept hot, cooled, reheated; the findings as they were ruled."""

    __tablename__ = "kitchen_record"
    __table_args__ = (Index("kitchen_record_by_lot", "lot_id"), STRICT)
    seq: int = whole(key=True)
    lot_id: int = whole(to="lot.id")
    sort: str = words()  # cooking | hot hold | cooling | reheat
    tenths_c: int = whole()
    seconds: int = whole()  # at that heat; below the figure for hot holding; taken for cooling
    probe: str = words()
    meat: str = words()  # what the ruling took it for
    note: str = words()
    findings: str = words()  # JSON


class DishIngredientRow(Row, table=True):
    """What went into a dish besides game, and its allergens; null while nobody has read the packet."""

    __tablename__ = "dish_ingredient"
    __table_args__ = (Index("dish_ingredient_by_lot", "lot_id"), STRICT)
    seq: int = whole(key=True)
    position: int = whole(key=True)
    lot_id: int = whole(to="lot.id")
    name: str = words()
    packet: str = words()
    supplier: str = words()
    allergens: str | None = words(null=True)  # ids, spaced
    last_day: str | None = words(null=True)


class MenuLineRow(Row, table=True):
    """What the menu claims of a dish; the newest line counts."""

    __tablename__ = "menu_line"
    __table_args__ = STRICT
    lot_id: int = whole(key=True, to="lot.id")
    claims: str = words()  # JSON: [[kind, value]]
    line: str = words()  # '' where claims were only held against the pot


class ServingRow(Row, table=True):
    __tablename__ = "serving"
    __table_args__ = (Index("serving_by_lot", "lot_id"), STRICT)
    seq: int = whole(key=True)
    lot_id: int = whole(to="lot.id")
    portions: int = whole()
    to_group: str = words()


class LeftOverRow(Row, table=True):
    """The lot that so many portions of a dish became: cooked stock, or waste."""

    __tablename__ = "left_over"
    __table_args__ = (Index("left_over_by_dish", "dish"), STRICT)
    lot_id: int = whole(key=True, to="lot.id")
    dish: int = whole(to="lot.id")
    portions: int = whole()
    seq: int = whole()


class CoversRow(Row, table=True):
    __tablename__ = "covers"
    __table_args__ = STRICT
    occasion_kind: str = words(key=True)
    occasion: str = words(key=True)
    on_day: str = words(key=True)
    covers: int = whole()
    note: str = words()


class IssueRow(Row, table=True):
    """Meat handed to a class or a training restaurant; it is charged to the code at what it cost."""

    __tablename__ = "issue"
    __table_args__ = (Index("issue_by_day", "on_day"), STRICT)
    lot_id: int = whole(key=True, to="lot.id")
    seq: int = whole()
    sort: str = words()  # class | restaurant
    charged_to: str = words()
    on_day: str = words()
    purpose: str = words()


class CustomerRow(Row, table=True):
    __tablename__ = "customer"
    __table_args__ = STRICT
    code: str = words(key=True)
    registration: str = words()
    card: str = words()


class SupplyRow(Row, table=True):
    """A lot that left for another business, with what Regulation 931/2011 asks beside its weight."""

    __tablename__ = "supply"
    __table_args__ = (Index("supply_by_seq", "seq"), STRICT)
    lot_id: int = whole(key=True, to="lot.id")
    seq: int = whole()
    customer: str = words(to="customer.code")
    description: str = words()
    from_words: str = words()  # our name and address as they were that day
    owner_before: str = words()  # '' where it is us
    owner_after: str = words()  # '' where it is the customer
    dispatched_on: str = words()
