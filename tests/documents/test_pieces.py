"""Text of users on paper: escaped once, bounded, drawable; numbers and days as people read them."""

from __future__ import annotations

from datetime import UTC, date, datetime
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.documents import brand, wording
from gametrace.documents.pieces import bounded, escaped, paragraph, printable
from gametrace.documents.typesetting import cut_to, width_of, wrapped


@given(st.text())
def test_any_text_becomes_one_line_the_type_can_draw(text: str) -> None:
    drawn = printable(text)
    assert "\n" not in drawn
    assert all(brand.has_glyph(character) for character in drawn)


@given(st.text())
def test_any_text_makes_a_paragraph(text: str) -> None:
    width, height = paragraph(text).wrap(100, 10_000)
    assert (width, height) >= (0, 0)


def test_text_is_escaped_exactly_once() -> None:
    assert escaped("<b>&amp;</b>") == "&lt;b&gt;&amp;amp;&lt;/b&gt;"


def test_direction_marks_are_taken_out_because_they_could_turn_other_words_round() -> None:
    assert printable("tag \u202e714\u202c") == "tag 714"


def test_a_letter_and_its_accent_typed_in_two_strokes_are_drawn_as_one() -> None:
    assert printable("Cafe\u0301") == "Café"


def test_a_text_too_long_says_how_much_was_left_off() -> None:
    assert bounded("x" * 10_000, 300).endswith("… (9,700 more characters in the register)")


@given(st.text(), st.floats(5, 300), st.integers(1, 4))
def test_wrapped_lines_fit_the_width(text: str, width: float, most: int) -> None:
    lines = wrapped(printable(text), brand.REGULAR, 8, width, most)
    assert len(lines) <= most
    for line in lines:
        assert len(line) <= 1 or width_of(line, brand.REGULAR, 8) <= width + 1e-6


def test_a_cut_text_ends_with_the_sign_for_it() -> None:
    assert cut_to("haunch, left, boned", brand.REGULAR, 8, 40).endswith("…")


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        (wording.kg(850), "0.850 kg"),
        (wording.kg(23400), "23.400 kg"),
        (wording.kg(-5), "−0.005 kg"),
        (wording.degrees(52), "5.2 °C"),
        (wording.degrees(-183), "−18.3 °C"),
        (wording.pounds(405), "£4.05"),
        (wording.percent(Fraction(1, 8)), "12.5 %"),
        (wording.percent(Fraction(16, 37)), "43.2 %"),
        (wording.percent(Fraction(2, 3)), "66.7 %"),
        (wording.percent(Fraction(1)), "100.0 %"),
        (wording.fraction(Fraction(1)), "1/1"),
        (wording.day(date(2028, 2, 29)), "29 Feb 2028"),
        (wording.day(None), "not stated"),
        (wording.killed("2026-11-12T07:40"), "12 Nov 2026, 07:40"),
        (wording.killed("2026-11-12"), "12 Nov 2026, time not stated"),
        (wording.killed(""), "not stated"),
        (wording.counted(1, "lot"), "1 lot"),
        (wording.counted(1200, "lot"), "1,200 lots"),
    ],
)
def test_numbers_and_days_are_written_as_people_read_them(said: str, meant: str) -> None:
    assert said == meant


def test_an_instant_is_written_by_the_kitchens_clock_in_summer_and_winter() -> None:
    assert wording.instant(datetime(2026, 7, 1, 12, 5, tzinfo=UTC)) == "1 Jul 2026, 13:05"
    assert wording.instant(datetime(2026, 11, 12, 12, 5, tzinfo=UTC)) == "12 Nov 2026, 12:05"
