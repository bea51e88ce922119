"""The journal: entries appended once, each sealing the one before. This is the register.

An entry is canonical JSON with `seq`, `kind`, `version`, `happened_at`, `written_at`, `by`, `key`, `body` and
`previous`; its seal is the SHA-256 of that text. Anyone can re-compute the chain with SHA-256 and JSON alone.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Generator, Iterator
from contextlib import closing
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection

from gametrace.domain.canonical import canonical, digest
from gametrace.store.shared import as_bytes
from gametrace.store.statements import text

FIRST_SEAL = "0" * 64  # what the first entry names as `previous`
ENTRY_VERSION = 1
_BY_PORTIONS = {"yield_per": 1_000}  # a journal of years is never whole in memory
_AT_ONCE = 500  # entries read in one look


@dataclass(frozen=True, slots=True)
class Entry:
    """One frozen entry. Instants are UTC text; `body` holds text, whole numbers, true/false, null."""

    seq: int
    kind: str
    happened_at: str
    written_at: str
    by: str
    key: str
    body: dict[str, Any]
    version: int = ENTRY_VERSION


def append(
    connection: Connection,
    *,
    after: tuple[int, str],
    kind: str,
    body: dict[str, Any],
    by: str,
    happened_at: str,
    written_at: str,
    key: str,
) -> Entry:
    """Append one entry inside the caller's unit of work and return it. Projecting it is the caller's.

    `after` is what `head_of` says in the same unit of work.
    """
    count, head = after
    entry = Entry(count + 1, kind, happened_at, written_at, by, key, body)
    spelled = canonical(
        {
            "seq": entry.seq,
            "kind": kind,
            "version": ENTRY_VERSION,
            "happened_at": happened_at,
            "written_at": written_at,
            "by": by,
            "key": key,
            "body": body,
            "previous": head,
        }
    )
    connection.execute(
        text("INSERT INTO entry (seq, key, text, seal) VALUES (:seq, :key, :text, :seal)"),
        {"seq": entry.seq, "key": key, "text": spelled, "seal": digest(spelled)},
    )
    return entry


def head_of(connection: Connection) -> tuple[int, str]:
    """How many entries there are, and the last one's seal."""
    row = connection.execute(text("SELECT seq, seal FROM entry ORDER BY seq DESC LIMIT 1")).first()
    return (row.seq, row.seal) if row else (0, FIRST_SEAL)


def entries(connection: Connection, seqs: list[int] | None = None) -> Iterator[Entry]:
    """All entries in order, or those numbered in `seqs`."""
    if seqs is None:
        every = text("SELECT text FROM entry ORDER BY seq")
        with connection.execute(every, execution_options=_BY_PORTIONS) as rows:
            yield from (entry_from(row.text) for row in rows)
        return
    for start in range(0, len(seqs), _AT_ONCE):
        wanted = seqs[start : start + _AT_ONCE]
        named = ",".join(str(int(seq)) for seq in wanted)  # integers only, so there is nothing to inject
        found = connection.execute(text(f"SELECT seq, text FROM entry WHERE seq IN ({named})"))
        texts = {row.seq: row.text for row in found}
        yield from (entry_from(texts[seq]) for seq in wanted)


def written_at(connection: Connection, seq: int) -> str:
    """When an entry that holds was written; '' where there is none."""
    row = connection.execute(text("SELECT text FROM entry WHERE seq = :seq"), {"seq": seq}).first()
    return entry_from(row.text).written_at if row else ""


def _seal_of(connection: Connection, seq: int) -> str:
    row = connection.execute(text("SELECT seal FROM entry WHERE seq = :seq"), {"seq": seq}).first()
    return str(row.seal) if row else FIRST_SEAL


def lines(connection: Connection, after: int = 0) -> Generator[tuple[int, bytes, bytes, bytes], None, None]:
    """(seq, text, seal, key) of every entry in order, as bytes: damaged text may not be text any more."""
    columns = ", ".join(f"{as_bytes(connection, column)} AS {column}_" for column in ("text", "seal", "key"))
    wanted = text(f"SELECT seq, {columns} FROM entry WHERE seq > :after ORDER BY seq")
    with connection.execute(wanted, {"after": after}, execution_options=_BY_PORTIONS) as rows:
        yield from ((row.seq, row.text_, row.seal_, row.key_) for row in rows)


def broken_at(connection: Connection, after: int = 0) -> tuple[int, str] | None:
    """The first entry whose seal, order or link does not hold, with why; None when the chain is whole.

    With `after` only what follows that entry is looked at, the link to it included.
    """
    with closing(lines(connection, after)) as following:  # a break is the end of reading too
        return _first_break(following, _seal_of(connection, after), after + 1)


def _first_break(
    following: Iterator[tuple[int, bytes, bytes, bytes]], previous: str, expected: int
) -> tuple[int, str] | None:
    for seq, spelled, seal, key in following:
        if seq != expected:
            return expected, f"entry {expected} is missing"
        own_seal = hashlib.sha256(spelled).hexdigest()
        if own_seal.encode() != seal:
            return seq, "its text is not what was sealed"
        try:
            parsed = json.loads(spelled)
            link, own, own_key = parsed["previous"], parsed["seq"], parsed["key"]
        except (ValueError, KeyError, TypeError):
            return seq, "it cannot be read"
        if link != previous or own != seq:
            return seq, "it does not follow the entry before it"
        if str(own_key).encode() != key:
            return seq, "the key beside it is not the one that was sealed"
        previous, expected = own_seal, seq + 1
    return None


def body_of(spelled: str) -> dict[str, Any]:
    """The body of an entry as stored."""
    body: dict[str, Any] = json.loads(spelled)["body"]
    return body


def entry_from(spelled: str) -> Entry:
    """An entry from its text as stored."""
    parsed = json.loads(spelled)
    return Entry(**{name: parsed[name] for name in Entry.__slots__})
