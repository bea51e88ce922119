"""What is asked for at the door follows the route, the origin, the animal and what the rules have found."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.desktop.delivery.amending import NOT_AMENDED, TOGETHER, parted
from gametrace.desktop.delivery.kill_details import map_text, parse_map
from gametrace.desktop.delivery.papers_asked import demand_words
from gametrace.desktop.delivery.weighing import brace_words, difference_words
from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions


def begun(station, species: str = "fallow", grams: str = "41,6"):
    form = station.page.new_page.form
    form.paper.supplier.list.picked.emit("S001")
    form.beast.species.choose(species)
    form.beast.grams.set_text(grams)
    return form


# -- papers ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("route", "origin", "group", "field", "said"),
    [
        # FSA Wild Game Guidance: a small direct sale in the skin may lawfully have no declaration.
        ("wild-direct", "wild-shot", "large", "has_declaration", "should be there"),
        # Regulation (EU) 150/2011 speaks of wild game: farmed game comes under its own rules.
        ("farmed-slaughterhouse", "field-farmed", "large", "has_declaration", "not expected here"),
        ("wild-direct", "wild-shot", "small", "has_declaration", "not expected here"),
        # Regulation 853/2004: an establishment's mark carries its approval number.
        ("wild-approved", "wild-shot", "large", "approval_number", "must be there"),
        ("wild-direct", "wild-shot", "large", "approval_number", "not asked for here"),
        ("wild-direct", "wild-shot", "large", "killed_on", "must be there"),
    ],
)
def test_the_route_table_says_how_far_a_paper_is_asked_for(route, origin, group, field, said) -> None:
    assert demand_words(route, origin, group)[field] == said


def test_the_empty_fields_say_what_this_route_asks_for(station) -> None:
    form = begun(station)
    assert form.paper.lines["tag"].placeholderText() == "should be there"
    assert form.paper.lines["approval_number"].placeholderText() == "not asked for here"
    form.paper.route.set_value("farmed-slaughterhouse")
    form.paper.origin.set_value("field-farmed")
    form.paper.route.picked.emit("farmed-slaughterhouse")
    assert form.paper.lines["approval_number"].placeholderText() == "must be there"
    assert "None expected" in form.paper.declared_field.label.text()
    assert "weaned" in form.paper.meaning.text()


def test_the_papers_asked_for_are_listed_with_their_source_and_the_pictures_worth_keeping(station) -> None:
    form = begun(station)
    form.paper.asked.set_open(True)
    said = " ".join(label.text() for label in form.paper.asked.inner.findChildren(type(form.paper.meaning)))
    assert "Day of killing: must be there" in said
    assert "The declaration card, both sides" in said
    assert "common practice" in said.casefold()


def test_the_evidence_line_follows_what_is_typed(station) -> None:
    form, decision = begun(station), station.page.new_page.decision
    station.presenter.preview()
    assert decision.evidence.text() == "Papers: 1 missing"  # the day of killing
    form.beast.killed_on.set_text("12/11/2026")
    station.presenter.preview()
    assert decision.evidence.text() == "Papers: declaration lawfully absent"
    form.paper.has_declaration.choose("yes")
    station.presenter.preview()
    assert decision.evidence.text() == "Papers: 6 missing"


@pytest.mark.parametrize(("route", "origin"), [("gift-unknown", "wild-shot"), ("wild-direct", "unknown")])
def test_a_gift_or_unknown_beast_can_only_be_a_specimen_or_refused(
    station, hands, register, route, origin
) -> None:
    form, decision = begun(station), station.page.new_page.decision
    form.paper.route.set_value(route)
    form.paper.origin.set_value(origin)
    station.presenter.preview()
    able = {value for value in decision.decision.values() if decision.decision.button(value).isEnabled()}
    assert able == {"teaching specimen", "reject"}
    assert decision.never.isVisible()
    assert decision.act.text() == "Choose Specimen or Reject"
    hands.take_in()
    assert questions.deliveries(register) == ()
    assert decision.trouble.isVisible()
    decision.decision.choose("teaching specimen")
    decision.reason.setText("for the spring class")
    hands.take_in()
    assert questions.deliveries(register)[0].lot.state == "specimen"
    station.page.done_page.next.click()
    assert decision.decision.value() == "accept"
    assert decision.decision.button("accept").isEnabled()


# -- licence --------------------------------------------------------------------------------------------


def out_of_season(station):
    form = begun(station)
    form.beast.sex.choose("female")
    form.beast.killed_on.set_text("1/7/2026")
    station.presenter.preview()
    return form


def test_a_licence_is_asked_for_only_where_a_season_rule_stops(station, hands, register) -> None:
    """Close season of fallow does in England and Wales: Deer Act 1991 sch. 1; licences: s.8."""
    form = begun(station)
    station.presenter.preview()
    licence = form.beast.licence
    assert licence.isHidden()
    out_of_season(station)
    assert licence.isVisible()
    assert "in on hold" in licence.about.text()
    assert station.page.new_page.decision.act.text() == "Take it in on hold"
    assert "ew-season-licence" in licence.type.values()
    assert "s-authorisation" not in licence.type.values()
    licence.type.set_value("ew-season-licence")
    licence.type.picked.emit("ew-season-licence")
    assert licence.number_field.label.text() == "The licence number and who holds it"
    licence.number.setText("L-2026-17, Hollin Estate")
    station.presenter.preview()
    assert station.page.new_page.decision.act.text() == "Take it in"
    hands.take_in()
    one = questions.deliveries(register)[0]
    assert one.lot.state != "on hold"
    assert any(finding.code == "exception-given" for finding in one.findings)


def test_the_licence_goes_away_again_with_its_reason(station) -> None:
    form = out_of_season(station)
    form.beast.killed_on.set_text("12/11/2026")
    station.presenter.preview()
    assert form.beast.licence.isHidden()


# -- map and ammunition ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "place"),
    [
        ("54.321, -2.345", (54_321_000, -2_345_000)),
        ("54.321 -2.345", (54_321_000, -2_345_000)),
        ("54,321; -2,345", (54_321_000, -2_345_000)),
        ("54.321°, −2.345°", (54_321_000, -2_345_000)),
        ("55,-3", (55_000_000, -3_000_000)),
        ("54.1234567, 0", (54_123_457, 0)),
    ],
)
def test_a_place_on_the_map_is_two_decimal_degrees(typed, place) -> None:
    assert parse_map(typed) == place


@pytest.mark.parametrize(
    "typed", ["54.321", "SD 123 456", "91, 0", "54, -181", "54.3N, 2.3W", "1e9, 3", "५, 3"]
)
def test_what_is_no_place_on_the_map_is_refused_with_an_example(typed) -> None:
    with pytest.raises(Refusal, match=r"54\.321, -2\.345"):
        parse_map(typed)


@given(st.integers(-90_000_000, 90_000_000), st.integers(-180_000_000, 180_000_000))
def test_a_place_reads_back_as_it_was_written(latitude: int, longitude: int) -> None:
    assert parse_map(map_text((latitude, longitude))) == (latitude, longitude)


@given(st.text(max_size=60))
def test_no_text_breaks_the_map(typed: str) -> None:
    try:
        latitude, longitude = parse_map(typed)
    except Refusal:
        return
    assert abs(latitude) <= 90_000_000
    assert abs(longitude) <= 180_000_000


def test_a_night_kill_is_an_indication_at_its_place_on_the_map(station, hands, register) -> None:
    """Deer Act 1991 s.3: from an hour after sunset to an hour before sunrise."""
    form = begun(station)
    form.beast.killed_on.set_text("12/11/2026")
    form.beast.kill_time.set_text("23.10")
    form.beast.details.set_open(True)
    details = form.beast.details.inner
    details.map.set_text("54.321, -2.345")
    details.ammunition.choose("not lead")
    assert "indication" in details.sun.text()
    station.presenter.preview()
    found = station.page.new_page.decision.panel.findings()
    night = next(finding for finding in found if finding.code.startswith("night"))
    assert "indication" in night.sentence + night.what_to_do
    hands.take_in()
    written = questions.animal_file(register, questions.deliveries(register)[0].code).delivery
    assert (written.latitude_millionths, written.longitude_millionths) == (54_321_000, -2_345_000)
    assert written.ammunition == "not lead"


def test_a_wrong_place_on_the_map_is_refused_there(station, hands, register) -> None:
    form = begun(station)
    form.beast.details.set_open(True)
    form.beast.details.inner.map.edit.setText("near the oak")
    hands.take_in()
    assert questions.deliveries(register) == ()
    assert hands.focus() == "Place on the map"


def test_folded_headings_open_by_the_keyboard_and_enter_goes_past_them(station, hands, qtbot) -> None:
    from PySide6.QtCore import Qt

    form = station.page.new_page.form
    form.beast.kill_place.setFocus()
    hands.key(Qt.Key.Key_Tab)
    assert hands.focus().startswith("Place on the map, ammunition. Folded")
    hands.key(Qt.Key.Key_Space)
    hands.key(Qt.Key.Key_Tab)
    assert form.beast.details.is_open
    assert hands.focus() == "Place on the map"
    form.beast.details.set_open(False)
    form.beast.kill_place.setFocus()
    hands.enter()
    assert hands.focus() == "Temperature, haunch"


# -- probe ----------------------------------------------------------------------------------------------


def test_the_probe_is_chosen_with_its_last_check_on_view(station, hands, register) -> None:
    form = begun(station)
    assert form.beast.probe_field.isHidden()
    code = acts.add_probe(register, by="P001", name="haunch probe").code
    acts.check_probe(register, by="P001", probe=code, ice_tenths_c=2)
    station.reload()
    probe = form.beast.probe
    assert not form.beast.probe_field.isHidden()
    assert probe.itemText(1) == f"{code} haunch probe, checked 20 Nov 2026"
    probe.set_value(code)
    form.beast.readings.rows[0][1].set_text("5.2")
    hands.take_in()
    assert questions.animal_file(register, questions.deliveries(register)[0].code).delivery.probe == code


# -- weights and birds ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("ours", "theirs", "said"),
    [
        (41_600, 42_000, "41.60 kg here: 0.40 kg (1.0 %) less than theirs."),
        (42_420, 42_000, "42.42 kg here: 0.42 kg (1.0 %) more than theirs."),
        (42_000, 42_000, "Both say 42.00 kg."),
        (41_600, None, ""),
        (None, 42_000, ""),
    ],
)
def test_both_sides_weights_and_their_difference(ours, theirs, said) -> None:
    assert difference_words(ours, theirs) == said


def test_estimates_are_ranges_with_a_source_and_are_never_written(station, hands, register) -> None:
    form = begun(station, "roe", "16")
    for name in ("head_on", "feet_on"):
        form.beast.basis.buttons[name].click()
    form.beast.estimates.set_open(True)
    said = form.beast.estimates.inner.words()
    assert "It is not a weight: weigh it." in said or "nothing is estimated" in said
    hands.take_in()
    assert questions.deliveries(register)[0].grams_received == 16_000


def test_an_estimate_is_shown_for_a_roe_buck_as_it_was_gralloched(station) -> None:
    form = begun(station, "roe", "16")
    form.beast.sex.choose("male")
    for name in ("head_on", "feet_on"):
        form.beast.basis.buttons[name].click()
    form.beast.estimates.set_open(True)
    assert "an estimate from 16.00 kg" in form.beast.estimates.inner.words()


@pytest.mark.parametrize(
    ("count", "said"),
    [
        (1, "1 bird, half a brace"),
        (2, "2 birds, 1 brace"),
        (12, "12 birds, 6 brace"),
        (13, "13 birds, 6 brace and an odd bird"),
        (0, ""),
    ],
)
def test_birds_are_told_by_the_brace(count, said) -> None:
    assert brace_words(count) == said


def test_hares_are_bodies_not_birds() -> None:
    assert brace_words(3, is_bird=False) == "3 bodies, 1 brace and an odd body"


def test_the_form_for_birds_is_short_enough_to_show_the_weight_at_once(window, station, qtbot) -> None:
    window.resize(1280, 800)
    form = station.page.new_page.form
    form.beast.species.sort.choose("small")
    form.beast.species.choose("pheasant")
    qtbot.wait(0)
    bottom = form.beast.grams.mapTo(form, form.beast.grams.rect().bottomLeft()).y()
    assert 0 < bottom <= form.viewport().height()
    assert form.beast.count.isVisible()


def test_another_batch_of_the_same_kind_today_is_told(station, hands, register) -> None:
    form = begun(station, "pheasant", "9")
    form.beast.count.setText("12")
    hands.take_in()
    code = questions.deliveries(register)[0].code
    station.page.done_page.next.click()
    form = begun(station, "pheasant", "9")
    station.presenter.preview()
    assert f"{code} (12)" in form.beast.same.text()


# -- how additions are parted ---------------------------------------------------------------------------


@given(st.sets(st.sampled_from(sorted({name for group in TOGETHER for name in group} | {"tag", "grams"}))))
def test_every_addition_is_in_exactly_one_entry(changed) -> None:
    values = dict.fromkeys(changed, "x")
    entries = parted(sorted(changed), values)
    named = [name for entry in entries for name in entry]
    assert sorted(named) == sorted(changed - NOT_AMENDED)
