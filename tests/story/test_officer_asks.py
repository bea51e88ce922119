"""A day at the door to the plate, then the officer's two questions and the paper that answers them."""

from datetime import UTC, date, datetime, timedelta
from fractions import Fraction

import pytest
from larder_house import House

from gametrace.domain.deliveries import Decision
from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.register.records import Trace

DAY = date(2026, 11, 12)


class Kitchen:
    """Three animals, a mince of all three, a dish of the mince and a haunch."""

    def __init__(self, house: House) -> None:
        self.house = house
        park = acts.add_supplier(
            house.reg, by=house.tutor, name="Sallow Park", address="The Lodge, Sallow", route="park-as-wild",
            origin="park", approval_number="PK 12",
        ).code  # fmt: skip
        self.doe = house.dressed(tag="0417", grams=40_000, dispatched_on=date(2026, 11, 11))
        self.pricket = house.dressed(
            tag="P-9", supplier=park, origin="park", route="park-as-wild", sex="male", age_class="pricket",
            grams=38_000, kill_place="Sallow Park",
        )  # fmt: skip
        self.hind = house.dressed(tag="0418", species="red", age_class="hind", grams=70_000, kill_time="")
        self.trims = [
            house.trim(self.doe, 1_200), house.trim(self.pricket, 900), house.trim(self.hind, 700)
        ]  # fmt: skip
        self.mince = house.mix(*((trim, None) for trim in self.trims))
        self.haunch = house.pack(self.doe, 3_000)
        self.pies = house.dish((self.mince, 1_400), (self.haunch, 2_000), name="Venison pie", portions=24)


@pytest.fixture
def kitchen(house: House) -> Kitchen:
    return Kitchen(house)


def sums(trace: Trace) -> dict[str, int]:
    assert trace.balance is not None
    return {row.words: row.grams for row in trace.balance.rows}


def test_where_is_this_from(kitchen: Kitchen, house: House) -> None:
    """Back from the mince: 1200 + 900 + 700 of 2800 g, so 3/7, 9/28 and 1/4, and whole grams that add up."""
    trace = questions.trace(house.reg, kitchen.mince)
    assert [(one.code, one.share, one.grams) for one in trace.animals] == [
        (kitchen.doe, Fraction(3, 7), 1_200),
        (kitchen.pricket, Fraction(9, 28), 900),
        (kitchen.hind, Fraction(1, 4), 700),
    ]
    doe = trace.animals[0]
    assert (doe.tag, doe.species, doe.sex, doe.origin_type) == ("0417", "fallow", "female", "wild-shot")
    assert (doe.killed_at, doe.place) == ("2026-11-10T07:40", "Long Wood")
    assert (doe.supplier, doe.supplier_address) == ("Perrin Ashdown", "Far Farm, Netherby")
    assert [statement.answer for statement in doe.statements] == ["yes", "yes", "yes"]
    assert trace.animals[2].killed_at == "2026-11-10", "no time is made up where none was stated"


def test_where_is_this_from_through_two_steps(kitchen: Kitchen, house: House) -> None:
    """The pies: 1400 of mince (600 + 450 + 350) and 2000 of the doe's haunch in 3400."""
    trace = questions.trace(house.reg, "venison pie")
    assert {one.code: (one.share, one.grams) for one in trace.animals} == {
        kitchen.doe: (Fraction(2_600, 3_400), 2_600),
        kitchen.pricket: (Fraction(450, 3_400), 450),
        kitchen.hind: (Fraction(350, 3_400), 350),
    }
    assert {lot.code for lot in trace.back} == {*kitchen.trims, kitchen.mince, kitchen.haunch}


def test_where_is_the_rest_of_that_animal(kitchen: Kitchen, house: House) -> None:
    """Forward from the doe: 2600 g served; 600 g of mince, 1000 g of haunch; the rest is on the block."""
    trace = questions.trace(house.reg, "0417")
    forward = {lot.code: lot for lot in trace.forward}
    assert set(forward) == {kitchen.trims[0], kitchen.mince, kitchen.haunch, kitchen.pies}
    assert forward[kitchen.pies].grams_from == 2_600
    assert "Thursday lunch" in forward[kitchen.pies].where
    assert "24 portions" in forward[kitchen.pies].detail
    assert "13 Nov 2026" in forward[kitchen.pies].detail
    assert sums(trace) == {
        "in stock": 1_600, "served": 2_600, "on the block, still unweighed": 35_800, "unaccounted": 0
    }  # fmt: skip


def test_a_supplier_s_animals_are_traced_together(kitchen: Kitchen, house: House) -> None:
    trace = questions.trace(house.reg, "Perrin Ashdown")
    assert {one.code for one in trace.animals} == {kitchen.doe, kitchen.hind}
    assert trace.balance is not None
    assert trace.balance.received_grams == 110_000
    assert sum(sums(trace).values()) == 110_000
    assert sums(trace)["served"] == 2_600 + 350


@pytest.mark.parametrize("text", ["", "  ", "nobody", "26-00417-E", "x" * 10_000, "%", "_", "\u202e", "'"])
def test_what_names_nothing_here_is_said_in_a_sentence(kitchen: Kitchen, house: House, text: str) -> None:
    with pytest.raises(Refusal) as refused:
        questions.trace(house.reg, text)
    assert refused.value.field == "text"
    assert len(str(refused.value)) < 500
    questions.find(house.reg, text)


