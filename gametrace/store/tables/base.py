"""How every table is declared: explicit column types, STRICT, one metadata."""

from __future__ import annotations

from typing import Any

from sqlalchemy import BigInteger, Column, ForeignKey, Integer, MetaData, Text
from sqlmodel import Field, SQLModel

metadata = MetaData()
STRICT: dict[str, Any] = {"sqlite_strict": True}
STRICT_WITHOUT_ROWID: dict[str, Any] = {"sqlite_strict": True, "sqlite_with_rowid": False}


# On a server a plain integer is half as wide as SQLite's, and words would sort by the server's language.
_WHOLE = Integer().with_variant(BigInteger(), "postgresql")
_WORDS = Text().with_variant(Text(collation="C"), "postgresql")


class Row(SQLModel):
    metadata = metadata


def words(*, key: bool = False, to: str = "", unique: bool = False, null: bool = False) -> Any:
    return Field(
        sa_column=Column(_WORDS, *_foreign(to), primary_key=key, unique=unique or None, nullable=null)
    )


def whole(*, key: bool = False, to: str = "", null: bool = False) -> Any:
    return Field(sa_column=Column(_WHOLE, *_foreign(to), primary_key=key, nullable=null, autoincrement=False))


def _foreign(to: str) -> tuple[ForeignKey, ...]:
    return (ForeignKey(to),) if to else ()
