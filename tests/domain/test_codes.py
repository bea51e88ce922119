"""Lot codes: the check character, what it catches, and that numbers only grow."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum.iso7064 import mod_37_2

from gametrace.domain.codes import code_of, looks_like_code, lot_id_of, next_lot_id
from gametrace.domain.errors import Refusal

A_YEAR = 10_000_000
CHARACTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def given_out(how_many: int, last: int = 0, year: int = 2026) -> list[int]:
    """The keys a register gives out one after the other."""
    keys = []
    for _ in range(how_many):
        last = next_lot_id(last, year)
        keys.append(last)
    return keys


def is_accepted(code: str) -> bool:
    try:
        lot_id_of(code)
    except Refusal:
        return False
    return True


lot_ids = st.builds(
    lambda year, last: next_lot_id(year * A_YEAR + last, 2000 + year),
    st.integers(0, 99),
    st.integers(0, 9_000_000),
)


# ISO/IEC 7064 MOD 37-2 as python-stdnum documents it (stdnum.iso7064.mod_37_2, doctest): the check character
# of G123489654321 is Y.
def test_the_published_example_of_mod_37_2_has_its_check_character() -> None:
    assert mod_37_2.calc_check_digit("G123489654321") == "Y"


def test_the_check_character_is_that_of_iso_7064_computed_by_hand() -> None:
    """The pure system of the standard: sum of (value x 2 to the place) is 1 modulo 37."""
    for key in given_out(2_000):
        code = code_of(key).replace("-", "")
        values = [CHARACTERS.index(character) for character in code]
        total = sum(value * 2**place for place, value in enumerate(reversed(values)))
        assert total % 37 == 1


def test_a_code_validates_in_python_stdnum() -> None:
    for key in given_out(500):
        assert mod_37_2.is_valid(code_of(key).replace("-", ""))


def test_every_single_wrong_character_in_thousands_of_codes_is_caught() -> None:
    for key in given_out(1_500, last=26 * A_YEAR + 400):
        code = code_of(key)
        for place, right in enumerate(code):
            if right == "-":
                continue
            for wrong in CHARACTERS[:10] if place < 8 else CHARACTERS:
                if wrong != right:
                    assert not is_accepted(code[:place] + wrong + code[place + 1 :])


def test_every_swap_of_neighbours_in_thousands_of_codes_is_caught() -> None:
    for key in given_out(3_000):
        bare = code_of(key).replace("-", "")
        for place in range(len(bare) - 1):
            if bare[place] != bare[place + 1]:
                swapped = bare[:place] + bare[place + 1] + bare[place] + bare[place + 2 :]
                assert not is_accepted(swapped)


@given(lot_ids)
def test_a_code_reads_back_as_the_key_it_was_made_of(key: int) -> None:
    assert lot_id_of(code_of(key)) == key


@given(lot_ids)
def test_no_code_ends_in_a_blot_a_one_or_a_nought(key: int) -> None:
    assert code_of(key)[-1] not in "*IO"


@given(lot_ids, st.integers(2000, 2099))
def test_a_number_is_never_given_out_twice_whatever_the_clock_says(last: int, year: int) -> None:
    assert next_lot_id(last, max(year, 2000 + last // A_YEAR)) > last
    assert next_lot_id(last, year) > last


def test_numbers_begin_again_with_a_new_year_and_still_grow() -> None:
    old = given_out(50, year=2026)[-1]
    new = next_lot_id(old, 2027)
    assert new > old
    assert code_of(new).startswith("27-00001-") or code_of(new).startswith("27-00002-")


def test_a_clock_set_back_over_new_year_goes_on_in_the_later_year() -> None:
    last = given_out(3, last=27 * A_YEAR, year=2027)[-1]
    assert code_of(next_lot_id(last, 2026)).startswith("27-")


def test_two_thousand_lots_have_two_thousand_codes() -> None:
    assert len({code_of(key) for key in given_out(2_000)}) == 2_000


@pytest.mark.parametrize(
    "typed",
    ["{}", " {} ", "{}\n", "\t{}", "\u00a0{}"],
)
def test_space_around_a_code_is_forgiven(typed: str) -> None:
    key = given_out(1)[0]
    assert lot_id_of(typed.format(code_of(key))) == key


def test_hyphens_case_and_inner_spaces_are_forgiven() -> None:
    key = next(key for key in given_out(60) if code_of(key)[-1].isalpha())
    code = code_of(key)
    for typed in (code.lower(), code.replace("-", ""), code.replace("-", " "), code.replace("-", "–")):
        assert lot_id_of(typed) == key


@pytest.mark.parametrize(
    "text",
    [
        "", "   ", "26", "26-00417", "26-0417-E", "deer", "26-00417-EE", "26-00000000417-E", "26-00417-*",
        "９９-00417-E", "26-O0417-E", "אבגדהוזח", "x" * 10_000, "26-00417-E; DROP TABLE lot", "\x00", "🦌",
    ],
)  # fmt: skip
def test_what_is_no_code_is_refused_with_a_sentence(text: str) -> None:
    assert not looks_like_code(text)
    with pytest.raises(Refusal) as refused:
        lot_id_of(text)
    assert refused.value.field == "code"
    assert "A code looks like 26-00417-E" in refused.value.what_to_do
    assert len(str(refused.value)) < 200


def test_a_misfit_is_told_apart_from_nonsense() -> None:
    right = code_of(given_out(1)[0])
    wrong = right[:-1] + ("2" if right[-1] != "2" else "3")
    with pytest.raises(Refusal, match="does not fit its digits"):
        lot_id_of(wrong)


def test_the_code_in_our_own_hints_is_a_right_one() -> None:
    assert code_of(lot_id_of("26-00417-E")) == "26-00417-E"


def test_zeros_put_before_the_number_do_not_make_a_second_code_for_a_lot() -> None:
    bare = mod_37_2.calc_check_digit("26000417")
    assert not is_accepted(f"26-000417-{bare}")
