"""Freezing, thawing, packing again and a date by hand, from the three places where a lot is met."""

from datetime import date

import pytest
from PySide6.QtCore import Qt

from gametrace.register import questions

ENTER, ESCAPE = Qt.Key.Key_Return, Qt.Key.Key_Escape
CHILL = "C1.S1"


@pytest.fixture
def pack(roe_larder) -> str:
    return roe_larder.pack(roe_larder.dressed(), "steak", 1_000)


@pytest.fixture
def at_the_pass(roe_window, pack):
    """The form open on the pack at the pass, by key."""
    roe_window.go("pass")
    station = roe_window.station("pass")
    station.presenter.show_page("stock")
    station.page.stock.table.choose_id(pack)
    station.page.stock.keep.click()
    return station.page.stock.keeping


def freezer_of(roe_larder) -> str:
    places = questions.places(roe_larder.register)
    return next(one.code for one in places if one.sort == "freezer" and one.kind == "shelf")


def test_the_old_and_the_new_date_with_rule_and_source_stand_there_before_it_is_done(at_the_pass):
    form = at_the_pass
    assert form.was.text() == "Now: use by Tue 20 Oct 2026"
    assert "Vacuum packed, chilled: 10 days (FSA/FSS" in form.was_rule.text()
    assert form.now.text() == "Then: best by Sun 10 Oct 2027 · Frozen on 10 Oct 2026"
    assert "Frozen joints and cuts: 365 days" in form.rule.text()


def test_a_pack_is_frozen_at_the_pass_and_its_new_label_comes_out(
    roe_larder, roe_window, at_the_pass, pack, keys, tmp_path, qtbot
):
    form = at_the_pass
    keys(ENTER)  # Freeze is chosen already: Enter goes on to the place
    form.place.set_value(freezer_of(roe_larder))
    form.main.setFocus()
    keys(" ")
    qtbot.waitUntil(lambda: not roe_window.bench.errands.is_busy)
    lot = questions.lot(roe_larder.register, pack)
    assert (lot.pack_state, lot.first_frozen_on) == ("frozen", date(2026, 10, 10))
    assert not form.isVisible()
    assert "take the old one off" in roe_window.station("pass").page.stock.loud.text()
    assert list((tmp_path / "papers").glob("*.pdf"))


def test_the_freezer_is_asked_where_there_are_several_shelves(at_the_pass, keys):
    at_the_pass.main.setFocus()
    keys(" ")
    assert "in which freezer" in at_the_pass.fields["place"].trouble.text()


def test_a_frozen_pack_is_thawed_in_the_larder_by_the_way_that_is_chosen(roe_larder, roe_window, pack):
    roe_larder.acts.freeze_lot(
        roe_larder.register, by=roe_larder.tutor, code=pack, place=freezer_of(roe_larder)
    )
    roe_larder.later(days=30)
    roe_window.go("larder")
    presenter = roe_window.station("larder").presenter
    presenter.choose(pack)
    assert "keeping" in presenter.view.drawer.page.buttons
    presenter.acts.start("keeping")
    form = presenter.view.drawer.forms["keeping"]
    assert form.change.values() == ("thaw", "override")
    assert form.now.text() == ""  # nothing is promised before the way is known
    form.method.choose("fridge")
    assert form.now.text() == "Then: use by Tue 10 Nov 2026"
    form.place.set_value(CHILL)
    form.main.click()
    roe_window.bench.errands.wait_idle()
    lot = questions.lot(roe_larder.register, pack)
    assert (lot.pack_state, lot.thawed_on) == ("thawed", date(2026, 11, 9))
    assert presenter.view.drawer.form_name == ""


def test_packing_again_shows_that_no_day_is_gained(roe_larder, at_the_pass, pack):
    form = at_the_pass
    roe_larder.later(days=5)
    form.change.choose("repack")
    form.pack_state.choose("modified-atmosphere")
    assert form.now.text() == "Then: use by Tue 20 Oct 2026"
    form.labels.setChecked(False)
    form.main.click()
    assert questions.lot(roe_larder.register, pack).use_by == date(2026, 10, 20)


def test_a_date_by_hand_is_refused_to_a_student_with_everything_typed_kept(
    roe_larder, roe_window, at_the_pass, pack
):
    student = roe_larder.acts.enrol_person(
        roe_larder.register, by=roe_larder.tutor, name="Una Ling", initials="UL", role="student"
    ).code
    roe_window.bench.set_person(student)
    form = at_the_pass
    form.change.choose("override")
    form.to.set_text("25 Oct")
    form.reason.setText("salted to 3.5 %, tested")
    assert "5 days beyond the rule" in form.asked.text()
    form.labels.setChecked(False)
    form.main.click()
    assert "A student may not do this" in form.trouble.text()
    assert form.reason.text() == "salted to 3.5 %, tested"
    roe_window.bench.set_person(roe_larder.tutor)
    form.main.click()
    assert questions.lot(roe_larder.register, pack).use_by == date(2026, 10, 25)


def test_a_part_on_the_block_is_frozen_there_and_animals_are_not_offered(roe_larder, roe_window):
    carcass = roe_larder.dressed()
    trim = roe_larder.weigh(carcass, "trim", 1_000)
    roe_window.go("block")
    station = roe_window.station("block")
    page = station.page.choosing
    page.table.choose_id(carcass)
    assert not page.keep.isEnabled()
    page.table.choose_id(trim)
    page.keep.click()
    form = station.page.keeping.form
    form.place.set_value(freezer_of(roe_larder))
    form.labels.setChecked(False)
    form.main.click()
    assert station.page.page() == "choosing"
    assert "frozen" in page.why.text()
    assert questions.lot(roe_larder.register, trim).pack_state == "frozen"


def test_escape_changes_nothing_and_the_form_fits_a_hand(roe_larder, at_the_pass, pack, keys, fits_a_hand):
    assert fits_a_hand(at_the_pass) == []
    keys(ESCAPE)
    assert not at_the_pass.isVisible()
    assert questions.lot(roe_larder.register, pack).pack_state == "vacuum"
