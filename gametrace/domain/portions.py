"""Portions of a dish in whole grams of its meat: what is left over or binned never loses or finds a gram.

It counts portions and grams. It knows nothing of plates, people or prices.
"""

from __future__ import annotations


def grams_of_portions(portions: int, *, of_portions: int, grams_in: int, grams_left: int) -> int:
    """The meat in so many portions of a dish: its share rounded down, and all that is left where less is.

    Rounded down, so that the portions together never hold more than went in; what the rounding leaves
    stays with the plates that were served.
    """
    if not 0 < portions <= of_portions:
        raise ValueError("portions are counted out of those that were made")
    return min(grams_in * portions // of_portions, grams_left)
