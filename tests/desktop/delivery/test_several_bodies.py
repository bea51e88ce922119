"""Four bodies on one declaration, by keys alone: one out of season, one warm, all decided and printed."""

from __future__ import annotations

from datetime import date

import pytest
from PySide6.QtCore import Qt

from gametrace.domain.deliveries import Answer
from gametrace.register import questions

# Seconds for a key struck by somebody who types seldom, and for thinking before each field:
# Card, Moran and Newell, The keystroke-level model, CACM 23(7), 1980 (from memory: 1.2 for the worst typist
# is of unrelated letters; 0.5 for those who type seldom; 1.35 for thinking).
KEY_SECONDS, THOUGHT_SECONDS = 0.5, 1.35
SIX_MINUTES = 360


class Counting:
    """The same hands, with every key and every field counted."""

    def __init__(self, hands) -> None:
        self.hands = hands
        self.keys = self.fields = 0

    def key(self, key: Qt.Key, times: int = 1) -> None:
        self.keys += times
        self.fields += 1
        self.hands.key(key, times)

    def enter(self, times: int = 1) -> None:
        self.key(Qt.Key.Key_Return, times)

    def write(self, text: str) -> None:
        self.keys += len(text) + 1
        self.fields += 1
        self.hands.write(text)

    def say_it(self, times: int = 1) -> None:
        self.keys += 2 * times
        self.fields += times
        self.hands.say_it(times)

    def take_in(self) -> None:
        self.keys += 2
        self.hands.take_in()

    def to(self, name: str) -> None:
        """On by Enter, as a person goes past what stands already or is left open."""
        for _ in range(40):
            if self.hands.focus().startswith(name):
                return
            self.enter()
        raise AssertionError(f"{name} was not reached; the hand is on {self.hands.focus()}")

    @property
    def seconds(self) -> float:
        return self.keys * KEY_SECONDS + self.fields * THOUGHT_SECONDS


@pytest.fixture
def counting(hands) -> Counting:
    return Counting(hands)


def the_body(at: Counting, *, sex: int, kilos: str, killed: str, haunch: str) -> None:
    """A fallow: its sex, weight, day and time of killing, warmth."""
    at.to("Kind of game")
    at.enter()
    at.key(Qt.Key.Key_Right, 3)
    at.enter()
    at.key(*((Qt.Key.Key_Right, sex) if sex else (Qt.Key.Key_Space,)))
    at.enter()
    at.write(kilos)
    at.to("Killed on")
    at.write(killed)
    at.write("7.40")
    at.write("Long Covert")
    at.to("Temperature, haunch")
    at.write(haunch)


def print_and_next(at: Counting, qtbot, station) -> None:
    at.key(Qt.Key.Key_Tab)
    at.enter()  # the tag
    at.enter()  # the next body
    assert station.page.is_new_shown
    assert at.hands.focus() == "Supplier's tag"


def test_four_carcasses_on_one_declaration_go_in_within_six_minutes(
    counting, station, register, tmp_path, qtbot
) -> None:
    at = counting
    at.key(Qt.Key.Key_Home)
    at.enter()
    at.to("Supplier's tag")
    at.write("0417")
    at.to("Is there a hunter's declaration: Yes")
    at.say_it()
    at.write("D-88")
    at.say_it(3)
    the_body(at, sex=1, kilos="31,6", killed="18 Nov", haunch="5,2")
    at.take_in()
    print_and_next(at, qtbot, station)

    for tag, sex, kilos, killed, haunch in (
        ("0418", 1, "29,4", "28 Oct", "4,8"),  # a doe in October: out of season
        ("0419", 1, "33", "18 Nov", "12,5"),  # warm
        ("0420", 0, "47,2", "18 Nov", "5"),
    ):
        at.write(tag)
        the_body(at, sex=sex, kilos=kilos, killed=killed, haunch=haunch)
        at.take_in()
        if tag != "0420":
            print_and_next(at, qtbot, station)
    at.key(Qt.Key.Key_Tab)
    at.enter()

    four = sorted(questions.deliveries(register), key=lambda one: one.code)
    assert [one.tag for one in four] == ["0417", "0418", "0419", "0420"]
    assert [one.sex for one in four] == ["female", "female", "female", "male"]
    assert {one.declaration_number for one in four} == {"D-88"}
    assert {one.supplier.code for one in four} == {"S001"}
    assert {one.trained_person for one in four} == {"Rob Finch"}
    assert all([s.answer for s in one.statements] == [Answer.YES] * 3 for one in four)
    assert four[1].killed_on == date(2026, 10, 28)
    assert {one.species for one in four} == {"fallow"}
    # Deer Act 1991 sch. 1: fallow does are closed from 1 April to 31 October.
    assert [one.lot.state == "on hold" for one in four] == [False, True, True, False]
    codes = [{finding.code for finding in one.findings if finding.severity == "stop"} for one in four]
    assert codes == [set(), {"season-closed"}, {"too-warm"}, set()]
    assert [one.lot.place for one in four] == ["C1.R1.01", "C1.R1.02", "C1.R1.03", "C1.S1"]
    assert len(list((tmp_path / "papers").glob("tag-*.pdf"))) == 4
    assert at.seconds < SIX_MINUTES, f"{at.keys} keys, {at.fields} fields: {at.seconds:.0f} s"


def taken_in(station, hands, tag: str = "0417") -> None:
    form = station.page.new_page.form
    form.paper.supplier.list.picked.emit("S001")
    form.paper.lines["tag"].setText(tag)
    form.paper.has_declaration.choose("yes")
    form.paper.lines["declaration_number"].setText("D-88")
    form.beast.species.choose("fallow")
    form.beast.grams.set_text("41,6")
    form.beast.readings.rows[0][1].set_text("5")
    hands.take_in()


def test_the_next_body_keeps_the_card_and_is_empty_in_everything_of_its_own(station, hands) -> None:
    taken_in(station, hands)
    done = station.page.done_page
    assert done.body.isVisible()
    done.body.click()
    values = station.page.new_page.form.read()
    kept = {name: values[name] for name in ("supplier", "route", "declaration_number", "trained_person")}
    assert kept == {
        "supplier": "S001",
        "route": "wild-direct",
        "declaration_number": "D-88",
        "trained_person": "Rob Finch",
    }
    own = ("tag", "species", "grams", "readings", "killed_on")
    assert [values[name] for name in own] == ["", "", None, (), None]


def test_the_form_says_which_bodies_of_the_card_are_in_and_what_the_card_lacks_of_them(
    station, hands, register
) -> None:
    taken_in(station, hands)
    code = questions.deliveries(register)[0].code
    station.page.done_page.body.click()
    card = station.page.new_page.form.paper.on_card
    assert code in card.bodies.text()
    assert not card.lacks.isVisibleTo(card)
    station.page.new_page.form.paper.lines["tag"].setText("0417")
    station.presenter.preview()
    assert "lists a body twice" in card.lacks.text()
    assert "lacks" in card.lacks.text()


def test_without_a_card_there_is_no_next_body_of_it(station, hands) -> None:
    form = station.page.new_page.form
    form.paper.supplier.list.picked.emit("S001")
    form.beast.species.choose("fallow")
    form.beast.grams.set_text("41,6")
    hands.take_in()
    assert station.page.done_page.body.isHidden()
