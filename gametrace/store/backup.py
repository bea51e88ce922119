"""Copies of the register that are known to be good: made whole, opened and read before they are kept."""

from __future__ import annotations

import os
from contextlib import closing
from pathlib import Path

from gametrace.domain.errors import Trouble
from gametrace.store.engine import Store, open_store
from gametrace.store.journal import broken_at, head_of
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
        _read_whole(half)
        _to_disk(half)
        half.replace(target)
        _to_disk(target.parent)
    except OSError as error:
        raise Trouble(
            f"The backup could not be kept at {target}: {error.strerror}.", "Try another stick or folder."
        ) from error
    finally:
        for left in (half, *(half.with_name(half.name + end) for end in ("-wal", "-shm", "-journal"))):
            left.unlink(missing_ok=True)
    return target


def _read_whole(copy: Path) -> None:
    """Open the copy as any program would, and read the file and its chain from end to end."""
    with closing(open_store(copy, create=False)) as store, store.reading() as connection:
        damage, broken = store.damage(connection), broken_at(connection)
    if damage or broken:
        words = damage[0] if damage else f"its journal does not hold: {broken}"
        raise Trouble(
            f"The copy is not good, so it was not kept: {words}.",
            "Run ‘gametrace check’ on the register itself.",
        )


def head_in(copy: Path) -> tuple[int, str]:
    """How many entries a copy holds, and its seal."""
    with closing(open_store(copy, create=False)) as store, store.reading() as connection:
        return head_of(connection)


def _to_disk(path: Path) -> None:
    """A stick may be pulled the moment we say it is done."""
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
