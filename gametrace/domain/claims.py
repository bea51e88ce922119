"""What a claim for shot damage comes to, by the rule agreed with the supplier."""

from __future__ import annotations

RULES = ("none", "bought price", "cut price", "fixed")


def claim_pence(rule: str, *, grams: int, pence_per_kg: int | None, fixed_pence: int) -> int:
    """What a rule gives for a weight lost, in whole pence, half a penny up.

    `pence_per_kg` is the price bought at, or of the cut that was lost, as the rule says.
    """
    if rule == "fixed":
        return fixed_pence
    if rule == "none" or pence_per_kg is None:
        return 0
    return (grams * pence_per_kg + 500) // 1_000
