"""The plan of everything that hangs, and the reason asked where it hangs past its day."""

from __future__ import annotations

from datetime import date

import pytest

from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions


def test_every_hung_animal_has_the_plan_its_own_file_shows(house) -> None:
    roe = house.receive(species="roe", sex="female", age_class="doe", grams=16_000)
    doe = house.receive()
    undated = house.receive(killed_on=None, kill_time="")
    plans = questions.hanging_plans(house.reg, [roe, doe, undated])
    assert set(plans) == {roe, doe}
    assert plans[doe] == questions.animal_file(house.reg, doe).plan


def test_hanging_past_its_day_takes_a_reason_and_keeps_the_question_with_it(house) -> None:
    doe = house.receive(killed_on=date(2026, 11, 10))
    with pytest.raises(Refusal, match="no such question"):
        acts.answer_finding(house.reg, by=house.tutor, code=doe, reasons={"hanging-over-run": "too early"})
    house.clock.go(days=20)
    given = {"hanging-over-run": "old buck, cold and dry, looked at daily"}
    acts.answer_finding(house.reg, by=house.tutor, code=doe, reasons=given)
    carcass = questions.carcass(house.reg, doe)
    assert carcass.reasons["hanging-over-run"] == given["hanging-over-run"]
    house.clock.go(days=2)
    acts.answer_finding(house.reg, by=house.tutor, code=doe, reasons={"hanging-over-run": "two days more"})
    asked = [f for f in questions.carcass(house.reg, doe).findings if f.code == "hanging-over-run"]
    assert len(asked) == 1
    assert "24 days" in asked[0].sentence
    before = questions.carcass(house.reg, doe)
    acts.rebuild(house.reg)
    assert questions.carcass(house.reg, doe) == before
