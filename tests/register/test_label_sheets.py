"""What labels say by their sort, which copy they are, the house's own stocks, and what small papers ask."""

from __future__ import annotations

from datetime import date

import pytest
from larder_house import House

from gametrace.domain.errors import Refusal
from gametrace.domain.label_stock import LabelStock
from gametrace.register import acts, questions
from gametrace.register.acts import Out
from gametrace.register.records import LabelSheet

SHEET = LabelStock("Small A4", 210, 297, 3, 8, 64, 33.9, 6.5, 12.9, 2.5, 0, 300)


def label(house: House, code: str, sort: str = "") -> LabelSheet:
    (sheet,) = questions.label_sheets(house.reg, [code], sort)
    return sheet


def note(house: House, *codes: str, sort: str = "") -> None:
    acts.note_labels_printed(house.reg, by=house.student, codes=codes, sort=sort)


# -- by sort ----------------------------------------------------------------------------------------------


def test_a_carcass_tag_has_few_words(house: House) -> None:
    sheet = label(house, house.dressed())
    assert sheet.sort == "carcass"
    assert len(sheet.lines) == 3
    assert "kg skinned" in sheet.lines[0]
    assert sheet.date_line.startswith("Killed ")


def test_a_mixed_lot_names_its_parents_with_the_grams_of_each(house: House) -> None:
    one, two = house.trim(house.dressed(), 700), house.trim(house.dressed(), 500)
    sheet = label(house, house.mix((one, 600), (two, 400)))
    assert sheet.sort == "mix"
    assert sheet.parents == ((one, 600), (two, 400))


# Regulation (EU) 142/2011, Annex VIII, chapter II: the words for category 3, 2 and 1.
@pytest.mark.parametrize(
    ("category", "words"),
    [
        ("3", "NOT FOR HUMAN CONSUMPTION"),
        ("2", "NOT FOR ANIMAL CONSUMPTION"),
        ("1", "FOR DISPOSAL ONLY"),
    ],
)
def test_a_by_product_says_the_words_of_the_category_the_kitchen_settled(
    house: House, category: str, words: str
) -> None:
    if category != "3":
        acts.set_policy(
            house.reg, by=house.tutor, name="category.bone", value=f"{category}|the council|2026-11-01",
            reason="settled with the council",
        )  # fmt: skip
    (bone,) = house.out(house.dressed(), Out("bone", 900))
    sheet = label(house, bone)
    assert (sheet.sort, sheet.warning) == ("by-product", words)
    assert sheet.lines[0] == f"Animal by-product, category {category}"


def test_what_is_on_hold_has_the_hold_label_whatever_it_is(house: House) -> None:
    pack = house.pack(house.dressed())
    house.hold(pack)
    assert label(house, pack).sort == "hold"
    assert label(house, pack).warning.startswith("ON HOLD: smells odd")


# -- copies -----------------------------------------------------------------------------------------------


def test_a_label_printed_again_says_copy_2_under_whatever_word_the_first_was_noted(house: House) -> None:
    code = house.dressed()
    assert label(house, code).copy == 1
    note(house, code, sort="tag")
    assert label(house, code).copy == 2
    note(house, code)
    assert label(house, code).copy == 3


def test_a_hold_label_is_no_copy_of_the_tag(house: House) -> None:
    code = house.dressed()
    note(house, code, sort="tag")
    assert label(house, code, "hold").copy == 1


def test_a_frozen_label_is_no_copy_of_the_chilled_one(house: House) -> None:
    pack = house.pack(house.dressed(), 900, pack_state="vacuum")
    note(house, pack)
    acts.freeze_lot(house.reg, by=house.student, code=pack)
    assert (label(house, pack).sort, label(house, pack).copy) == ("frozen", 1)


def test_several_copies_at_once_are_counted_on_and_noted_as_many(house: House) -> None:
    pack, other = house.pack(house.dressed()), house.pack(house.dressed())
    note(house, pack)
    sheets = questions.label_sheets(house.reg, [pack, other], copies=3)
    assert [(one.code, one.copy) for one in sheets] == [
        (pack, 2), (pack, 3), (pack, 4), (other, 1), (other, 2), (other, 3)
    ]  # fmt: skip
    codes, sorts = [one.code for one in sheets], [one.sort for one in sheets]
    acts.note_labels_printed(house.reg, by=house.student, codes=codes, sorts=sorts)
    assert (label(house, pack).copy, label(house, other).copy) == (5, 4)


def test_copies_are_counted_the_same_after_a_rebuild(house: House) -> None:
    pack = house.pack(house.dressed())
    note(house, pack, pack, sort="pack")
    acts.rebuild(house.reg)
    assert label(house, pack).copy == 3


