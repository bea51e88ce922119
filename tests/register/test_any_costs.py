"""Any history of cutting, mincing, plating, binning, claims and corrections: no penny is made or lost.

Asked one lot at a time or all at once, a cost is the same; what a lot hands on and keeps comes to what it
bore; the three ways each come to what was paid.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from larder_house import House

from gametrace.domain.codes import lot_id_of
from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.register.acts import Out
from gametrace.register.cost_walk import CostWalk

CUTS = ("haunch", "loin", "shoulder", "trim", "neck", "stock-bones", "bone", "condemned")
WAYS = ("weight", "points", "sales value")
steps = st.lists(
    st.tuples(
        st.sampled_from(("cut", "cut", "cut", "mix", "dish", "bin", "price", "credit", "close")),
        st.integers(0, 10_000),
        st.integers(1, 95),
        st.sampled_from(CUTS),
    ),
    min_size=3,
    max_size=14,
)


def lived(house: House, history: list[tuple[str, int, int, str]]) -> list[str]:
    """Plays the steps that can be; gives every code there is."""
    acts.amend_supplier(
        house.reg, by=house.tutor, supplier=house.supplier, damage_rule="bought price", claim_days=60
    )
    for product, pence in (
        ("haunch", 2_000),
        ("loin", 4_100),
        ("shoulder", 1_300),
        ("trim", 777),
        ("neck", 901),
    ):
        acts.set_policy(house.reg, by=house.tutor, name=f"price.{product}", value=str(pence), reason="card")
    beasts = [
        house.dressed(grams=grams, pence_per_kg=price) for grams, price in ((30_001, 333), (27_013, 401))
    ]
    codes, claims = list(beasts), []
    for what, pick, percent, cut in history:
        code = codes[pick % len(codes)]
        grams = house.left(code) * percent // 100
        try:
            if what == "cut":
                codes += house.out(code, Out(cut, grams))
            elif what == "mix":
                codes.append(house.mix((code, grams), (codes[-1], None)))
            elif what == "dish":
                codes.append(house.dish((code, grams)))
                acts.price_dish(house.reg, by=house.tutor, code=codes[-1], price_pence=10 * percent)
            elif what == "bin":
                codes.append(house.bin(code, grams))
            elif what == "close":
                acts.close_lot(house.reg, by=house.tutor, code=code, reason="looked")
            elif what == "price":
                acts.amend_carcass(
                    house.reg,
                    by=house.tutor,
                    code=beasts[pick % 2],
                    changes={"pence_per_kg": 200 + percent},
                    reason="invoice",
                )
            else:
                claims.append(
                    acts.raise_claim(
                        house.reg, by=house.tutor, code=beasts[pick % 2], grams=100 * percent, reason="shot"
                    ).code
                )
                acts.settle_claim(house.reg, by=house.tutor, claim=int(claims[-1]), status="credited")
        except Refusal:
            continue
    return codes


def pictures_come_to_their_beast(house: House, beasts: list[str]) -> None:
    for code in beasts:
        picture = questions.cost_picture(house.reg, code)
        assert sum(row.grams for row in picture.rows) + picture.unaccounted_grams == picture.grams
        for way in WAYS:
            if not picture.why_unknown[way]:
                assert sum(row.pence[way] or 0 for row in picture.rows) == picture.paid[way]


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(steps)
def test_no_history_makes_or_loses_a_penny(history: list[tuple[str, int, int, str]]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        house = House(Path(folder) / "larder.register")
        try:
            codes = lived(house, history)
            pictures_come_to_their_beast(house, codes[:2])
            with house.reg.store.reading() as connection:
                whole = CostWalk(connection, [lot_id_of(code) for code in codes])
            paid = sum(one.net_pence or 0 for one in whole.purchases.values())
            for way in ("weight", "points"):
                assert sum(whole.flow(way).kept.values()) == paid
            for code in codes:
                alone = questions.cost(house.reg, code)
                assert alone.by_method == {way: whole.pence(lot_id_of(code), way) for way in WAYS}
                for way in WAYS:
                    if alone.by_method[way] is None:
                        continue
                    given_on = [line.pence[way] for line in alone.lines]
                    if None not in given_on:
                        kept = alone.kept_pence[way] or 0
                        assert sum(one or 0 for one in given_on) + kept == alone.by_method[way]
                if alone.pence is not None:
                    assert sum(one.pence or 0 for one in alone.animals) == alone.pence
                assert sum(one.share for one in alone.animals) == 1
            assert questions.check(house.reg) == ()
        finally:
            house.close()
