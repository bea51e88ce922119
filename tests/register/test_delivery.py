"""What happens at the door: taken in, held, refused, filled in later, put right."""

from dataclasses import astuple, replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from larder_house import House

from gametrace.domain.deliveries import Answer, Decision
from gametrace.domain.errors import Refusal
from gametrace.domain.findings import Severity
from gametrace.register import acts, questions


def test_a_clean_delivery_hangs_and_is_numbered(house: House) -> None:
    code = house.receive()
    animal = questions.carcass(house.reg, code)
    assert animal.lot.state == "hanging"
    assert animal.title == "fallow doe"
    assert animal.grams_received == 40_000
    assert all(finding.severity is Severity.NOTE for finding in animal.findings)


def test_a_stop_finding_lands_the_carcass_on_hold_and_says_why(house: House) -> None:
    """Fallow does are out of season on 10 October in England (Deer Act 1991, schedule 1)."""
    house.clock.now = datetime(2026, 10, 12, 9, 0, tzinfo=UTC)
    code = house.receive(killed_on=date(2026, 10, 10))
    animal = questions.carcass(house.reg, code)
    stops = [finding for finding in animal.findings if finding.severity is Severity.STOP]
    assert stops, "out of season is a stop"
    assert animal.lot.state == "on hold"
    assert animal.holds[0].reason == " ".join(finding.sentence for finding in stops)


def test_a_boar_waits_for_its_laboratory_result_on_hold(house: House) -> None:
    """Retained EU law, Regulation 2015/1375: Trichinella result before use."""
    code = house.receive(species="wild-boar", sex="male", age_class="", grams=60_000)
    assert house.state(code) == "on hold"


def test_a_statement_answered_no_lands_it_on_hold(house: House) -> None:
    assert house.state(house.receive(no_abnormal_behaviour=Answer.NO)) == "on hold"


@pytest.mark.parametrize(
    ("decision", "state"),
    [
        (Decision.ACCEPT, "hanging"), (Decision.TRIM, "hanging"), (Decision.HOLD, "on hold"),
        (Decision.SPECIMEN, "specimen"), (Decision.REJECT, "rejected"),
    ],
)  # fmt: skip
def test_the_decision_at_the_door_is_how_it_stands(house: House, decision: Decision, state: str) -> None:
    assert house.state(house.held(decision)) == state


@pytest.mark.parametrize("decision", [one for one in Decision if one is not Decision.ACCEPT])
def test_anything_but_acceptance_needs_a_reason(house: House, decision: Decision) -> None:
    with pytest.raises(Refusal, match="needs a reason") as refused:
        house.receive(decision=decision, decision_reason=" \t\u200b ")
    assert refused.value.field == "decision_reason"


CANNOT_BE: list[tuple[dict[str, Any], str]] = [
    ({"species": ""}, "species"),
    ({"species": "unicorn"}, "species"),
    ({"origin": ""}, "origin"),
    ({"route": "by-drone"}, "route"),
    ({"supplier": ""}, "supplier"),
    ({"supplier": "S999"}, "supplier"),
    ({"sex": "hen"}, "sex"),
    ({"age_class": "stag"}, "age_class"),
    ({"grams": 0}, "grams"),
    ({"grams": -3_000}, "grams"),
    ({"grams": 10**9}, "grams"),
    ({"count": 0}, "count"),
    ({"count": 2}, "count"),
    ({"killed_on": date(2026, 11, 13)}, "killed_on"),
    ({"killed_on": date(2026, 11, 12), "kill_time": "09:30"}, "kill_time"),
    ({"received_at": datetime(2026, 11, 9, 12, 0, tzinfo=UTC)}, "killed_on"),
    ({"received_at": datetime(2026, 11, 13, 12, 0, tzinfo=UTC)}, "happened_at"),
    ({"dispatched_on": date(2026, 11, 13)}, "dispatched_on"),
    ({"dispatched_on": date(2026, 11, 9)}, "dispatched_on"),
    ({"kill_time": "7.40"}, "kill_time"),
    ({"kill_time": "24:00"}, "kill_time"),
    ({"pence_per_kg": -1}, "pence_per_kg"),
    ({"supplier_grams": -1}, "supplier_grams"),
    ({"supplier_grams": 2**60}, "supplier_grams"),
    ({"readings": (("haunch", 9_999),)}, "readings"),
    ({"place": "C9.R9.99"}, "place"),
    ({"place": "C1"}, "place"),
    ({"place": "C1.R1"}, "place"),
    ({"tag": "9" * 10_000}, "tag"),
    ({"kill_place": "w" * 10_000}, "kill_place"),
    ({"inspection_notes": "n" * 10_000}, "inspection_notes"),
]


