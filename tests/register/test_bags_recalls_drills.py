"""The bag with no label, a recall from its first word to its end, and drills with their book."""

from __future__ import annotations

from datetime import date

import pytest
from larder_house import House

from gametrace.domain.errors import Refusal
from gametrace.facts.recall import recall_steps
from gametrace.register import acts, questions
from gametrace.register.recall_sheets import AUTHORITY
from gametrace.register.recall_texts import BUSINESS, SERVED, SUPPLIER, notice_texts

# -- the bag with no label --------------------------------------------------------------------------------


def test_the_bag_s_own_lot_comes_first_with_the_reasons(house: House) -> None:
    first, second = house.dressed(), house.dressed()
    right = house.pack(first, 520, place="C1.S1")
    house.pack(first, 900, place="C1.S2")
    house.clock.go(days=3)
    house.pack(second, 530, "loin", place="C1.S2")
    found = questions.bag_candidates(
        house.reg, grams=521, on=date(2026, 11, 12), look="haunch", place="C1.S1"
    )
    assert found[0].lot.code == right
    assert found[0].for_it == (
        "weighs what is left of it",
        "packed on that day",
        "it is haunch",
        "it should lie there",
    )
    assert any("nothing says haunch" in words for one in found for words in one.against)
    with pytest.raises(Refusal, match="Nothing is known"):
        questions.bag_candidates(house.reg)


def test_a_person_decides_or_bins_it_and_the_decision_is_an_entry(house: House) -> None:
    pack = house.pack(house.dressed())
    decide = {"grams": 500, "look": "dark, in a bag", "offered": (pack,)}
    acts.decide_bag(house.reg, by=house.tutor, code=pack, reason="weight and shelf agree", **decide)
    house.clock.go(minutes=1)
    acts.decide_bag(house.reg, by=house.technician, reason="nobody could say", **decide)
    binned, taken = questions.decided_bags(house.reg)
    assert (taken.code, taken.reason) == (pack, "weight and shelf agree")
    assert (binned.code, binned.grams, binned.by) == ("", 500, "WP")
    assert "without a label taken for" in questions.story(house.reg, pack)[-1].sentence
    with pytest.raises(Refusal, match="student may not"):
        acts.decide_bag(house.reg, by=house.student, reason="I think so", code=pack)
    with pytest.raises(Refusal, match="what decided it"):
        acts.decide_bag(house.reg, by=house.tutor, reason=" ", code=pack)
    house.dish((pack, None))
    with pytest.raises(Refusal, match="Nothing is left"):
        acts.decide_bag(house.reg, by=house.tutor, reason="x", code=pack)
    assert questions.check(house.reg) == ()


# -- a recall ---------------------------------------------------------------------------------------------


@pytest.fixture
def recalled(house: House) -> tuple[str, dict[str, str]]:
    animal = house.dressed(place="C1.R1.01")
    pack, other = house.pack(animal, place="C1.S1"), house.pack(animal, place="C1.S1")
    dish = house.dish((other, None), on=date(2026, 11, 12))
    code = acts.open_recall(
        house.reg, by=house.technician, codes=[animal], what="haunch of fallow", reason="supplier rang"
    ).code
    return code, {"animal": animal, "pack": pack, "dish": dish}


def test_a_recall_holds_everything_and_lists_places_services_and_people(house: House, recalled) -> None:
    code, made = recalled
    assert {house.state(one) for one in made.values()} == {"on hold"}
    sheet = questions.recall_sheet(house.reg, code)
    assert {lot.code for lot in sheet.still_here} == {made["animal"], made["pack"]}
    assert [one.words for one in sheet.services] == ["Thursday lunch, 12 Nov 2026"]
    assert [one.whom for one in sheet.to_call] == [
        AUTHORITY,
        "Perrin Ashdown",
        "whoever answers for Thursday lunch, 12 Nov 2026",
    ]
    assert [one.code for one in questions.recalls(house.reg)] == [code]


def test_calls_keep_answers_and_times_and_the_recall_can_be_taken_up_again(house: House, recalled) -> None:
    code, _ = recalled
    acts.note_call(house.reg, by=house.technician, recall=code, whom=AUTHORITY, answer="nobody answered")
    house.clock.go(minutes=20)
    acts.note_call(house.reg, by=house.tutor, recall=code, whom=AUTHORITY, answer="keep it; we come at two")
    house.close()
    again = House.__new__(House)
    from gametrace.register.opening import open_register

    again.reg = open_register(house.path, clock=house.clock)
    sheet = questions.recall_sheet(again.reg, code)
    assert [(call.answer, call.by) for call in sheet.calls] == [
        ("nobody answered", "WP"),
        ("keep it; we come at two", "IM"),
    ]
    assert (sheet.calls[1].at - sheet.calls[0].at).seconds == 1200
    assert AUTHORITY not in {one.whom for one in sheet.still_to_call}
    again.reg.close()


def test_it_ends_only_when_every_step_has_an_answer_and_its_holds_stay(house: House, recalled) -> None:
    code, made = recalled
    with pytest.raises(Refusal, match="steps have no answer"):
        acts.close_recall(house.reg, by=house.tutor, recall=code, outcome="all binned")
    with pytest.raises(Refusal, match="why it is not needed"):
        acts.answer_step(house.reg, by=house.tutor, recall=code, step="businesses", answer="not needed")
    for step in recall_steps():
        acts.answer_step(
            house.reg, by=house.tutor, recall=code, step=step.id, answer="done", note="see the calls"
        )
    acts.close_recall(house.reg, by=house.tutor, recall=code, outcome="all binned by the collector")
    sheet = questions.recall_sheet(house.reg, code)
    assert not sheet.is_open
    assert sheet.outcome == "all binned by the collector"
    assert all(step.answer == "done" for step in sheet.steps)
    assert house.state(made["pack"]) == "on hold"
    with pytest.raises(Refusal, match="has ended"):
        acts.note_call(house.reg, by=house.tutor, recall=code, whom="x", answer="y")
    assert questions.check(house.reg) == ()


