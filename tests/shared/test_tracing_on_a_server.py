"""Finding by words, sets, recalls and drills are the same on a server as in a file."""

from __future__ import annotations

from datetime import date

from larder_house import House

from gametrace.register import acts, questions
from gametrace.register.acts import Step


def test_words_sets_recalls_and_drills_on_a_server(house: House) -> None:
    animal = house.dressed(tag="NB 0417", place="C1.R1.01")
    pack = house.pack(animal, place="C1.S1")
    dish = house.dish((pack, 200), name="Braised haunch", on=date(2026, 11, 13))
    for words, found in (("nb 04", animal), ("haunch brai", dish), ("long wo", animal), ("'; & | !", "")):
        codes = [hit.code for hit in questions.find(house.reg, words)]
        assert (found in codes) if found else codes == []
    span = ("C1", "2026-11-12T08:00:00+00:00", "2026-11-12T10:00:00+00:00")
    for step in (Step("touched", (animal,)), Step("store", span), Step("supplier", (house.supplier,))):
        assert animal in questions.gather(house.reg, [step]).codes
    acts.save_set(house.reg, by=house.tutor, name="one", steps=[Step("lots", (pack,))])
    acts.hold_set(house.reg, by=house.tutor, steps=[Step("lots", (pack,))], reason="rung")
    recall = acts.open_recall(house.reg, by=house.tutor, codes=[pack], what="a pack", reason="rung").code
    acts.note_call(house.reg, by=house.tutor, recall=recall, whom="the supplier", answer="looks into it")
    acts.answer_step(house.reg, by=house.tutor, recall=recall, step="stop", answer="done")
    drill = acts.begin_drill(house.reg, by=house.tutor, sort="lot", pick=lambda _count: 0).code
    to_find = [lot.code for lot in questions.running_drill(house.reg, drill).to_find]
    acts.end_drill(house.reg, by=house.tutor, drill=drill, found=to_find)
    assert questions.drill_book(house.reg)[0].percent == 100
    assert len(questions.recall_sheet(house.reg, recall).calls) == 1
    assert questions.saved_sets(house.reg)[0].lots == 1
    assert questions.bag_candidates(house.reg, look="haunch")
    assert questions.check(house.reg) == ()