@pytest.mark.parametrize(("given", "field"), CANNOT_BE)
def test_what_cannot_be_is_refused_at_its_field_and_nothing_is_written(
    house: House, given: dict[str, Any], field: str
) -> None:
    before = questions.seal(house.reg)
    with pytest.raises(Refusal) as refused:
        house.receive(**given)
    assert refused.value.field == field
    assert refused.value.sentence.endswith(".")
    assert len(str(refused.value)) < 600
    assert questions.seal(house.reg) == before


@pytest.mark.parametrize(("given", "_field"), CANNOT_BE)
def test_the_live_findings_never_raise_whatever_is_half_typed(
    house: House, given: dict[str, Any], _field: str
) -> None:
    acts.preview_delivery(house.reg, house.delivery(**given))


def test_a_kill_this_morning_may_come_in_at_once(house: House) -> None:
    assert house.receive(killed_on=date(2026, 11, 12), kill_time="09:00")


def test_the_live_findings_are_those_that_get_sealed(house: House) -> None:
    delivery = house.delivery(grams=9_000, tag="")
    shown = acts.preview_delivery(house.reg, delivery)
    sealed = acts.receive_delivery(house.reg, by=house.student, delivery=delivery)
    assert shown == sealed.findings


@pytest.mark.parametrize(
    "words",
    [
        "<b>Long & Wood</b>", "=1+1;\"quoted\"", "'); DROP TABLE lot;--", "🦌🏴󠁧󠁢󠁳󠁣󠁴󠁿", "يار عتيق", "\u202eboow",
        "Straße 5 %_\\", "{}[]%s", "Loch à Bhràghad",
    ],
)  # fmt: skip
def test_marks_formulas_emoji_and_right_to_left_are_kept_as_typed(house: House, words: str) -> None:
    code = house.receive(kill_place=words, inspection_notes=words, tag=words[:60], trained_person=words)
    animal = questions.carcass(house.reg, code)
    assert animal.kill_place == animal.inspection_notes == animal.trained_person == words
    assert questions.trace(house.reg, words[:60]).code == code
    assert questions.check(house.reg) == ()


def test_control_characters_are_dropped_and_names_stay_on_one_line(house: House) -> None:
    code = house.receive(kill_place="  Long\x00\x1b\n\tWood\r\n ", inspection_notes="one\r\ntwo")
    animal = questions.carcass(house.reg, code)
    assert animal.kill_place.split() == ["Long", "Wood"]
    assert "\n" not in animal.kill_place
    assert animal.inspection_notes == "one\ntwo"


def test_the_same_tag_twice_asks_why_and_does_not_block(house: House) -> None:
    first = house.receive(tag="0417")
    second = house.receive(tag="0417")
    asked = [f for f in questions.carcass(house.reg, second).findings if f.code == "tag-met-before"]
    assert first in asked[0].sentence
    assert asked[0].severity is Severity.ASK
    assert house.state(second) == "hanging"
    assert any("tag 0417" in words for words in questions.carcass(house.reg, second).missing)
    acts.answer_finding(
        house.reg, by=house.student, code=second, reasons={"tag-met-before": "two books, same number"}
    )
    assert not any("tag 0417" in words for words in questions.carcass(house.reg, second).missing)


def test_a_year_mistyped_is_asked_about(house: House) -> None:
    found = acts.preview_delivery(house.reg, house.delivery(killed_on=date(2025, 11, 10)))
    assert "killed-long-before" in {finding.code for finding in found}


def test_a_quick_delivery_needs_no_more_than_what_is_on_the_scale(house: House) -> None:
    code = acts.receive_delivery(
        house.reg,
        by=house.student,
        delivery=acts_delivery(house.supplier),
    ).code
    assert "the tag number" in questions.carcass(house.reg, code).missing
    assert questions.to_finish(house.reg)[0].code == code


def acts_delivery(supplier: str) -> Any:
    from gametrace.domain.deliveries import Delivery

    return Delivery(supplier=supplier, species="roe", grams=16_000)


def test_a_hook_that_is_taken_is_refused_with_who_hangs_there(house: House) -> None:
    first = house.receive(place="C1.R1.01")
    with pytest.raises(Refusal, match=f"taken by {first}") as refused:
        house.receive(place="c1.r1.01")
    assert refused.value.field == "place"


