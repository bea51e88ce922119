"""Cutting sessions: tables, students by code, one animal on a table, and a balance for each."""

from __future__ import annotations

from datetime import date

import pytest
from larder_house import House

from gametrace.domain.break_down import AMBER, EVEN, RED
from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.register.opening import open_register

LEFT, RIGHT = "table 1", "table 2"


def begin(house: House, **given) -> str:
    return acts.open_session(house.reg, by=house.tutor, group="L3 B", **given).code


def lay(house: House, session: str, station: str, code: str, **given):
    return acts.lay_on_table(house.reg, by=house.tutor, session=session, station=station, code=code, **given)


def students(house: House, *names: str) -> tuple[str, ...]:
    return acts.add_to_roster(house.reg, by=house.tutor, group="L3 B", names=names).created


def test_two_students_break_down_the_left_and_the_right_of_one_beast_at_two_tables(house: House) -> None:
    beast = house.dressed(grams=30_000)
    ann, bo = students(house, "Ann Rowan", "")
    session = begin(house)
    lay(house, session, LEFT, beast)
    left, right = house.out(beast, acts.Out("left-side", 14_900), acts.Out("right-side", 15_050))
    acts.close_lot(house.reg, by=house.tutor, code=beast)
    lay(house, session, LEFT, left)
    lay(house, session, RIGHT, right)
    sides = {
        left: (ann, "left", (4_400, 4_500, 2_300, 1_000, 2_500, 0)),
        right: (bo, "right", (4_500, 4_520, 2_350, 900, 2_400, 100)),
    }
    for code, (cutter, side, weights) in sides.items():
        products = ("haunch", "saddle", "shoulder", "neck", "bone", "shot-damage")
        outs = [
            acts.Out(product, grams, side=side if product in ("haunch", "shoulder") else "")
            for product, grams in zip(products, weights, strict=True)
            if grams
        ]
        house.out(code, *outs, cutter=cutter)
        acts.close_lot(house.reg, by=house.tutor, code=code, cutter=cutter)
    acts.close_session(house.reg, by=house.tutor, session=session)

    told = questions.session(house.reg, session)
    by_code = {one.view.lot.code: one for station in told.stations for one in station.lots}
    assert [station.name for station in told.stations] == [LEFT, RIGHT]
    assert [one.view.unaccounted_grams for one in by_code.values()] == [50, 200, 280]
    assert by_code[left].view.balance.level == EVEN
    assert by_code[right].view.balance.level == EVEN
    assert dict(by_code[right].view.balance.parts) == {
        "meat": 12_270,
        "bone": 2_400,
        "shot-damage": 100,
    }
    assert {cut.cutter for cut in told.cuts if cut.out_of == left} == {ann}
    assert {(cut.cutter, cut.station) for cut in told.cuts if cut.out_of == right} == {(bo, RIGHT)}
    assert (by_code[left].closed_by, by_code[right].closed_by) == (ann, bo)
    assert {animal.code for one in by_code.values() for animal in one.animals} == {beast}
    assert not told.session.is_open
    assert questions.open_sessions(house.reg) == ()
    haunch = next(cut.code for cut in told.cuts if cut.out_of == left and cut.product == "haunch")
    said = " ".join(line.sentence for line in questions.story(house.reg, haunch))
    assert f"cut by {ann} at {LEFT} of session {session}" in said
    assert "Ann" not in said
    assert questions.check(house.reg) == ()


def test_a_second_animal_on_a_table_is_asked_for_a_reason_which_is_kept(house: House) -> None:
    first, second = house.dressed(), house.dressed()
    session = begin(house)
    lay(house, session, LEFT, first)
    with pytest.raises(Refusal, match=f"lies {first}: {second} would be a second animal") as refused:
        lay(house, session, LEFT, second)
    assert refused.value.field == "reason"
    lay(house, session, RIGHT, second)  # a free table asks nothing
    third = house.dressed()
    lay(house, session, LEFT, third, reason="only two tables are clean")
    there = questions.session(house.reg, session).stations[0]
    assert {animal.code for animal in there.animals} == {first, third}
    assert there.lots[-1].reason == "only two tables are clean"
    assert any("beside" in line.sentence for line in questions.story(house.reg, third))


def test_more_of_the_same_animal_may_come_and_a_table_is_free_once_all_is_weighed(house: House) -> None:
    first, second = house.dressed(), house.dressed()
    session = begin(house)
    lay(house, session, LEFT, first)
    haunch = house.out(first, acts.Out("haunch", 5_000, side="left"))[0]
    lay(house, session, LEFT, haunch)
    for code, grams in ((haunch, 5_000), (first, 35_000)):
        house.out(code, acts.Out("boneless", grams))
    lay(house, session, LEFT, second)
    assert [one.code for one in questions.session(house.reg, session).stations[0].animals] == [second]


