"""Any text at all in a field for a figure: read as a second reader reads it, or refused with a sentence.

The second reader knows nothing of ours: it takes the text apart letter by letter and reckons with Decimal.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import (
    COLDEST_TENTHS_C,
    MOST_GRAMS,
    MOST_PENCE,
    WARMEST_TENTHS_C,
    parse_grams,
    parse_pence,
    parse_tenths_c,
)

# What people, scales, phones and spreadsheets put into a field, and what must never count as a figure.
ODD = [
    "=1+1", "=61.5", "+61.5", "<b>61</b>", "&lt;5", "61.5\n", "6l.5", "O.5", "1e3", "1E-2", "0x10", "1_000",
    "٦١", "６１", "६१", "6²", "½", "61٫5", "6.1.5", "61,5,0", "1.234,5", "--5", "+-5", "- 5", "−5", "–5",
    "6 1", "61 5", "3 2", "1 234 g", "61 500 g", "NaN", "inf", "-0", "00061.5", "61.", ".5", ",5", "5.",
    "61.5kgkg", "kg61", "5 c c", "5°", "£", "p", "£-1", "-£1", "££5", "5£", "450 p", "4.5p", "\u202e5",
    "600", "600.0", "60.0", "\u200b5", "5\u00a0kg", "$5", "€5", "5%", "5;6", "5/6", "'5", '"5"', "True",
]  # fmt: skip
FIGURES = st.from_regex(r"[ +−-]{0,2}[0-9]{1,6}([.,][0-9]{0,4})?( ?(kg|g|c|°C|p))?", fullmatch=True)
TEXTS = st.sampled_from(ODD) | FIGURES | st.text(max_size=70) | st.text("0123456789.,-+ kgcp£°", max_size=12)


def read_again(text: str, units: dict[str, int]) -> Decimal | None:
    """The figure in its smallest unit, or None for what is none. `units` gives '' for no unit written."""
    apart = re.sub(r"(?<![0-9])\s|\s(?![0-9])", "", text)  # a space between two figures is none of these
    plain = apart.strip().lower().replace("−", "-")
    unit = max((u for u in units if plain.endswith(u)), key=len)
    figure = plain[: len(plain) - len(unit)].strip()
    if unit == "g" and re.fullmatch(r"[0-9]{1,3}( [0-9]{3})+", figure):  # thousands of grams, apart
        figure = figure.replace(" ", "")
    sign = -1 if figure.startswith("-") else 1
    figure = figure.lstrip("+-") if figure[:1] in "+-" and figure[1:2] not in "+-" else figure
    parts = figure.strip().replace(",", ".").split(".")
    if len(parts) > 2 or not parts[0] or any(c not in "0123456789" for c in "".join(parts)):
        return None
    return sign * Decimal(".".join(parts) if parts[-1] else parts[0]) * units[unit]


Case = tuple[Callable[[str], int], dict[str, int], tuple[int, int]]
GRAMS: Case = (parse_grams, {"": 1000, "kg": 1000, "kilo": 1000, "kilos": 1000, "g": 1}, (1, MOST_GRAMS))
TENTHS: Case = (
    parse_tenths_c, {"": 10, "c": 10, "°c": 10, "ºc": 10, "°": 10}, (COLDEST_TENTHS_C, WARMEST_TENTHS_C)
)  # fmt: skip
PENCE: Case = (parse_pence, {"": 100, "p": 1, "pence": 1}, (0, MOST_PENCE))


@pytest.mark.parametrize(("parse", "units", "ends"), [GRAMS, TENTHS, PENCE], ids=["grams", "tenths", "pence"])
@settings(max_examples=6 * settings().max_examples)
@given(text=TEXTS)
@example(text="61,5")
@example(text="-18.0 °C")
@example(text="£4.50")
@example(text="60.0")
def test_any_text_is_read_as_a_second_reader_reads_it_or_refused(
    parse: Callable[[str], int], units: dict[str, int], ends: tuple[int, int], text: str
) -> None:
    try:
        value = parse(text)
    except Refusal as refusal:
        told = refusal
    else:
        assert ends[0] <= value <= ends[1]
        assert read_again(text.replace("£", "", 1), units) == value
        return
    assert told.sentence.endswith(".")
    assert told.what_to_do
    assert told.field
    assert len(str(told)) < 250


@pytest.mark.parametrize("parse", [parse_grams, parse_tenths_c, parse_pence])
@pytest.mark.parametrize(
    "text", ["=1+1", "<b>6</b>", "٦", "６", "६", "6²", "½", "1e1", "0x1", "1_0", "3 2", "6.1.5", "\u200b5"]
)
def test_no_formula_markup_or_foreign_digit_is_a_figure(parse: Callable[[str], int], text: str) -> None:
    with pytest.raises(Refusal):
        parse(text)


@given(st.integers(1, 500), st.integers(0, 999))
def test_a_comma_and_a_point_say_the_same(kilos: int, grams: int) -> None:
    if kilos == 500:
        grams = 0
    point, comma = f"{kilos}.{grams:03d}", f"{kilos},{grams:03d}"
    assert parse_grams(point) == parse_grams(comma) == kilos * 1000 + grams


@given(st.integers(501, 4_999))
def test_a_weight_ten_times_too_much_is_asked_back_with_the_point_put_in(kilos: int) -> None:
    with pytest.raises(Refusal) as caught:
        parse_grams(str(kilos))
    assert f"{kilos // 10}.{kilos % 10} kg" in caught.value.what_to_do


@given(st.integers(46, 450))
def test_a_temperature_ten_times_too_much_asks_for_the_point(tenths: int) -> None:
    with pytest.raises(Refusal, match="point"):
        parse_tenths_c(str(tenths))