# Regulation (EU) 931/2011, Article 3(1), (a) to (h), in the order of the text.
def test_the_eight_fields_stand_in_the_order_of_the_regulation(kitchen: Kitchen, house: House) -> None:
    sheet = questions.visit_sheet(house.reg, first=DAY, last=DAY, lot=kitchen.pies)
    assert [one.code for one in sheet.deliveries] == [kitchen.doe, kitchen.pricket, kitchen.hind]
    doe = sheet.eight_fields[0]
    starts = [
        "description", "quantity", "dispatched from", "consignor", "dispatched to", "consignee", "lot",
        "date of dispatch",
    ]  # fmt: skip
    assert len(doe) == 8
    assert [name.startswith(start) for (name, _), start in zip(doe, starts, strict=True)] == [True] * 8
    values = [value for _, value in doe]
    assert "fallow doe" in values[0]
    assert "40.000 kg" in values[1]
    assert values[2] == "Perrin Ashdown, Far Farm, Netherby"
    assert values[4] == "Hob Lane Larder, Hob Lane, Netherby"
    assert kitchen.doe in values[6]
    assert "0417" in values[6]
    assert values[7] == "11 Nov 2026"
    assert sheet.eight_fields[1][7][1] == "not stated; received 12 Nov 2026"


# The Scottish venison dealer's record, four entries, as a council's summary of the form lists them (part).
def test_the_dealer_s_record_has_its_four_entries(kitchen: Kitchen, house: House) -> None:
    sheet = questions.visit_sheet(house.reg, first=DAY, last=DAY)
    assert [value for _, value in sheet.dealer_rows[0]] == [
        "12 Nov 2026, 09:00", "Perrin Ashdown, Far Farm, Netherby", "1, female", "fallow"
    ]  # fmt: skip


def test_the_visit_shows_holds_refusals_late_entries_and_corrections(kitchen: Kitchen, house: House) -> None:
    refused = house.held(Decision.REJECT, tag="R-1")
    hold = house.hold(kitchen.hind)
    house.clock.go(days=1)
    acts.release_hold(house.reg, by=house.tutor, hold=hold, reason="vet looked at it")
    late = house.receive(received_at=house.clock.now - timedelta(hours=18))
    acts.correct_weight(house.reg, by=house.tutor, code=kitchen.hind, grams=69_000, reason="misread scale")
    acts.amend_carcass(
        house.reg, by=house.student, code=kitchen.doe, changes={"species": "roe", "age_class": ""},
        reason="it is a roe",
    )  # fmt: skip
    sheet = questions.visit_sheet(house.reg, first=DAY, last=DAY + timedelta(days=1), lot=kitchen.pies)
    assert [one.code for one in sheet.refusals] == [refused]
    assert {(one.code, one.sort, one.release_reason) for one in sheet.holds} == {
        (refused, "rejected", ""), (kitchen.hind, "hold", "vet looked at it"),
    }  # fmt: skip
    assert len(sheet.late_entries) == 1
    assert late in sheet.late_entries[0].sentence
    assert {(one.code, one.field, one.old, one.new, one.by) for one in sheet.amendments} == {
        (kitchen.hind, "weight", "70.000 kg", "69.000 kg", "IM"),
        (kitchen.doe, "species", "fallow", "roe", "US"),
        (kitchen.doe, "age class", "doe", "", "US"),
    }
    assert {one.name for one in sheet.suppliers} == {"Perrin Ashdown", "Sallow Park"}
    assert sheet.seal == questions.seal(house.reg)
    assert sheet.trace is not None
    assert sheet.trace.code == kitchen.pies
    assert sheet.animal_trace is not None
    assert sheet.animal_trace.code == kitchen.doe


def test_a_correction_of_the_day_of_killing_is_ruled_on_by_the_season_again(house: House) -> None:
    """Fallow does: 1 November to 31 March in England (Deer Act 1991, schedule 1): one day decides."""
    house.clock.now = datetime(2026, 11, 2, 9, 0, tzinfo=UTC)
    doe = house.receive(killed_on=date(2026, 11, 1))
    assert house.state(doe) == "hanging"
    acts.amend_carcass(
        house.reg, by=house.student, code=doe, changes={"killed_on": date(2026, 10, 31)}, reason="misread"
    )
    assert house.state(doe) == "on hold"
    (one,) = questions.visit_sheet(house.reg, first=date(2026, 11, 2), last=date(2026, 11, 2)).amendments
    assert (one.old, one.new, one.reason) == ("01 Nov 2026", "31 Oct 2026", "misread")


def test_a_period_that_ends_before_it_begins_is_refused(house: House) -> None:
    with pytest.raises(Refusal, match="ends before it begins"):
        questions.visit_sheet(house.reg, first=DAY, last=DAY - timedelta(days=1))


def test_the_day_of_a_visit_is_the_larder_s_and_not_greenwich_s(house: House) -> None:
    """23:30 UTC on 1 June is half past midnight on 2 June on a British summer wall clock."""
    house.clock.now = datetime(2026, 6, 1, 23, 30, tzinfo=UTC)
    code = house.receive(killed_on=date(2026, 6, 1), species="muntjac", age_class="", grams=12_000)
    sheet = questions.visit_sheet(house.reg, first=date(2026, 6, 2), last=date(2026, 6, 2))
    assert [one.code for one in sheet.deliveries] == [code]


def test_every_label_can_be_worded_and_says_what_is_stopped(kitchen: Kitchen, house: House) -> None:
    house.hold(kitchen.doe)
    lots = [kitchen.doe, kitchen.mince, kitchen.haunch, kitchen.pies, kitchen.hind]
    sheets = {sheet.code: sheet for sheet in questions.label_sheets(house.reg, lots)}
    assert {code for code, sheet in sheets.items() if "HOLD" in sheet.warning} == set(lots) - {kitchen.hind}
