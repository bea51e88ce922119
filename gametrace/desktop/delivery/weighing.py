"""Words about weights: theirs beside ours, what it may come to otherwise dressed, birds by the brace.

Estimates are shown with their range and thrown away; nothing here is recorded.
"""

from __future__ import annotations

from gametrace.domain.conversions import Estimate, basis_of, estimate
from gametrace.domain.deliveries import Basis
from gametrace.domain.quantities import kg_text
from gametrace.facts.conversions import DRESSED


def difference_words(ours_grams: int | None, theirs_grams: int | None) -> str:
    """'41.60 kg here: 0.40 kg (1.0 %) less than theirs.'; '' while one of both is missing."""
    if not ours_grams or not theirs_grams:
        return ""
    apart = ours_grams - theirs_grams
    if apart == 0:
        return f"Both say {kg_text(ours_grams)}."
    tenths = (abs(apart) * 2_000 + theirs_grams) // (2 * theirs_grams)
    share = f"{tenths // 10}.{tenths % 10} %" if tenths else "under 0.1 %"
    way = "more" if apart > 0 else "less"
    return f"{kg_text(ours_grams)} here: {kg_text(abs(apart))} ({share}) {way} than theirs."


def estimates_of(species: str, sex: str, grams: int | None, basis: Basis) -> tuple[tuple[str, Estimate], ...]:
    """What the weight may come to in every other dressing state a factor is held for."""
    start = basis_of(basis)
    if start is None or not species or not grams:
        return ()
    found = []
    for other, words in DRESSED.items():
        if other != start:
            one = estimate(species=species, sex=sex, grams=grams, from_basis=start, to_basis=other)
            if one is not None:
                found.append((words, one))
    return tuple(found)


def brace_words(count: int, is_bird: bool = True) -> str:
    """'12 birds, 6 brace'; '13 birds, 6 brace and an odd bird'; '1 bird, half a brace'."""
    if count < 1:
        return ""
    one = "bird" if is_bird else "body"
    many = "birds" if is_bird else "bodies"
    pairs, odd = divmod(count, 2)
    if count == 1:
        return f"1 {one}, half a brace"
    rest = f" and an odd {one}" if odd else ""
    return f"{count} {many}, {pairs} brace{rest}"
