"""Yields asked of the register: shares of what lay on the block, beside all that is known."""

from __future__ import annotations

import statistics
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from functools import partial
from typing import Any

import pytest
from larder_house import House

from gametrace.domain.codes import lot_id_of
from gametrace.domain.deliveries import Basis
from gametrace.domain.errors import Refusal
from gametrace.domain.lineage import Edge
from gametrace.domain.yields import percent_text
from gametrace.register import acts, block, questions
from gametrace.register.acts import Out
from gametrace.register.work import perform
from gametrace.register.yield_reading import _Tree
from gametrace.store import look_lots

IN_SKIN_HEAD_ON = Basis(in_skin=True, head_on=True, feet_on=True, pluck_in=False)
# One roe buck, two-stage balance in kilos: parey-jagdausbildung.de/preisfindung-wildbret, seen.
ROE_BONE_IN = {"saddle": 2_170, "haunch": 5_040, "shoulder": 2_130, "breast": 2_450}
ROE_BONELESS = {"saddle": 1_100, "haunch": 4_060, "shoulder": 1_400, "breast": 1_390}


def roe_buck(house: House) -> str:
    """The published buck, weighed off as it is printed: 16.00 kg 3.19 of skin, head and feet."""
    buck = house.receive(
        species="roe",
        sex="male",
        age_class="buck",
        grams=16_000,
        basis=IN_SKIN_HEAD_ON,
        killed_on=date(2026, 10, 30),
    )
    acts.dress_carcass(
        house.reg,
        by=house.technician,
        code=buck,
        outputs=[Out("skin", 1_600), Out("head", 900), Out("feet", 690)],
        tag=acts.TagHandOver("printed"),
    )
    joints = house.out(buck, *(Out(*one) for one in ROE_BONE_IN.items()), Out("condemned", 1_000))
    acts.close_lot(house.reg, by=house.tutor, code=buck, reason="ten grams on the scale")
    for (part, on_the_bone), joint in zip(ROE_BONE_IN.items(), joints, strict=False):
        house.out(joint, Out("boneless", ROE_BONELESS[part]), Out("bone", on_the_bone - ROE_BONELESS[part]))
    return buck


def share(house: House, code: str, name: str, of: str) -> Fraction:
    found = questions.yield_of(house.reg, code)
    return next(one.share for one in found.compared if (one.measure.name, one.measure.of) == (name, of))


def test_the_roe_bucks_two_stage_balance_comes_out_of_the_register_as_it_is_printed(house: House) -> None:
    buck = roe_buck(house)
    found = questions.yield_of(house.reg, buck)
    assert found.animal.grams_in == 12_810
    assert found.animal.unaccounted_grams == 20  # printed kilos: 11.79 of cuts and 1.00 off of 12.81
    said = {
        "saddle": ("18.4 %", "50.7 %"),
        "haunch": ("42.7 %", "80.6 %"),
        "shoulder": ("18.1 %", "65.7 %"),
        "breast and flank": ("20.8 %", "56.7 %"),
    }
    for name, (of_cuts, boneless) in said.items():
        assert percent_text(share(house, buck, name, "cuts on the bone")) == of_cuts
        assert percent_text(share(house, buck, f"boneless of {name}", "the same cut on the bone")) == boneless
    assert percent_text(share(house, buck, "skin, head and feet", "gralloched in the skin")) == "19.9 %"
    assert percent_text(share(house, buck, "boneless", "gralloched in the skin")) == "49.7 %"
    assert not [
        one for line in found.compared for one in line.findings if one.code == "yield-far-from-published"
    ]


def test_every_published_figure_comes_with_its_source_and_how_many_animals(house: House) -> None:
    found = questions.yield_of(house.reg, roe_buck(house))
    spreads = [one for line in found.compared for one in line.others.published]
    assert spreads
    assert all(one.source and one.status and one.name for one in spreads)
    assert {one.animals for one in spreads} == {1}


