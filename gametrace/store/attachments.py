"""Bytes kept beside the journal by their SHA-256: pictures of cards and tags, loggers' readings."""

from __future__ import annotations

import hashlib

from sqlalchemy import Connection

from gametrace.store.statements import text


def keep(connection: Connection, content: bytes, media_type: str) -> str:
    """Keep these bytes once; returns the hash that an entry seals."""
    found = hashlib.sha256(content).hexdigest()
    connection.execute(
        text(
            "INSERT INTO attachment (hash, media_type, content) VALUES (:hash, :media_type, :content) "
            "ON CONFLICT (hash) DO NOTHING"
        ),
        {"hash": found, "media_type": media_type, "content": content},
    )
    return found


def content_of(connection: Connection, found: str) -> tuple[str, bytes] | None:
    """(media type, bytes) of an attachment."""
    row = connection.execute(
        text("SELECT media_type, content FROM attachment WHERE hash = :hash"), {"hash": found}
    ).first()
    return (row.media_type, bytes(row.content)) if row else None


def copy_attachments(source: Connection, target: Connection) -> None:
    """What a replay needs of the readings, for playing entries beside a live register."""
    rows = source.execute(
        text("SELECT hash, media_type, content FROM attachment WHERE media_type = :readings"),
        {"readings": READINGS},
    )
    for row in rows:
        keep(target, row.content, row.media_type)


READINGS = "application/x-gametrace-readings"
