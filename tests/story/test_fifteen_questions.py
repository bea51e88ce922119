"""The fifteen questions an officer is likely to ask, each answered from the register with its record.

The list and its order are inference from published accounts of visits (councils' pages, former officers'
advice); the register answers what is a record, and says so where an answer is the kitchen's to give.
"""

import sys
from datetime import date, timedelta
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "register"))

from larder_house import House

from gametrace.domain.deliveries import Decision
from gametrace.facts.traceability import law_sentence
from gametrace.register import acts, questions
from gametrace.register.opening import Register, look_at_register
from gametrace.register.readiness import Found


class Kitchen:
    """A week of a larder: deliveries, a refusal, a hold, a warm store, mince, a dish, a collector."""

    def __init__(self, house: House) -> None:
        self.house = house
        reg, by = house.reg, house.tutor
        self.store = next(one.code for one in questions.places(reg) if one.kind == "store")
        self.probe = acts.add_probe(reg, by=by, name="Green probe").code
        acts.check_probe(reg, by=by, probe=self.probe, ice_tenths_c=1, boiling_tenths_c=998)
        acts.set_policy(
            reg, by=by, name="chill_limit_tenths_c", value="50", reason="the kitchen's food safety plan"
        )
        self.doe = house.receive(tag="0417", place=questions.free_places(reg)[0].code)
        house.clock.go(hours=2)
        self.skin = house.dress(self.doe).created[0]
        self.refused = house.held(Decision.REJECT, tag="R-1")
        house.clock.go(days=1)
        self.haunch = house.pack(self.doe, 3_000, pack_state="vacuum")
        self.trim = house.trim(self.doe, 2_000)
        self.second = house.dressed(tag="0418")
        self.mince = house.mix((self.trim, None), (house.trim(self.second, 1_000), None))
        self.dish = house.dish((self.mince, 2_500), name="Ragout", on=date(2026, 11, 13))
        self.bin = house.bin(self.haunch, 200)
        acts.close_lot(reg, by=by, code=self.doe, reason="weighed as it came off the bone")
        for hours, tenths in ((1, 30), (3, 82), (5, 84), (7, 31)):
            house.clock.now = house.clock.now.replace(hour=9) + timedelta(hours=hours)
            acts.take_round(reg, by=house.student, probe=self.probe, readings=[(self.store, tenths)])
        (warm,) = [
            one
            for one in questions.episodes(reg, house.clock.now - timedelta(days=1), house.clock.now)
            if one.sort == "warm"
        ]
        acts.answer_episode(
            reg, by=by, store=warm.store, sort="warm", first_at=warm.first_at, last_at=warm.last_at,
            action="door was ajar; shut", result="4.0 °C in the haunch after two hours",
        )  # fmt: skip
        self.held = house.pack(self.second, 500)
        house.hold(self.held, reason="hair on the pack")
        acts.collect_by_products(
            reg, by=by, codes=[self.skin, self.bin], on=house.reg.today(), collector="Dole and Marsh",
            document_number="DM-1", destination="the rendering plant",
        )  # fmt: skip


@pytest.fixture
def kitchen(house: House) -> Kitchen:
    return Kitchen(house)


@pytest.fixture
def officer(kitchen: Kitchen, house: House):
    """Everything below is asked of the register as an officer has it: open only to be looked at."""
    with look_at_register(house.path, clock=house.clock) as register:
        yield register


def ready(officer: Register, group: str) -> list[Found]:
    return [one for one in questions.readiness(officer) if one.group == group]


def sheet(officer: Register):
    return questions.visit_sheet(officer, first=date(2026, 11, 1), last=date(2026, 11, 30))


def told(officer: Register, code: str) -> str:
    return "\n".join(one.sentence for one in questions.story(officer, code))


def test_1_where_when_and_by_whom_is_skinned_here(kitchen: Kitchen, officer: Register) -> None:
    assert f"{kitchen.doe} dressed" in told(officer, kitchen.doe)
    assert questions.carcass(officer, kitchen.doe).dressed_at is not None
    assert kitchen.skin in told(officer, kitchen.doe)


def test_2_nobody_but_diners_is_supplied_and_the_paper_says_so(kitchen: Kitchen, officer: Register) -> None:
    assert sheet(officer).making.supplied == ()
    assert "no record of what is sold to those who eat it" in law_sentence("caterers").words


def test_3_who_supplies_and_how_they_were_approved(kitchen: Kitchen, officer: Register) -> None:
    (file,) = sheet(officer).evidence.suppliers
    assert (file.supplier.name, file.supplier.address) == ("Perrin Ashdown", "Far Farm, Netherby")
    assert any("TH-77" in line for line in file.papers)
    assert file.lapsed == ()


def test_4_the_last_delivery_and_the_last_refusal(kitchen: Kitchen, officer: Register) -> None:
    newest = questions.deliveries(officer, limit=1)[0]
    assert (newest.tag, newest.declaration_number) == (
        "0418",
        questions.carcass(officer, kitchen.second).declaration_number,
    )
    assert newest.readings == (("haunch", 30),)
    assert [one.answer for one in newest.statements] == ["yes", "yes", "yes"]
    (refusal,) = ready(officer, "Refusals")
    assert kitchen.refused in refusal.sentence
    assert "looked at and decided" in refusal.sentence
    assert refusal.record.startswith("entry ")


