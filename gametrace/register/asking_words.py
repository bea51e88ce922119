"""The questions about many lots as a person reads them: 'all made of 26-00417-K, less dishes up to ...'."""

from __future__ import annotations

from collections.abc import Sequence

from gametrace.domain.lot_sets import How
from gametrace.register.assembling import Assembler
from gametrace.register.clock import instant, iso_day_text, wall_text

_MOST_CODES = 5


def sentence(read: Assembler, steps: Sequence[tuple[str, Sequence[str], How]]) -> str:
    """All steps in one line."""
    said = [words_of(read, sort, given) for sort, given, _how in steps]
    joined = said[0] if said else ""
    for words, (_sort, _given, how) in zip(said[1:], steps[1:], strict=True):
        joined += f", {how} {words}" if how is not How.JOIN else f" and {words}"
    return joined


def words_of(read: Assembler, sort: str, given: Sequence[str]) -> str:
    first = given[0] if given else ""
    match sort:
        case "lots":
            return _listed(given)
        case "touched":
            return f"all made of {_listed(given)}"
        case "behind":
            return f"all that {_listed(given)} came from"
        case "mixed":
            return f"all mixed with {_listed(given)}"
        case "store" if len(given) == 3:
            store = read.place_names.get(first, first)
            return f"all in {store} from {wall_text(instant(given[1]))} to {wall_text(instant(given[2]))}"
        case "supplier":
            known = read.suppliers.get(first)
            return f"all from {known.name if known else first}"
        case "hunter":
            return f"all that {read.cards.get(first, {}).get('name', first)} signed for"
        case "place":
            return f"all killed at {first}"
        case "killed" | "received":
            return f"all {sort} on {iso_day_text(first)}"
        case "declaration":
            return f"all under declaration {first}"
        case "cooked":
            return _cooked(given)
        case "service" if len(given) == 2:
            return f"dishes of {first}, {iso_day_text(given[1])}"
        case "here":
            return "what is here now"
        case "session" | "cutter" | "station":
            return f"all that {sort} {first} touched"
        case "saved":
            return f"saved set {first}"
    return sort


def _cooked(given: Sequence[str]) -> str:
    first, last = (*given, "", "")[:2]
    if first and last:
        return f"what was cooked from {iso_day_text(first)} to {iso_day_text(last)}"
    if last:
        return f"what was cooked up to {iso_day_text(last)}"
    return f"what was cooked from {iso_day_text(first)} on" if first else "everything cooked"


def _listed(codes: Sequence[str]) -> str:
    shown = ", ".join(codes[:_MOST_CODES])
    more = len(codes) - _MOST_CODES
    return f"{shown} and {more} more" if more > 0 else shown
