"""Weights, temperatures and money between what people type and the whole numbers that are recorded.

One parser for each, so that every field of every station reads alike. A figure that could mean two
things is refused with a sentence; nothing is ever guessed or rounded. No float appears.
"""

from __future__ import annotations

import re

from gametrace.domain.errors import Refusal

MOST_GRAMS = 500_000  # heavier than any carcass that hangs on one hook here
COLDEST_TENTHS_C, WARMEST_TENTHS_C = -400, 450
MOST_PENCE = 100_000

_NUMBER = re.compile(r"([+-]?)(\d{1,9})(?:([.,])(\d{0,9}))?", re.ASCII)
_TWO_FIGURES = re.compile(r"\d\s+\d")
_THOUSANDS = re.compile(r"\d{1,3}(\s\d{3})+\s*g(rams?)?", re.ASCII | re.IGNORECASE)
_EXAMPLE_KG = "Write it in kilos, for example 61.5 or 61.50 kg."
_EXAMPLE_C = "Write degrees Celsius, for example 5.2."
_EXAMPLE_POUNDS = "Write pounds, for example 4.50, or pence, for example 450p."


def parse_grams(text: str, field: str = "grams") -> int:
    """Grams from '61.5', '61,5', '61.5 kg' or '61500 g'. Kilos where no unit is written."""
    plain = _tidy(text)
    if not plain:
        raise Refusal("No weight has been given.", _EXAMPLE_KG, field)
    number, unit = _split_unit(plain, ("kg", "kilos", "kilo", "g", "grams", "gram"))
    match = _NUMBER.fullmatch(number)
    if match is None:
        raise Refusal(f"'{_short(text)}' is not a weight.", _EXAMPLE_KG, field)
    sign, whole, mark, part = match[1], match[2], match[3], match[4] or ""
    if sign == "-":
        raise Refusal("A weight cannot be below nothing.", _EXAMPLE_KG, field)
    if unit.startswith("g"):
        grams = _whole_grams(whole, mark, field)
    else:
        grams = _from_kilos(whole, part, field)
    return _weighable(grams, field)


def _whole_grams(whole: str, mark: str | None, field: str) -> int:
    if mark:
        raise Refusal("Grams are written whole, without a point.", "Write 61500 g or 61.5 kg.", field)
    return int(whole)


def _from_kilos(whole: str, part: str, field: str) -> int:
    if len(part.rstrip("0")) > 3:
        raise Refusal("That is finer than a gram.", "Give three figures after the point at most.", field)
    return int(whole) * 1000 + int(part[:3].ljust(3, "0"))


def _weighable(grams: int, field: str) -> int:
    if grams > MOST_GRAMS:
        sentence = f"{_kilos_short(grams)} kg is more than one lot can weigh here (500 kg)."
        if grams >= 10 * MOST_GRAMS:
            raise Refusal(sentence, _EXAMPLE_KG, field)
        meant = f"{grams // 10_000}.{grams // 1000 % 10}"
        raise Refusal(sentence, f"If you meant {meant} kg, write the point.", field)
    if grams == 0:
        raise Refusal("A weight of nothing cannot be recorded.", _EXAMPLE_KG, field)
    return grams


def kg_figure(grams: int) -> str:
    """'61.50', or '61.505' where the third place says something. Minus sign where below nothing."""
    sign = "-" if grams < 0 else ""
    kilos, rest = divmod(abs(grams), 1000)
    places = f"{rest:03d}" if rest % 10 else f"{rest // 10:02d}"
    return f"{sign}{kilos}.{places}"


def kg_text(grams: int) -> str:
    """'61.50 kg'."""
    return f"{kg_figure(grams)} kg"


def kg_to_the_gram(grams: int) -> str:
    """'61.500 kg': always three places, for balances and histories where every gram is shown."""
    sign = "-" if grams < 0 else ""
    kilos, rest = divmod(abs(grams), 1000)
    return f"{sign}{kilos}.{rest:03d} kg"


