"""The old books of dealers as plain lists: their columns, their year, and what they rest on."""

from datetime import UTC, date, datetime

import pytest
from larder_house import House

from gametrace.domain.deliveries import Decision
from gametrace.facts.loading import STANDINGS
from gametrace.facts.traceability import law_sentences, old_book, old_books
from gametrace.register import acts, questions
from gametrace.register.old_books import books_for


# Councils' summary of the prescribed form: when, from whom with address, number and sex, species (part); the
# return runs from 1 April to 31 March (seen: West Lothian council).
def test_the_scottish_record_runs_from_april_to_march_with_its_four_entries(house: House) -> None:
    days = [(2026, 3, 31), (2026, 4, 1), (2027, 3, 31), (2027, 4, 1)]
    codes = []
    for year, month, day in days:
        house.clock.now = datetime(year, month, day, 9, 0, tzinfo=UTC)
        codes.append(
            house.receive(killed_on=date(year, month, day), species="muntjac", grams=12_000, age_class="")
        )
    house.clock.now = datetime(2027, 3, 31, 18, 0, tzinfo=UTC)
    made = questions.book_list(house.reg, "scotland-venison")
    assert (made.first, made.last) == (date(2026, 4, 1), date(2027, 3, 31))
    assert made.heads == (
        "date bought or received",
        "name and address of the person it came from",
        "number of carcasses and sex",
        "species, if it can be identified",
    )
    assert [row[0][:11] for row in made.rows] == ["01 Apr 2026", "31 Mar 2027"]
    assert made.rows[0][1:] == ("Perrin Ashdown, Far Farm, Netherby", "1, female", "muntjac")
    assert "shown as a plain list" in made.words, "this larder is in England"
    assert "local authority" in made.words


# Game Preservation Act (NI) 1928 s.3: all purchases, receipts, sales and disposals (seen).
def test_the_fuller_book_holds_receipts_sales_and_disposals_in_order(house: House) -> None:
    doe = house.dressed()
    pies = house.dish((house.pack(doe, 3_000), None), name="Pies", on=date(2026, 11, 12))
    refused = house.held(Decision.REJECT)
    skin = house.dress(house.receive()).created[0]
    acts.collect_by_products(
        house.reg,
        by=house.tutor,
        on=date(2026, 11, 12),
        collector="Dole",
        document_number="D1",
        destination="Plant",
        codes=[skin],
    )
    made = questions.book_list(house.reg, "ni-game", first=date(2026, 11, 12), last=date(2026, 11, 12))
    sorts = [row[1] for row in made.rows]
    assert sorts.count("purchase") == 3
    assert "sale: to those who ate it" in sorts
    assert "disposal: collected" in sorts
    assert [row[3].split()[0] for row in made.rows if "refused" in row[1]] == [refused]
    assert any(row[3].startswith(pies) for row in made.rows)
    assert "Not asked of anybody since 16 Aug 2011" in made.words


@pytest.mark.parametrize(
    ("jurisdiction", "first"),
    [("scotland", "scotland-venison"), ("northern-ireland", "ni-game"), ("england-wales", "ew-venison")],
)
def test_each_jurisdiction_has_its_own_book_first(jurisdiction: str, first: str) -> None:
    assert books_for(jurisdiction)[0].id == first
    assert len(books_for(jurisdiction)) == len(old_books())


def test_a_book_that_ended_says_from_which_day() -> None:
    """The dealers' licences of England and Wales ended on 1 August 2007 (SI 2007/2007, seen-2)."""
    held = old_book("ew-venison")
    assert held.holds_on(date(2007, 7, 31))
    assert not held.holds_on(date(2007, 8, 1))


def test_every_sentence_on_law_shows_its_source_and_the_day_it_was_read() -> None:
    for one in law_sentences():
        assert f"{STANDINGS[one.status]}, 25 Nov 2026" in one.rests_on  # in words, no mark of ours


def test_no_sentence_makes_four_hours_a_law() -> None:
    (hours,) = [one for one in law_sentences() if "hours" in one.words]
    assert hours.words.startswith("No law sets a number of hours")


# Regulation 178/2002, Article 18 (seen-2); FSA officers' training, module 4 (seen).
def test_the_law_asks_one_step_each_way_and_not_what_happens_inside() -> None:
    words = {one.id: one.words for one in law_sentences()}
    assert "one step back" in words["one-step"]
    assert "one step forward when it supplies another business" in words["one-step"]
    assert "larder's own standard" in words["inside"]
    assert "not asked" in words["inside"]