def test_a_mix_of_two_animals_counts_as_both(house: House) -> None:
    first, second, third = house.dressed(), house.dressed(), house.dressed()
    mince = house.mix((house.trim(first), 400), (house.trim(second), 400))
    session = begin(house)
    lay(house, session, LEFT, mince)
    assert len(questions.session(house.reg, session).stations[0].animals) == 2
    with pytest.raises(Refusal, match="second animal"):
        lay(house, session, LEFT, third)
    lay(house, session, LEFT, first)  # it is in the mince already


def test_what_lies_on_one_table_is_not_cut_at_another(house: House) -> None:
    beast = house.dressed()
    session = begin(house)
    lay(house, session, LEFT, beast)
    with pytest.raises(Refusal, match=f"lies on {LEFT}"):
        house.out(beast, acts.Out("neck", 900), session=session, station=RIGHT)
    house.out(beast, acts.Out("neck", 900))  # said or not, it is cut where it lies
    assert questions.session(house.reg, session).cuts[0].station == LEFT
    lay(house, session, RIGHT, beast)  # carried over
    house.out(beast, acts.Out("saddle", 900), session=session, station=RIGHT)
    assert [cut.station for cut in questions.session(house.reg, session).cuts] == [LEFT, RIGHT]


def test_a_lot_on_no_table_is_not_cut_in_a_session(house: House) -> None:
    beast, session = house.dressed(), begin(house)
    with pytest.raises(Refusal, match="lies on no table"):
        house.out(beast, acts.Out("neck", 900), session=session)
    house.out(beast, acts.Out("neck", 900))  # outside any session, as ever
    assert questions.session(house.reg, session).cuts == ()


def test_a_session_left_open_overnight_resumes_as_it_was(house: House) -> None:
    beast, session = house.dressed(), begin(house)
    (ann,) = students(house, "")
    lay(house, session, LEFT, beast)
    house.out(beast, acts.Out("haunch", 5_000, side="left"), cutter=ann)
    before = questions.session(house.reg, session)
    house.reg.close()
    house.clock.go(hours=16)
    with open_register(house.path, clock=house.clock, create=False) as again:
        assert [one.code for one in questions.open_sessions(again)] == [session]
        after = questions.session(again, session)
        assert after.cuts == before.cuts
        assert after.stations[0].at_work.view.unweighed_grams == 35_000
        acts.weigh_out(again, by=house.tutor, code=beast, outputs=[acts.Out("neck", 2_000)], cutter=ann)
        assert len(questions.session(again, session).cuts) == 2


def test_a_session_with_meat_on_its_tables_ends_only_with_a_reason(house: House) -> None:
    beast, session = house.dressed(), begin(house)
    lay(house, session, LEFT, beast)
    with pytest.raises(Refusal, match=f"{beast} on {LEFT} with 40.000 kg"):
        acts.close_session(house.reg, by=house.tutor, session=session)
    acts.close_session(house.reg, by=house.tutor, session=session, reason="fire alarm")
    assert questions.block_view(house.reg, beast).session == ""
    with pytest.raises(Refusal, match="is closed"):
        lay(house, session, LEFT, beast)
    lay(house, begin(house), LEFT, beast)


@pytest.mark.parametrize(
    ("given", "match"),
    [
        ({"stations": []}, "between 1 and 20"),
        ({"stations": ["a", "A"]}, "one name"),
        ({"stations": [" "]}, "needs a name"),
        ({"tutor": "P003"}, "led by a tutor"),
        ({"on": date(2026, 11, 13)}, "still to come"),
    ],
)
def test_a_session_that_cannot_be_is_not_opened(house: House, given: dict, match: str) -> None:
    with pytest.raises(Refusal, match=match):
        begin(house, **given)
    assert questions.sessions(house.reg) == ()


def test_what_may_not_be_cut_is_not_laid_on_a_table(house: House) -> None:
    session = begin(house)
    with pytest.raises(Refusal, match="still in the skin"):
        lay(house, session, LEFT, house.receive())
    held = house.dressed()
    house.hold(held)
    with pytest.raises(Refusal, match="on hold"):
        lay(house, session, LEFT, held)
    with pytest.raises(Refusal, match="no “table 9”"):
        lay(house, session, "table 9", house.dressed())


