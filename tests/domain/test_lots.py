"""How a lot stands, in one word."""

import pytest

from gametrace.domain.lots import ANIMAL_KINDS, GONE_KINDS, MEAT_KINDS, LotKind, LotState, StopSort, state_of


def stands(
    kind: LotKind = LotKind.PACK, left: int = 100, stops: set[str] | None = None, past: bool = False
) -> str:
    return state_of(kind=kind, grams_left=left, stops=stops or set(), is_past_date=past)


def test_every_kind_is_meat_or_gone_or_a_dish_and_never_two_of_them() -> None:
    assert not MEAT_KINDS & GONE_KINDS
    assert MEAT_KINDS | GONE_KINDS | {LotKind.DISH} == set(LotKind)
    assert ANIMAL_KINDS < MEAT_KINDS


@pytest.mark.parametrize(
    ("stops", "word"),
    [
        ({StopSort.HOLD}, LotState.ON_HOLD),
        ({StopSort.HOLD, StopSort.SPECIMEN}, LotState.SPECIMEN),
        ({StopSort.HOLD, StopSort.SPECIMEN, StopSort.REJECTED}, LotState.REJECTED),
    ],
)
def test_the_worst_stop_is_the_word_shown(stops: set[str], word: LotState) -> None:
    assert stands(stops=stops) == word


@pytest.mark.parametrize("kind", list(LotKind))
def test_a_stop_outweighs_everything_else_about_any_kind_of_lot(kind: LotKind) -> None:
    assert stands(kind, left=0, stops={StopSort.HOLD}, past=True) == LotState.ON_HOLD


def test_a_spent_pack_is_spent_and_not_out_of_date() -> None:
    assert stands(left=0, past=True) == LotState.SPENT


def test_a_pack_past_its_date_is_out_of_date() -> None:
    assert stands(past=True) == LotState.OUT_OF_DATE


def test_what_hangs_is_hanging_and_what_lies_is_ready() -> None:
    assert stands(LotKind.CARCASS) == LotState.HANGING
    assert stands(LotKind.MIX) == LotState.READY


@pytest.mark.parametrize("kind", sorted(GONE_KINDS))
def test_what_left_the_larder_s_meat_is_gone_for_good(kind: LotKind) -> None:
    assert stands(kind) == LotState.GONE
