"""The date a pack would get, in words with its source, and the shelves it may go to."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from gametrace.desktop.bench import Bench
from gametrace.desktop.parts.days import weekday_text
from gametrace.domain.errors import Refusal


def date_words(
    bench: Bench, pack_state: str, product: str, parents: Sequence[Any], also_by: Sequence[date | None] = ()
) -> tuple[str, str]:
    """('Use by Fri 4 Dec 2026', the rule and its source). The kitchen's own plan stands over it."""
    if not bench.is_open or not product:
        return "", ""
    try:
        codes = [one.code for one in parents]
        day, rule = bench.ask("packing_date", codes, pack_state, product, also_by)
    except Refusal as refusal:
        return "", str(refusal)
    words = "Best by" if pack_state == "frozen" else "Use by"
    return f"{words} {weekday_text(day)}", f"By {rule}" if not rule.startswith("the ") else f"It is {rule}."


def shelf_choices(bench: Bench, pack_state: str) -> list[tuple[str, str]]:
    """Shelves, those of the right sort of store first."""
    wanted = "freezer" if pack_state == "frozen" else "chill"
    shelves = [one for one in bench.ask("places") if one.kind == "shelf"]
    shelves.sort(key=lambda one: one.sort != wanted)
    return [(one.code, one.name) for one in shelves]
