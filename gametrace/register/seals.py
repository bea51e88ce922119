"""How long the journal is and how its last seal reads: asked at every start, so by itself."""

from __future__ import annotations

from gametrace.register.opening import Register
from gametrace.register.records import Seal
from gametrace.store import journal


def seal(register: Register) -> Seal:
    with register.store.reading() as connection:
        return Seal(*journal.head_of(connection))
