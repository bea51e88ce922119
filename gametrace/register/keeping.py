"""Keeping the register whole: the check, the rebuild and the backup, in words for people."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from gametrace.domain.findings import Finding, Severity
from gametrace.register.opening import Register, open_register
from gametrace.register.records import Seal
from gametrace.store import backup, health, moving, rows

Progress = Callable[[int, int], None]

_WHAT_TO_DO = {
    "file-damaged": "Stop writing to it and restore the last good backup.",
    "seal-broken": "Stop writing to it. Keep this file, restore the last good backup, and compare.",
    "tables-differ": "Run ‘gametrace rebuild’.",
    "loose-end": "Run ‘gametrace rebuild’.",
    "weights-do-not-balance": "Run ‘gametrace rebuild’ and, if it stays, report it as a fault.",
    "attachment-changed": "Keep this file and compare with a backup: a picture was changed outside.",
    "attachment-missing": "Keep this file and look for the picture in a backup.",
    "card-changed": "Ask who changed it outside this program; the sealed entry holds the older digest.",
}


def check(register: Register, progress: Progress | None = None) -> tuple[Finding, ...]:
    """Everything that is not as it should be; empty when the register is whole."""
    problems = list(health.problems(register.store, progress or _silent))
    problems += _cards(register)
    return tuple(
        Finding(code, Severity.STOP, sentence, _WHAT_TO_DO[code], "the register itself")
        for code, sentence in problems
    )


def _cards(register: Register) -> list[tuple[str, str]]:
    """A name card that no longer fits the digest sealed when it was written. Torn-up cards are no fault."""
    with register.store.reading() as connection:
        now = rows.card_digests(connection)
        sealed = rows.sealed_cards(connection)
    return [
        ("card-changed", f"The name card {code} is not the one that was sealed.")
        for code, digest in sorted(sealed.items())
        if code in now and now[code] != digest
    ]


def rebuild(register: Register, progress: Progress | None = None) -> int:
    """Play the whole journal into fresh tables. Returns how many entries were played."""
    return health.rebuild(register.store, progress or _silent)


def back_up(register: Register, target: Path) -> Path:
    """Write a checked copy of the register to `target`."""
    return backup.back_up(register.store, target)


def move(source: Register, target: str | Path, progress: Progress | None = None) -> Seal:
    """Carry a register to a new place, a file or a server's address; `source` stays as it is.

    Returns the seal, which is the same in both. Raises Trouble where `target` already holds a register.
    """
    with open_register(target, clock=source.clock) as other:
        count, head = moving.carry(source.store, other.store, progress or _silent)
    return Seal(count, head)


def _silent(_done: int, _of: int) -> None:
    return