def test_published_shares_that_do_not_come_to_100_warn_and_stand_as_printed(house: House) -> None:
    # Fallow joints of a carcass 12.6 + 15.4 + 17.8 + 15.5 + 39.4 = 100.7: Massey University thesis 1985.
    doe = house.dressed(sex="male", age_class="pricket")
    house.out(doe, Out("haunch", 15_000), Out("neck", 25_000))
    found = questions.yield_of(house.reg, doe)
    assert any("100.70 %" in one.sentence for one in found.findings)
    haunch = next(line for line in found.compared if line.measure.name == "haunch")
    assert [(one.low, one.high) for one in haunch.others.published] == [(Fraction(394, 1000),) * 2]


def test_a_row_of_the_other_sex_is_marked_and_nothing_is_asked_because_of_it(house: House) -> None:
    doe = house.dressed()
    house.out(doe, Out("haunch", 4_000), Out("neck", 36_000))
    haunch = next(one for one in questions.yield_of(house.reg, doe).compared if one.measure.name == "haunch")
    assert [one.is_of_its_sex for one in haunch.others.published] == [False]
    assert haunch.findings == ()


def cut_doe(house: House, haunch: int, **given: object) -> str:
    doe = house.dressed(**given)
    house.out(doe, Out("haunch", haunch), Out("shoulder", 40_000 - haunch))
    return doe


def test_the_larders_own_median_comes_with_the_fifth_and_says_that_it_rests_on_few(house: House) -> None:
    does = [cut_doe(house, grams) for grams in (15_000, 16_000, 17_000, 12_000)]
    before = next(
        one for one in questions.yield_of(house.reg, does[0]).compared if one.measure.name == "haunch"
    )
    assert before.others.median is None
    assert before.others.few is not None
    assert "Only 4 animals" in before.others.few.sentence
    cut_doe(house, 18_000)
    after = next(
        one for one in questions.yield_of(house.reg, does[0]).compared if one.measure.name == "haunch"
    )
    assert after.others.median is not None
    assert after.others.median.median == Fraction(16, 40)
    assert "only 5 animals" in (after.others.few.sentence if after.others.few else "")


def test_left_and_right_of_one_beast_stand_side_by_side(house: House) -> None:
    doe = house.dressed()
    left, right, _ = house.out(
        doe, Out("haunch", 8_000, side="left"), Out("haunch", 8_200, side="right"), Out("neck", 23_800)
    )
    house.out(left, Out("topside", 6_000), Out("bone", 2_000))
    house.out(right, Out("topside", 6_970), Out("bone", 1_230))
    pairs = {one.part: one for one in questions.yield_of(house.reg, doe).sides}
    assert pairs["haunch"].grams == (8_000, 8_200)
    assert [percent_text(one) for one in pairs["haunch"].boneless if one] == ["75.0 %", "85.0 %"]
    assert pairs["topside"].grams == (6_000, 6_970)  # the side is the joint's it came from
    by_side = {one.key: one for one in questions.yields(house.reg, by="side").groups}
    assert set(by_side) == {"left", "right"}
    assert next(one.measure.name for one in by_side["left"].measures) == "left haunch"


def test_a_split_sides_parts_take_its_side(house: House) -> None:
    doe = house.dressed()
    left, right = house.out(doe, Out("left-side", 20_000), Out("right-side", 20_000))
    house.out(left, Out("haunch", 8_000), Out("shoulder", 12_000))
    house.out(right, Out("haunch", 8_400), Out("shoulder", 11_600))
    pairs = {one.part: one.grams for one in questions.yield_of(house.reg, doe).sides}
    assert pairs["haunch"] == (8_000, 8_400)
    assert share(house, doe, "haunch", "carcass") == Fraction(164, 400)


@pytest.mark.parametrize("by", ["carcass", "species", "sex", "age", "supplier", "side", "cutter"])
def test_yields_are_grouped_by_whatever_is_asked(house: House, by: str) -> None:
    cut_doe(house, 15_000)
    cut_doe(house, 16_000, sex="male", age_class="pricket")
    sheet = questions.yields(house.reg, by=by)
    assert len(sheet.animals) == 2
    assert len(sheet.groups) == {"carcass": 2, "species": 1, "sex": 2, "age": 2, "supplier": 1}.get(by, 0)
    assert all(one.words for one in sheet.groups)


