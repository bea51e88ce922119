"""Where lots went that left the larder as meat: the class or customer by name, for a recall's call list."""

from __future__ import annotations

from collections.abc import Iterable

from gametrace.register.assembling import FORGOTTEN, Assembler
from gametrace.register.clock import iso_day_text
from gametrace.store import look_plates


def gone_to(read: Assembler, lots: Iterable[int]) -> dict[int, str]:
    """'supplied to The Gannet Inn, 10 Oct 2026' of each lot that was supplied or issued."""
    ids = list(lots)
    words = {
        row.lot_id: f"issued to {row.sort} {row.charged_to}, {iso_day_text(row.on_day)}"
        for row in look_plates.issued(read.connection, ids)
    }
    for row in look_plates.supplied(read.connection, ids):
        name = read.cards.get(row.customer, {}).get("name", FORGOTTEN)
        words[row.lot_id] = f"supplied to {name}, {iso_day_text(row.dispatched_on)}"
    return words
