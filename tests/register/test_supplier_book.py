"""The supplier book: what is kept, what may be changed and how, lapsed papers at the door, the score."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from larder_house import House

from gametrace.domain.deliveries import Decision
from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.register.supplier_book import Approval, lapsed

WHOLE: dict[str, Any] = {
    "name": "Oss Fen Deer", "address": "Fen Drove, Oss", "phone": "01632 960 001", "trained_hunter": "B. Oss",
    "route": "park-as-wild", "origin": "park", "approval_number": "UK 1234", "certificate_number": "TH-9",
    "certificate_until": date(2027, 5, 1), "insured_until": date(2026, 12, 31),
    "review_on": date(2027, 1, 15), "lead_free": "yes", "damage_rule": "fixed", "damage_pence": 1500,
    "claim_days": 4, "price_basis": "in the skin, head off",
}  # fmt: skip


def kept(house: House, code: str) -> Approval:
    return questions.approvals(house.reg)[code]


def amend(house: House, reason: str = "", **given: Any) -> None:
    acts.amend_supplier(house.reg, by=house.technician, supplier=house.supplier, reason=reason, **given)


def test_a_whole_file_comes_back_as_it_was_given_and_after_a_rebuild(house: House) -> None:
    code = acts.add_supplier(house.reg, by=house.tutor, **WHOLE).code
    assert kept(house, code) == Approval(**WHOLE)
    acts.rebuild(house.reg)
    assert kept(house, code) == Approval(**WHOLE)
    assert questions.check(house.reg) == ()


def test_a_supplier_s_name_address_and_telephone_are_not_in_the_journal(house: House) -> None:
    code = acts.add_supplier(house.reg, by=house.tutor, **WHOLE).code
    acts.amend_supplier(
        house.reg, by=house.tutor, supplier=code, phone="01632 960 999", reason="new telephone"
    )
    with house.reg.store.reading() as connection:
        sealed = " ".join(connection.exec_driver_sql("SELECT text FROM entry").scalars())
    for said in ("Oss Fen Deer", "Fen Drove", "01632", "B. Oss"):
        assert said not in sealed
    assert "UK 1234" in sealed


def test_filling_a_blank_needs_no_reason_and_changing_does(house: House) -> None:
    amend(house, approval_number="UK 77", insured_until=date(2027, 1, 1))
    for given in ({"approval_number": "UK 78"}, {"insured_until": None}, {"phone": "1", "name": "Else"}):
        before = questions.seal(house.reg)
        with pytest.raises(Refusal, match="needs a reason"):
            amend(house, **given)
        assert questions.seal(house.reg) == before
        amend(house, reason="their letter of Tuesday", **given)
    assert kept(house, house.supplier).approval_number == "UK 78"
    assert kept(house, house.supplier).insured_until is None
    assert kept(house, house.supplier).certificate_number == "TH-77", "what was not named stays"


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"name": " "}, "name"),
        ({"route": "drone"}, "route"),
        ({"origin": "moon"}, "origin"),
        ({"damage_rule": "whatever"}, "damage_rule"),
        ({"damage_pence": -1}, "damage_pence"),
        ({"damage_pence": 100_001}, "damage_pence"),
        ({"claim_days": 91}, "claim_days"),
        ({"claim_days": -1}, "claim_days"),
        ({"lead_free": "maybe"}, "lead_free"),
        ({"phone": "1" * 201}, "phone"),
        ({"address": "x" * 501}, "address"),
    ],
)
def test_what_cannot_be_is_refused_at_its_field_when_added_and_when_amended(
    house: House, given: dict[str, Any], field: str
) -> None:
    before = questions.seal(house.reg)
    with pytest.raises(Refusal) as added:
        acts.add_supplier(house.reg, by=house.tutor, **{**WHOLE, **given})
    with pytest.raises(Refusal) as amended:
        amend(house, reason="a slip", **given)
    assert added.value.field == amended.value.field == field
    assert questions.seal(house.reg) == before


def test_nothing_different_and_nobody_known_are_refused(house: House) -> None:
    with pytest.raises(Refusal, match="Nothing is different"):
        amend(house, reason="x", name="Perrin Ashdown")
    with pytest.raises(Refusal, match="no supplier"):
        acts.amend_supplier(house.reg, by=house.tutor, supplier="S999", name="Who", reason="x")
    with pytest.raises(TypeError, match="hat_size"):
        amend(house, hat_size=7)


def test_a_paper_holds_on_its_last_day_and_lapses_the_day_after() -> None:
    one = Approval(certificate_until=date(2026, 11, 12), insured_until=date(2026, 11, 13))
    assert lapsed(one, date(2026, 11, 12)) == ()
    assert lapsed(one, date(2026, 11, 13)) == ("the trained person's certificate",)
    assert len(lapsed(one, date(2026, 11, 14))) == 2
    assert lapsed(Approval(), date(2099, 1, 1)) == (), "what nobody has seen cannot lapse"


def test_a_lapsed_paper_asks_at_the_door_and_holds_nothing(house: House) -> None:
    amend(house, certificate_until=date(2026, 11, 11))
    code = house.receive()
    (asked,) = [f for f in questions.carcass(house.reg, code).findings if f.code == "supplier-lapsed"]
    assert asked.severity == "ask"
    assert "certificate no longer holds" in asked.sentence
    assert house.state(code) == "hanging"


def test_the_score_counts_from_the_larder_s_own_records(house: House) -> None:
    house.receive()
    house.receive(readings=(("haunch", 95),))
    house.held(Decision.REJECT)
    house.receive(route="wild-approved", has_declaration=False)
    shot = house.dressed(grams=20_000)
    house.out(shot, acts.Out("shot-damage", 700))
    score = questions.scores(house.reg)[house.supplier]
    assert questions.scores(house.reg, house.supplier) == {house.supplier: score}
    assert questions.scores(house.reg, "S999") == {}
    assert (score.animals, score.refused, score.warm, score.damaged_grams) == (5, 1, 1, 700)
    assert score.grams == 4 * 40_000 + 20_000
    assert score.paper_gaps >= 1