@pytest.mark.parametrize("copies", [0, -1, 51])
def test_a_number_of_copies_that_cannot_be_right_is_refused(house: House, copies: int) -> None:
    with pytest.raises(Refusal, match="cannot be right"):
        questions.label_sheets(house.reg, [house.dressed()], copies=copies)


# -- the house's own stocks -------------------------------------------------------------------------------


def test_a_stock_is_kept_changed_and_dropped(house: House) -> None:
    acts.keep_label_stock(house.reg, by=house.technician, stock=SHEET)
    assert questions.label_stocks(house.reg) == (SHEET,)
    acts.rebuild(house.reg)
    assert questions.label_stocks(house.reg) == (SHEET,)
    with pytest.raises(Refusal, match="kept so already"):
        acts.keep_label_stock(house.reg, by=house.technician, stock=SHEET)
    acts.drop_label_stock(house.reg, by=house.tutor, name=SHEET.name)
    assert questions.label_stocks(house.reg) == ()
    with pytest.raises(Refusal, match="not one of the house's own"):
        acts.drop_label_stock(house.reg, by=house.tutor, name=SHEET.name)


def test_a_student_does_not_change_the_house_s_stocks_and_one_without_a_name_is_refused(house: House) -> None:
    with pytest.raises(Refusal):
        acts.keep_label_stock(house.reg, by=house.student, stock=SHEET)
    nameless = LabelStock("", *[getattr(SHEET, name) for name in SHEET.__slots__[1:]])
    with pytest.raises(Refusal, match="needs a name"):
        acts.keep_label_stock(house.reg, by=house.tutor, stock=nameless)


def test_a_stock_is_no_figure_of_the_kitchen_s(house: House) -> None:
    acts.keep_label_stock(house.reg, by=house.tutor, stock=SHEET)
    assert questions.policy_changes(house.reg) == ()
    assert questions.policies(house.reg) is not None


# -- small papers -----------------------------------------------------------------------------------------


def cut_by(house: House, code: str, cutter: str, *outputs: Out) -> None:
    acts.weigh_out(house.reg, by=house.student, code=code, outputs=outputs, cutter=cutter)


def test_an_evidence_sheet_holds_what_one_code_cut_on_the_days_asked_for(house: House) -> None:
    acts.add_to_roster(house.reg, by=house.tutor, group="Level 2", names=["", ""])
    first, second = house.dressed(), house.dressed()
    cut_by(house, first, "R001", Out("shoulder", 800, side="left"), Out("neck", 500))
    cut_by(house, second, "R002", Out("saddle", 900))
    house.out(first, Out("shoulder", 700, side="right"))
    house.clock.go(days=3)
    cut_by(house, second, "R001", Out("neck", 450))
    sheet = questions.evidence_sheet(
        house.reg, student="r001", first=date(2026, 11, 12), last=date(2026, 11, 15)
    )
    assert [(one.name, one.grams, one.on.day) for one in sheet.lines] == [
        ("shoulder, left", 800, 12), ("neck", 500, 12), ("neck", 450, 15)
    ]  # fmt: skip
    assert [code for code, _ in sheet.animals] == sorted([first, second])
    assert sheet.grams == 1_750
    only = questions.evidence_sheet(
        house.reg, student="R001", first=date(2026, 11, 13), last=date(2026, 11, 15)
    )
    assert [one.grams for one in only.lines] == [450]


def test_evidence_needs_a_code_and_days_in_their_order(house: House) -> None:
    day = date(2026, 11, 12)
    with pytest.raises(Refusal, match="Whose sheet"):
        questions.evidence_sheet(house.reg, student=" ", first=day, last=day)
    with pytest.raises(Refusal, match="before the first"):
        questions.evidence_sheet(house.reg, student="R001", first=day, last=date(2026, 11, 11))


def test_a_cutting_sheet_knows_what_is_weighed_and_names_the_rest(house: House) -> None:
    code = house.dressed()
    house.out(code, Out("haunch", 4_000, side="left"))
    sheet = questions.cutting_sheet(house.reg, code=code)
    assert [tray.name for tray in sheet.trays][-1] == "haunch, left"
    assert "haunch, left" not in sheet.waiting
    assert "haunch, right" in sheet.waiting
    assert "skin" not in sheet.waiting
    empty = questions.cutting_sheet(house.reg, species="fallow")
    assert (empty.lot, empty.trays) == (None, ())
    assert {"haunch, left", "haunch, right", "skin", "bone"} <= set(empty.waiting)
