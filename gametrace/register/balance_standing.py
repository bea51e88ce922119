"""How a balance stands by the kitchen's own tolerance: one word, and the sentence behind it."""

from __future__ import annotations

from dataclasses import dataclass

from gametrace.domain.mass_balance import Standing, Tolerance, standing_of, standing_words
from gametrace.domain.quantities import kg_text
from gametrace.register.opening import Register
from gametrace.register.policies import policies_of
from gametrace.register.records import Balance
from gametrace.store.engine import Connection


@dataclass(frozen=True, slots=True)
class BalanceStanding:
    standing: Standing
    words: str
    missing_grams: int  # closed and gone; what still lies unweighed on the block is not missing yet


def balance_standing(register: Register, balance: Balance) -> BalanceStanding:
    with register.store.reading() as connection:
        return judged(connection, balance)


def judged(connection: Connection, balance: Balance) -> BalanceStanding:
    tolerance = tolerance_of(connection)
    missing = next((row.grams for row in balance.rows if row.words == "unaccounted"), 0)
    unweighed = balance.unaccounted_grams - missing
    words = standing_words(balance.received_grams, missing, tolerance)
    if unweighed > 0:
        words += f"; {kg_text(unweighed)} still unweighed on the block"
    return BalanceStanding(standing_of(balance.received_grams, missing, tolerance), words, missing)


def tolerance_of(connection: Connection) -> Tolerance:
    """The kitchen's own figures for what may be unaccounted: the same as on the block."""
    held = policies_of(connection)
    return Tolerance(held.unweighed_amber_tenths, held.unweighed_red_tenths)
