"""A whole night at the pass on a PostgreSQL server: the same rows, the same refusals, nothing lost."""

from __future__ import annotations

import pytest
from larder_house import House

from gametrace.domain.errors import Refusal
from gametrace.register import acts, keeping, questions


def test_a_night_at_the_pass_on_a_server_is_whole_and_plays_again(house: House) -> None:
    reg, by, day = house.reg, house.tutor, house.reg.today()
    one, two = house.pack(house.dressed(), 1_000), house.pack(house.dressed(), 800)
    dish = house.dish((one, 700), (two, 200), name="Fallow pie", claims=[acts.Claim("wild")])
    acts.record_cooking(reg, by=by, code=dish, tenths_c=650, seconds=60, note="own plan 7")
    acts.record_cooling(reg, by=by, code=dish, tenths_c=60, minutes=80)
    acts.change_dish(reg, by=by, code=dish, added=[(one, 100)], not_used=[(two, None)], reason="swap")
    acts.note_ingredients(reg, by=by, code=dish, ingredients=[acts.Ingredient("cream")])
    for _ in range(2):
        acts.write_menu_line(reg, by=by, code=dish, claims=[acts.Claim("hung", "1"), acts.Claim("wild")])
        acts.note_covers(reg, by=by, occasion="Lunch", on=day, covers=9)
        acts.note_labels_printed(reg, by=by, codes=[dish], sort="dish")
    acts.serve_dish(reg, by=by, code=dish, portions=9, to_group="table 4")
    left = acts.keep_left_over(reg, by=by, code=dish, portions=3).code
    acts.issue_lot(reg, by=by, inputs=[(two, 100)], charged_to="L2", on=day)
    inn = acts.add_customer(reg, by=by, name="Inn", address="Quay 4").code
    sold = acts.supply_lot(reg, by=by, customer=inn, inputs=[(two, 300)], dispatched_on=day).code
    house.hold(two)
    with pytest.raises(Refusal, match="smells odd"):
        house.dish((two, 100))

    file = questions.dish_file(reg, dish)
    assert (file.served, file.here, file.lot.grams_made) == (9, 0, 800)
    assert house.state(left) == "ready"
    assert house.state(sold) == "on hold"
    assert questions.menu_check(reg, dish, [acts.Claim("wild")]).line == "wild venison"
    assert [one.covers for one in questions.services(reg, day)] == [9, None]
    assert questions.supply_note(reg, sold).supplies[0].grams == 300
    assert questions.service_days(reg) == (day.replace(day=13), day)
    assert len(questions.issues(reg)) == len(questions.customers(reg)) == 1
    questions.today(reg)
    assert questions.check(reg) == ()
    assert keeping.rebuild(reg) == questions.seal(reg).count
    assert questions.check(reg) == ()