def test_the_lines_of_the_balance_are_the_kitchen_s_own(house: House) -> None:
    beast = house.dressed(grams=20_000)
    assert questions.block_view(house.reg, beast).balance.level == EVEN  # not begun: nothing is missing
    house.out(beast, acts.Out("boneless", 19_300))
    assert questions.block_view(house.reg, beast).balance.level == AMBER  # 3.5 %
    with pytest.raises(Refusal, match="more than 2 %"):
        acts.close_lot(house.reg, by=house.tutor, code=beast)
    setting = {"by": house.tutor, "reason": "our own trials"}
    with pytest.raises(Refusal, match="Amber would come after red"):
        acts.set_policy(house.reg, name="unweighed_red_tenths", value="10", **setting)
    acts.set_policy(house.reg, name="unweighed_red_tenths", value="30", **setting)
    assert questions.block_view(house.reg, beast).balance.level == RED
    acts.set_policy(house.reg, name="unweighed_red_tenths", value="", **setting)
    acts.set_policy(house.reg, name="unweighed_amber_tenths", value="40", **setting)
    acts.close_lot(house.reg, by=house.tutor, code=beast)
    assert questions.block_view(house.reg, beast).unaccounted_grams == 700


def test_the_step_of_the_scale_is_the_kitchen_s_own(house: House) -> None:
    beast = house.dressed(grams=20_000)
    with pytest.raises(Refusal, match="more than is left"):
        house.out(beast, acts.Out("boneless", 20_021))
    acts.set_policy(house.reg, by=house.tutor, name="scale_step_grams", value="5", reason="a finer scale")
    with pytest.raises(Refusal, match="more than is left"):
        house.out(beast, acts.Out("boneless", 20_006))
    house.out(beast, acts.Out("boneless", 20_005))
    assert questions.block_view(house.reg, beast).unaccounted_grams == -5


def test_a_cut_has_a_state_which_its_name_and_its_date_follow(house: House) -> None:
    beast = house.dressed()
    boned = house.out(beast, acts.Out("haunch", 3_000, side="left", state="boneless"))[0]
    assert questions.lot(house.reg, boned).name == "haunch, left, boneless"
    whole, minced = house.out(
        boned,
        acts.Out("haunch", 500, is_pack=True, state="boneless"),
        acts.Out("haunch", 500, is_pack=True, state="minced"),
    )
    assert questions.lot(house.reg, minced).use_by < questions.lot(house.reg, whole).use_by
    for made_otherwise in ("cured", "cooked"):  # the rules for raw meat hold no life for either
        with pytest.raises(Refusal, match=f"Nothing comes {made_otherwise} off the block") as refused:
            house.out(beast, acts.Out("haunch", 500, is_pack=True, state=made_otherwise))
        assert refused.value.field == "state"
    with pytest.raises(Refusal, match="state of a cut"):
        house.out(beast, acts.Out("haunch", 500, state="boiled"))
    with pytest.raises(Refusal, match="Only meat"):
        house.out(beast, acts.Out("bone", 500, state="boneless"))


# -- the roster -------------------------------------------------------------------------------------------


def test_a_student_is_a_code_and_a_name_only_where_one_was_given(house: House) -> None:
    ann, bo = students(house, "Ann Rowan", "")
    assert [(one.code, one.name, one.group) for one in questions.roster(house.reg)] == [
        ("R001", "Ann Rowan", "L3 B"),
        ("R002", "", "L3 B"),
    ]
    assert (ann, bo) == ("R001", "R002")
    with house.reg.store.reading() as connection:
        entries = connection.exec_driver_sql("SELECT text FROM entry").scalars().all()
    assert not any("Ann" in entry for entry in entries)


def test_a_leaver_is_forgotten_and_the_trace_stays_whole(house: House) -> None:
    (ann,) = students(house, "Ann Rowan")
    beast = house.dressed()
    haunch = house.out(beast, acts.Out("haunch", 5_000, side="left"), cutter=ann)[0]
    with pytest.raises(Refusal, match="holds the name"):
        acts.forget_student(house.reg, by=house.tutor, student=ann, reason="Ann Rowan left")
    acts.forget_student(house.reg, by=house.tutor, student=ann, reason="left the college")
    assert questions.roster(house.reg) == ()
    assert questions.roster(house.reg, active_only=False)[0].name == ""
    tray = next(one for one in questions.block_view(house.reg, beast).trays if one.code == haunch)
    assert tray.cutter == ann
    with pytest.raises(Refusal, match="not on the roster"):
        house.out(beast, acts.Out("neck", 900), cutter=ann)
    assert questions.check(house.reg) == ()
    assert students(house, "Cy Elm") == ("R002",)  # a code is never given out again


def test_a_student_may_not_change_the_roster(house: House) -> None:
    with pytest.raises(Refusal, match="may not do this"):
        acts.add_to_roster(house.reg, by=house.student, names=["Ann Rowan"])


def test_rebuilt_tables_know_the_sessions_too(house: House) -> None:
    beast, session = house.dressed(), begin(house)
    (ann,) = students(house, "")
    lay(house, session, LEFT, beast)
    house.out(beast, acts.Out("boneless", 39_900), cutter=ann)
    acts.close_lot(house.reg, by=house.tutor, code=beast, cutter=ann)
    before = questions.session(house.reg, session)
    acts.rebuild(house.reg)
    assert questions.session(house.reg, session) == before
    assert questions.check(house.reg) == ()
