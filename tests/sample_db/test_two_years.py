"""What the two invented years hold, asked through the public questions."""

from collections import Counter
from datetime import timedelta

import pytest

from gametrace.domain.deliveries import Decision
from gametrace.domain.lots import LotKind, LotState
from gametrace.register import questions
from gametrace.register.opening import Register
from gametrace.register.records import Carcass

SIX_SPECIES = {"red", "sika", "fallow", "roe", "muntjac", "chinese-water-deer"}


@pytest.fixture(scope="session")
def everything(fenmoor: Register) -> tuple[Carcass, ...]:
    return questions.deliveries(fenmoor, limit=1_000)


@pytest.fixture(scope="session")
def animals(everything: tuple[Carcass, ...]) -> tuple[Carcass, ...]:
    return tuple(one for one in everything if one.lot.kind == LotKind.CARCASS)


@pytest.fixture(scope="session")
def batches(everything: tuple[Carcass, ...]) -> tuple[Carcass, ...]:
    return tuple(one for one in everything if one.lot.kind == LotKind.BATCH)


def test_the_register_is_whole_and_says_that_it_is_practice(fenmoor):
    assert questions.check(fenmoor) == ()
    assert questions.larder(fenmoor).is_practice
    assert questions.setup_gaps(fenmoor) == ()


def test_it_is_two_years_of_a_small_larder(fenmoor, animals, everything):
    assert 2_000 <= questions.seal(fenmoor).count <= 5_400
    assert 110 <= len(animals) <= 140
    received = [one.received_at for one in everything]
    assert max(received) - min(received) > timedelta(days=700)


def test_all_six_deer_come_and_a_hybrid_and_a_boar(animals):
    found = Counter(one.species for one in animals)
    assert set(found) >= SIX_SPECIES
    assert all(found[species] >= 8 for species in SIX_SPECIES)
    assert found["red-sika-hybrid"] == 1
    assert found["wild-boar"] == 1


def test_they_come_by_every_origin_and_route(animals):
    assert {one.origin for one in animals} == {"wild-shot", "park", "field-farmed", "unknown"}
    assert {one.route for one in animals} == {
        "wild-direct",
        "wild-approved",
        "park-as-wild",
        "farmed-slaughterhouse",
        "farmed-on-farm",
        "gift-unknown",
    }


def test_small_game_comes_by_the_batch(batches):
    assert {one.species for one in batches} == {
        "pheasant",
        "red-legged-partridge",
        "grey-partridge",
        "rabbit",
        "woodpigeon",
    }
    assert all(one.count > 1 for one in batches)


def test_every_kill_was_in_season(everything):
    codes = {finding.code for one in everything for finding in one.findings}
    assert {code for code in codes if code.startswith("season")} == {"season-open"}


def test_weights_are_usual_but_for_the_one_typed_ten_times(fenmoor, animals, sample):
    odd = [one for one in animals if any(f.code == "weight-unusual" for f in one.findings)]
    # Put right, and therefore judged anew: the odd weight is gone from the findings and stays in the history.
    assert sample.marks["typed ten times"] not in [one.code for one in odd]
    assert len(odd) <= 4
    assert all(one.reasons.get("weight-unusual") for one in odd)
    assert questions.carcass(fenmoor, sample.marks["typed ten times"]).grams_received == 10_400


def test_the_boar_waits_for_its_result(fenmoor, sample):
    boar = questions.lot(fenmoor, sample.marks["boar"])
    assert boar.state == LotState.ON_HOLD
    assert questions.trace(fenmoor, "BOAR 07").code == boar.code


def test_holds_were_placed_and_lifted_by_another_person(fenmoor):
    lifted = [hold for hold in questions.holds(fenmoor, open_only=False) if hold.released_at]
    assert len(lifted) >= 5
    assert all(hold.placed_by != hold.released_by for hold in lifted)


def test_what_was_rejected_went_back_or_was_destroyed(fenmoor, animals):
    rejected = [one for one in animals if one.decision == Decision.REJECT]
    assert len(rejected) == 3
    for one in rejected:
        rows = questions.trace(fenmoor, one.code).balance.rows
        gone = sum(r.grams for r in rows if r.words in ("back to the supplier", "condemned and binned"))
        assert gone == one.grams_received


def test_two_specimens_and_no_plate_for_either(fenmoor, animals):
    specimens = [one for one in animals if one.decision == Decision.SPECIMEN]
    assert len(specimens) == 2
    for one in specimens:
        assert not [lot for lot in questions.trace(fenmoor, one.code).forward if lot.kind == LotKind.DISH]


