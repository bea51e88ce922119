"""Tracing at length: what can be searched for, saved sets, bags without a label, recalls and drills."""

from __future__ import annotations

from typing import Any

from sqlalchemy import DDL, Index, Table, event

from gametrace.store.tables.base import STRICT, STRICT_WITHOUT_ROWID, Row, whole, words


class LotTextRow(Row, table=True):
    """Every lot as plain words, lower case and without marks: what the search looks through."""

    __tablename__ = "lot_text"
    __table_args__ = STRICT
    lot_id: int = whole(key=True, to="lot.id")
    words: str = words()


class SavedSetRow(Row, table=True):
    __tablename__ = "saved_set"
    __table_args__ = STRICT
    code: str = words(key=True)
    name: str = words()
    asked: str = words()  # the steps it was gathered by, as canonical JSON
    seq: int = whole()


class SavedLotRow(Row, table=True):
    """What was in a set when it was saved."""

    __tablename__ = "saved_lot"
    __table_args__ = (Index("saved_lot_by_lot", "lot_id"), STRICT_WITHOUT_ROWID)
    code: str = words(key=True, to="saved_set.code")
    lot_id: int = whole(key=True, to="lot.id")


class BagRow(Row, table=True):
    """A bag found without a label, and what a person decided it was; lot_id is null where it was binned."""

    __tablename__ = "bag"
    __table_args__ = STRICT
    seq: int = whole(key=True)
    grams: int | None = whole(null=True)
    on_day: str | None = words(null=True)
    look: str = words()
    place: str = words()
    lot_id: int | None = whole(null=True, to="lot.id")
    reason: str = words()


class RecallRow(Row, table=True):
    __tablename__ = "recall"
    __table_args__ = STRICT
    code: str = words(key=True)
    what: str = words()
    reason: str = words()
    opened_at: str = words()
    opened_by: str = words()
    closed_at: str | None = words(null=True)
    closed_by: str = words()
    outcome: str = words()
    seq: int = whole()


class RecalledLotRow(Row, table=True):
    """What a recall is about: the lots named; what was made of them is walked."""

    __tablename__ = "recalled_lot"
    __table_args__ = STRICT_WITHOUT_ROWID
    recall: str = words(key=True, to="recall.code")
    lot_id: int = whole(key=True, to="lot.id")


class RecallCallRow(Row, table=True):
    """Somebody rung, with the answer and the time. The same person may be rung again."""

    __tablename__ = "recall_call"
    __table_args__ = (Index("recall_call_by_recall", "recall"), STRICT)
    seq: int = whole(key=True)
    recall: str = words(to="recall.code")
    whom: str = words()
    answer: str = words()
    happened_at: str = words()
    person: str = words()


class RecallStepRow(Row, table=True):
    """A step of the list, as it was answered last."""

    __tablename__ = "recall_step"
    __table_args__ = STRICT_WITHOUT_ROWID
    recall: str = words(key=True, to="recall.code")
    step: str = words(key=True)
    answer: str = words()  # done | not needed
    note: str = words()
    happened_at: str = words()
    person: str = words()


class DrillRow(Row, table=True):
    """A trace for practice against the clock, and how it went."""

    __tablename__ = "drill"
    __table_args__ = STRICT
    code: str = words(key=True)
    lot_id: int = whole(to="lot.id")
    manner: str = words()  # at random | by hand
    begun_at: str = words()
    begun_by: str = words()
    ended_at: str | None = words(null=True)
    seconds: int | None = whole(null=True)  # from the question to the full answer
    asked: int = whole()  # packs, parts and mixes to be found
    found: int = whole()
    received_grams: int = whole()
    unaccounted_grams: int = whole()
    standing: str = words()  # green | amber | red; '' while it runs
    note: str = words()


# How the words are found: SQLite keeps an index of them beside the table, a server one of its own kind.
_TEXT: Table = LotTextRow.__table__  # type: ignore[attr-defined]
# Beginnings are indexed too, the first letter above all: half the words there are begin with some one letter.
_ON_SQLITE = (
    "CREATE VIRTUAL TABLE lot_index USING fts5(words, content='lot_text', content_rowid='lot_id', "
    "tokenize='unicode61', prefix='1 2 3', detail='none')"
)


def _on(statement: str, dialect: str) -> Any:
    return DDL(statement).execute_if(dialect=dialect)  # type: ignore[no-untyped-call]


event.listen(_TEXT, "after_create", _on(_ON_SQLITE, "sqlite"))
event.listen(_TEXT, "before_drop", _on("DROP TABLE IF EXISTS lot_index", "sqlite"))
event.listen(
    _TEXT,
    "after_create",
    _on("CREATE INDEX lot_text_words ON lot_text USING gin (to_tsvector('simple', words))", "postgresql"),
)