def test_businesses_supplied_are_on_the_call_list_with_their_telephone(house: House) -> None:
    animal = house.dressed(place="C1.R1.01")
    packs = [house.pack(animal, place="C1.S1") for _ in range(2)]
    customer = acts.add_customer(
        house.reg, by=house.tutor, name="The Gannet Inn", address="Quay 1", phone="01632 960103"
    ).code
    acts.supply_lot(
        house.reg,
        by=house.tutor,
        customer=customer,
        inputs=[(packs[0], None)],
        dispatched_on=date(2026, 11, 12),
    )
    code = acts.open_recall(
        house.reg, by=house.tutor, codes=[animal], what="fallow", reason="rung", is_holding=False
    ).code
    called = {one.whom: one for one in questions.recall_sheet(house.reg, code).to_call}
    assert called["The Gannet Inn"].phone == "01632 960103"
    assert "on 12 Nov 2026" in called["The Gannet Inn"].why
    assert house.state(packs[1]) == "ready"  # nothing was held, as was asked


def test_the_notices_name_the_lots_and_say_what_to_do(house: House, recalled) -> None:
    code, made = recalled
    texts = notice_texts(questions.recall_sheet(house.reg, code), house.reg.larder)
    assert set(texts) == {SUPPLIER, BUSINESS, SERVED}
    assert made["animal"] in texts[SUPPLIER]
    assert "your tag T0001" in texts[SUPPLIER]
    assert "Serve and sell no more" in texts[BUSINESS]
    assert "Thursday lunch, 12 Nov 2026" in texts[SERVED]
    for words in texts.values():
        assert "Hob Lane Larder" in words
        assert "safe" not in words.lower().replace("unsafe", "")


def test_the_steps_are_those_of_the_agency_s_page_in_our_words() -> None:
    """FSA, Food incidents, product withdrawals and recalls, page last updated 17 March 2023: withdraw or
    recall at once; tell the competent authority (local or port health); tell the FSA if it has reached
    consumers; be able to identify suppliers and business customers.
    https://www.food.gov.uk/business-guidance/food-incidents-product-withdrawals-and-recalls
    """
    steps = {step.id: step for step in recall_steps()}
    assert list(steps)[:2] == ["stop", "authority"]
    for needed in ("stop", "authority", "eaten"):
        assert steps[needed].source == "fsa-incidents-page"
        assert steps[needed].status == "seen"
    assert {"back", "businesses", "cause"} <= set(steps)


# -- drills -----------------------------------------------------------------------------------------------


def test_a_drill_asks_for_every_pack_of_the_animals_behind_a_lot(house: House) -> None:
    animal = house.dressed(place="C1.R1.01")
    packs = [house.pack(animal, place="C1.S1") for _ in range(4)]
    house.dish((packs[3], None))
    drill = acts.begin_drill(house.reg, by=house.tutor, code=packs[0]).code
    running = questions.running_drill(house.reg, drill)
    assert [lot.code for lot in running.animals] == [animal]
    assert [lot.code for lot in running.to_find] == [animal, *packs[:3]]
    house.clock.go(seconds=95)
    acts.end_drill(house.reg, by=house.tutor, drill=drill, found=[animal, *packs[:2], animal])
    kept = questions.drill_book(house.reg)[0]
    assert (kept.seconds, kept.asked, kept.found, kept.percent) == (95, 4, 3, 75)
    assert (kept.term, kept.manner, kept.standing) == ("autumn term 2026", "by hand", "green")
    with pytest.raises(Refusal, match="has ended"):
        acts.end_drill(house.reg, by=house.tutor, drill=drill, found=[])
    assert questions.check(house.reg) == ()


def test_a_drill_at_random_picks_among_what_there_is_and_refuses_an_empty_larder(house: House) -> None:
    with pytest.raises(Refusal, match="nothing to drill"):
        acts.begin_drill(house.reg, by=house.tutor, sort="lot")
    animal = house.dressed()
    pack = house.pack(animal)
    drill = acts.begin_drill(house.reg, by=house.tutor, sort="lot", pick=lambda count: count - 1)
    assert drill.codes == (pack,)
    assert acts.begin_drill(house.reg, by=house.tutor, sort="animal", pick=lambda _count: 0).codes == (
        animal,
    )


def test_what_is_unaccounted_colours_the_drill_by_the_tolerance(house: House) -> None:
    animal = house.dressed(grams=20_000)
    house.pack(animal, 18_500)
    acts.close_lot(house.reg, by=house.tutor, code=animal, reason="bones went in the bin unweighed")
    drill = acts.begin_drill(house.reg, by=house.tutor, code=animal).code
    running = questions.running_drill(house.reg, drill)
    assert running.balance_words.startswith("red: 1.50 kg unaccounted, 7.5 %")
    row = next(row for row in running.balance.rows if row.words == "unaccounted")
    assert row.codes == (animal,)
    acts.end_drill(house.reg, by=house.tutor, drill=drill, found=[lot.code for lot in running.to_find])
    assert questions.drill_book(house.reg)[0].standing == "red"
    assert questions.drill_book(house.reg)[0].percent == 100
