"""The tolerance of a balance; both sides of each limit. The kitchen's own figures, no authority's."""

import pytest

from gametrace.domain.mass_balance import Tolerance, standing_of, standing_words
from gametrace.domain.terms import term_of


@pytest.mark.parametrize(
    ("received", "unaccounted", "standing"),
    [
        (40_000, 0, "green"),
        (40_000, 800, "green"),
        (40_000, 801, "amber"),
        (40_000, 2_000, "amber"),
        (40_000, 2_001, "red"),
        (40_000, -801, "amber"),
        (4_000, 81, "amber"),
        (4_000, 500, "amber"),  # a twelfth of a small deer is still no more than half a kilogram
        (4_000, 501, "red"),
        (0, 0, "green"),
        (0, 501, "red"),
    ],
)
def test_both_sides_of_each_limit(received: int, unaccounted: int, standing: str) -> None:
    assert standing_of(received, unaccounted, Tolerance()) == standing


def test_the_words_name_the_weight_the_share_and_the_limits() -> None:
    words = standing_words(40_000, 1_200, Tolerance())
    assert words.startswith("amber: 1.20 kg unaccounted, 3.0 % of what was received")
    assert "2 %" in words
    assert standing_words(40_000, 0, Tolerance()) == "green: every gram is accounted for"
    assert "too much" in standing_words(40_000, -1_200, Tolerance())


def test_the_months_fall_into_terms() -> None:
    from datetime import date

    assert [term_of(date(2026, month, 1)) for month in (1, 4, 5, 8, 9, 12)] == [
        "spring term 2026",
        "spring term 2026",
        "summer term 2026",
        "summer term 2026",
        "autumn term 2026",
        "autumn term 2026",
    ]
