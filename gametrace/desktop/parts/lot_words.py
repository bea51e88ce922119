"""Short words about a lot that several stations show beside its sign."""

from __future__ import annotations

from collections.abc import Sequence

from gametrace.register.records import Lot


def why_of(lot: Lot) -> str:
    """The reason behind a state, without the number and the state that stand beside it anyway."""
    words = lot.state_reason.removeprefix(f"{lot.code} is ").removeprefix(f"{lot.state}: ")
    return words.removeprefix("a teaching specimen: ").removeprefix("locked for ever: ")


def missing_words(missing: Sequence[str]) -> str:
    """'the tag number, the price and 2 reasons': the questions themselves stand with the findings."""
    plain = [words for words in missing if not words.startswith("a reason: ")]
    asked = len(missing) - len(plain)
    if asked:
        plain.append("a reason" if asked == 1 else f"{asked} reasons")
    return " and ".join([", ".join(plain[:-1]), plain[-1]]) if len(plain) > 1 else "".join(plain)