def test_a_hook_is_free_again_when_the_carcass_is_moved(house: House) -> None:
    first = house.receive(place="C1.R1.01")
    acts.move_lot(house.reg, by=house.student, code=first, to="C1.R1.02")
    house.receive(place="C1.R1.01")
    with pytest.raises(Refusal, match="there already"):
        acts.move_lot(house.reg, by=house.student, code=first, to="C1.R1.02")


def test_the_same_scan_twice_in_a_second_takes_in_one_carcass(house: House) -> None:
    delivery = house.delivery()
    first = acts.receive_delivery(house.reg, by=house.student, delivery=delivery, key="door-1")
    again = acts.receive_delivery(house.reg, by=house.student, delivery=delivery, key="door-1")
    assert (again.code, again.seq, again.was_repeat) == (first.code, first.seq, True)
    assert len(questions.deliveries(house.reg)) == 1


def test_a_key_meant_for_another_act_is_a_fault_and_not_a_silent_nothing(house: House) -> None:
    code = house.receive()
    acts.hold_lot(house.reg, by=house.student, code=code, reason="odd", key="k")
    with pytest.raises(ValueError, match="given again"):
        acts.move_lot(house.reg, by=house.student, code=code, to="C1.S1", key="k")


# ------------------------------------------------------------------------------- later and better known


def test_filling_a_blank_needs_no_reason_and_finishes_the_paper(house: House) -> None:
    code = house.receive(tag="", kill_place="")
    acts.amend_carcass(house.reg, by=house.student, code=code, changes={"tag": "0417", "kill_place": "Wood"})
    animal = questions.carcass(house.reg, code)
    assert (animal.tag, animal.kill_place, animal.number_on) == ("0417", "Wood", "0417")


def test_changing_what_was_written_needs_a_reason_and_keeps_who_when_why_and_what_was(house: House) -> None:
    code = house.receive(kill_place="Long Wood")
    with pytest.raises(Refusal, match="needs a reason"):
        acts.amend_carcass(house.reg, by=house.student, code=code, changes={"kill_place": "Short Wood"})
    house.clock.go(days=1)
    acts.amend_carcass(
        house.reg, by=house.student, code=code, changes={"kill_place": "Short Wood"}, reason="misread"
    )
    sheet = questions.visit_sheet(house.reg, first=date(2026, 11, 12), last=date(2026, 11, 14))
    (one,) = sheet.amendments
    assert (one.code, one.field, one.old, one.new, one.reason, one.by, one.at) == (
        code, "kill place", "Long Wood", "Short Wood", "misread", "US", house.clock.now,
    )  # fmt: skip
    assert any("Long Wood" in line.sentence for line in questions.story(house.reg, code))


def test_a_species_put_right_is_ruled_on_again_and_may_bring_a_hold(house: House) -> None:
    """Roe bucks are in season on 20 October in England, fallow does are not (Deer Act 1991, schedule 1)."""
    house.clock.now = datetime(2026, 10, 22, 9, 0, tzinfo=UTC)
    code = house.receive(species="roe", sex="male", age_class="", grams=16_000, killed_on=date(2026, 10, 20))
    assert house.state(code) == "hanging"
    acts.amend_carcass(
        house.reg,
        by=house.student,
        code=code,
        changes={"species": "fallow", "sex": "female"},
        reason="the tutor knows better",
    )
    animal = questions.carcass(house.reg, code)
    assert animal.title == "fallow doe"
    assert animal.lot.state == "on hold"
    assert any(finding.severity is Severity.STOP for finding in animal.findings)


def test_the_same_rule_broken_in_another_way_holds_again_after_a_release(house: House) -> None:
    house.clock.now = datetime(2026, 10, 12, 9, 0, tzinfo=UTC)
    code = house.receive(killed_on=date(2026, 10, 10))
    (hold,) = questions.holds(house.reg)
    acts.release_hold(house.reg, by=house.tutor, hold=hold.id, reason="night licence seen")
    assert house.state(code) == "hanging"
    acts.amend_carcass(
        house.reg,
        by=house.student,
        code=code,
        changes={"species": "red", "age_class": "hind"},
        reason="misread",
    )
    assert house.state(code) == "on hold"


