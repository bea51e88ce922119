"""Claims against the supplier: each rule against a sum done by hand, the window, and what became of it.

The rules and figures of 0.6 kg of loin are an invented example: whether 1.80 or 6.04 is due depends on the
rule agreed, so the rule is agreed before and kept on the supplier. Common practice, no source.
"""

from datetime import timedelta
from typing import Any

import pytest
from larder_house import House

from gametrace.domain.deliveries import Decision
from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.register.animal_file import Claim


def agree(house: House, rule: str, **given: Any) -> None:
    acts.amend_supplier(
        house.reg, by=house.tutor, supplier=house.supplier, damage_rule=rule, reason="as agreed", **given
    )


def claim(house: House, code: str, grams: int = 600, **given: Any) -> int:
    return int(
        acts.raise_claim(
            house.reg, by=house.technician, code=code, grams=grams, reason="loin shot through", **given
        ).code
    )


def shown(house: House, code: str) -> Claim:
    return questions.animal_file(house.reg, code).claims[-1]


def settle(house: House, number: int, status: str, pence: int | None = None) -> None:
    note = "by telephone"
    acts.settle_claim(house.reg, by=house.tutor, claim=number, status=status, pence=pence, note=note)


def test_0_6_kg_of_loin_comes_to_1_80_at_the_price_bought_in_the_skin(house: House) -> None:
    agree(house, "bought price")
    deer = house.receive(pence_per_kg=300)
    claim(house, deer)
    assert shown(house, deer).pence == 180


def test_0_6_kg_of_loin_comes_to_6_04_at_the_price_of_the_cut(house: House) -> None:
    agree(house, "cut price")
    deer = house.receive(pence_per_kg=300)
    claim(house, deer, cut_pence_per_kg=1_007)
    assert shown(house, deer).pence == 604


@pytest.mark.parametrize(
    ("grams", "pence_per_kg", "pence"), [(1, 499, 0), (1, 500, 1), (1_500, 333, 500), (40_000, 320, 12_800)]
)
def test_half_a_penny_goes_up(house: House, grams: int, pence_per_kg: int, pence: int) -> None:
    """0.499 p is nothing, 0.5 p a penny, 499.5 p five pounds, 40 kg at 3.20 are 128.00."""
    agree(house, "bought price")
    deer = house.receive(pence_per_kg=pence_per_kg)
    claim(house, deer, grams)
    assert shown(house, deer).pence == pence


def test_a_fixed_sum_is_the_sum_whatever_was_lost_and_needs_no_price(house: House) -> None:
    agree(house, "fixed", damage_pence=1_250)
    deer = house.receive(pence_per_kg=None)
    claim(house, deer, 3)
    assert shown(house, deer).pence == 1_250


def test_without_a_rule_there_is_no_claim(house: House) -> None:
    with pytest.raises(Refusal, match="No rule for damage"):
        claim(house, house.receive())


@pytest.mark.parametrize(
    ("rule", "given", "field"), [
        ("bought price", {}, "pence_per_kg"), ("cut price", {}, "cut_pence_per_kg"),
        ("cut price", {"cut_pence_per_kg": -5}, "cut_pence_per_kg"),
        ("cut price", {"cut_pence_per_kg": 100_001}, "cut_pence_per_kg"),
        ("bought price", {"grams": 0}, "grams"), ("bought price", {"grams": -1}, "grams"),
        ("bought price", {"grams": 40_001}, "grams"),
    ],
)  # fmt: skip
def test_a_claim_that_cannot_be_is_refused_at_its_field(
    house: House, rule: str, given: dict[str, Any], field: str
) -> None:
    agree(house, rule)
    deer = house.receive(pence_per_kg=None)
    with pytest.raises(Refusal) as refused:
        claim(house, deer, **given)
    assert refused.value.field == field


def test_all_claims_together_never_exceed_what_came(house: House) -> None:
    agree(house, "bought price")
    deer = house.receive()
    first = claim(house, deer, 30_000)
    with pytest.raises(Refusal, match="more than"):
        claim(house, deer, 10_001)
    settle(house, first, "refused")
    assert claim(house, deer, 40_000) == first + 1


def test_the_window_counts_the_last_day_and_ends_with_it(house: House) -> None:
    agree(house, "bought price", claim_days=3)
    deer = house.receive()
    house.clock.go(days=3)
    claim(house, deer)
    house.clock.go(days=1)
    with pytest.raises(Refusal, match="ended on 15 Nov"):
        claim(house, deer)
    with pytest.raises(Refusal, match="was only made on"):
        claim(house, deer, happened_at=house.clock.now - timedelta(days=5))


def test_with_no_window_agreed_a_claim_may_come_late(house: House) -> None:
    agree(house, "bought price")
    deer = house.receive()
    house.clock.go(days=300)
    claim(house, deer)


def test_the_rule_of_the_day_it_was_raised_stays_with_the_claim(house: House) -> None:
    agree(house, "bought price")
    deer = house.receive(pence_per_kg=300)
    claim(house, deer)
    agree(house, "fixed", damage_pence=9_900)
    assert (shown(house, deer).rule, shown(house, deer).pence) == ("bought price", 180)


def test_price_and_claim_stay_open_until_the_second_decision_and_beyond(house: House) -> None:
    agree(house, "bought price")
    deer = house.receive()
    house.dress(deer)
    acts.decide_again(house.reg, by=house.tutor, code=deer, decision=Decision.ACCEPT)
    claim(house, deer)
    acts.amend_carcass(
        house.reg, by=house.tutor, code=deer, changes={"pence_per_kg": 300}, reason="agreed anew"
    )
    assert shown(house, deer).pence == 192, "raised at 3.20, and the sum is not rewritten"


def test_an_agreed_claim_is_credited_with_the_sum_agreed(house: House) -> None:
    agree(house, "bought price")
    number = claim(house, deer := house.receive(pence_per_kg=300))
    assert [one.id for one in questions.open_claims(house.reg)] == [number]
    settle(house, number, "agreed", 150)
    assert (shown(house, deer).status, shown(house, deer).settled_pence) == ("agreed", 150)
    assert [one.id for one in questions.open_claims(house.reg)] == [number], "agreed is not paid"
    settle(house, number, "credited")
    assert (shown(house, deer).status, shown(house, deer).settled_pence) == ("credited", 150)
    assert questions.open_claims(house.reg) == ()
    for status in ("agreed", "credited", "refused"):
        with pytest.raises(Refusal, match="credited already"):
            settle(house, number, status)


def test_a_refused_claim_pays_nothing_whatever_was_typed(house: House) -> None:
    agree(house, "bought price")
    number = claim(house, deer := house.receive())
    settle(house, number, "refused", 500)
    assert (shown(house, deer).status, shown(house, deer).settled_pence) == ("refused", 0)


@pytest.mark.parametrize(("status", "pence"), [("paid", None), ("credited", -1), ("credited", 1_000_001)])
def test_a_settlement_that_cannot_be_is_refused(house: House, status: str, pence: int | None) -> None:
    agree(house, "bought price")
    number = claim(house, house.receive())
    with pytest.raises(Refusal):
        settle(house, number, status, pence)
    with pytest.raises(Refusal, match="no claim number"):
        settle(house, 99, "agreed")


def test_claims_survive_a_rebuild(house: House) -> None:
    agree(house, "bought price")
    number = claim(house, deer := house.receive())
    settle(house, number, "agreed", 7)
    before = questions.animal_file(house.reg, deer)
    assert questions.check(house.reg) == ()
    acts.rebuild(house.reg)
    assert questions.animal_file(house.reg, deer) == before
