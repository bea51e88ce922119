"""Places: whether something may be hung or laid somewhere."""

from __future__ import annotations

from gametrace.domain.codes import code_of
from gametrace.domain.errors import Refusal
from gametrace.store import look_lots, look_setup
from gametrace.store.engine import Connection


def check_free_place(connection: Connection, place: str, *, lot: int = 0) -> str:
    """The place's code as it is kept. Refuses an unknown place, a bare store or rail, and a hook in use."""
    row = look_setup.place_row(connection, place)
    if row is None:
        raise Refusal(
            f"There is no place “{place[:40]}”.", "Choose a hook or a shelf from the list.", "place"
        )
    if row.kind in ("store", "rail"):
        raise Refusal(f"{row.name} is not one place.", "Choose a hook or a shelf of it.", "place")
    if row.kind == "hook":
        there = look_lots.lot_on_hook(connection, row.code)
        if there is not None and there != lot:
            raise Refusal(f"{row.name} is taken by {code_of(there)}.", "Choose a free hook.", "place")
    return str(row.code)


def check_kept_at(connection: Connection, place: str, *, is_frozen: bool) -> None:
    """Frozen meat lies in a freezer, and other meat does not: its freezing day would be lost."""
    row = look_setup.place_row(connection, place)
    if row is None or (row.sort == "freezer") == is_frozen:
        return
    if is_frozen:
        raise Refusal(
            f"{row.name} is in no freezer, and this is frozen.", "Choose a shelf in a freezer.", "place"
        )
    raise Refusal(
        f"{row.name} is in a freezer, and this is not frozen.",
        "Freeze it, so that its freezing day is kept, or choose a place in a chill.",
        "place",
    )


def has_freezer(connection: Connection) -> bool:
    return any(sort == "freezer" for _, sort in stores_of(connection).values())


def stores_of(connection: Connection) -> dict[str, tuple[str, str]]:
    """Store code to (name, sort)."""
    return {
        row.code: (row.name, row.sort) for row in look_setup.place_rows(connection) if row.kind == "store"
    }


def store_of(place: str) -> str:
    """The store a hook, rail or shelf is in."""
    return place.split(".")[0]
