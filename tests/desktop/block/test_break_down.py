"""A carcass weighed out in the real window, by real keys, scans and presses."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from gametrace.register import questions

ENTER, TAB, SPACE = Qt.Key.Key_Return, Qt.Key.Key_Tab, Qt.Key.Key_Space


@pytest.fixture
def block(roe_window):
    """The station, shown."""

    def show():
        roe_window.go("block")
        QTest.qWait(0)  # drawn once, so that the keys of a scan come as fast as they are struck
        return roe_window.station("block")

    return show


def tab_to(window, widget) -> None:
    """Walk there as a hand does, with Tab alone."""
    for _ in range(120):
        if window.focusWidget() is widget:
            return
        QTest.keyClick(window.windowHandle(), TAB)
    raise AssertionError(f"Tab never reaches {widget.accessibleName()}")


def test_the_roe_of_sixteen_kilos_is_broken_down_by_keyboard_alone_and_ten_grams_are_shown(
    roe_larder, roe_window, keys
):
    """Figures of a published roe buck break-down: 16.00 = 3.19 + 1.00 + 11.80 + 0.01, then
    11.80 = 7.95 + 3.48 + 0.37 (parey-jagdausbildung.de, Preisfindung Wildbret)."""
    carcass = roe_larder.dressed(16_000, 3_190)
    keys(Qt.Key.Key_F3, ENTER)
    page = roe_window.station("block").page.cutting
    assert page.code == carcass
    keys("cuts on", ENTER, "11.8", ENTER, "fat", ENTER, "1.00", ENTER)
    assert page.balance.figure.text() == "0.010 kg"
    assert page.balance.figure_words.text() == "unweighed"
    tab_to(roe_window, page.balance.close_button)
    keys(SPACE)
    tab_to(roe_window, page.balance.closing.close_it)
    keys(ENTER)
    assert page.balance.figure.text() == "0.010 kg"
    assert page.balance.figure_words.text() == "unaccounted"
    assert questions.block_view(roe_larder.register, carcass).unaccounted_grams == 10

    tab_to(roe_window, page.next)
    keys(ENTER, ENTER)
    bone_in = page.code
    assert questions.lot(roe_larder.register, bone_in).name == "cuts on the bone"
    keys("boneless", ENTER, "7.95", ENTER)
    tab_to(roe_window, page.offering.search)
    keys("bone", ENTER, "3.48", ENTER)
    view = questions.block_view(roe_larder.register, bone_in)
    assert [(one.kind, one.grams) for one in view.trays] == [("pack", 7_950), ("by-product", 3_480)]
    assert page.balance.figure.text() == "0.370 kg"  # what dried off while it was cut: shown, never hidden
    roe_window.bench.errands.wait_idle()


def test_what_is_acknowledged_is_in_the_register_at_once(roe_larder, block, keys):
    carcass = roe_larder.dressed()
    page = block().page.cutting
    keys(ENTER, "haunch l", ENTER, "2.52", ENTER)
    tray = questions.block_view(roe_larder.register, carcass).trays[-1]
    assert (tray.name, tray.grams) == ("haunch, left", 2_520)
    assert tray.code in page.weighing.said.text()
    assert page.weighing.grams.text() == ""


def test_after_the_left_haunch_the_right_one_is_next(roe_larder, block, keys):
    carcass = roe_larder.dressed()
    block()
    keys(ENTER, "haunch l", ENTER, "2.5", ENTER, ENTER, "2.6", ENTER)
    names = [one.name for one in questions.block_view(roe_larder.register, carcass).trays]
    assert names[-2:] == ["haunch, left", "haunch, right"]


def test_more_than_is_left_is_refused_at_the_field_with_the_balance_in_words(roe_larder, block, keys):
    carcass = roe_larder.dressed(16_000, 3_190)
    page = block().page.cutting
    before = len(questions.block_view(roe_larder.register, carcass).trays)
    keys(ENTER, "haunch l", ENTER, "13.5")
    assert "0.69 kg more than is left (12.81 kg)" in page.weighing.leaves.text()
    keys(ENTER)
    assert "more than is left" in page.weighing.said.text()
    assert "12.810 kg" in page.weighing.said.text()
    assert page.weighing.grams.text() == "13.50"
    assert len(questions.block_view(roe_larder.register, carcass).trays) == before


@pytest.mark.parametrize("typed", ["-3", "1e9", "nan", "kg"])
def test_what_is_no_weight_is_refused_with_a_sentence_and_stays_as_typed(roe_larder, block, keys, typed):
    carcass = roe_larder.dressed()
    page = block().page.cutting
    before = len(questions.block_view(roe_larder.register, carcass).trays)
    keys(ENTER, "haunch l", ENTER, typed)
    page.weighing.weigh.click()
    assert page.weighing.said.text()
    assert page.weighing.grams.text() == typed
    assert len(questions.block_view(roe_larder.register, carcass).trays) == before


def test_a_tray_without_a_weight_is_asked_for_one(roe_larder, block, keys):
    roe_larder.dressed()
    page = block().page.cutting
    keys(ENTER)
    page.weighing.weigh.click()
    assert "No weight has been given" in page.weighing.said.text()


def test_a_press_on_the_beast_picks_the_joint_and_its_side(qtbot, roe_larder, block, keys):
    roe_larder.dressed()
    page = block().page.cutting
    keys(ENTER)
    beast = page.offering.beast
    qtbot.mouseClick(beast, Qt.MouseButton.LeftButton, pos=beast.centre_of("shoulder").toPoint())
    assert (page.offering.product().id, page.offering.side_value()) == ("shoulder", "left")
    assert page.weighing.grams.edit.hasFocus()
    other = page.offering.other
    qtbot.mouseClick(other, Qt.MouseButton.LeftButton, pos=other.centre_of("shoulder").toPoint())
    assert page.offering.side_value() == "right"


def test_each_open_lot_resumes_exactly_as_it_was_left(roe_larder, block, keys):
    first, second = roe_larder.dressed(), roe_larder.dressed(17_000)
    station = block()
    page = station.page.cutting
    station.presenter.open(first)
    keys("shoulder r", ENTER, "1.0", ENTER, "saddle", ENTER, "2.17")
    station.presenter.open(second)
    assert page.weighing.grams.text() == ""
    keys("neck", ENTER, "0.9", ENTER)
    station.presenter.open(first)
    assert page.weighing.grams.text() == "2.17"
    assert page.offering.product().id == "saddle"
    names = [station.page.others.itemAt(at).widget().text() for at in range(station.page.others.count())]
    assert names == [f"roe buck {second[3:]}"]


def test_open_lots_come_first_and_what_may_not_be_cut_comes_last_with_the_reason(roe_larder, block, keys):
    skin, held, whole, opened = (
        roe_larder.in_skin(),
        roe_larder.dressed(),
        roe_larder.dressed(),
        roe_larder.dressed(),
    )
    roe_larder.acts.hold_lot(roe_larder.register, by=roe_larder.tutor, code=held, reason="smells")
    roe_larder.weigh(opened, "neck", 900)
    station = block()
    shown = station.page.choosing.table.records_model.records()
    codes = [one.code for one in shown if one.kind == "animals"]
    assert codes[:2] == [opened, whole]
    assert set(codes[2:]) == {skin, held}
    reasons = {one.code: one.why_not for one in shown}
    assert "still in the skin" in reasons[skin]
    assert "smells" in reasons[held]
    station.presenter.open(held)
    assert station.page.page() == "choosing"
    assert "smells" in station.page.choosing.why.text()


def test_a_scan_lays_the_carcass_on_the_block_from_any_field(roe_larder, block, roe_scan):
    first, second = roe_larder.dressed(), roe_larder.dressed()
    station = block()
    roe_scan(second)
    assert (station.page.page(), station.page.cutting.code) == ("cutting", second)
    roe_scan(first.replace("-", ""))
    assert station.page.cutting.code == first


def test_closing_with_more_than_two_in_a_hundred_missing_asks_why(roe_larder, block, keys):
    carcass = roe_larder.dressed()
    page = block().page.cutting
    keys(ENTER, "haunch l", ENTER, "2.5", ENTER)
    page.balance.close_button.click()
    closing = page.balance.closing
    assert closing.reason.isVisible()
    closing.close_it.click()
    assert not questions.block_view(roe_larder.register, carcass).is_closed
    assert closing.reason.trouble.text()
    closing.reason.inner.setFocus()
    keys("the dog had it", ENTER)
    assert questions.block_view(roe_larder.register, carcass).is_closed


def test_a_tray_written_wrong_is_corrected_with_a_reason(roe_larder, block, keys):
    carcass = roe_larder.dressed()
    page = block().page.cutting
    keys(ENTER, "haunch l", ENTER, "5.2", ENTER)
    code = questions.block_view(roe_larder.register, carcass).trays[-1].code
    page.balance.trays.pick(code)
    page.balance.correct.click()
    keys("2.5", ENTER)
    keys(ENTER)
    assert page.balance.correcting.reason.trouble.text()
    keys("read upside down", ENTER)
    assert questions.block_view(roe_larder.register, carcass).trays[-1].grams == 2_500
    assert page.balance.trays.isVisible()


def test_packs_of_one_weight_are_made_at_once_with_date_place_and_labels(roe_larder, block, keys, tmp_path):
    haunch = roe_larder.weigh(roe_larder.dressed(), "haunch", 2_500, side="left")
    station = block()
    station.presenter.open(haunch)
    page = station.page.cutting
    assert page.mode.value() == "packs"
    keys("steak", ENTER)
    page.packs.packed.choose("vacuum")
    page.packs.place.set_value("C1.S2")
    page.packs.count.set_value(3)
    assert "10 days" in page.packs.rule.text()
    keys("0.4", ENTER)
    packs = [
        questions.lot(roe_larder.register, one.code)
        for one in questions.block_view(roe_larder.register, haunch).trays
    ]
    assert [(one.kind, one.grams, one.place, one.pack_state) for one in packs] == [
        ("pack", 400, "C1.S2", "vacuum")
    ] * 3
    station.bench.errands.wait_idle()
    papers = tmp_path / "papers"
    keys()
    QTest.qWait(0)
    assert [one.name for one in papers.iterdir()] == [f"labels-{packs[0].code}.pdf"]
    assert "3 labels" in page.weighing.said.text()


def test_an_empty_block_says_what_it_is_for_and_leads_to_the_larder(block):
    station = block()
    assert station.faces.currentWidget() is station.faces.empty
    station.faces.act.click()
    assert station.window().current == "larder"


@pytest.mark.parametrize("page", ["choosing", "cutting", "packs", "mixing"])
def test_everything_on_the_block_fits_a_gloved_hand_and_has_a_name(roe_larder, block, fits_a_hand, page):
    station = block()
    carcass = roe_larder.dressed()
    station.reload()
    if page in ("cutting", "packs"):
        station.presenter.open(carcass)
        station.page.cutting.set_mode("packs" if page == "packs" else "tray")
    if page == "mixing":
        station.presenter.show_mixing()
    QTest.qWait(0)
    assert fits_a_hand(station) == []