def test_corrections_and_late_entries_are_on_the_visit_sheet(fenmoor, sample):
    first = questions.deliveries(fenmoor, limit=1_000)[-1].received_at.date()
    sheet = questions.visit_sheet(fenmoor, first=first, last=fenmoor.today())
    put_right = {one.field for one in sheet.amendments}
    assert put_right >= {"sex", "tag", "weight", "readings", "certificate number"}
    assert len(sheet.late_entries) >= 3


def test_a_paper_that_was_finished_later_is_complete(fenmoor, sample):
    later = questions.carcass(fenmoor, sample.marks["finished later"])
    assert later.kill_time == "06:50"
    assert later.missing == ()


def test_some_times_are_missing_and_some_declarations_lawfully_absent(animals):
    assert sum(not one.kill_time for one in animals) >= 5
    assert sum(one.evidence == "declaration lawfully absent" for one in animals) >= 5


def test_the_weight_of_every_animal_adds_up(fenmoor, everything, sample):
    for one in everything:
        balance = questions.trace(fenmoor, one.code).balance
        assert balance.received_grams == balance.accounted_grams + balance.unaccounted_grams
        assert sum(row.grams for row in balance.rows) >= balance.accounted_grams
        if one.code != sample.marks["open block"]:
            assert 0 <= balance.unaccounted_grams * 100 <= 2 * balance.received_grams, one.code


def test_numbers_were_handed_on_printed_and_typed(animals):
    dressed = [one for one in animals if one.dressed_at]
    assert any(one.number_on == one.code for one in dressed)
    assert any(one.number_on.startswith("gambrel") for one in dressed)
    assert all(one.number_on for one in dressed)


def test_a_leaver_is_forgotten_and_the_name_is_nowhere_in_the_file(fenmoor, sample):
    gone = [one for one in questions.people(fenmoor) if not one.is_active]
    assert [one.code for one in gone] == [sample.marks["leaver-gone"]]
    assert b"Vanestone" not in sample.path.read_bytes()


def test_nothing_lies_on_hold_for_ever_but_what_waits_for_an_answer(fenmoor):
    held = {hold.code: hold for hold in questions.holds(fenmoor)}
    assert 1 <= len(held) <= 4
    assert all(fenmoor.clock() - hold.placed_at < timedelta(days=60) for hold in held.values())


def test_by_products_go_to_a_collector_every_month_with_a_document(fenmoor):
    lines = questions.bins(fenmoor)
    papers = {line.document_number for line in lines if line.document_number}
    assert len(papers) > 20
    waiting = [line for line in lines if not line.document_number]
    assert 0 < len(waiting) < len(lines) // 4
    assert all(fenmoor.today() - line.made_on < timedelta(days=60) for line in waiting)


def test_stores_are_measured_a_warm_evening_is_answered_and_another_is_not(fenmoor):
    found = questions.episodes(fenmoor, fenmoor.clock() - timedelta(days=100), fenmoor.clock())
    warm = [one for one in found if one.sort == "warm"]
    assert [bool(one.action and one.result) for one in warm] == [True, False]
    assert all(one.lots for one in warm)
    (gap,) = [one for one in found if one.sort == "gap"]
    assert gap.action.startswith("The logger's battery")
    assert all(probe.checked_at for probe in questions.probes(fenmoor))


def test_claims_are_settled_and_one_is_open_and_deliveries_are_announced(fenmoor):
    sheet = questions.visit_sheet(fenmoor, first=fenmoor.today() - timedelta(days=300), last=fenmoor.today())
    assert {claim.status for claim in sheet.evidence.claims} >= {"raised", "credited"}
    assert len(questions.open_claims(fenmoor)) == 1
    every = questions.expected_deliveries(fenmoor, open_only=False)
    assert Counter(one.status for one in every) == {"expected": 3, "arrived": 1, "cancelled": 1}


def test_bodies_of_the_last_weeks_were_looked_at_and_decided_again(fenmoor):
    first = fenmoor.today() - timedelta(days=60)
    evidence = questions.visit_sheet(fenmoor, first=first, last=fenmoor.today()).evidence
    assert len(evidence.looks) > 10
    assert len(evidence.decided_again) > 5
    assert all("head" not in name for one in evidence.looks for name in one.not_so)
