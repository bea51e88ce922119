"""One animal looked at, stopped, answered by the laboratory and decided again: real keys."""

from __future__ import annotations

from functools import partial

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest

from gametrace.desktop.examination.outline import middle_of, place_of
from gametrace.domain.deliveries import Basis
from gametrace.domain.examination import points_to_look_at
from gametrace.register import acts, questions

ENTER, TAB = (
    Qt.Key.Key_Return,
    Qt.Key.Key_Tab,
)
WHOLE = Basis(in_skin=True, head_on=True, feet_on=True, pluck_in=True)


@pytest.fixture
def opened(roe_window):
    """`opened(code)`: the station with that animal."""

    def show(code: str):
        roe_window.go("examination", code)
        return roe_window.station("examination")

    return show


def tab_to(window, widget) -> None:
    for _ in range(120):
        if window.focusWidget() is widget:
            return
        QTest.keyClick(window.windowHandle(), TAB)
    raise AssertionError(f"Tab never reaches {widget.accessibleName()}")


def file_of(larder, code: str):
    return questions.animal_file(larder.register, code)


def test_a_whole_look_in_the_skin_is_written_by_keyboard_alone(roe_larder, roe_window, keys, opened):
    code = roe_larder.in_skin(basis=WHOLE)
    page = opened(code).page.look_page
    points = points_to_look_at("roe")
    for point in points:
        if point.id == "shot":
            keys("2", "haunch hit", ENTER)
        elif point.id == "flies":
            keys("4")
        elif point.id == "mesenteric":
            continue  # the gut never comes: filled in as not present
        else:
            keys("1")
    assert page.count.text() == "Every point answered"
    assert roe_window.focusWidget() is page.act
    keys(ENTER)
    written = {look.point: look for look in file_of(roe_larder, code).looks}
    assert set(written) == {point.id for point in points}
    assert (written["shot"].answer, written["shot"].note) == ("not so", "haunch hit")
    assert written["flies"].answer == "not looked at"
    assert written["mesenteric"].answer == "not present"
    assert {look.stage for look in written.values()} == {"in the skin"}


def test_without_head_and_pluck_nothing_of_them_can_be_as_it_should_be(roe_larder, roe_window, keys, opened):
    code = roe_larder.in_skin(basis=Basis(in_skin=True))
    page = opened(code).page.look_page
    card = roe_window.station("examination").presenter.looking.card
    for point in ("mouth", "mandibular", "lungs", "liver", "bronchial", "mesenteric"):
        assert card.answers[point].answer == "not present"
    page.points.go_to("lungs")
    keys("1")
    assert "did not come" in page.trouble.text()
    assert card.answers["lungs"].answer == "not present"
    page.points.go_to("smell")
    keys("1")
    tab_to(roe_window, page.act)
    keys(ENTER)
    assert {look.answer for look in file_of(roe_larder, code).looks} == {"not present", "as it should be"}


def test_findings_stand_beside_the_answers_with_their_source(roe_larder, opened, keys, qtbot):
    page = opened(roe_larder.in_skin()).page.look_page
    keys("2", "sour", ENTER)
    qtbot.waitUntil(lambda: any("sour" in one.sentence for one in page.panel.findings()))
    assert all(one.source for one in page.panel.findings())


def test_marks_are_put_by_list_by_arrows_and_by_press_on_either_side(roe_larder, roe_window, keys, opened):
    code = roe_larder.in_skin()
    page = opened(code).page.look_page
    marking = page.marking
    tab_to(roe_window, marking.add)
    keys(" ")
    marking.side.choose("right")
    marking.kind.choose("exit")
    tab_to(roe_window, marking.outline)
    keys(Qt.Key.Key_Right, Qt.Key.Key_Right, ENTER)
    marking.kind.choose("bruise")
    spot = marking.outline.point_of(*middle_of("haunch"))
    QTest.mouseClick(
        marking.outline, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, spot.toPoint()
    )
    marking.kind.choose("dirt")
    QTest.mouseClick(
        marking.outline, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, spot.toPoint()
    )
    marking.list.setFocus()
    marking.list.setCurrentRow(3)
    keys(Qt.Key.Key_Delete)
    tab_to(roe_window, page.act)
    keys(ENTER)
    marks = file_of(roe_larder, code).marks
    placed = [(one.what, one.side, place_of(one.x_thousandths, one.y_thousandths)) for one in marks]
    assert placed == [
        ("entry", "left", "shoulder"),
        ("exit", "right", "shoulder"),
        ("bruise", "right", "haunch"),
    ]


