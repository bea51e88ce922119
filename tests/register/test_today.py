"""The page of the day: a sentence for each thing that wants a person, with the one act it asks for."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest

from gametrace.domain.deliveries import Answer, Basis
from gametrace.register import acts, questions
from gametrace.register.records import Duty

IN_SKIN = Basis(in_skin=True, head_on=True, feet_on=True)


def duties(house, words: str) -> list[Duty]:
    return [duty for duty in questions.today(house.reg) if words in duty.sentence]


def one(house, words: str) -> Duty:
    found = duties(house, words)
    assert len(found) == 1, [duty.sentence for duty in questions.today(house.reg)]
    return found[0]


def hung_since(house, day: date, **given) -> str:
    return house.receive(killed_on=day, place="C1.R1.01", basis=given.pop("basis", IN_SKIN), **given)


def test_a_young_larder_without_meat_asks_nothing(house) -> None:
    assert questions.today(house.reg) == ()


def test_what_is_ready_in_the_skin_is_due_out_of_it_and_leads_to_the_larder(house) -> None:
    acts.set_policy(
        house.reg, by=house.tutor, name="hanging_days.fallow", value="2-5", reason="our own larder"
    )
    code = hung_since(house, date(2026, 11, 10))
    duty = one(house, "due out of the skin")
    assert duty.sentence == f"{code} fallow doe is due out of the skin, by 15 Nov 2026: skin and dress it."
    assert (duty.when, duty.station, duty.code, duty.act) == ("this week", "larder", code, "Dress it")


def test_what_is_ready_out_of_the_skin_leads_to_the_block_and_its_last_day_is_today(house) -> None:
    acts.set_policy(house.reg, by=house.tutor, name="hanging_days.fallow", value="1-2", reason="warm chill")
    code = house.dressed(killed_on=date(2026, 11, 10), place="C1.R1.01")
    duty = one(house, "to the block")
    assert duty.sentence == f"{code} fallow doe has hung 2 days of 2: to the block."
    assert (duty.when, duty.station, duty.act) == ("today", "block", "Cut it")


def test_past_its_day_it_wants_a_reason_and_with_one_it_waits(house) -> None:
    acts.set_policy(house.reg, by=house.tutor, name="hanging_days.fallow", value="0-1", reason="small chill")
    code = hung_since(house, date(2026, 11, 10))
    duty = one(house, "over its day (11 Nov 2026)")
    assert duty.when == "now"
    acts.answer_finding(
        house.reg, by=house.tutor, code=code, reasons={"hanging-over-run": "for Tuesday's class"}
    )
    duty = one(house, "it hangs on: for Tuesday's class")
    assert duty.when == "this week"


def test_an_animal_open_on_the_block_is_told_once(house) -> None:
    code = house.dressed(killed_on=date(2026, 11, 1), place="C1.R1.01")
    house.trim(code)
    assert [duty.station for duty in duties(house, code)] == ["block"]
    assert "unweighed" in one(house, code).sentence


def test_dates_that_run_out_lead_to_the_pass(house) -> None:
    pack = house.pack(house.dressed(), pack_state="vacuum")
    last = questions.lot(house.reg, pack).use_by
    assert last is not None
    assert duties(house, pack) == []
    house.clock.go(days=(last - house.reg.today()).days - 2)
    assert one(house, pack).when == "this week"
    house.clock.go(days=2)
    assert one(house, pack).when == "today"
    house.clock.go(days=1)
    assert (one(house, pack).when, one(house, pack).station) == ("now", "pass")


def test_a_statement_nobody_can_read_is_a_call_to_make_until_it_is_noted(house) -> None:
    code = house.receive(no_contamination=Answer.CANT_READ, kill_time="")
    duty = one(house, "ring")
    assert duty.sentence == (
        f"{code} fallow doe: ring Perrin Ashdown about the statement on contamination and the time of "
        "killing."
    )
    assert (duty.when, duty.station, duty.code) == ("today", "delivery", code)
    assert "the time of killing" not in one(house, "still wants").sentence
    for about in ("no_contamination", "kill_time"):
        acts.record_call(
            house.reg, by=house.tutor, code=code, about=about, answer="said so", spoken_by="P. Ashdown"
        )
    assert duties(house, "ring") == []


def test_papers_that_the_route_asks_are_named_among_what_is_still_wanted(house) -> None:
    code = house.receive(route="wild-approved", has_declaration=False, place="C1.R1.01")
    assert "the " in one(house, "still wants").sentence
    assert (one(house, "still wants").station, one(house, "still wants").code) == ("delivery", code)


def test_a_boar_waits_for_its_result_and_no_longer_when_it_is_there(house) -> None:
    code = house.receive(
        species="wild-boar", sex="male", age_class="", grams=60_000, killed_on=date(2026, 11, 11)
    )
    duty = one(house, "waited for the laboratory since 12 Nov 2026")
    assert (duty.code, duty.station, duty.act) == (code, "examination/laboratory", "Enter the result")
    acts.record_result(house.reg, by=house.tutor, code=code, reference="L-88", result="negative")
    assert duties(house, "laboratory") == []


def test_a_store_with_meat_that_nobody_read_wants_a_round_and_an_empty_one_does_not(house) -> None:
    acts.add_store(house.reg, by=house.tutor, name="Freezer", sort="freezer", shelves=["Top"])
    assert duties(house, "Temperatures") == []
    house.receive(place="C1.R1.01")
    assert one(house, "Temperatures not taken").sentence == "Temperatures not taken: Chill never."
    acts.take_round(house.reg, by=house.tutor, readings=[("C1", 31)])
    assert duties(house, "Temperatures") == []
    house.clock.go(hours=13)  # the kitchen's own spacing is 12 hours unless it sets another
    duty = one(house, "Temperatures not taken: Chill last on 12 Nov 2026, 09:00.")
    assert (duty.station, duty.code, duty.act) == ("cold", "C1", "Take a round")


def warm_chill(house, *, hours: int = 3, days_ago: int = 0) -> datetime:
    """A logger's readings above the limit, one each ten minutes; when they begin."""
    begins = datetime(2026, 11, 11, 1, 0, tzinfo=UTC) - timedelta(days=days_ago)
    first = int(begins.timestamp())
    readings = [(first + step * 600, 82) for step in range(hours * 6)]
    readings = [(first - 600, 30), *readings, (readings[-1][0] + 600, 31)]
    acts.import_readings(
        house.reg, by=house.tutor, store="C1", readings=readings, name="logger.csv", mapping={}
    )
    return begins


