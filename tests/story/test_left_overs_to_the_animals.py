"""A dish is cooked, held, cooled; what was left is served next day in another dish, and traced to animals."""

from datetime import date
from fractions import Fraction

from larder_house import House

from gametrace.register import acts, questions

THURSDAY, FRIDAY = date(2026, 11, 12), date(2026, 11, 13)


def test_a_plate_of_left_overs_is_traced_to_its_animals_to_the_gram(house: House) -> None:
    by = {"by": house.tutor}
    doe = house.dressed(tag="0417", grams=40_000)
    pricket = house.dressed(tag="0418", sex="male", age_class="pricket", grams=38_000)
    hind = house.dressed(tag="0419", species="red", age_class="hind", grams=70_000)
    mince = house.mix((house.trim(doe, 1_200), None), (house.trim(pricket, 800), None))
    shoulder = house.pack(hind, 1_000, product="shoulder")

    ragout = house.dish((mince, 1_500), (shoulder, 500), name="Ragout", on=THURSDAY, portions=20)
    acts.record_cooking(house.reg, **by, code=ragout, tenths_c=752, seconds=60, probe="T001")
    acts.record_hot_hold(house.reg, **by, code=ragout, tenths_c=651)
    acts.serve_dish(house.reg, **by, code=ragout, portions=12, to_group="Level 2, group B")
    acts.record_cooling(house.reg, **by, code=ragout, tenths_c=50, minutes=85)
    kept = acts.keep_left_over(house.reg, **by, code=ragout, portions=8, place="C1.S1").code
    assert questions.lot(house.reg, kept).grams == 800

    house.clock.go(days=1)
    haunch = house.pack(doe, 700)
    pie = house.dish((kept, 800), (haunch, 400), name="Cottage pie", on=FRIDAY, portions=10)
    acts.record_reheat(house.reg, **by, code=pie, tenths_c=780, seconds=120)
    acts.serve_dish(house.reg, **by, code=pie, portions=10, to_group="staff")

    trace = questions.trace(house.reg, pie)
    # 800 g of the ragout: 3/4 mince (3/5 doe, 2/5 pricket), 1/4 hind; and 400 g of the doe.
    assert {one.code: one.share for one in trace.animals} == {
        doe: Fraction(2, 3) * Fraction(3, 4) * Fraction(3, 5) + Fraction(1, 3),
        pricket: Fraction(2, 3) * Fraction(3, 4) * Fraction(2, 5),
        hind: Fraction(2, 3) * Fraction(1, 4),
    }
    assert {one.code: one.grams for one in trace.animals} == {doe: 760, pricket: 240, hind: 200}
    assert {one.code for one in trace.back} >= {ragout, kept, mince, shoulder, haunch}

    forward = questions.trace(house.reg, hind)
    assert {one.code: one.grams_from for one in forward.forward}[pie] == 200
    rows = {row.words: row.grams for row in forward.balance.rows}
    assert rows["served"] == 500
    assert sum(rows.values()) == 70_000

    hold = house.hold(hind, reason="the estate rang")
    assert house.state(pie) == house.state(ragout) == "on hold"
    acts.release_hold(house.reg, **by, hold=hold, reason="cleared")
    assert questions.check(house.reg) == ()
