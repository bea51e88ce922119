"""What is never rebuilt: the entries, the name cards and PINs, the bytes the entries name."""

from __future__ import annotations

from sqlalchemy import Column, LargeBinary
from sqlmodel import Field

from gametrace.store.tables.base import STRICT, Row, whole, words


class EntryRow(Row, table=True):
    __tablename__ = "entry"
    __table_args__ = STRICT
    seq: int = whole(key=True)
    key: str = words(unique=True)  # idempotency: the same act twice is written once
    text: str = words()  # the canonical JSON of the entry, sealed as it stands
    seal: str = words()


class NameCardRow(Row, table=True):
    __tablename__ = "name_card"
    __table_args__ = STRICT
    code: str = words(key=True)
    salt: str = words()
    card: str = words()


class PinRow(Row, table=True):
    """The argon2 hash of a PIN, and the wrong tries since it was last given right."""

    __tablename__ = "pin"
    __table_args__ = STRICT
    code: str = words(key=True)
    hash: str = words()
    wrong: int = whole()
    wrong_at: str = words()


class AttachmentRow(Row, table=True):
    """Pictures and loggers' readings by the SHA-256 of their bytes; entries name them, so they are kept."""

    __tablename__ = "attachment"
    __table_args__ = STRICT
    hash: str = words(key=True)
    media_type: str = words()
    content: bytes = Field(sa_column=Column(LargeBinary, nullable=False))
