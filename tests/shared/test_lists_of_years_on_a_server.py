"""The lists that are read in pages, and the officer's sheet, asked of a PostgreSQL server."""

from __future__ import annotations

from datetime import timedelta

from larder_house import House

from gametrace.register import acts, questions


def test_the_lists_of_years_are_read_on_a_server_as_in_a_file(house: House) -> None:
    reg, day = house.reg, house.reg.today()
    doe, buck = house.receive(), house.receive()
    for one in (doe, buck):
        house.dress(one)
    packs = house.pack(doe, 1_000), house.pack(buck, 900)
    acts.move_lot(reg, by=house.tutor, code=packs[1], to="C1.S1")
    house.dish((packs[0], None), name="Ragout")
    house.clock.go(days=1)
    acts.import_readings(
        reg, by=house.tutor, store="C1", name="C1.csv", mapping={},
        readings=[(int(house.clock.now.timestamp()) - seconds, 90) for seconds in (9_000, 6_000, 3_000, 60)],
    )  # fmt: skip
    skins = [one.code for one in questions.bins(reg)]
    acts.collect_by_products(
        reg, by=house.tutor, codes=skins[:1], on=reg.today(), collector="Grice", document_number="CD 4",
        destination="the yard",
    )  # fmt: skip

    assert [one.code for one in questions.delivery_lines(reg, 1, 1)] == [doe]
    assert questions.delivery_count(reg) == questions.delivery_count(reg, day, day) == 2
    assert questions.bins_since(reg) == day
    assert [one.pieces for one in questions.bin_papers(reg)] == [questions.bin_paper_count(reg)] == [1]
    assert [one.code for one in questions.bins(reg, only_waiting=True)] == skins[1:]
    (week,) = questions.bin_weeks(reg, day, day)
    assert sum(week.grams_by_category.values()) == sum(one.grams for one in questions.bins(reg))
    sheet = questions.visit_sheet(reg, first=day, last=day + timedelta(days=1))
    (warm,) = [one for one in sheet.evidence.warmth if one.sort == "warm"]
    assert {packs[1]} <= set(warm.lots)
    assert len(sheet.deliveries) == 2
    assert questions.stock(reg, only_unplaced=True) == ()
