"""One box for anything: each way a thing is named, as it is typed, with near misses for a mistyped code."""

from __future__ import annotations

from datetime import date

import pytest
from larder_house import House

from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.store import look_sets


def hits(house: House, text: str) -> list[str]:
    return [hit.code for hit in questions.find(house.reg, text)]


def test_a_mistyped_code_is_answered_with_the_ones_a_slip_away_that_exist(house: House) -> None:
    code = house.receive()
    for wrong in (code[:-1] + ("A" if code[-1] != "A" else "B"), code[:7] + "9" + code[8:], "2G" + code[2:]):
        assert code in hits(house, wrong), wrong
    assert hits(house, "26-99999-Z") == []
    with pytest.raises(Refusal, match="check character"):
        questions.trace(house.reg, code[:-1] + ("A" if code[-1] != "A" else "B"))


def test_a_tag_a_declaration_a_supplier_a_dish_and_a_service_are_found_as_they_are_typed(
    house: House,
) -> None:
    code = house.dressed(tag="NB 0417", declaration_number="D/88")
    pack = house.pack(code)
    dish = house.dish((pack, 200), name="Braised haunch", on=date(2026, 11, 13))
    assert hits(house, "nb 04")[:1] == [code]
    assert hits(house, "D/88") == [code]
    assert house.supplier in hits(house, "perr")
    assert dish in hits(house, "braised ha")
    assert "Thursday lunch 2026-11-13" in hits(house, "thursday")
    assert questions.trace(house.reg, "Thursday lunch 2026-11-13").animals[0].code == code
    assert pack in hits(house, "haunch")
    assert dish in hits(house, "haunch brai")  # the words in any order
    assert hits(house, "h") == []
    assert hits(house, "\"*'; OR lot NEAR(") == []


def test_a_day_says_what_was_killed_received_and_served_on_it(house: House) -> None:
    code = house.dressed()
    other = house.dressed()
    dish = house.dish((house.pack(code), 200), on=date(2026, 11, 12))
    assert hits(house, "12 nov")[:2] == ["received 2026-11-12", "served 2026-11-12"]
    assert hits(house, "10/11/2026")[:1] == ["killed 2026-11-10"]
    killed = questions.trace(house.reg, "killed 2026-11-10")
    assert {one.code for one in killed.animals} == {code, other}
    assert killed.balance is not None
    assert killed.balance.received_grams == 80_000
    assert questions.trace(house.reg, "served 2026-11-12").code == dish
    with pytest.raises(Refusal, match="several things"):
        questions.trace(house.reg, "12 nov 2026")


def test_words_follow_a_correction_and_a_change_of_species_down_to_the_cuts(house: House) -> None:
    code = house.dressed(species="fallow", tag="OLD9")
    pack = house.pack(code)
    assert hits(house, "old9") == [code]
    acts.amend_carcass(
        house.reg,
        by=house.tutor,
        code=code,
        changes={"tag": "NEW9", "species": "roe"},
        reason="the tag was read wrong",
    )
    assert hits(house, "old9") == []
    assert hits(house, "new9") == [code]
    assert set(hits(house, "roe ")) >= {code, pack}
    assert questions.check(house.reg) == ()


def test_the_words_hold_no_name_of_a_person(house: House) -> None:
    house.receive()
    with house.reg.store.reading() as connection:
        words = " ".join(connection.exec_driver_sql("SELECT words FROM lot_text").scalars())
    for name in ("perrin", "ashdown", "marrow", "pell"):
        assert name not in words


def test_a_rebuilt_register_finds_the_same(house: House) -> None:
    code = house.dressed(tag="NB 0417")
    house.pack(code)
    before = {word: hits(house, word) for word in ("nb", "haunch", "fallow", "long wood")}
    acts.rebuild(house.reg)
    assert {word: hits(house, word) for word in before} == before
    assert all(before.values())
    assert questions.check(house.reg) == ()


def test_services_of_several_names_come_newest_first_each_with_its_dishes(house: House) -> None:
    pack = house.pack(house.dressed())
    lunches = (("Level 2 lunch", 12), ("Level 3 lunch", 13), ("Level 2 lunch", 13), ("Dinner", 13))
    for occasion, day in lunches:
        house.dish((pack, 50), occasion=occasion, on=date(2026, 11, day))
    house.dish((pack, 50), occasion="Level 2 lunch", on=date(2026, 11, 13))
    with house.reg.store.reading() as connection:
        found = look_sets.services_called(connection, "LEVEL", 9)
        said = [(row.occasion, row.on_day, row.dishes) for row in found]
        assert said == [
            ("Level 2 lunch", "2026-11-13", 2),
            ("Level 3 lunch", "2026-11-13", 1),
            ("Level 2 lunch", "2026-11-12", 1),
        ]
        assert [row.occasion for row in look_sets.services_called(connection, "l", 1)] == ["Level 2 lunch"]
        assert look_sets.services_called(connection, "level_2", 9) == []  # no sign of it means anything


def test_a_service_with_letters_beyond_ascii_is_found_as_it_is_written(house: House) -> None:
    house.dish((house.pack(house.dressed()), 50), occasion="Östlund Dinner", on=date(2026, 11, 13))
    assert "Östlund Dinner 2026-11-13" in hits(house, "Östlund")
    assert "Östlund Dinner 2026-11-13" in hits(house, "DINNER")
    assert questions.trace(house.reg, "Östlund dinner 2026-11-13").animals
