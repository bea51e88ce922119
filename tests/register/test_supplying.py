"""Meat handed to a class or a restaurant; meat supplied to another business with the law's eight fields."""

from __future__ import annotations

from datetime import date

import pytest
from larder_house import House

from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions

DAY = date(2026, 11, 12)


@pytest.fixture
def customer(house: House) -> str:
    return acts.add_customer(
        house.reg, by=house.tutor, name="The Gannet Inn", address="Quay 4, Saltby", phone="01632 960 004"
    ).code


def test_meat_is_issued_to_a_class_and_charged_to_its_code(house: House) -> None:
    animal = house.dressed()
    pack = house.pack(animal, 900)
    changes = acts.issue_lot(
        house.reg, by=house.tutor, inputs=[(pack, 600)], charged_to="L2-B", on=DAY, purpose="boning"
    )
    (issue,) = questions.issues(house.reg)
    assert (issue.code, issue.from_code, issue.grams) == (changes.code, pack, 600)
    assert (issue.sort, issue.charged_to, issue.purpose) == ("class", "L2-B", "boning")
    assert issue.pence == 192  # 600 g of 40 kg at 3.20 a kilo, by weight
    lot = questions.lot(house.reg, changes.code)
    assert (lot.kind, lot.state, lot.where) == ("issued", "gone", "issued")
    assert house.left(pack) == 300
    rows = {row.words: row.grams for row in questions.trace(house.reg, animal).balance.rows}
    assert rows["issued to classes and restaurants"] == 600
    assert sum(rows.values()) == 40_000


def test_a_class_is_charged_nothing_known_where_no_price_was_written(house: House) -> None:
    pack = house.pack(house.dressed(pence_per_kg=None), 900)
    acts.issue_lot(house.reg, by=house.tutor, inputs=[(pack, 600)], charged_to="L2-B", on=DAY)
    assert [one.pence for one in questions.issues(house.reg)] == [None]


@pytest.mark.parametrize(
    "given", [{"charged_to": " "}, {"sort": "friend"}, {"on": date(2026, 11, 13)}, {"inputs": []}]
)
def test_an_issue_names_its_code_its_sort_and_a_day_that_was(house: House, given: dict) -> None:
    pack = house.pack(house.dressed(), 900)
    usual = {"inputs": [(pack, 600)], "charged_to": "L2-B", "on": DAY}
    with pytest.raises(Refusal):
        acts.issue_lot(house.reg, by=house.tutor, **{**usual, **given})


def test_what_is_issued_or_supplied_is_gone_and_cannot_be_used_again(house: House, customer: str) -> None:
    pack = house.pack(house.dressed(), 900)
    out = acts.supply_lot(
        house.reg, by=house.tutor, customer=customer, inputs=[(pack, 500)], dispatched_on=DAY
    ).code
    for act in (
        lambda: house.dish((out, None)),
        lambda: acts.issue_lot(house.reg, by=house.tutor, inputs=[(out, None)], charged_to="X", on=DAY),
        lambda: acts.move_lot(house.reg, by=house.tutor, code=out, to="C1.S1"),
        lambda: house.bin(out),
    ):
        with pytest.raises(Refusal):
            act()


# Regulation (EU) 931/2011, Article 3(1)(a) to (h), as repeated at pig333.com/latest_swine_news/
# eu-modification-of-traceability-regulations-for-animal-products_4854 and by the FSA's
# officer training, module 4 (traceabilitytraining.food.gov.uk).
EIGHT = (
    "description of the food",
    "quantity",
    "dispatched from, name and address",
    "consignor or owner, if different",
    "dispatched to, name and address",
    "consignee or owner, if different",
    "lot, batch or consignment reference",
    "date of dispatch",
)