def test_5_where_that_animal_is_now(kitchen: Kitchen, officer: Register) -> None:
    held = questions.lot(officer, kitchen.held)
    assert held.state == "on hold"
    assert "place not written down" in held.where, "what nobody wrote is not made up"


def test_6_a_pack_where_from_killed_received_skinned_packed_and_why_this_date(
    kitchen: Kitchen, officer: Register
) -> None:
    trace = questions.trace(officer, kitchen.haunch)
    (animal,) = trace.animals
    assert (animal.code, animal.killed_at, animal.place) == (kitchen.doe, "2026-11-10T07:40", "Long Wood")
    pack = questions.lot(officer, kitchen.haunch)
    assert pack.made_by == "WP"
    assert pack.use_by is not None
    assert pack.date_rule
    animal_file = questions.carcass(officer, kitchen.doe)
    assert animal_file.received_at < animal_file.dressed_at < pack.made_at


def test_7_where_the_rest_of_an_animal_went_mince_bin_and_served(kitchen: Kitchen, officer: Register) -> None:
    trace = questions.trace(officer, kitchen.doe)
    forward = {one.code for one in trace.forward}
    assert {kitchen.skin, kitchen.haunch, kitchen.trim, kitchen.mince, kitchen.dish, kitchen.bin} <= forward
    assert trace.balance is not None
    assert sum(row.grams for row in trace.balance.rows) == trace.balance.received_grams == 40_000


def test_8_how_long_a_vacuum_pack_may_stay_and_who_set_that(kitchen: Kitchen, officer: Register) -> None:
    """Ten days for vacuum-packed game unless a control is recorded (FSA vacuum guidance, seen)."""
    pack = questions.lot(officer, kitchen.haunch)
    assert pack.use_by is not None
    assert pack.use_by <= date(2026, 11, 13) + timedelta(days=10)
    given = sheet(officer).making.dates
    assert any("vacuum" in one.pack_state and one.rule for one in given)


def test_9_how_it_is_cooked_is_the_kitchen_s_plan_and_not_claimed_here(officer: Register) -> None:
    from gametrace.documents.visit_pack import CLAIMS_WORDS

    assert "does not say that any meat is safe" in CLAIMS_WORDS[0]
    assert "food safety plan" in CLAIMS_WORDS[0]


def test_10_the_probe_s_last_check_and_what_was_done_about_the_warm_chill(
    kitchen: Kitchen, officer: Register
) -> None:
    (probe,) = ready(officer, "Probes")
    assert "ice 0.1 °C, boiling water 99.8 °C" in probe.sentence
    assert probe.record == kitchen.probe
    (warm,) = [one for one in ready(officer, "Temperatures") if "was above" in one.sentence]
    assert "at most 8.4 °C" in warm.sentence
    assert "door was ajar; shut" in warm.answer
    assert "4.0 °C in the haunch" in warm.answer


def test_11_what_a_student_does_with_hair_on_the_meat_stands_as_a_hold(
    kitchen: Kitchen, officer: Register
) -> None:
    (hold,) = ready(officer, "On hold, not decided")
    assert "hair on the pack" in hold.sentence
    assert "another person" in hold.answer or "nobody has decided yet" in hold.answer


def test_12_who_works_here_is_told_by_role_and_no_student_by_name(
    house: House, kitchen: Kitchen, officer: Register
) -> None:
    people = {one.code: one for one in questions.people(officer)}
    assert people[house.tutor].role == "tutor"
    assert people[house.student].role == "student"
    assert "Skerry" not in people[house.student].name


def test_13_the_waste_its_collector_and_the_papers(kitchen: Kitchen, officer: Register) -> None:
    (visit,) = sheet(officer).evidence.collections
    assert (visit.collector, visit.document_number) == ("Dole and Marsh", "DM-1")
    assert {code for code, *_ in visit.lots} == {kitchen.skin, kitchen.bin}
    # Two years for the papers of by-products (Regulation 142/2011 as told by the published guidance, seen-2).
    assert visit.keep_until >= visit.on.replace(year=visit.on.year + 2)


def test_14_a_supplier_rings_about_a_carcass_and_all_that_was_made_of_it_is_stopped_in_one_act(
    house: House, kitchen: Kitchen, officer: Register
) -> None:
    acts.hold_lot(house.reg, by=house.technician, code=kitchen.doe, reason="the supplier rang: hold it")
    states = {one.code: one.state for one in questions.trace(officer, kitchen.doe).forward}
    assert states[kitchen.haunch] == "on hold"
    assert states[kitchen.mince] == "on hold"
    assert "on demand" in law_sentence("no-hours").words


def test_15_the_records_are_open_when_the_tutor_is_away(officer: Register, kitchen: Kitchen) -> None:
    """This whole story was asked of a read-only register, and the day's page and the seal are there too."""
    page = questions.day_page(officer, date(2026, 11, 13))
    assert any(kitchen.dish in line.sentence for _, lines in page.groups for line in lines)
    assert questions.seal(officer).count > 20
    assert officer.is_only_looked_at