def test_only_what_was_chosen_is_counted(house: House) -> None:
    cut_doe(house, 15_000)
    cut_doe(house, 16_000, sex="male", age_class="pricket")
    assert len(questions.yields(house.reg, sex="male").animals) == 1
    assert len(questions.yields(house.reg, first=date(2030, 1, 1)).animals) == 0
    with pytest.raises(Refusal):
        questions.yields(house.reg, by="colour of hair")


def plain_walk(house: House, code: str) -> dict[str, Fraction]:
    """One animal's shares of the carcass, cut by cut, by asking what was made of it and adding up."""
    with house.reg.store.reading() as connection:
        lot = look_lots.lot_row(connection, lot_id_of(code))
        below = look_lots.children_rows(connection, lot.id)
    grams: dict[str, int] = {}
    for row in below:
        if row.kind in ("part", "pack"):
            grams[row.product] = grams.get(row.product, 0) + row.given
    return {} if lot.grams_left else {part: Fraction(one, 40_000) for part, one in grams.items()}


def test_many_animals_read_at_once_give_what_a_plain_walk_of_each_gives(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    does = [cut_doe(house, 15_000 + 100 * grams * grams) for grams in range(7)]
    does += [cut_doe(house, 14_000 + one, sex="male", age_class="pricket") for one in range(6)]
    unfinished = house.dressed()
    house.out(unfinished, Out("haunch", 8_000))
    monkeypatch.setattr("gametrace.register.yields._AT_ONCE", 4)  # several looks for one answer
    steps: list[tuple[int, int]] = []
    sheet = questions.yields(house.reg, by="sex", species="fallow", progress=lambda *step: steps.append(step))
    walked = {code: plain_walk(house, code) for code in (*does, unfinished)}
    groups = {"fallow": sheet.animals} | {one.key: one.animals for one in sheet.groups}
    measures = {"fallow": sheet.measures} | {one.key: one.measures for one in sheet.groups}
    assert steps == [(at, 14) for at in (0, 4, 8, 12)]
    assert {name: len(animals) for name, animals in groups.items()} == {"fallow": 14, "female": 8, "male": 6}
    for name, animals in groups.items():
        for part in ("haunch", "shoulder"):
            (found,) = (
                one for one in measures[name] if (one.measure.part, one.measure.of) == (part, "carcass")
            )
            plain = {a.code: walked[a.code][part] for a in animals if part in walked[a.code]}
            assert {one.code: one.share for one in found.own} == plain
            assert found.median is not None
            assert found.median.median == statistics.median(plain.values())
            assert (found.median.low, found.median.high) == (min(plain.values()), max(plain.values()))


def test_the_newest_only_are_read_where_that_is_asked_and_it_is_said(house: House) -> None:
    does = [cut_doe(house, 15_000 + 100 * one) for one in range(7)]
    newest = questions.yields(house.reg, newest=5)
    assert [one.code for one in newest.animals] == does[:1:-1]
    assert newest.is_cut_off
    assert not questions.yields(house.reg, newest=7).is_cut_off
    assert questions.yields(house.reg, newest=7) == questions.yields(house.reg)
    old = questions.yield_of(house.reg, does[0], newest=5)
    assert (old.like_it, old.like_words) == (6, "fallow doe, the newest 5 and itself")
    assert questions.yield_of(house.reg, does[6], newest=5).like_words == "fallow doe, the newest 5"
    assert questions.yield_of(house.reg, does[0]).like_words == "fallow doe"


def test_an_unfinished_break_down_gives_no_share_of_the_carcass_and_no_median(house: House) -> None:
    doe = house.dressed()
    house.out(doe, Out("haunch", 8_000))
    found = questions.yield_of(house.reg, doe)
    assert not found.animal.is_finished
    assert [one for one in found.compared if one.measure.of == "carcass"] == []


def test_what_was_never_cut_is_refused_in_a_sentence(house: House) -> None:
    with pytest.raises(Refusal, match="Nothing has been weighed off"):
        questions.yield_of(house.reg, house.receive())


def test_a_corrected_weight_changes_the_share_at_once(house: House) -> None:
    doe = house.dressed()
    haunch, _ = house.out(doe, Out("haunch", 15_000), Out("neck", 24_500))
    acts.close_lot(house.reg, by=house.tutor, code=doe, reason="looked")
    acts.correct_weight(house.reg, by=house.tutor, code=haunch, grams=15_200, reason="tare left on")
    assert share(house, doe, "haunch", "carcass") == Fraction(152, 400)


def test_a_row_that_closes_at_100_is_passed_in_silence_and_lamb_is_held_against_nothing(house: House) -> None:
    # Rabbit, parts of the carcass: 30.67 + 29.04 + 21.94 + 18.35 = 100.00. Kuzelov 2011, abstract.
    # The tree of lamb (50 and 50; USDA Department Bulletin 300) is of an animal no larder here takes.
    roe = house.dressed(species="roe", age_class="doe", grams=12_000)
    house.out(roe, Out("haunch", 5_000), Out("neck", 7_000))
    found = questions.yield_of(house.reg, roe)
    assert not any("lamb" in one.name.lower() for line in found.compared for one in line.others.published)
    assert [one.sentence for one in found.findings if "99.95" in one.sentence]  # the roe row is five short
    assert questions.yields(house.reg, species="rabbit").findings == ()


def test_a_cutters_cuts_are_put_together_once_a_session_names_them(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    doe = house.dressed()
    left, right, _ = house.out(
        doe, Out("haunch", 8_000, side="left"), Out("haunch", 8_000, side="right"), Out("neck", 24_000)
    )
    for joint, meat, cutter in ((left, 6_000, "G2-04"), (right, 6_800, "G2-11")):
        with monkeypatch.context() as patched:
            patched.setattr(block, "perform", partial(_named, cutter))
            house.out(joint, Out("topside", meat), Out("bone", 8_000 - meat))
    groups = {one.key: one for one in questions.yields(house.reg, by="cutter").groups}
    boned = {
        key: [one.own[0].share for one in group.measures if one.measure.part == "haunch"]
        for key, group in groups.items()
    }
    assert boned == {"G2-04": [Fraction(3, 4)], "G2-11": [Fraction(17, 20)]}
    (haunch,) = (one for one in questions.yield_of(house.reg, doe).sides if one.part == "haunch")
    assert haunch.cutters == ("G2-04", "G2-11")
    assert questions.yields(house.reg, by="cutter", cutter="G2-04").animals[0].code == doe


def _named(cutter: str, register: Any, kind: str, decide: Any, **given: Any) -> Any:
    """The act as a cutting session writes it: with the roster code of who cut."""

    def with_name(work: Any) -> Any:
        plan = decide(work)
        return replace(plan, body={**plan.body, "cutter": cutter})

    return perform(register, kind, with_name, **given)


@dataclass
class Row:
    id: int
    kind: str
    product: str
    grams_in: int
    grams_left: int = 0
    unaccounted: int = 0
    cut_state: str = ""


@pytest.mark.parametrize(("state", "boneless"), [("boneless", 6_000), ("", None), ("bone-in", None)])
def test_a_haunch_boned_to_a_haunch_is_boned_and_one_packed_as_it_was_is_not(
    state: str, boneless: int | None
) -> None:
    rows = {
        1: Row(1, "part", "haunch", 8_000),
        2: Row(2, "pack", "haunch", 6_000, cut_state=state),
        3: Row(3, "by-product", "bone", 2_000),
    }
    tree = _Tree(1, {1: [Edge(1, 2, 6_000), Edge(1, 3, 2_000)]}, rows, {})
    assert tree.boned(rows[1]) == boneless
