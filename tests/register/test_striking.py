"""Entries struck by a later one: weights flow back, what rests on it refuses, the story shows both."""

from __future__ import annotations

from datetime import timedelta

import pytest
from history_machine import MeatHistory
from hypothesis import settings
from larder_house import House

from gametrace.domain.deliveries import Decision
from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions


def last(house: House) -> int:
    return questions.seal(house.reg).count


def strike(house: House, seq: int, **given: str) -> None:
    acts.strike_entry(house.reg, **{"by": house.tutor, "seq": seq, "reason": "a slip", **given})


def left(house: House, code: str) -> int:
    return questions.lot(house.reg, code).grams


def test_a_weighing_out_that_never_was_gives_back_every_gram_and_shows_in_both_stories(house: House) -> None:
    whole = house.dressed(grams=30_000)
    pack = house.pack(whole, 4_200)
    strike(house, last(house))
    assert (left(house, whole), left(house, pack)) == (30_000, 0)
    assert questions.lot(house.reg, pack).where == "struck: written by mistake"
    for code in (whole, pack):
        told = [line.sentence for line in questions.story(house.reg, code)]
        assert told[-2].startswith(f"[entry {last(house) - 1}, struck] Out of {whole}")
        assert told[-1] == f"Entry {last(house) - 1} struck, so it does not count: a slip"
    assert pack not in {one.code for one in questions.stock(house.reg)}
    assert [one.code for one in questions.trace(house.reg, whole).forward] == []
    assert house.pack(whole, 4_200) != pack  # its number was seen and is never given out again
    assert questions.check(house.reg) == ()


def test_what_rests_on_an_entry_is_named_and_can_be_unwound_from_its_end(house: House) -> None:
    whole = house.dressed(grams=30_000)
    pack = house.pack(whole, 4_200)
    cut = last(house)
    house.dish((pack, 1_000))
    dish = last(house)
    with pytest.raises(Refusal, match=r"rests on it: Ragout .* made from 1.000 kg of") as refused:
        strike(house, cut)
    assert "Strike the last of these first" in str(refused.value)
    strike(house, dish)
    strike(house, cut)
    assert left(house, whole) == 30_000
    assert questions.dishes(house.reg) == ()


def test_a_later_look_at_the_scale_keeps_what_it_read(house: House) -> None:
    whole = house.dressed(grams=30_000)
    house.pack(whole, 4_200)
    cut = last(house)
    acts.close_lot(house.reg, by=house.technician, code=whole, reason="boned out")
    with pytest.raises(Refusal, match=r"closed with 25.800 kg unaccounted"):
        strike(house, cut)
    strike(house, last(house))
    assert questions.block_view(house.reg, whole).unweighed_grams == 25_800
    house.trim(whole, 300)  # it is open again


def test_labels_do_not_keep_an_entry(house: House) -> None:
    whole = house.dressed()
    pack = house.pack(whole)
    cut = last(house)
    acts.note_labels_printed(house.reg, by=house.student, codes=[pack], sort="pack")
    strike(house, cut)
    with pytest.raises(Refusal, match="struck"):
        questions.label_sheets(house.reg, [pack])


def test_a_delivery_typed_twice_is_struck_and_its_tag_is_free_again(house: House) -> None:
    first = house.receive(tag="0417")
    twice = house.receive(tag="0417")
    assert any(f.code == "tag-met-before" for f in questions.carcass(house.reg, twice).findings)
    strike(house, last(house))
    assert [one.code for one in questions.in_the_house(house.reg)] == [first]
    sheet = questions.visit_sheet(
        house.reg, first=house.reg.today() - timedelta(days=1), last=house.reg.today()
    )
    assert twice not in str(sheet.deliveries)
    again = house.receive(tag="0418")
    assert not any(f.code == "tag-met-before" for f in questions.carcass(house.reg, again).findings)
    assert questions.check(house.reg) == ()


def test_striking_is_no_way_round_the_second_person(house: House) -> None:
    code = house.receive()
    house.hold(code, by=house.tutor)
    with pytest.raises(Refusal, match="another person strikes it"):
        strike(house, last(house))
    with pytest.raises(Refusal, match="student may not"):
        strike(house, last(house), by=house.student)
    strike(house, last(house), by=house.technician)
    assert questions.lot(house.reg, code).state == "hanging"
    (hold,) = questions.holds(house.reg, open_only=False)
    assert hold.release_reason == "struck: a slip"
    house.held(Decision.REJECT)
    with pytest.raises(Refusal, match="another person strikes it"):
        strike(house, last(house), by=house.technician)


def test_a_hold_that_was_lifted_stays_in_the_story_as_it_was(house: House) -> None:
    hold = house.hold(house.receive(), by=house.student)
    held = last(house)
    acts.release_hold(house.reg, by=house.tutor, hold=hold, reason="looked")
    with pytest.raises(Refusal, match="lifted: looked"):
        strike(house, held, by=house.technician)


def test_a_move_goes_back_unless_something_hangs_there_now(house: House) -> None:
    first, second = house.receive(place="C1.R1.01"), house.receive()
    acts.move_lot(house.reg, by=house.student, code=first, to="C1.R1.02")
    moved = last(house)
    acts.move_lot(house.reg, by=house.student, code=second, to="C1.R1.01")
    with pytest.raises(Refusal):
        strike(house, moved)
    strike(house, last(house))
    strike(house, moved)
    assert questions.lot(house.reg, first).place == "C1.R1.01"


@pytest.mark.parametrize("seq", [0, -1, 1, 2, 10**9])
def test_what_is_no_entry_or_is_put_right_otherwise_is_not_struck(house: House, seq: int) -> None:
    with pytest.raises(Refusal):
        strike(house, seq)


def test_nothing_is_struck_twice_and_a_reason_is_asked(house: House) -> None:
    house.receive()
    seq = last(house)
    with pytest.raises(Refusal, match="needs a reason"):
        strike(house, seq, reason=" ")
    strike(house, seq)
    for number in (seq, last(house)):
        with pytest.raises(Refusal):
            strike(house, number)


def test_what_may_be_struck_is_offered_with_its_sentence_the_newest_first(house: House) -> None:
    whole = house.dressed(grams=30_000)
    house.pack(whole, 4_200)
    offered = questions.strikable(house.reg, whole)
    assert [one.sentence.split(":")[0] for one in offered] == [
        f"Out of {whole}", f"{whole} received",
    ]  # fmt: skip
    strike(house, offered[0].seq)
    assert [one.seq for one in questions.strikable(house.reg, whole)] == [offered[1].seq]


# A slip of any sort anywhere in any history, struck at once: the tables stand as they stood, to the gram.
TestAnyHistoryWithSlips = MeatHistory.TestCase
TestAnyHistoryWithSlips.settings = settings(max_examples=settings().max_examples // 2)
