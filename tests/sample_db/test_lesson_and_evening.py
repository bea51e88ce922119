"""The cutting sessions of the last days and what was written at the pass, asked through the questions."""

from datetime import timedelta
from fractions import Fraction

from gametrace.register import questions


def _the_lesson(fenmoor):
    (over,) = [one for one in questions.sessions(fenmoor) if one.closed_at]
    return questions.session(fenmoor, over.code)


def test_a_session_is_over_with_left_and_right_cut_at_two_tables(fenmoor):
    lesson = _the_lesson(fenmoor)
    assert [table.name for table in lesson.stations] == ["table 1", "table 2"]
    at = {(cut.station, cut.cutter) for cut in lesson.cuts}
    assert at == {("table 1", "R001"), ("table 2", "R002")}


def test_left_and_right_of_the_beast_of_the_lesson_stand_side_by_side(fenmoor):
    beast = _the_lesson(fenmoor).stations[0].lots[0].view.lot.code
    sides = questions.yield_of(fenmoor, beast).sides
    assert {one.part for one in sides} >= {"haunch", "shoulder"}
    assert all(one.boneless[0] and one.boneless[1] for one in sides if one.part == "haunch")
    assert all(one.cutters == ("R001", "R002") for one in sides if one.part == "haunch")


def test_a_session_lies_open_since_yesterday_with_the_block_that_lies_open(fenmoor, sample):
    (is_open,) = questions.open_sessions(fenmoor)
    tables = questions.session(fenmoor, is_open.code).stations
    assert [lot.view.lot.code for table in tables for lot in table.lots] == [sample.marks["open block"]]


def test_the_roster_has_codes_with_names_and_codes_without(fenmoor):
    roster = questions.roster(fenmoor)
    assert [one.code for one in roster] == [f"R{n:03d}" for n in range(1, 7)]
    assert [bool(one.name) for one in roster] == [True] * 4 + [False] * 2


def test_dishes_of_the_last_days_were_cooked_served_and_one_waits_for_its_plates(fenmoor):
    since = fenmoor.today() - timedelta(days=8)
    files = [questions.dish_file(fenmoor, one.code) for one in questions.dishes(fenmoor, limit=80)]
    late = [one for one in files if one.on >= since]
    assert len(late) > 8
    assert all(one.records and not one.why_not for one in late)
    assert len([one for one in late if one.here]) == 1


def test_a_left_over_was_cooled_and_put_by(fenmoor, sample):
    dish = questions.dish_file(fenmoor, sample.marks["left over"])
    assert [one.sort for one in dish.records] == ["cooking", "hot hold", "cooling"]
    assert [one.portions for one in dish.left_overs] == [3]


def test_a_menu_line_says_what_the_records_show_of_every_animal(fenmoor):
    lines = [questions.dish_file(fenmoor, one.code) for one in questions.dishes(fenmoor, limit=80)]
    said = [one for one in lines if one.menu_line]
    assert said
    for one in said:
        for ruling in questions.menu_check(fenmoor, one.lot.code, one.claims).rulings:
            assert ruling.share("shown") == Fraction(1)


def test_a_class_was_issued_meat_and_a_business_supplied(fenmoor):
    assert [one.charged_to for one in questions.issues(fenmoor)] == ["GC3-A"]
    assert all(one.pence for one in questions.issues(fenmoor))
    supplies = questions.supplies(fenmoor)
    assert {one.customer.name for one in supplies} == {"Heron and Sluice, an inn"}
    assert len(questions.supply_note(fenmoor, supplies[0].code).supplies) == len(supplies) == 2
