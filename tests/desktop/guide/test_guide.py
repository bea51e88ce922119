"""The guide by keys alone: from a delivery, through the key, the look-alikes and the words, and back."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QScrollArea

from gametrace.desktop.guide.kind import Body, Kind
from gametrace.desktop.guide.saying import about, kind_words
from gametrace.desktop.guide.view import PAGES
from gametrace.facts.identification import questions
from gametrace.facts.species import all_species

DEER = [one.id for one in all_species() if one.deer]


def words_on(widget) -> str:
    return " ".join(label.text() for label in widget.findChildren(QLabel) if label.isVisible())


@pytest.fixture
def form(roe_window, qtbot):
    """A new delivery, half filled: tag, weight and place typed."""
    roe_window.go("delivery")
    station = roe_window.station("delivery")
    qtbot.waitUntil(station.page.new_page.isVisible)
    form = station.page.new_page.form
    qtbot.waitUntil(lambda: form.isAncestorOf(QApplication.focusWidget()))
    form.paper.supplier.list.picked.emit("S001")
    form.paper.lines["tag"].setText("JA 077")
    form.beast.grams.set_text("41,6")
    form.beast.kill_place.setText("Askew Gill")
    return form


@pytest.fixture
def guide(roe_window, form, keys, qtbot):
    """The guide as F8 opens it from that delivery."""
    keys(Qt.Key.Key_F8)
    assert roe_window.current == "guide"
    made = roe_window.station("guide")
    qtbot.waitUntil(lambda: QApplication.focusWidget() is made.page.key_page.grid.buttons[0])
    return made


def test_the_key_ends_in_the_delivery_with_kind_sex_and_age_and_nothing_typed_is_lost(
    roe_window, form, guide, keys, qtbot
) -> None:
    page = guide.page
    assert page.key_page.asks.text() == "What antlers?"
    keys("5")  # spikes
    keys("0")  # tusks cannot be seen
    keys("2")  # medium
    keys("4")  # white inside a black horseshoe
    keys("1")  # a long tail with a stripe
    assert next(iter(page.key_page.candidates.buttons)) == "fallow"
    QTest.keyClick(roe_window.windowHandle(), Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    assert page.shown == "words"
    assert QApplication.focusWidget().accessibleName() == "Sex: Buck"
    keys(Qt.Key.Key_Return, Qt.Key.Key_Return)  # buck, and on
    assert QApplication.focusWidget().accessibleName() == "Age class: Fawn"
    keys(Qt.Key.Key_Right)
    assert page.words_page.act.text() == "To the delivery: fallow, buck, pricket"
    QTest.keyClick(roe_window.windowHandle(), Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    assert roe_window.current == "delivery"
    read = form.read_what_can_be()
    assert (read["species"], read["sex"], read["age_class"]) == ("fallow", "male", "pricket")
    assert (read["supplier"], read["tag"], read["grams"], read["kill_place"]) == (
        "S001",
        "JA 077",
        41_600,
        "Askew Gill",
    )
    qtbot.waitUntil(lambda: QApplication.focusWidget().accessibleName() == "Species: fallow")


@pytest.mark.parametrize("key", [Qt.Key.Key_F8, Qt.Key.Key_Escape])
def test_leaving_without_a_kind_changes_nothing(roe_window, form, guide, keys, key) -> None:
    before = form.read_what_can_be()
    keys("1", key)
    assert roe_window.current == "delivery"
    assert form.read_what_can_be() == before


def test_what_the_delivery_knows_goes_along_and_the_key_begins_anew(roe_window, form, guide, keys) -> None:
    keys("1", Qt.Key.Key_Escape)
    form.beast.species.choose("roe")
    form.beast.sex.choose("female")
    form.beast.basis.buttons["in_skin"].click()
    keys(Qt.Key.Key_F8)
    page = guide.page
    assert page.key_page.candidates.buttons == {}
    assert (page.key_page.skin.text(), page.key_page.head.text()) == ("Skinned", "Head off")
    page.page_wanted.emit("words")
    assert page.words_page.value() == Kind("roe", "female", "")


def test_the_button_at_the_species_opens_the_guide_and_enter_from_field_to_field_goes_past_it(
    roe_window, form, keys
) -> None:
    form.paper.notes.setFocus()
    keys(Qt.Key.Key_Return)
    assert QApplication.focusWidget().accessibleName() == "Kind of game: Deer and boar"
    form.beast.guide.setFocus()
    keys(Qt.Key.Key_Return)
    assert roe_window.current == "guide"


def test_a_delivery_that_is_being_finished_gets_its_kind_back_and_keeps_what_was_typed(
    roe_window, roe_larder, keys
) -> None:
    code = roe_larder.in_skin(tag="")
    roe_window.go("delivery", code)
    form = roe_window.station("delivery").page.finish_page.form
    form.beast.kill_place.setText("Far Gill")
    keys(Qt.Key.Key_F8)
    guide = roe_window.station("guide")
    guide.page.page_wanted.emit("words")
    assert guide.page.words_page.value() == Kind("roe", "male", "buck")
    guide.page.words_page.age_class.choose("kid")
    guide.page.words_page.act.click()
    read = form.read_what_can_be()
    assert roe_window.station("delivery").page.form_shown is form
    assert (read["species"], read["age_class"], read["kill_place"]) == ("roe", "kid", "Far Gill")


def test_the_drawings_of_one_question_are_of_one_size(guide, keys) -> None:
    keys("0", "0")  # to the size, where it matters most
    assert guide.page.key_page.asks.text() == "How large?"
    buttons = guide.page.key_page.grid.shown
    assert len(buttons) == 4
    for sizes in ([one.width() for one in buttons], [one.height() for one in buttons]):
        assert max(sizes) - min(sizes) <= 1  # a pixel that does not divide


def test_f8_does_nothing_where_no_form_is_open(roe_window, form, keys) -> None:
    roe_window.station("delivery").finishing.show_list()
    keys(Qt.Key.Key_F8)
    assert roe_window.current == "delivery"


def test_backspace_goes_back_with_the_answer_marked_and_another_can_be_given(guide, keys) -> None:
    key = guide.page.key_page
    keys("2", "3", Qt.Key.Key_Backspace)
    assert key.asks.text() == "Tusks in the upper jaw?"
    assert "answered so before" in key.grid.buttons[2].accessibleName()
    keys(Qt.Key.Key_Backspace)
    assert key.asks.text() == "What antlers?"
    keys(Qt.Key.Key_Right, Qt.Key.Key_Right, Qt.Key.Key_Return)  # the third: pearled
    assert next(iter(key.candidates.buttons)) == "roe"
    assert key.asks.text() == "Tusks in the upper jaw?"


def test_a_scan_in_the_guide_is_a_scan_and_answers_nothing(roe_window, guide, roe_scan, roe_larder) -> None:
    roe_scan(roe_larder.in_skin())
    assert roe_window.current == "trace"
    assert guide.page.key_page.candidates.buttons == {}


def test_a_number_that_is_no_answer_does_nothing(guide, keys) -> None:
    keys("9", "7")
    assert guide.page.key_page.asks.text() == "What antlers?"


def test_each_kind_says_what_is_for_and_against_it_and_what_that_rests_on(guide, keys) -> None:
    keys("3", "2")  # pearled; short tusks
    words = words_on(guide.page.key_page.candidates)
    assert "For: What antlers? Short and rough, pearled" in words
    assert "Against: Tusks in the upper jaw? Short, just seen, where it is usually none seen." in words
    assert "Antlers, tusks: Pages on roe (glands, rump, face) (read there)." in words
    assert "By eye only" in words


def test_where_two_come_out_alike_or_a_hybrid_is_in_question_no_kind_has_the_main_key(
    roe_window, guide, keys
) -> None:
    keys("2", "0", "1")  # branched, large
    part = guide.page.key_page.candidates
    assert "cannot be settled by eye" in part.hybrid.text()
    assert "common practice, no source" in part.hybrid.text()
    QTest.keyClick(roe_window.windowHandle(), Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    assert guide.page.shown == "key"
    part.buttons["red-sika-hybrid"].click()
    assert guide.page.words_page.value().species == "red-sika-hybrid"


def test_a_body_without_skin_and_head_is_asked_nothing_and_told_as_declared(guide) -> None:
    key = guide.page.key_page
    key.skin.click()
    assert key.asks.text() == "What antlers?"
    assert "Without skin: rump, tail" in key.lost.text()
    key.head.click()
    assert "species as declared by the supplier" in key.lost.text()
    assert "our inference" in key.lost_rests.text()
    assert not any(button.isVisible() for button in key.grid.buttons)
    assert "supplier declared" in key.candidates.empty.text()


def test_every_question_can_be_answered_by_its_numbers_to_the_end(guide, keys) -> None:
    for asked in questions():
        assert guide.page.key_page.asks.text() == asked.asks
        keys(str(len(asked.answers)))
    assert guide.page.key_page.asks.text() == "Nothing more can be asked of it."


def test_look_alikes_stand_side_by_side_and_either_can_be_taken(guide, keys) -> None:
    guide.page.page_wanted.emit("pairs")
    pairs = guide.page.pairs_page
    keys("2")
    assert pairs.pairs.value() == "dark-fallow-sika"
    words = words_on(pairs)
    assert "A melanistic fallow has no pale rump" in words
    assert "the long tail, and no white tuft on the hock" in words
    assert "No pale patch; or white, no dark edge." in words
    keys("3")
    assert "nothing certain by eye" in words_on(pairs)
    pairs.chosen.emit("sika")
    assert guide.page.words_page.value().species == "sika"


# Common practice, no source: a ring must hang on a point. hockhamdmg.co.uk: twelve make a royal.
def test_the_words_of_a_kind_are_told_with_what_they_rest_on() -> None:
    red = {line.words: line.source for line in about("red")}
    assert red["Point: a tine counts as a point if a ring will hang on it."] == "common practice, no source"
    assert "royal" in red["Royal: a red stag with twelve points."]
    assert any("hybrid cannot be settled by eye" in words for words in red)
    fallow = " ".join(line.words for line in about("fallow"))
    for word in ("Common:", "Menil:", "Melanistic, or black:", "White:", "Pricket: second year", "Sorel:"):
        assert word in fallow
    assert fallow.count("Havier:") == 1


@pytest.mark.parametrize("species", DEER)
def test_every_line_is_followed_by_a_source(species: str) -> None:
    lines = about(species)
    for at, line in enumerate(lines):
        is_last_of_part = at + 1 == len(lines) or lines[at + 1].heading
        assert line.source or not is_last_of_part, line.words


def test_tab_goes_from_sex_to_age_class_to_the_main_action(guide, keys) -> None:
    guide.presenter.choose("roe")
    words = guide.page.words_page
    assert QApplication.focusWidget().accessibleName() == "Sex: Buck"
    keys(Qt.Key.Key_Space, Qt.Key.Key_Tab)
    assert QApplication.focusWidget().accessibleName() == "Age class: Kid"
    keys(Qt.Key.Key_Space, Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is words.act
    assert words.act.text() == "To the delivery: roe, buck, kid"


def test_page_down_reads_on_wherever_the_hand_is(guide, keys, qtbot) -> None:
    guide.presenter.choose("fallow")
    bar = guide.page.words_page.told.verticalScrollBar()
    qtbot.waitUntil(lambda: bar.maximum() > 0)
    keys(Qt.Key.Key_PageDown)
    assert bar.value() > 0
    keys(Qt.Key.Key_PageUp)
    assert bar.value() == 0
    guide.page.page_wanted.emit("key")
    guide.page.focus_first()
    keys("1")
    ranked = guide.page.key_page.candidates.listed.verticalScrollBar()
    qtbot.waitUntil(lambda: ranked.maximum() > 0)
    keys(Qt.Key.Key_PageDown)
    assert ranked.value() > 0


def test_a_kind_is_named_once_in_words() -> None:
    assert kind_words(Kind("roe", "female", "doe")) == "roe, doe"
    assert kind_words(Kind("red", "unknown", "")) == "red"
    assert kind_words(Kind()) == ""


@pytest.mark.parametrize("page", [name for name, _ in PAGES])
@pytest.mark.parametrize("scale", [1.0, 1.5])
def test_the_guide_is_fit_for_a_hand(roe_window, guide, fits_a_hand, page: str, scale: float) -> None:
    roe_window.resize(1280, 800)
    roe_window.bench.look.set_scale(scale)
    guide.page.page_wanted.emit(page)
    for answer in ("palmate", "none", "medium", "white-no-edge"):
        guide.presenter.answer(answer)
    if page == "words":
        guide.page.words_page.show_kind(Kind("fallow", "male", "pricket"))
    roe_window.grab_station("guide")
    assert fits_a_hand(guide) == []
    for area in guide.findChildren(QScrollArea):
        assert not area.isVisible() or area.widget().width() <= area.viewport().width()
    roe_window.bench.look.set_scale(1.0)


def test_opened_by_itself_the_guide_still_ends_in_a_new_delivery(roe_window, keys) -> None:
    roe_window.go("guide")
    guide = roe_window.station("guide")
    guide.presenter.open(Body())
    guide.presenter.choose("muntjac")
    guide.presenter.take()
    assert roe_window.current == "delivery"
    assert roe_window.station("delivery").page.new_page.form.beast.species.value() == "muntjac"
