"""One temperature cell of a logger's file as tenths of a degree Celsius, in whole numbers throughout."""

from __future__ import annotations

import re

from gametrace.domain.quantities import COLDEST_TENTHS_C, WARMEST_TENTHS_C, celsius_text

_MINUS_SIGNS = str.maketrans("−–", "--")
# The odd signs before C are what a degree sign becomes in a file that was re-coded on its way.
_FIGURE = re.compile(
    r"([+-]?)\s*(\d{0,4})(?:([.,])(\d{0,9}))?\s*(?:°|º|˚|Â°|\ufffd|deg\.?|degrees?)?\s*"
    r"(c|f|celsius|fahrenheit|℃|℉)?",
    re.ASCII | re.IGNORECASE,
)
_UNITS = {"℃": "C", "℉": "F"}


class Unreadable(ValueError):
    """A row cannot be taken; `str()` says why in a few words."""


def tenths_c_of(cell: str, unit: str, decimal: str | None) -> int:
    """Tenths of a degree Celsius, half a tenth rounded away from zero. Refuses what is no plain figure."""
    text = cell.strip()
    if not text:
        raise Unreadable("it has no temperature")
    match = _FIGURE.fullmatch(text.translate(_MINUS_SIGNS))
    if match is None or not (match[2] or match[4]):
        raise Unreadable(f"'{shown(text, 24)}' is not a temperature")
    sign, whole, mark, part, written_unit = match[1], match[2], match[3], match[4] or "", match[5]
    if mark and decimal and mark != decimal:
        raise Unreadable(f"'{shown(text, 24)}' has another decimal sign than '{decimal}'")
    if written_unit and _UNITS.get(written_unit, written_unit[0].upper()) != unit:
        raise Unreadable(f"'{shown(text, 24)}' is not in °{unit}")
    scale = 10 ** len(part)
    figure = int(whole + part)
    tenths = _tenths_c(-figure if sign == "-" else figure, scale, unit)
    if not COLDEST_TENTHS_C <= tenths <= WARMEST_TENTHS_C:
        raise Unreadable(f"{celsius_text(tenths)} cannot be a reading from a store")
    return tenths


def _tenths_c(figure: int, scale: int, unit: str) -> int:
    """`figure / scale` degrees of the unit."""
    if unit == "F":
        return _rounded((figure - 32 * scale) * 50, 9 * scale)
    return _rounded(figure * 10, scale)


def _rounded(over: int, under: int) -> int:
    """The nearest whole number, a half away from zero: a half must not depend on the sign of the figure."""
    nearest = (2 * abs(over) + under) // (2 * under)
    return -nearest if over < 0 else nearest


def shown(text: str, most: int) -> str:
    """Foreign text fit for a sentence: one line, printable, cut to a length."""
    plain = " ".join("".join(sign if sign.isprintable() else " " for sign in text[: 2 * most]).split())
    return plain if len(plain) <= most else plain[:most] + "…"
