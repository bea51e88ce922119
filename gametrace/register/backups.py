"""Backups and restores: an entry says what was kept and where, so that Today can say when the last one was.

Copies made by themselves rotate in one folder; what a person puts on
a stick is never removed. A restore writes a new file and never over a register.
"""

from __future__ import annotations

import glob
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory

from gametrace.domain.errors import Refusal, Trouble
from gametrace.domain.findings import Finding
from gametrace.domain.rotation import kept
from gametrace.register import keeping
from gametrace.register.clock import instant
from gametrace.register.opening import Register, default_path, larder_from, open_register
from gametrace.register.records import Changes
from gametrace.register.work import Plan, perform
from gametrace.store import backup, journal, look_setup, rows
from gametrace.store.shared import is_shared

_STAMP = "%Y-%m-%d %H.%M.%S"


@dataclass(frozen=True, slots=True)
class KeptCopy:
    """A backup the register knows of."""

    at: datetime
    where: str  # file, as a person reads it
    count: int  # entries in it
    by: str


@dataclass(frozen=True, slots=True)
class Restorable:
    """What is in a copy: read from end to end before anyone relies on it."""

    larder: str
    count: int
    seal: str
    last_at: datetime | None  # when the newest entry in it was written
    carcasses: int
    findings: tuple[Finding, ...]  # empty: whole


def default_folder(register: Register) -> Path:
    """Where copies made by themselves lie until a folder is chosen: beside the file, or the user's folder."""
    file = default_path() if is_shared(register.place) else register.path.resolve()
    return file.parent / "backups"


def keep_backup(
    register: Register, *, by: str, folder: Path, is_rotating: bool = True, key: str | None = None
) -> Changes:
    """Write a dated, checked copy into `folder`, then note that it is there, with its count and seal.

    With `is_rotating` old copies in the folder make room. Raises Trouble where the folder cannot be written
    or the copy is not good; then nothing is noted.
    """
    at = register.clock().astimezone(UTC)
    target = folder / f"{register.path.stem} {at.strftime(_STAMP)}.register"
    backup.back_up(register.store, target)
    count, head = backup.head_in(target)
    body = {"where": str(target), "count": count, "seal": head}
    changes = perform(register, "backup.kept", lambda _work: Plan(body), by=by, key=key)
    if is_rotating:
        _rotate(folder, register.path.stem)
    return changes


def is_backed_up(register: Register) -> bool:
    """Whether nothing has happened since the last copy was noted."""
    with register.store.reading() as connection:
        last, (count, _) = look_setup.last_backup(connection), journal.head_of(connection)
    return last is not None and last.seq == count


def last_backup(register: Register) -> KeptCopy | None:
    """The newest copy the register knows of; it may have been lost since."""
    with register.store.reading() as connection:
        row = look_setup.last_backup(connection)
    return row and KeptCopy(instant(row.happened_at), row.place, row.entries, row.person)


def look_into(copy: Path) -> Restorable:
    """Read a copy from end to end, as a restore would, and say what is in it. The copy is not touched."""
    with _aside(copy) as opened:
        findings = keeping.check(opened)
        with opened.store.reading() as connection:
            count, head = journal.head_of(connection)
            last = look_setup.last_written(connection)
            carcasses = look_setup.count_of_carcasses(connection)
            larder = larder_from(rows.settings(connection))
    at = instant(last) if last else None
    return Restorable(larder.name, count, head, at, carcasses, findings)


def restore(copy: Path, to: Path) -> Restorable:
    """Make a new register from a copy, after reading it from end to end.

    Refuses to write over anything. Raises Trouble where the copy is not good; then nothing is there.
    """
    if to.exists():
        raise Refusal(f"{to} is there already.", "Name a new file; nothing is ever written over.", "to")
    found = look_into(copy)
    if found.findings:
        raise Trouble(
            f"The copy is not whole: {found.findings[0].sentence}",
            "Take an older copy; ‘gametrace check’ tells more.",
        )
    with open_register(copy, create=False) as opened:
        backup.back_up(opened.store, to)
    return found


@contextmanager
def _aside(copy: Path) -> Iterator[Register]:
    """A copy of the copy, open: looking must not change what may be the last good one."""
    if not copy.exists():
        raise Trouble(f"There is no copy at {copy}.", "Choose the file of a backup.")
    with TemporaryDirectory(prefix="gametrace-") as folder:
        beside = Path(folder) / "copy.register"
        try:
            shutil.copy(copy, beside)
        except OSError as error:
            raise Trouble(f"{copy} cannot be read: {error.strerror}.", "Try another copy.") from error
        with open_register(beside, create=False) as opened:
            yield opened


def _rotate(folder: Path, stem: str) -> None:
    """Remove the copies that need not be kept. One that cannot be removed stays; that harms nothing."""
    dated = {}
    for file in folder.glob(f"{glob.escape(stem)} *.register"):
        with suppress(ValueError):
            dated[datetime.strptime(file.stem.removeprefix(f"{stem} "), _STAMP)] = file
    for at in dated.keys() - kept(dated):
        with suppress(OSError):
            dated[at].unlink()