def test_a_supply_keeps_the_eight_fields_in_the_order_of_the_law(house: House, customer: str) -> None:
    pack = house.pack(house.dressed(), 900, pack_state="vacuum")
    changes = acts.supply_lot(
        house.reg,
        by=house.tutor,
        customer=customer,
        inputs=[(pack, 650)],
        dispatched_on=DAY,
        owner_after="Saltby Hotels, Quay 1, Saltby",
    )
    (supply,) = questions.supply_note(house.reg, changes.code).supplies
    assert tuple(name for name, _ in supply.fields) == EIGHT
    assert [value for _, value in supply.fields] == [
        "haunch, fallow, wild-shot, vacuum packed, use by 22 Nov 2026",
        "0.650 kg",
        "Hob Lane Larder, Hob Lane, Netherby",
        "the same",
        "The Gannet Inn, Quay 4, Saltby",
        "Saltby Hotels, Quay 1, Saltby",
        f"{changes.code}, out of {pack}",
        "12 Nov 2026",
    ]


def test_a_whole_carcass_is_supplied_as_it_hangs(house: House, customer: str) -> None:
    code = house.receive()
    out = acts.supply_lot(
        house.reg, by=house.tutor, customer=customer, inputs=[(code, None)], dispatched_on=DAY
    )
    (supply,) = questions.supply_note(house.reg, out.code).supplies
    assert supply.fields[0][1].startswith("fallow doe, in the skin")
    assert supply.grams == 40_000
    rows = {row.words: row.grams for row in questions.trace(house.reg, code).balance.rows}
    assert rows == {"supplied to other businesses": 40_000, "unaccounted": 0}


def test_a_trace_says_by_name_to_whom_a_lot_went_and_a_hold_reaches_it(house: House, customer: str) -> None:
    animal = house.dressed()
    pack = house.pack(animal, 900)
    given = {"by": house.tutor, "inputs": [(pack, 300)]}
    sold = acts.supply_lot(house.reg, customer=customer, dispatched_on=DAY, **given).code
    taught = acts.issue_lot(house.reg, charged_to="L2-B", on=DAY, **given).code
    where = {one.code: one.where for one in questions.trace(house.reg, animal).forward}
    assert where[sold] == "supplied to The Gannet Inn, 12 Nov 2026"
    assert where[taught] == "issued to class L2-B, 12 Nov 2026"
    house.hold(animal, reason="the stalker rang")
    assert house.state(sold) == house.state(taught) == "on hold"


def test_several_lots_go_on_one_note(house: House, customer: str) -> None:
    animal = house.dressed()
    packs = [house.pack(animal, 500), house.pack(animal, 600)]
    out = acts.supply_lot(
        house.reg,
        by=house.tutor,
        customer=customer,
        inputs=[(code, None) for code in packs],
        dispatched_on=DAY,
    ).created
    note = questions.supply_note(house.reg, out[1])
    assert note.reference == out[0]
    assert [one.from_code for one in note.supplies] == packs
    assert [one.code for one in questions.supplies(house.reg)] == list(out[::-1])


def test_a_customer_needs_a_name_and_an_address(house: House) -> None:
    for given in ({"name": "", "address": "Quay"}, {"name": "Inn", "address": " "}):
        with pytest.raises(Refusal):
            acts.add_customer(house.reg, by=house.tutor, **given)


def test_an_unknown_customer_and_a_twice_scanned_pack_are_refused(house: House, customer: str) -> None:
    pack = house.pack(house.dressed(), 500)
    given = {"by": house.tutor, "dispatched_on": DAY}
    with pytest.raises(Refusal, match="chosen"):
        acts.supply_lot(house.reg, customer="C099", inputs=[(pack, None)], **given)
    with pytest.raises(Refusal, match="already"):
        acts.supply_lot(house.reg, customer=customer, inputs=[(pack, 100), (pack, 100)], **given)


def test_the_customers_name_stands_on_a_card_outside_the_journal(house: House, customer: str) -> None:
    assert [one.name for one in questions.customers(house.reg)] == ["The Gannet Inn"]
    with house.reg.store.reading() as connection:
        entries = connection.exec_driver_sql("SELECT text FROM entry").scalars().all()
    assert any("customer.added" in entry for entry in entries)
    assert not any("Gannet" in entry for entry in entries)
    assert questions.check(house.reg) == ()