def test_a_place_pressed_is_the_place_drawn_on_both_sides(roe_larder, opened):
    outline = opened(roe_larder.in_skin()).page.look_page.marking.outline
    for side in ("left", "right"):
        outline.show_spots(side, (), ())
        for place in ((100, 200), (500, 500), (900, 100)):
            assert outline.thousandths_of(outline.point_of(*place)) == place
    assert outline.thousandths_of(QPointF(-500, -500)) is None


def test_what_is_answered_stays_while_a_person_goes_elsewhere(roe_larder, roe_window, keys, opened):
    code, other = roe_larder.in_skin(), roe_larder.in_skin()
    opened(code)
    keys("1", "1")
    opened(other)
    roe_window.go("larder")
    card = opened(code).presenter.looking.card
    assert [card.answers[point].answer for point in ("smell", "gralloch")] == ["as it should be"] * 2


def test_the_look_out_of_the_skin_shows_the_one_at_the_door_beside_it(roe_larder, keys, opened):
    code = roe_larder.in_skin()
    opened(code)
    keys("2", "faint", ENTER)
    opened(code).page.look_page.act.click()
    acts.dress_carcass(
        roe_larder.register,
        by=roe_larder.tutor,
        code=code,
        outputs=[acts.Out("skin", 1_500)],
        tag=acts.TagHandOver("printed"),
    )
    station = opened(code)
    station.reload()
    card = station.presenter.looking.card
    assert card.stage == "out of the skin"
    assert card.earlier["smell"].note == "faint"
    assert "smell" not in card.answers
    assert card.answers["skin-parasites"].answer == "not present"


def test_a_notifiable_sign_fills_the_station_holds_the_animal_and_keeps_the_call(
    roe_larder, roe_window, keys, opened, qtbot, tmp_path
):
    code = roe_larder.in_skin(basis=WHOLE)
    station = opened(code)
    station.page.look_page.points.go_to("sign-tb")
    keys("2")
    assert station.page.shown == "stop"
    assert station.page.head.isHidden()
    stop = station.page.stop_page
    assert "03000 200 301" in stop.ring.text()
    assert "(read there)" in stop.standing.text()
    keys(ENTER)
    assert not file_of(roe_larder, code).looks, "nothing is written without words"
    keys("pus in the lungs", ENTER)
    file = file_of(roe_larder, code)
    assert file.carcass.lot.state == "on hold"
    assert station.page.shown == "stop"
    keys("R Lane", ENTER, "a vet comes", ENTER)
    call = file_of(roe_larder, code).calls[0]
    assert (call.about, call.spoken_by, call.answer) == ("notifiable", "R Lane", "a vet comes")
    keys(" ")
    qtbot.waitUntil(lambda: bool(list((tmp_path / "papers").glob("stop-*.pdf"))), timeout=30_000)
    tab_to(roe_window, stop.back)
    keys(" ")
    assert station.page.shown == "look"


def test_a_slip_of_the_finger_on_a_sign_is_taken_back_and_nothing_is_written(
    roe_larder, roe_window, keys, opened
):
    code = roe_larder.in_skin()
    station = opened(code)
    station.page.look_page.points.go_to("sign-anthrax")
    keys("2")
    tab_to(roe_window, station.page.stop_page.slip_button)
    keys(" ")
    assert station.page.shown == "look"
    assert "sign-anthrax" not in station.presenter.looking.card.answers
    assert file_of(roe_larder, code).carcass.lot.state != "on hold"


def _boar(roe_larder) -> str:
    return roe_larder.in_skin(60_000, species="wild-boar", age_class="")


def _type_result(roe_window, station, keys, words: str, steps: int) -> None:
    page = station.page.boar_page
    tab_to(roe_window, page.form.fields["reference"].inner)
    keys(words, ENTER)
    for _ in range(steps):
        keys(Qt.Key.Key_Right)
    keys(" ")
    tab_to(roe_window, page.form.act)
    keys(ENTER)


def test_a_boar_is_released_by_a_second_person_and_by_nobody_else(roe_larder, roe_window, keys, opened):
    code = _boar(roe_larder)
    station = opened(code)
    tab_to(roe_window, station.page.pages_row.button("look"))
    keys(Qt.Key.Key_Right)
    assert station.page.shown == "laboratory"
    page = station.page.boar_page
    assert "second person" in page.who.text()
    _type_result(roe_window, station, keys, "TL-19", 0)
    assert "person who holds the boar" in page.form.trouble.text()
    assert file_of(roe_larder, code).carcass.lot.state == "on hold"
    roe_window.bench.set_person(roe_larder.technician)
    tab_to(roe_window, page.form.act)
    keys(ENTER)
    file = file_of(roe_larder, code)
    assert (file.laboratory_result, file.laboratory_reference) == ("negative", "TL-19")
    assert file.carcass.lot.state != "on hold"


