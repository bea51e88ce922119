"""The balance of one break-down, on figures that were published and on the lines between amber and red."""

from fractions import Fraction

import pytest

from gametrace.domain.break_down import AMBER, EVEN, RED, break_down, level, sort_of, strangers
from gametrace.domain.lots import LotKind


def test_the_published_roe_buck_is_sorted_and_what_dried_off_stays_in_sight() -> None:
    """11.80 kg on the bone = 7.95 meat + 3.48 bone + 0.37 that nobody weighed (parey-jagdausbildung.de,
    Preisfindung Wildbret): 3.1 % is past amber, not past red."""
    trays = [("part", "boneless", 7_950), ("by-product", "bone", 3_480)]
    told = break_down(11_800, trays, 370, amber_tenths=20, red_tenths=50)
    assert told.parts == (("meat", 7_950), ("bone", 3_480))
    assert told.share_left == Fraction(37, 1180)
    assert told.level == AMBER


@pytest.mark.parametrize(
    ("left", "word"),
    [(-20, EVEN), (0, EVEN), (200, EVEN), (201, AMBER), (500, AMBER), (501, RED), (10_000, RED)],
)
def test_a_line_itself_is_not_past_it(left: int, word: str) -> None:
    assert level(left, 10_000, 20, 50) == word


@pytest.mark.parametrize(
    ("kind", "product", "sort"),
    [
        (LotKind.PART, "haunch", "meat"),
        (LotKind.PACK, "mince", "trim"),
        (LotKind.PART, "stock-bones", "bone"),
        (LotKind.BY_PRODUCT, "skin", "by-product"),
        (LotKind.WASTE, "shot-damage", "shot-damage"),
        (LotKind.WASTE, "binned", "waste"),
        (LotKind.DRYING, "drying", "drying"),
        (LotKind.RETURNED, "returned", "returned"),
        (LotKind.DISH, "dish", "meat"),
    ],
)
def test_every_tray_counts_as_something(kind: str, product: str, sort: str) -> None:
    assert sort_of(kind, product) == sort


def test_a_free_table_has_no_strangers_and_more_of_one_animal_is_none() -> None:
    assert strangers([], [1]) == frozenset()
    assert strangers([1], [1]) == frozenset()
    assert strangers([1], [1, 2]) == {2}
