"""A cutting session in the real window: tables, students by code, a balance each, and a night between."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit, QTableView

from gametrace.desktop.app import build_window
from gametrace.desktop.settings import Settings
from gametrace.register import questions

ENTER, TAB, SPACE, DOWN = Qt.Key.Key_Return, Qt.Key.Key_Tab, Qt.Key.Key_Space, Qt.Key.Key_Down


def tab_to(window, widget) -> None:
    """Walk there as a hand does, with Tab alone."""
    for _ in range(120):
        if window.focusWidget() is widget:
            return
        QTest.keyClick(window.windowHandle(), TAB)
    raise AssertionError(f"Tab never reaches {widget.accessibleName()}")


def to_table(window, at: int) -> None:
    """Alt and the number of the table."""
    key = getattr(Qt.Key, f"Key_{at}")
    QTest.keyClick(window.windowHandle(), key, Qt.KeyboardModifier.AltModifier)


def find_row(page, code: str) -> None:
    """Walk down the list to a lot."""
    for _ in range(20):
        if page.choosing.table.current().code == code:
            return
        QTest.keyClick(page.choosing.table, DOWN)
    raise AssertionError(f"{code} is not in the list")


@pytest.fixture
def block(roe_window):
    roe_window.go("block")
    return roe_window.station("block")


def begin(roe_larder, tables: int = 2) -> str:
    return roe_larder.acts.open_session(
        roe_larder.register,
        by=roe_larder.tutor,
        group="L3 B",
        stations=[f"table {at}" for at in range(1, tables + 1)],
    ).code


def lay(roe_larder, session: str, table: str, code: str) -> None:
    roe_larder.acts.lay_on_table(
        roe_larder.register, by=roe_larder.tutor, session=session, station=table, code=code
    )


def test_two_students_break_down_left_and_right_of_one_beast_at_two_tables_by_keyboard_alone(
    roe_larder, roe_window, keys
):
    beast = roe_larder.dressed(16_000, 3_190)
    keys(Qt.Key.Key_F3)
    page = roe_window.station("block").page
    tab_to(roe_window, page.choosing.session)
    keys(SPACE)
    roster, begun = page.sessions.roster, page.sessions.begin
    tab_to(roe_window, roster.more)
    keys("2", ENTER)
    assert [one.code for one in questions.roster(roe_larder.register)] == ["R001", "R002"]
    tab_to(roe_window, begun.group)
    keys("L3 B", ENTER, ENTER)
    (session,) = questions.open_sessions(roe_larder.register)
    assert (session.group, session.stations) == ("L3 B", ("table 1", "table 2"))

    keys(ENTER, ENTER, ENTER)  # lay something; the beast; on table 1
    assert page.page() == "cutting"
    keys("left side", ENTER, "6.4", ENTER, "right side", ENTER, "6.40", ENTER)
    tab_to(roe_window, page.cutting.balance.close_button)
    keys(SPACE)
    tab_to(roe_window, page.cutting.balance.closing.close_it)
    keys(ENTER)
    left, right = (one.code for one in questions.block_view(roe_larder.register, beast).trays[-2:])

    tab_to(roe_window, page.cutting.next)
    keys(ENTER, ENTER, ENTER, ENTER)  # the tables; lay something; the first of the list; a free table
    assert page.cutting.code == left
    to_table(roe_window, 2)
    assert page.choosing.title.text() == "What goes on table 2?"
    find_row(page, right)
    keys(ENTER)
    assert page.cutting.code == right
    for table, half, side, many in ((1, left, "l", 1), (2, right, "r", 2)):
        to_table(roe_window, table)
        assert page.cutting.code == half
        tab_to(roe_window, page.cutting.cutter)
        keys(*[DOWN] * many)
        tab_to(roe_window, page.cutting.offering.search)
        keys(f"haunch {side}", ENTER, "2.5", ENTER, f"shoulder {side}", ENTER, "1.5", ENTER)
    for table, half in ((2, right), (1, left)):
        to_table(roe_window, table)
        tab_to(roe_window, page.cutting.offering.search)
        keys("saddle", ENTER, "1.30", ENTER, "bone", ENTER, "1.0", ENTER, "shot", ENTER, "0.05", ENTER)
        assert page.cutting.balance.figure.text() == "0.050 kg"
        tab_to(roe_window, page.cutting.balance.close_button)
        keys(SPACE)
        tab_to(roe_window, page.cutting.balance.closing.close_it)
        keys(ENTER)
        assert questions.block_view(roe_larder.register, half).is_closed

    told = questions.session(roe_larder.register, session.code)
    halves = {one.view.lot.code: one for station in told.stations for one in station.lots}
    for half, cutter, side in ((left, "R001", "left"), (right, "R002", "right")):
        view = halves[half].view
        assert view.is_closed
        assert view.unaccounted_grams == 50
        assert dict(view.balance.parts) == {"meat": 5_300, "bone": 1_000, "shot-damage": 50}
        assert {one.cutter for one in view.trays} == {cutter}
        assert {one.side for one in view.trays if one.product in ("haunch", "shoulder")} == {side}
    assert questions.check(roe_larder.register) == ()


@pytest.mark.parametrize("page", ["choosing", "begin", "now", "laying", "cutting", "cut names", "scale"])
def test_tab_alone_comes_to_everything_on_the_page(roe_larder, roe_window, block, page):
    beast, other = roe_larder.dressed(), roe_larder.dressed()
    if page not in ("choosing", "begin"):
        session = begin(roe_larder)
        lay(roe_larder, session, "table 1", beast)
    block.reload()
    lead(block, page, beast, other)
    QTest.qWait(0)
    wanted = [
        one
        for kind in (QAbstractButton, QLineEdit, QComboBox, QTableView)
        for one in block.findChildren(kind)
        if one.isVisible() and one.focusPolicy() & Qt.FocusPolicy.TabFocus and one.isEnabled()
        if not (isinstance(one, QAbstractButton) and one.group() is not None)
    ]
    reached = set()
    for _ in range(150):
        reached.add(roe_window.focusWidget())
        QTest.keyClick(roe_window.windowHandle(), TAB)
    assert [one.accessibleName() or one.text() for one in wanted if one not in reached] == []


def lead(block, page: str, beast: str, other: str) -> None:
    """Go to a page as its keys would."""
    if page in ("begin", "now"):
        block.presenter.show_session()
    elif page == "laying":
        block.presenter.open(other)
    elif page in ("cutting", "pad"):
        block.presenter.open(beast)
        block.page.cutting.pad_key.setChecked(page == "pad")
    elif page == "cut names":
        block.page.choosing.cut_names.click()
    elif page == "scale":
        block.page.choosing.scale.click()


def test_the_tables_stand_side_by_side_and_nothing_of_one_is_in_the_other(roe_larder, block, keys):
    session = begin(roe_larder, 3)
    first, second = roe_larder.dressed(), roe_larder.dressed(17_000)
    lay(roe_larder, session, "table 1", first)
    lay(roe_larder, session, "table 2", second)
    block.reload()
    block.presenter.go_to_table("table 1")
    keys("haunch l", ENTER, "2.5", ENTER, "neck", ENTER, "0.7")
    to_table(block.window(), 2)
    page = block.page
    assert page.cutting.code == second
    assert page.cutting.weighing.grams.text() == ""
    keys("trim", ENTER, "13.81", ENTER)
    assert [one.grams for one in questions.block_view(roe_larder.register, first).trays][-1] == 2_500
    faces = {face.name: face for face in block.presenter.sessions.faces()}
    assert faces["table 1"].left == 12_810 - 2_500
    assert faces["table 2"].code == ""  # all of it is weighed: the table is free
    to_table(block.window(), 1)
    assert page.cutting.code == first
    assert (page.cutting.weighing.grams.text(), page.cutting.offering.product().id) == ("0.7", "neck")
    assert page.strip.tables() == ("table 1", "table 2", "table 3")
    assert page.strip.tab("table 1").isChecked()


def test_a_second_animal_on_a_table_is_asked_for_a_reason(roe_larder, block, keys):
    session = begin(roe_larder, 1)
    first, second = roe_larder.dressed(), roe_larder.dressed()
    lay(roe_larder, session, "table 1", first)
    block.reload()
    block.presenter.open(second)
    assert block.page.page() == "laying"
    keys(ENTER)
    assert "second animal" in block.page.laying.loud.text()
    assert questions.block_view(roe_larder.register, second).station == ""
    keys("one clean table left", ENTER)
    assert questions.block_view(roe_larder.register, second).station == "table 1"
    assert block.page.page() == "cutting"
    assert block.presenter.sessions.faces()[0].animals == 2


def test_a_free_table_that_was_pressed_gets_what_is_chosen_next(roe_larder, block, keys):
    begin(roe_larder)
    beast = roe_larder.dressed()
    block.reload()
    block.presenter.show_session()
    block.page.sessions.now.tabs["table 2"].click()
    assert block.page.choosing.title.text() == "What goes on table 2?"
    keys(ENTER)
    assert questions.block_view(roe_larder.register, beast).station == "table 2"
    assert block.page.cutting.code == beast


def test_a_lot_may_be_cut_on_no_table_while_a_session_is_open(roe_larder, block):
    begin(roe_larder)
    beast = roe_larder.dressed()
    block.reload()
    block.presenter.open(beast)
    block.page.laying.outside.click()
    assert (block.page.page(), block.page.cutting.code) == ("cutting", beast)
    assert block.page.words.isVisible()
    assert not block.page.strip.isVisible()


def test_after_a_night_everything_stands_as_it_was_what_was_typed_and_not_weighed_too(
    qtbot, roe_larder, tmp_path
):
    session, beast = begin(roe_larder), roe_larder.dressed()
    roe_larder.acts.add_to_roster(roe_larder.register, by=roe_larder.tutor, names=["", ""])
    lay(roe_larder, session, "table 1", beast)
    ini = tmp_path / "window.ini"

    def evening_or_morning():
        made = build_window(roe_larder.register, papers=tmp_path, settings=Settings(ini))
        qtbot.addWidget(made)
        made.bench.set_person(roe_larder.tutor)
        made.show()
        made.go("block")
        return made, made.station("block").page.cutting

    window, page = evening_or_morning()
    window.station("block").presenter.open(beast)
    page.offering._take(page.offering._catalogue.get("shoulder"), "right", "boneless")
    page.cutter.setCurrentIndex(2)
    page.cutter.activated.emit(2)
    QTest.keyClicks(page.weighing.grams.edit, "1.7")
    window.close()
    roe_larder.later(hours=15)

    window, page = evening_or_morning()
    assert window.station("block").page.page() == "cutting"
    assert page.code == beast
    assert page.weighing.grams.text() == "1.7"
    assert page.offering.product().id == "shoulder"
    assert (page.offering.side_value(), page.offering.state_value()) == ("right", "boneless")
    assert page.cutter.value() == "R002"
    page.weighing.weigh.click()
    tray = questions.block_view(roe_larder.register, beast).trays[-1]
    assert (tray.name, tray.cutter, tray.station) == ("shoulder, right, boneless", "R002", "table 1")
    window.bench.errands.wait_idle()
    window.close()


def test_a_session_with_meat_on_a_table_is_closed_with_a_reason(roe_larder, block, keys):
    session, beast = begin(roe_larder), roe_larder.dressed()
    lay(roe_larder, session, "table 1", beast)
    block.reload()
    block.presenter.show_session()
    now = block.page.sessions.now
    now.close_key.click()
    block.reload()  # what was said stays said
    assert "Not all is weighed" in now.reason.trouble.text()
    keys("the bell", ENTER)
    assert questions.open_sessions(roe_larder.register) == ()
    assert not block.page.sessions.is_now


def test_a_student_leaves_the_roster_with_a_reason(roe_larder, block, keys):
    roe_larder.acts.add_to_roster(roe_larder.register, by=roe_larder.tutor, names=["Ann Rowan"])
    block.reload()
    block.presenter.show_session()
    sheet = block.page.sessions.roster
    sheet.table.selectRow(0)
    sheet.forget_key.click()
    assert sheet.fields["reason"].trouble.text()
    sheet.reason.setFocus()
    keys("left the college")
    sheet.forget_key.click()
    assert questions.roster(roe_larder.register) == ()


def test_the_lines_of_the_balance_are_said_in_words_and_asked_at_closing(roe_larder, block, keys):
    beast = roe_larder.dressed(16_000, 3_190)
    block.reload()
    block.presenter.open(beast)
    balance = block.page.cutting.balance
    keys("on the bone", ENTER, "12.3", ENTER)  # 0.51 of 16.00 kg: 3.2 %
    assert "past 2 %, amber" in balance.share.text()
    keys("trim", ENTER, "0.3", ENTER)
    assert balance.share.text() == "1.3 % of 16.00 kg in"
    assert "meat 12.30, trim 0.30, skin, head, feet, fat 3.19" in balance.sums.text()


def test_a_joint_leads_to_its_parts_and_a_part_of_the_left_is_left(roe_larder, block, keys):
    haunch = roe_larder.weigh(roe_larder.dressed(), "haunch", 2_500, side="left")
    block.reload()
    block.presenter.open(haunch)
    offering = block.page.cutting.offering
    keys("haunch", ENTER)
    shown = [button.property("product") for button in offering.buttons.buttons()]
    assert {"topside", "silverside", "rump", "hind-shank"} <= set(shown)
    next(one for one in offering.buttons.buttons() if one.property("product") == "rump").click()
    assert (offering.product().id, offering.side_value()) == ("rump", "left")


def test_the_kitchen_changes_the_name_of_a_cut_and_finds_it_by_it(roe_larder, block, keys):
    beast = roe_larder.dressed()
    block.reload()
    block.page.choosing.cut_names.click()
    names = block.page.cut_names
    names.table.choose_id("rump")
    names.name.setFocus()
    names.name.selectAll()
    keys("point end")
    block.reload()  # another window has written something
    assert names.name.text() == "point end"
    assert names.name.hasFocus()
    names.change.click()
    assert names.fields["reason"].trouble.text()
    names.reason.setFocus()
    keys("as we teach it", ENTER)
    assert questions.cut_tree(roe_larder.register, "roe").find("rump").name == "point end"
    assert "as we teach it" in names.picked().change
    names.back.click()
    block.presenter.open(beast)
    keys("point l", ENTER, "0.4", ENTER)
    assert questions.block_view(roe_larder.register, beast).trays[-1].name == "point end, left"


def test_a_line_of_a_scale_may_be_pasted_and_a_moving_one_is_not_taken(roe_larder, block):
    roe_larder.dressed()
    block.reload()
    block.presenter.open(roe_larder.dressed())
    weighing = block.page.cutting.weighing
    edit = weighing.grams.edit
    edit.insert("US,GS,+  2.514kg")
    edit.textEdited.emit(edit.text())
    assert "still moving" in weighing.said.text()
    edit.selectAll()
    edit.insert("ST,GS,+  2.514kg")
    edit.textEdited.emit(edit.text())
    assert weighing.grams.value() == 2_514
    assert not weighing.said.text()


def test_the_number_pad_types_into_the_weight(roe_larder, block):
    beast = roe_larder.dressed()
    block.reload()
    block.presenter.open(beast)
    page = block.page.cutting
    page.pad_key.click()
    assert page.offering.pad.isVisible()
    for key in ("2", ".", "5", "9", "⌫"):
        page.offering.pad.keys[key].click()
    assert page.weighing.grams.text() == "2.5"
    page.weighing.weigh.click()
    assert questions.block_view(roe_larder.register, beast).trays[-1].grams == 2_500


@pytest.mark.parametrize("page", ["begin", "now", "laying", "cutting", "pad", "cut names", "scale"])
@pytest.mark.parametrize("size", [(1280, 800), (1920, 1080)])
def test_every_page_of_a_session_fits_a_gloved_hand_and_has_a_name(
    roe_larder, block, fits_a_hand, page, size
):
    block.window().resize(*size)
    beast, other = roe_larder.dressed(), roe_larder.dressed()
    roe_larder.acts.add_to_roster(roe_larder.register, by=roe_larder.tutor, names=["Ann", ""])
    if page != "begin":
        session = begin(roe_larder)
        lay(roe_larder, session, "table 1", beast)
        roe_larder.weigh(beast, "haunch", 2_500, side="left")
    block.reload()
    lead(block, page, beast, other)
    assert block.page.strip.isVisible() == (page in ("cutting", "pad"))
    QTest.qWait(0)
    assert fits_a_hand(block) == []