def test_a_positive_boar_is_locked_and_prints_what_to_do(
    roe_larder, roe_window, keys, opened, qtbot, tmp_path
):
    code = _boar(roe_larder)
    roe_window.bench.set_person(roe_larder.technician)
    station = opened(code)
    station.page.pages_row.choose("laboratory")
    _type_result(roe_window, station, keys, "TL-20", 1)
    assert file_of(roe_larder, code).carcass.lot.state == "locked"
    assert "locked" in station.page.boar_page.sign.words.text()
    qtbot.waitUntil(lambda: bool(list((tmp_path / "papers").glob("locked-*.pdf"))), timeout=30_000)


@pytest.fixture
def agreed(roe_larder):
    """`agreed(rule, days)`: the supplier's rule for damage."""
    return partial(
        acts.amend_supplier,
        roe_larder.register,
        by=roe_larder.tutor,
        supplier=roe_larder.supplier,
        reason="agreed by telephone",
    )


def test_the_second_decision_price_and_claim_by_keyboard(
    roe_larder, roe_window, keys, opened, agreed, qtbot, tmp_path
):
    """0.6 kg of loin at 3.00 in the skin is 1.80: the worked example of the trade, inference."""
    agreed(damage_rule="bought price", claim_days=7)
    code = roe_larder.dressed(pence_per_kg=300)
    station = opened(code)
    station.page.pages_row.choose("second")
    page = station.page.second_page
    assert "7 days left" in page.claim.window_words.text()
    tab_to(roe_window, page.decision.fields["decision"].inner.button("accept"))
    keys(Qt.Key.Key_Right, ENTER, "loin trimmed out", ENTER)
    assert file_of(roe_larder, code).second_decision == "accept with trim"
    assert page.decision.isHidden()
    tab_to(roe_window, page.claim.grams.edit)
    keys("0.6", ENTER)
    assert "£1.80" in page.claim.sum.text()
    assert not file_of(roe_larder, code).claims, "worked out before it is raised"
    keys("loin shot through", ENTER)
    claim = file_of(roe_larder, code).claims[0]
    assert (claim.grams, claim.pence, claim.status) == (600, 180, "raised")
    assert roe_window.focusWidget() is page.settle.print
    keys(" ")
    qtbot.waitUntil(lambda: bool(list((tmp_path / "papers").glob("claim-*.pdf"))), timeout=30_000)
    tab_to(roe_window, page.settle.status.button("agreed"))
    keys(Qt.Key.Key_Right)
    tab_to(roe_window, page.settle.note)
    keys("paid", ENTER)
    claim = file_of(roe_larder, code).claims[0]
    assert (claim.status, claim.settled_pence, claim.settled_note) == ("credited", 180, "paid")


def test_a_price_that_was_given_is_changed_with_a_reason_only(roe_larder, opened, roe_window, keys):
    code = roe_larder.dressed(pence_per_kg=300)
    station = opened(code)
    station.page.pages_row.choose("second")
    price = station.page.second_page.price
    price.pence.select()
    keys("2.50", ENTER, ENTER)
    assert file_of(roe_larder, code).carcass.pence_per_kg == 300
    keys("saddle spoilt", ENTER)
    assert file_of(roe_larder, code).carcass.pence_per_kg == 250


def test_without_an_agreed_rule_the_page_says_so_and_asks_nothing(roe_larder, opened):
    station = opened(roe_larder.dressed(pence_per_kg=300))
    station.page.pages_row.choose("second")
    claim = station.page.second_page.claim
    assert claim.rule.text().startswith("No rule for damage is agreed")
    assert claim.act.isHidden()


def test_in_the_skin_there_is_no_second_decision_yet(roe_larder, opened):
    station = opened(roe_larder.in_skin())
    station.page.pages_row.choose("second")
    assert station.page.second_page.decision.isHidden()
    assert "stay open" in station.page.second_page.standing.text()


def test_every_page_fits_a_gloved_hand(roe_larder, roe_window, opened, fits_a_hand, agreed):
    agreed(damage_rule="cut price", claim_days=7)
    station = opened(roe_larder.in_skin())
    assert fits_a_hand(station) == []
    station = opened(_boar(roe_larder))
    station.page.pages_row.choose("laboratory")
    assert fits_a_hand(station) == []
    station = opened(roe_larder.dressed())
    station.page.pages_row.choose("second")
    assert fits_a_hand(station) == []


def test_a_scan_opens_the_animal_here(roe_larder, opened, roe_scan):
    first, second = roe_larder.in_skin(), roe_larder.in_skin()
    station = opened(first)
    roe_scan(second)
    assert station.presenter.code == second
