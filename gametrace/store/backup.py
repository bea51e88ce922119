"""Copies of the register that are known to be good: made by SQLite itself, checked before they are kept."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from pathlib import Path

from gametrace.domain.errors import Trouble
from gametrace.store.engine import Store
from gametrace.store.troubles import as_trouble


def back_up(store: Store, target: Path) -> Path:
    """Write a checked copy of the live register to `target`, replacing one there only when it is good."""
    half = target.with_name(target.name + ".part")
    if target.is_dir() or (target.exists() and target.samefile(store.path)):
        raise Trouble(
            f"The backup cannot be written over {target}.",
            "Give it a name of its own, on another disk if you can.",
        )
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        half.unlink(missing_ok=True)
        os.close(os.open(half, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    except OSError as error:
        raise Trouble(
            f"No backup could be made at {target}: {error.strerror}.",
            "Check that the stick or folder is there and may be written to.",
        ) from error
    try:
        with as_trouble():
            store.copy_to(half)
            with closing(sqlite3.connect(half)) as copy:
                if copy.execute("PRAGMA integrity_check").fetchone()[0] != "ok":
                    raise Trouble("The copy is not good, so it was not kept.", "Check the disk, then again.")
        half.replace(target)
    finally:
        half.unlink(missing_ok=True)
    return target
