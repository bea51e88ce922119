"""What the officer's sheet says of looks, stores, bins, suppliers, calls and claims of a period."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest
from larder_house import House

from gametrace.domain.deliveries import Answer, Decision
from gametrace.register import acts, questions
from gametrace.register.supplier_book import lapsed
from gametrace.register.visit_records import Evidence

DAY = date(2026, 11, 12)


def evidence(house: House, first: date = DAY, last: date = DAY) -> Evidence:
    return questions.visit_sheet(house.reg, first=first, last=last).evidence


def test_a_look_tells_what_was_not_so_what_was_not_there_and_what_nobody_looked_at(house: House) -> None:
    code = house.receive()
    house.look(code, ("smell", "as it should be"), ("flies", "not so", "eggs in the groin"))
    house.look(code, ("dirt", "not looked at"))
    (one,) = evidence(house).looks
    assert (one.code, one.stage, one.by) == (code, "in the skin", "WP")
    assert one.as_it_should_be == 1
    assert len(one.not_so) == 1
    assert one.not_so[0].endswith(": eggs in the groin")
    assert len(one.not_looked_at) == 1


def test_a_second_decision_a_call_and_a_claim_are_told_with_who_and_why(house: House) -> None:
    acts.amend_supplier(
        house.reg, by=house.tutor, supplier=house.supplier, damage_rule="bought price", claim_days=7
    )
    code = house.receive(no_contamination=Answer.CANT_READ)
    assert evidence(house).calls_to_make == ((code, "no contamination"),)
    acts.record_call(
        house.reg, by=house.student, code=code, about="no_contamination", answer="none seen",
        spoken_by="P. Ashdown",
    )  # fmt: skip
    house.dress(code)
    acts.decide_again(house.reg, by=house.tutor, code=code, decision=Decision.TRIM, reason="bruised shoulder")
    acts.raise_claim(house.reg, by=house.tutor, code=code, grams=1_500, reason="shoulder shot away")
    acts.settle_claim(house.reg, by=house.tutor, claim=1, status="credited", note="credit note 8")
    told = evidence(house)
    assert told.calls_to_make == ()
    assert [(one.about, one.answer, one.spoken_by, one.by) for one in told.calls] == [
        ("no contamination", "none seen", "P. Ashdown", "US")
    ]
    assert [(one.decision, one.reason, one.by) for one in told.decided_again] == [
        ("accept with trim", "bruised shoulder", "IM")
    ]
    (claim,) = told.claims
    assert (claim.grams, claim.pence, claim.status, claim.settled_pence) == (1_500, 480, "credited", 480)
    assert claim.settled_note == "credit note 8"


def test_a_store_is_told_by_its_readings_and_a_gap_stays_a_gap(house: House) -> None:
    house.receive(place="C1.R1.01")
    start = datetime(2026, 11, 12, 0, 30, tzinfo=UTC)
    house.clock.now = datetime(2026, 11, 13, 9, tzinfo=UTC)
    minutes = [0, 60, 120, 20 * 60, 21 * 60]  # eighteen hours between the third and the fourth
    readings = [(int((start + timedelta(minutes=m)).timestamp()), 30 + m // 60) for m in minutes]
    acts.import_readings(
        house.reg, by=house.student, store="C1", readings=readings, name="autumn.csv", mapping={}
    )
    told = evidence(house)
    assert told.covers == evidence(house).covers
    (cover,) = told.covers
    assert (cover.readings, cover.coldest_tenths_c, cover.warmest_tenths_c) == (5, 30, 51)
    assert (cover.gaps, cover.longest_gap_minutes) == (1, 18 * 60)
    assert cover.files == ()  # the file came in a day later, outside this period
    assert evidence(house, last=date(2026, 11, 13)).covers[0].files == ("autumn.csv (5 readings)",)


def test_a_warm_store_is_told_with_what_stood_there_what_was_done_and_what_came_of_it(house: House) -> None:
    code = house.receive(place="C1.R1.01")
    first = house.clock.now
    for _ in range(4):
        house.clock.go(hours=1)
        acts.take_round(house.reg, by=house.technician, readings=[("C1", 90)])
    house.clock.go(hours=1)
    (before,) = [one for one in evidence(house).warmth if one.sort == "warm"]
    assert before.lots == (code,)
    assert before.action == ""
    acts.answer_episode(
        house.reg, by=house.tutor, store="C1", first_at=before.first_at, last_at=before.last_at, sort="warm",
        action="door shut", result="4 °C by noon",
    )  # fmt: skip
    (after,) = [one for one in evidence(house).warmth if one.sort == "warm"]
    assert (after.action, after.result, after.by) == ("door shut", "4 °C by noon", "IM")
    assert after.highest_tenths_c == 90
    assert first < after.first_at
    assert [one.readings for one in evidence(house).rounds] == [(("Chill", 90),)] * 4


def test_a_store_that_failed_is_told_with_what_is_still_held(house: House) -> None:
    kept, lifted = house.receive(place="C1.R1.01"), house.receive(place="C1.R1.02")
    acts.store_failed(house.reg, by=house.technician, store="C1", reason="no current since six")
    hold = next(one for one in questions.holds(house.reg) if one.code == lifted)
    acts.release_hold(house.reg, by=house.tutor, hold=hold.id, reason="still at 3 °C")
    (failure,) = evidence(house).failures
    assert failure.store == "Chill"
    assert failure.reason == "no current since six"
    assert failure.held == (kept, lifted)
    assert failure.still_held == (kept,)


def test_by_products_are_told_by_collector_category_and_week(house: House) -> None:
    code = house.receive()
    house.dress(code, skin=3_000)
    assert evidence(house).bins_waiting == ("one lot", 3_000)
    skin = questions.bins(house.reg)[0]
    acts.collect_by_products(
        house.reg, by=house.technician, codes=[skin.code], on=DAY, collector="Dole and Marsh",
        document_number="DM 1", destination="Marsh Rendering",
    )  # fmt: skip
    told = evidence(house)
    (visit,) = told.collections
    assert (visit.collector, visit.document_number, visit.destination) == (
        "Dole and Marsh", "DM 1", "Marsh Rendering",
    )  # fmt: skip
    assert visit.lots == ((skin.code, skin.name, skin.category, 3_000),)
    assert visit.keep_until >= date(2028, 11, 12)  # two years, practice.md's and Regulation 142/2011's span
    assert told.weeks[0].first_day == date(2026, 11, 9)
    assert told.weeks[0].grams_by_category == ((skin.category, 3_000),)
    assert told.bins_waiting == ("", 0)


@pytest.mark.parametrize("paper", ["certificate_until", "lead_free_until", "insured_until", "review_on"])
def test_every_dated_paper_of_a_supplier_lapses_on_the_day_after_its_last(house: House, paper: str) -> None:
    acts.amend_supplier(house.reg, by=house.tutor, supplier=house.supplier, **{paper: DAY})
    approval = questions.approvals(house.reg)[house.supplier]
    assert lapsed(approval, DAY) == ()
    assert len(lapsed(approval, DAY + timedelta(days=1))) == 1
    found = acts.preview_delivery(house.reg, house.delivery())
    assert "supplier-lapsed" not in {one.code for one in found}
    house.clock.go(days=1)
    (warned,) = [
        one for one in acts.preview_delivery(house.reg, house.delivery()) if one.code == "supplier-lapsed"
    ]
    assert warned.severity == "ask"
    house.receive(reasons={"supplier-lapsed": "the new one is in the post"})
    (file,) = evidence(house, last=DAY + timedelta(days=1)).suppliers
    assert len(file.lapsed) == 1
    assert questions.check(house.reg) == ()


def test_lead_from_a_supplier_that_states_none_is_asked_about(house: House) -> None:
    acts.amend_supplier(house.reg, by=house.tutor, supplier=house.supplier, lead_free="yes")

    def codes(ammunition: str) -> set[str]:
        return {f.code for f in acts.preview_delivery(house.reg, house.delivery(ammunition=ammunition))}

    assert "lead-against-statement" in codes("lead")
    assert "lead-against-statement" not in codes("not lead")
    assert "lead-against-statement" not in codes("")


def test_a_score_counts_what_was_refused_at_the_door_and_out_of_the_skin(house: House) -> None:
    house.held(Decision.REJECT)
    second = house.receive()
    house.dress(second)
    acts.decide_again(
        house.reg, by=house.tutor, code=second, decision=Decision.REJECT, reason="smells of gut"
    )
    house.receive(readings=(("haunch", 120),), reasons={"too-warm": "killed an hour ago"})
    shot = house.dressed()
    house.out(shot, acts.Out("shot-damage", 2_000, reason="blown"))
    score = questions.scores(house.reg)[house.supplier]
    assert (score.animals, score.refused, score.warm, score.damaged) == (4, 2, 1, 1)
    assert score.damaged_grams == 2_000


def test_an_empty_period_has_stores_and_nothing_else(house: House) -> None:
    told = evidence(house, date(2026, 1, 1), date(2026, 1, 2))
    assert told.looks == told.calls == told.claims == told.rounds == told.collections == ()
    assert [one.readings for one in told.covers] == [0]


def test_the_gathering_says_how_far_it_is_and_ends_where_it_is_stopped(house: House) -> None:
    house.receive()
    told: list[tuple[int, int]] = []

    def step(done: int, of: int) -> None:
        told.append((done, of))

    questions.visit_sheet(house.reg, first=DAY, last=DAY, progress=step)
    shares = [done / of for done, of in told]
    assert shares == sorted(shares)
    assert shares[0] == 0
    assert 0.8 < shares[-1] <= 1

    def stop(_done: int, _of: int) -> None:
        raise InterruptedError

    with pytest.raises(InterruptedError):
        questions.visit_sheet(house.reg, first=DAY, last=DAY, progress=stop)
