"""Lot codes: '26-00417-E' = year, running number, check character by ISO/IEC 7064 MOD 37-2.

MOD 37-2 catches every single wrong character and every swap of neighbours. Numbers whose check character
would be '*', 'I' or 'O' are never given out: on a wet label they read as a blot, a one and a nought.
The integer key of a lot is its code without the check character, so codes need no look-up and keys grow
in the order lots are made.
"""

from __future__ import annotations

import re
from functools import lru_cache

from stdnum.iso7064 import mod_37_2

from gametrace.domain.errors import Refusal

_NUMBERS_A_YEAR = 10_000_000
_NEVER_GIVEN = frozenset("*IO")
_SHAPE = re.compile(r"([0-9]{2})-?([0-9]{5,7})-?([0-9A-Za-z])")


def _check_character(year: int, number: int) -> str:
    return str(mod_37_2.calc_check_digit(f"{year:02d}{number:05d}"))


@lru_cache(maxsize=1 << 16)
def code_of(lot_id: int) -> str:
    """The printed code of a lot's integer key."""
    year, number = divmod(lot_id, _NUMBERS_A_YEAR)
    return f"{year:02d}-{number:05d}-{_check_character(year, number)}"


def next_lot_id(last_id: int, year: int) -> int:
    """The next key to give out after `last_id` (0 at the start) in the full `year` (2026).

    Keys only ever grow: should the clock jump back over New Year, numbering stays in the later year.
    """
    year_now, last_year = year % 100, last_id // _NUMBERS_A_YEAR
    number = last_id % _NUMBERS_A_YEAR + 1 if last_year >= year_now else 1
    year_now = max(year_now, last_year)
    while _check_character(year_now, number) in _NEVER_GIVEN:
        number += 1
    return year_now * _NUMBERS_A_YEAR + number


def first_lot_id(year: int) -> int:
    """Below the key of every lot that was numbered in the full `year` or later."""
    return year % 100 * _NUMBERS_A_YEAR


def looks_like_code(text: str) -> bool:
    """Whether `text` has the shape of a lot code, right or mistyped: used to route scans and searches."""
    return _SHAPE.fullmatch(_tidied(text)) is not None


def lot_id_of(text: str) -> int:
    """The key meant by a scanned or typed code; spaces, missing hyphens and lower case are forgiven.

    Raises Refusal when the shape is wrong or the check character does not fit the digits.
    """
    match = _SHAPE.fullmatch(_tidied(text))
    if match is None:
        raise Refusal(
            f"“{text.strip()[:40]}” is not a lot code.",
            "A code looks like 26-00417-E: year, number, check character.",
            field="code",
        )
    year, number = int(match[1]), int(match[2])
    if len(match[2]) > 5 and match[2].startswith("0"):
        raise Refusal(
            f"“{text.strip()[:40]}” has too many digits.", "Read it from the label again.", field="code"
        )
    if _check_character(year, number) != match[3].upper():
        raise Refusal(
            f"The check character of “{text.strip()[:40]}” does not fit its digits: one is wrong or two are "
            "swapped.",
            "Scan the label again or read it digit by digit.",
            field="code",
        )
    return year * _NUMBERS_A_YEAR + number


def _tidied(text: str) -> str:
    return re.sub(r"\s+", "", text).replace("–", "-").replace("—", "-")


_LIKE_DIGITS = str.maketrans("OQILSBZG", "00115826")
_LOOSE = re.compile(r"([0-9OQILSBZG]{2})-?([0-9OQILSBZG]{5,7})-?([0-9A-Z*])")


def near_misses(text: str) -> tuple[int, ...]:
    """Keys whose code is one slip away from what was typed: a wrong character, a swap, a letter for a digit.

    Nothing where the text is a right code or has not the shape of one. Which of them exist is not known here.
    """
    match = _LOOSE.fullmatch(_tidied(text).upper())
    if match is None:
        return ()
    length = len(match[2])
    digits, check = (match[1] + match[2]).translate(_LIKE_DIGITS), match[3]
    spelled = {digits, *_one_slip(digits)}
    whole = [(int(one[:2]), int(one[2:])) for one in sorted(spelled) if length == 5 or one[2] != "0"]
    found = {
        year * _NUMBERS_A_YEAR + number
        for year, number in whole
        if _check_character(year, number) == check or f"{year:02d}{number:0{length}d}" == digits
    }
    meant = int(digits[:2]) * _NUMBERS_A_YEAR + int(digits[2:])
    is_right = _check_character(int(digits[:2]), int(digits[2:])) == check
    if is_right and digits == match[1] + match[2]:
        return ()
    return tuple(sorted(found, key=lambda lot: (lot != meant, lot)))


def _one_slip(digits: str) -> set[str]:
    wrong = {digits[:at] + new + digits[at + 1 :] for at in range(len(digits)) for new in "0123456789"}
    swapped = {digits[:at] + digits[at + 1] + digits[at] + digits[at + 2 :] for at in range(len(digits) - 1)}
    return wrong | swapped