def test_a_correction_that_clears_the_finding_leaves_the_hold_for_a_person_to_lift(house: House) -> None:
    house.clock.now = datetime(2026, 10, 12, 9, 0, tzinfo=UTC)
    code = house.receive(killed_on=date(2026, 10, 10), species="roe", age_class="")
    acts.amend_carcass(
        house.reg, by=house.student, code=code, changes={"sex": "male", "age_class": ""}, reason="a buck"
    )
    assert house.state(code) == "on hold"


def test_what_was_cut_from_it_follows_the_species_when_that_is_put_right(house: House) -> None:
    code, other = house.dressed(), house.dressed(species="roe", age_class="", grams=16_000)
    pack, trim, roe = house.pack(code), house.trim(code), house.trim(other)
    mince, mixed = house.mix((trim, 200)), house.mix((trim, 100), (roe, 100))
    acts.amend_carcass(
        house.reg,
        by=house.student,
        code=code,
        changes={"species": "red", "age_class": "hind"},
        reason="misread",
    )
    species = {lot: questions.lot(house.reg, lot).species for lot in (pack, trim, mince, mixed)}
    assert species == {pack: "red", trim: "red", mince: "red", mixed: ""}
    acts.amend_carcass(
        house.reg,
        by=house.student,
        code=code,
        changes={"species": "roe", "age_class": ""},
        reason="a roe",
    )
    assert questions.lot(house.reg, mixed).species == "roe"
    assert questions.check(house.reg) == ()


@pytest.mark.parametrize(
    "changes",
    [
        {"grams": 1}, {"decision": Decision.ACCEPT}, {"place": "C1.S1"}, {"nonsense": 1},
        {"supplier": "S999"}, {"species": "unicorn"}, {"killed_on": date(2027, 1, 1)},
        {"tag": "9" * 10_000}, {},
    ],
)  # fmt: skip
def test_a_correction_that_cannot_be_is_refused_and_nothing_is_written(
    house: House, changes: dict[str, Any]
) -> None:
    code = house.receive()
    before = questions.seal(house.reg)
    with pytest.raises(Refusal):
        acts.amend_carcass(house.reg, by=house.student, code=code, changes=changes, reason="because")
    assert questions.seal(house.reg) == before


def test_a_delivery_written_down_late_shows_both_times(house: House) -> None:
    house.clock.go(days=1)
    code = house.receive(received_at=house.clock.now - timedelta(hours=20))
    line = questions.story(house.reg, code)[0]
    assert line.is_late
    assert line.written_at - line.happened_at == timedelta(hours=20)
    sheet = questions.visit_sheet(house.reg, first=date(2026, 11, 13), last=date(2026, 11, 13))
    assert [late.seq for late in sheet.late_entries] == [line.seq]


def test_a_batch_of_birds_shares_one_number(house: House) -> None:
    code = house.receive(
        species="pheasant", sex="unknown", age_class="", count=12, grams=14_000, readings=(("breast", 30),)
    )
    animal = questions.carcass(house.reg, code)
    assert (animal.lot.kind, animal.count, animal.title) == ("batch", 12, "pheasant × 12")
    breast = house.out(code, acts.Out("bird-breast", 2_000, is_pack=True))[0]
    assert questions.trace(house.reg, breast).animals[0].code == code


def test_a_trained_person_s_name_is_on_a_card_and_met_again_has_the_same_code(house: House) -> None:
    house.receive()
    house.receive(trained_person="perrin ashdown")
    with house.reg.store.reading() as connection:
        codes = {row[0] for row in connection.exec_driver_sql("SELECT trained_person FROM carcass")}
        journal = " ".join(row[0] for row in connection.exec_driver_sql("SELECT text FROM entry"))
    assert codes == {"H001"}
    assert "ashdown" not in journal.casefold()


def test_a_delivery_is_a_frozen_value(house: House) -> None:
    delivery = house.delivery()
    assert replace(delivery) == delivery


def test_the_list_of_all_deliveries_is_that_of_the_animals_page_by_page(house: House) -> None:
    for number in range(5):
        house.receive(tag=f"T{number}")
        house.clock.go(days=number % 2)
    whole = [
        (c.code, c.title, c.supplier.name, c.tag, c.received_at, c.grams_received, c.decision)
        for c in questions.deliveries(house.reg)
    ]
    pages = [one for first in range(0, 6, 2) for one in questions.delivery_lines(house.reg, 2, first)]
    assert [astuple(one) for one in pages] == whole
    assert questions.delivery_count(house.reg) == 5
    today = house.reg.today()
    assert questions.delivery_count(house.reg, today, today) == len(
        questions.deliveries(house.reg, first=today, last=today)
    )
