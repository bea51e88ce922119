"""One line of plain text from a scale, read as a weight: continuous or on demand, in ASCII.

It takes the forms that many scales share: an optional word on stability and on gross or net, a sign, a
figure and a unit. What it cannot read for certain is None; it never guesses a unit. It opens no port.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

LONGEST_LINE = 64
MOST_GRAMS = 1_000_000  # a line beyond this is noise, not a carcass

# Grams in one of each unit; the pound is exact by definition (0.45359237 kg).
_GRAMS_IN: dict[str, Fraction] = {
    "g": Fraction(1),
    "kg": Fraction(1000),
    "lb": Fraction(45359237, 100000),
    "oz": Fraction(45359237, 1600000),
}
_STABLE = frozenset({"ST", "S"})
_MOVING = frozenset({"US", "D", "?"})
_QUIET = frozenset({"GS", "NT", "G", "N", "GROSS", "NET"})  # gross or net: the figure is the figure
_LINE = re.compile(
    r"(?P<head>(?:[A-Z]{1,5}[\s,:]+){0,3})"
    r"(?P<sign>[+-]?)\s*(?P<whole>\d{1,7})(?:[.,](?P<part>\d{1,4}))?"
    r"\s*(?P<unit>kg|lb|oz|g)\s*(?P<tail>\??)",
    re.IGNORECASE | re.ASCII,
)


class ScaleReading(NamedTuple):
    """A weight in whole grams (nearest), whether the scale says it stands still, and its own unit.

    `is_stable` is None where the line says nothing of it: see `settled`. `step_grams` is the smallest step
    that its figures can show, at least a gram.
    """

    grams: int
    is_stable: bool | None
    unit: str
    step_grams: int


def read_line(line: str | bytes) -> ScaleReading | None:
    """The weight in a line; None for anything else, an overload or a line cut short among them."""
    text = line.decode("ascii", "replace") if isinstance(line, bytes) else line
    if len(text) > LONGEST_LINE or not text.isascii():
        return None
    match = _LINE.fullmatch(text.strip(" \t\r\n\0\x02\x03"))
    if match is None:
        return None
    words = [word for word in re.split(r"[\s,:]+", match["head"].upper()) if word]
    if any(word not in _STABLE | _MOVING | _QUIET for word in words):
        return None  # OL, tare, an error: not a weight of what lies on it
    return _reading(match, [*words, match["tail"]])


def _reading(match: re.Match[str], words: list[str]) -> ScaleReading | None:
    unit, part = match["unit"].lower(), match["part"] or ""
    step = _GRAMS_IN[unit] / 10 ** len(part)
    grams = _nearest(step * int(match["whole"] + part))
    if grams > MOST_GRAMS:
        return None
    is_stable = False if _MOVING.intersection(words) else True if _STABLE.intersection(words) else None
    return ScaleReading(-grams if match["sign"] == "-" else grams, is_stable, unit, max(1, _nearest(step)))


def _nearest(grams: Fraction) -> int:
    return (grams + Fraction(1, 2)).__floor__()


def settled(readings: Sequence[ScaleReading], count: int = 3) -> ScaleReading | None:
    """The last reading, if the scale calls it stable or, where it says nothing, the last few are alike."""
    if not readings or readings[-1].is_stable is False:
        return None
    last = readings[-1]
    if last.is_stable:
        return last
    alike = [one.grams for one in readings[-count:]]
    return last if len(alike) == count and len(set(alike)) == 1 else None