def test_a_warm_store_is_now_until_somebody_says_what_was_done(house) -> None:
    begins = warm_chill(house)
    duty = one(house, "was above")
    assert (
        duty.sentence == "Chill was above 5.0 °C from 11 Nov 2026, 01:00, at most 8.2 °C: say what was done."
    )
    assert (duty.when, duty.station, duty.code) == ("now", "cold", "C1")
    acts.answer_episode(
        house.reg,
        by=house.tutor,
        store="C1",
        first_at=begins,
        last_at=begins + timedelta(hours=3),
        sort="warm",
        action="door found open and shut",
    )
    assert duties(house, "was above") == []


def test_a_short_warm_time_within_the_tolerance_is_no_duty(house) -> None:
    warm_chill(house, hours=1)
    assert duties(house, "was above") == []


def test_warm_times_of_more_than_a_fortnight_ago_stay_on_the_larders_page(house) -> None:
    warm_chill(house, days_ago=20)
    assert duties(house, "was above") == []


def test_a_probe_is_asked_for_when_its_check_no_longer_holds(house) -> None:
    probe = acts.add_probe(house.reg, by=house.tutor, name="orange probe").code
    assert "never been checked" in one(house, "Probe T001").sentence if probe == "T001" else probe
    acts.check_probe(house.reg, by=house.tutor, probe=probe, ice_tenths_c=1)
    assert duties(house, "Probe") == []
    acts.set_policy(house.reg, by=house.tutor, name="probe_days", value="7", reason="our plan says weekly")
    house.clock.go(days=8)
    assert one(house, "last checked on 12 Nov 2026, 7 days hold").code == probe