def parse_tenths_c(text: str, field: str = "tenths_c", *, most: int = WARMEST_TENTHS_C) -> int:
    """Tenths of a degree Celsius from '5.2', '5,2', '-1' or '5.2 °C'; `most` for what was cooked."""
    plain = _tidy(text).replace("−", "-")
    if not plain:
        raise Refusal("No temperature has been given.", _EXAMPLE_C, field)
    number, _ = _split_unit(plain, ("°c", "ºc", "°", "c"))
    match = _NUMBER.fullmatch(number)
    if match is None:
        raise Refusal(f"'{_short(text)}' is not a temperature.", _EXAMPLE_C, field)
    sign, whole, part = match[1], match[2], (match[4] or "").rstrip("0")
    if len(part) > 1:
        raise Refusal("Temperatures are kept in tenths of a degree.", "Give one figure after it.", field)
    tenths = int(whole) * 10 + int(part or "0")
    tenths = -tenths if sign == "-" else tenths
    if not COLDEST_TENTHS_C <= tenths <= most:
        sentence = f"{celsius_text(tenths)} cannot be a reading from meat or a store."
        raise Refusal(sentence, "Look again for the point: 5.2, not 52.", field)
    return tenths


def celsius_text(tenths_c: int) -> str:
    """'5.2 °C'."""
    sign = "-" if tenths_c < 0 else ""
    degrees, tenth = divmod(abs(tenths_c), 10)
    return f"{sign}{degrees}.{tenth} °C"


def parse_pence(text: str, field: str = "pence_per_kg") -> int:
    """Whole pence from '4.50', '4,50', '£4.50' or '450p'. Pounds where no unit is written."""
    plain = _tidy(text)
    if not plain:
        raise Refusal("No price has been given.", _EXAMPLE_POUNDS, field)
    number, unit = _split_unit(plain, ("p", "pence"))
    in_pence = bool(unit)
    match = _NUMBER.fullmatch(number if in_pence else number.removeprefix("£"))
    if match is None:
        raise Refusal(f"'{_short(text)}' is not a price.", _EXAMPLE_POUNDS, field)
    sign, whole, mark, part = match[1], match[2], match[3], (match[4] or "")
    if sign == "-":
        raise Refusal("A price cannot be below nothing.", _EXAMPLE_POUNDS, field)
    if (in_pence and mark) or len(part) > 2:
        raise Refusal("Prices are kept in whole pence.", _EXAMPLE_POUNDS, field)
    pence = int(whole) if in_pence else int(whole) * 100 + int(part.ljust(2, "0"))
    if pence > MOST_PENCE:
        raise Refusal(f"{pounds_text(pence)} is more than anything here costs.", _EXAMPLE_POUNDS, field)
    return pence


def pounds_text(pence: int) -> str:
    """'£4.50'."""
    sign = "-" if pence < 0 else ""
    pounds, rest = divmod(abs(pence), 100)
    return f"{sign}£{pounds}.{rest:02d}"


def tenths_percent_text(tenths: int) -> str:
    """A share kept in tenths of a per cent: '2 %', '2.5 %'."""
    whole, part = divmod(tenths, 10)
    return f"{whole}.{part} %" if part else f"{whole} %"


def _tidy(text: str) -> str:
    """Lower case, without any of the spaces a scale or a phone may put in."""
    if len(text) > 60:
        return _too_long(text)
    if _TWO_FIGURES.search(text) and not _THOUSANDS.fullmatch(text.strip()):
        return "?"  # '3 2' may be 3.2 or 32
    return "".join(text.split()).lower()


def _too_long(text: str) -> str:
    """Long text is no figure, but blank text of any length is nothing given."""
    return "" if not text.strip() else "?"


def _split_unit(plain: str, units: tuple[str, ...]) -> tuple[str, str]:
    for unit in units:
        if plain.endswith(unit):
            return plain.removesuffix(unit), unit
    return plain, ""


def _short(text: str) -> str:
    shown = " ".join(text[:60].split())
    return shown if len(shown) <= 24 else shown[:24] + "…"


def _kilos_short(grams: int) -> str:
    return kg_figure(grams).removesuffix(".00")
