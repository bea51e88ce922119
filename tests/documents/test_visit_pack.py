"""The officer's pack: every declared field, in order, legible, ending with the seal."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from io import BytesIO
from typing import Any

import pytest
from pypdf import PdfReader

from gametrace.documents.visit_pack import visit_pdf
from gametrace.register.records import Amendment
from gametrace.register.visit_records import VisitSheet


def _pages(pdf: bytes) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(pdf)).pages]


@pytest.fixture
def pages(a_visit: Callable[[int], VisitSheet]) -> list[str]:
    return _pages(visit_pdf(a_visit(3)))


def test_a_long_pack_says_how_far_it_is_and_ends_where_it_is_stopped(
    a_visit: Callable[[int], VisitSheet],
) -> None:
    told: list[tuple[int, int]] = []
    sheet = a_visit(50)
    assert visit_pdf(sheet, lambda done, of: told.append((done, of))) == visit_pdf(sheet)
    assert [done for done, _ in told] == sorted(done for done, _ in told)
    ((of, *others),) = ({of for _, of in told},)
    assert not others
    assert told[0][0] == 0
    assert told[-1][0] == of

    class StopHere(Exception):
        pass

    def stop_half_way(done: int, of: int) -> None:
        if done > of // 2:
            raise StopHere

    with pytest.raises(StopHere):
        visit_pdf(sheet, stop_half_way)


def test_the_cover_says_whose_it_is_and_what_it_does_not_claim(pages: list[str]) -> None:
    for words in (
        "Fenmoor College larder", "2 Weir Lane", "FM/2019/0417", "England and Wales",
        "1 Sep 2026 to 31 Dec 2026",
        "does not say that any meat is safe", "178/2002, Art.18; read where it is quoted, 25 Nov 2026",
        "this larder's own standard",
        "local authority", "practice register",
    ):  # fmt: skip
        assert words in pages[0]


def test_every_declared_field_of_a_delivery_is_printed(a_visit: Callable[[int], VisitSheet]) -> None:
    sheet = a_visit(1)
    text = " ".join(_pages(visit_pdf(sheet)))
    delivery = sheet.deliveries[0]
    for words in (
        delivery.code, delivery.tag, delivery.species_name, delivery.sex, delivery.age_class,
        "12 Nov 2026, 07:40",
        delivery.kill_place, delivery.supplier.name, delivery.supplier.address, delivery.route_words,
        delivery.origin_words, delivery.declaration_number, delivery.trained_person,
        delivery.certificate_number,
        delivery.inspection_notes, "haunch 5.2 °C, shoulder 8.1 °C", f"23.400 kg, {delivery.basis_words}",
        "23.600 kg", "£4.20", f"{delivery.decision}: {delivery.decision_reason}", delivery.evidence,
        *delivery.missing, *(finding.sentence for finding in delivery.findings), *delivery.reasons.values(),
    ):  # fmt: skip
        assert words in text


def test_the_three_statements_of_the_declaration_are_printed_each_with_its_answer(pages: list[str]) -> None:
    # Regulation 853/2004, Annex III, Section IV, Chapter II, 4(a).
    text = " ".join(pages)
    for words in (
        "No abnormal characteristics yes", "No abnormal behaviour before killing yes",
        "No suspicion of environmental contamination not stated",
    ):  # fmt: skip
        assert words in text


def test_the_eight_fields_stand_in_the_order_of_the_article(pages: list[str]) -> None:
    # Regulation (EU) 931/2011, Article 3(1), (a) to (h).
    page = next(page for page in pages if "Regulation 931/2011, article 3" in page and "(a)" in page)
    places = [page.index(f"({letter})") for letter in "abcdefgh"]
    assert places == sorted(places)
    row = page[page.index("(h)") :]
    values = (
        "Fallow doe, carcass in",
        "1 carcass",
        "Harrow Wood Estate",
        "Fenmoor College larder",
        "26-00417-K",
    )
    assert [row.index(value) for value in values] == sorted(row.index(value) for value in values)


def test_the_dealers_four_entries_are_printed_wherever_the_larder_is(
    a_visit: Callable[[int], VisitSheet],
) -> None:
    # Deer (Scotland) Act 1996, section 34, as councils summarise the prescribed form.
    sheet = a_visit(1)
    scottish = replace(sheet, larder=replace(sheet.larder, jurisdiction="scotland"))
    for one, is_scottish in ((sheet, False), (scottish, True)):
        text = " ".join(_pages(visit_pdf(one)))
        for words in ("Received on", "Carcasses and sex", "1 female", "fallow deer"):
            assert words in text
        assert ("not in Scotland" in text) is not is_scottish


def test_holds_refusals_corrections_late_entries_and_suppliers_are_printed(pages: list[str]) -> None:
    text = " ".join(pages)
    for words in (
        "Measured again at 15:00: 5.9 °C", "Not released.", "reject: Green smell",
        "24.300 kg 23.400 kg Two digits",
        "26-00417-K moved to", "10 Nov 2026, 12:05", "01632 960417", "council registration FM-88",
    ):  # fmt: skip
        assert words in text


def test_what_was_looked_at_measured_and_taken_away_is_printed(pages: list[str]) -> None:
    text = " ".join(pages)
    for words in (
        # papers, examinations, the decision out of the skin
        "1 missing", "contamination statement", "flies: eggs in the groin", "not present: pluck",
        "not looked at: lymph node of the jaw", "trim Bruise under the shoulder",
        # stores: cover, gaps as gaps, rounds, probes
        "1.2 °C to 8.4 °C", "2 gaps, longest 25 h 05 min, in all 31 h 30 min", "the whole period",
        "autumn.csv (400 readings)", "Chill 1 3.1 °C; Freezer 1 −18.4 °C", "T01 green probe", "0.2 °C",
        # excursions with action and result, and one that nobody answered
        "8.4 °C, limit 5.0 °C", "Door was ajar; closed it", "Result: 3.9 °C after two hours",
        "Nothing written down.", "not known, 25 h 00 min",
        # a store that failed
        "The plug was out overnight", "26-01202-9, 26-01203-X",
        # by-products
        "Dole and Marsh Collections", "DM-4417", "keep until 20 Nov 2028",
        "head, category 2: 26-01502-0", "together 2 5.000",
        "week of 16 Nov 2026", "Waiting for a collector when this was printed: 3 lots, 4.250 kg.",
        # suppliers, calls, claims
        "the lead-free statement", "Refused: 1 of 12, 8.3 %.", "Nothing suspected", "A. Penhale",
        "Still to be rung about: 26-00418-H, kill time.", "Shoulder shot away", "£5.25", "credited, £5.00",
        "Credit note 88",
    ):  # fmt: skip
        assert words in text, words


def test_a_store_without_one_reading_is_never_printed_as_measured(
    a_visit: Callable[[int], VisitSheet],
) -> None:
    text = " ".join(_pages(visit_pdf(a_visit(1))))
    row = text[text.index("Freezer 1 freezer") :]
    assert row.index("never read") < row.index("the whole period") < row.index("Rounds by hand")


def test_thousands_of_gaps_are_counted_and_not_all_printed(a_visit: Callable[[int], VisitSheet]) -> None:
    sheet = a_visit(1)
    gap = sheet.evidence.warmth[-1]
    told = replace(gap, action="The logger's battery was flat", result="changed", by="CD")
    found = (*[gap] * 900, told)
    text = " ".join(_pages(visit_pdf(replace(sheet, evidence=replace(sheet.evidence, warmth=found)))))
    assert "And 780 more such gaps that nobody wrote about." in text
    assert "The logger's battery was flat" in text


def test_both_worked_traces_and_the_seal_end_the_pack(pages: list[str]) -> None:
    text = " ".join(pages)
    assert "A worked trace back: 26-01188-X mince" in text
    assert "A worked trace forward: 26-00417-K fallow doe" in text
    assert "unaccounted 0.400 kg" in text
    assert "9f2c" * 16 in pages[-1]
    assert "1,288" in pages[-1]
    assert "RFC 8785" in pages[-1]


def test_every_page_is_numbered_and_marked_as_practice(pages: list[str]) -> None:
    for number, page in enumerate(pages, start=1):
        assert f"page {number} of {len(pages)}" in page
        assert page.count("PRACTICE REGISTER") >= 2  # the strip and the watermark


def test_a_real_register_is_not_marked(a_visit: Callable[[int], VisitSheet]) -> None:
    sheet = a_visit(1)
    real = replace(sheet, larder=replace(sheet.larder, is_practice=False))
    assert not any("PRACTICE" in page or "practice" in page for page in _pages(visit_pdf(real)))


def test_contents_and_bookmarks_lead_to_the_page_they_name(a_visit: Callable[[int], VisitSheet]) -> None:
    pdf = visit_pdf(a_visit(12))
    reader = PdfReader(BytesIO(pdf))
    pages = _pages(pdf)
    marks = [mark for mark in reader.outline if not isinstance(mark, list)]
    assert len(marks) == 25
    for mark in marks:
        at = reader.get_destination_page_number(mark)
        title = " ".join(str(mark.title).split())
        assert at is not None
        assert title in pages[at]
        assert f"{title} {at + 1}" in pages[0]


def test_a_delivery_is_not_cut_in_two(a_visit: Callable[[int], VisitSheet]) -> None:
    sheet = a_visit(20)
    pages = _pages(visit_pdf(sheet))
    blocks = [page for page in pages if "Place of killing" in page]
    for page in blocks:
        # What a block begins with and what it ends with are on the page equally often.
        assert page.count("Place of killing") == page.count("Still to finish") == page.count("Released by")


def test_heads_are_repeated_on_every_page_of_a_long_table(a_visit: Callable[[int], VisitSheet]) -> None:
    sheet = a_visit(1)
    one = sheet.amendments[0]
    many = tuple(replace(one, reason=f"Reason number {number}") for number in range(400))
    pages = [page for page in _pages(visit_pdf(replace(sheet, amendments=many))) if "Reason number" in page]
    assert len(pages) > 8
    assert all("when, by what old new reason" in page for page in pages)
    assert sum(page.count("Reason number") for page in pages) == 400


def test_an_empty_period_says_so_in_every_section(a_visit: Callable[[int], VisitSheet]) -> None:
    sheet = a_visit(1)
    bare = VisitSheet(
        sheet.larder, sheet.first_day, sheet.last_day, sheet.printed_at, (), (), (), (), (), (), None, None,
        replace(sheet.seal, count=0, head=""),
    )  # fmt: skip
    text = " ".join(_pages(visit_pdf(bare)))
    assert text.count("None in this period.") == 30
    assert text.count("No lot was chosen for it.") == 2


@pytest.mark.parametrize(
    "words",
    [
        "<b>a & b</b>",
        "=1+1",
        '"quoted" <para>',
        "emoji 🦌",
        "שלום عربي",
        "w" * 10_000,
        "word " * 2_000,
        " ",
        "",
    ],
    ids=lambda words: repr(words[:8]),
)
def test_whatever_was_typed_is_printed_as_typed(
    a_visit: Callable[[int], VisitSheet], fill: Callable[[Any, str], Any], words: str
) -> None:
    pages = _pages(visit_pdf(fill(a_visit(2), words)))
    assert len(pages) < 45
    if words.strip() and words.isascii() and len(words) < 100:
        assert "".join("".join(pages).split()).count("".join(words.split())) > 50


def test_a_delivery_with_a_hundred_findings_still_prints(a_visit: Callable[[int], VisitSheet]) -> None:
    sheet = a_visit(1)
    one = sheet.deliveries[0]
    crowded = replace(one, findings=one.findings * 40, holds=one.holds * 60, missing=("a paper",) * 500)
    assert "more findings in the register" in " ".join(
        _pages(visit_pdf(replace(sheet, deliveries=(crowded,))))
    )


def test_the_pack_names_itself_and_is_the_same_twice(a_visit: Callable[[int], VisitSheet]) -> None:
    first = visit_pdf(a_visit(2))
    assert visit_pdf(a_visit(2)) == first
    metadata = PdfReader(BytesIO(first)).metadata
    assert metadata
    assert metadata.title == "Record for a visit, 1 Sep 2026 to 31 Dec 2026"


def test_a_blank_filled_in_later_is_told_from_a_changed_value(a_visit: Callable[[int], VisitSheet]) -> None:
    sheet = a_visit(1)
    filled = Amendment(sheet.printed_at, "AB", "26-00417-K", "kill place", "", "Far wood", "")
    text = " ".join(_pages(visit_pdf(replace(sheet, amendments=(filled,)))))
    assert "not stated Far wood filled in where it was blank" in text


def test_a_batch_of_birds_is_counted_once(a_visit: Callable[[int], VisitSheet]) -> None:
    sheet = a_visit(1)
    birds = replace(sheet.deliveries[0], count=28, lot=replace(sheet.deliveries[0].lot, name="pheasant × 28"))
    text = " ".join(_pages(visit_pdf(replace(sheet, deliveries=(birds,)))))
    assert "pheasant × 28" in text
    assert "28 × pheasant" not in text