def test_a_suppliers_paper_is_asked_for_a_month_before_it_lapses(house) -> None:
    acts.amend_supplier(house.reg, by=house.tutor, supplier=house.supplier, insured_until=date(2026, 12, 10))
    assert duties(house, "insurance") == []  # nothing was bought of them yet
    house.receive(place="C1.R1.01")
    duty = one(house, "insurance")
    assert duty.sentence == "Perrin Ashdown: the insurance lapses on 10 Dec 2026."
    assert (duty.station, duty.code) == ("setup", house.supplier)
    house.clock.go(days=40)
    assert one(house, "the insurance lapsed on 10 Dec 2026").when == "this week"


@pytest.fixture
def window_agreed(house):
    acts.amend_supplier(
        house.reg,
        by=house.tutor,
        supplier=house.supplier,
        damage_rule="bought price",
        claim_days=4,
        reason="agreed by telephone",
    )
    return house


def test_a_claim_window_that_ends_is_told_before_it_ends(window_agreed) -> None:
    house = window_agreed
    code = house.dressed(place="C1.R1.01")
    house.out(code, acts.Out("shot-damage", 800))
    assert duties(house, "not claimed") == []
    house.clock.go(days=3)
    duty = one(house, "not claimed")
    assert duty.sentence == (
        f"{code} fallow doe: 0.800 kg of shot damage not claimed, and the days for a claim end on 16 Nov "
        "2026."
    )
    acts.raise_claim(house.reg, by=house.tutor, code=code, grams=800, reason="shoulder shot through")
    assert duties(house, "not claimed") == []
    house.clock.go(days=8)
    late = one(house, "has had no answer")
    assert (late.station, late.act) == ("examination/second", "To the claim")


def test_one_still_in_the_skin_is_to_be_seen_before_its_window_ends(window_agreed) -> None:
    house = window_agreed
    code = hung_since(house, date(2026, 11, 11))
    house.clock.go(days=4)
    duty = one(house, "nobody has seen it out of the skin")
    assert (duty.when, duty.code) == ("today", code)


def test_by_products_wait_in_one_line_until_they_are_collected(house) -> None:
    code = hung_since(house, date(2026, 11, 11))
    skin = house.dress(code).created[0]
    duty = one(house, "for a collector")
    assert duty.sentence == "One by-product or bin waits for a collector, 3.000 kg since 12 Nov 2026."
    acts.collect_by_products(
        house.reg,
        by=house.tutor,
        codes=[skin],
        on=date(2026, 11, 12),
        collector="Hobb renderers",
        document_number="CD-9",
        destination="Hobb works",
    )
    assert duties(house, "for a collector") == []


def test_a_failed_store_is_one_sentence_however_much_hangs_in_it(house) -> None:
    for hook in range(1, 7):
        house.receive(place=f"C1.R1.{hook:02d}")
    acts.store_failed(house.reg, by=house.technician, store="C1", reason="compressor stopped at night")
    assert one(house, "compressor").sentence == "6 lots are on hold: compressor stopped at night"


def test_now_comes_before_today_and_today_before_this_week(house) -> None:
    house.hold(house.receive(kill_time="", pence_per_kg=None, place="C1.R1.01"))
    order = ["now", "today", "this week"]
    asked = [order.index(duty.when) for duty in questions.today(house.reg)]
    assert asked == sorted(asked)
    assert len(set(asked)) == 3
    assert questions.waiting(house.reg).counts["today"] == len(asked)
