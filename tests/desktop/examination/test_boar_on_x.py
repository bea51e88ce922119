"""A wild boar from the door to its result, with keys from a real X server and no other hand on the window.

Runs under xvfb with xdotool: QT_QPA_PLATFORM=xcb xvfb-run -a python -m pytest -m x11 tests/desktop
"""

from __future__ import annotations

import shutil
import subprocess
from io import BytesIO

import pytest
from pypdf import PdfReader
from PySide6.QtWidgets import QApplication

from gametrace.register import questions

pytestmark = [
    pytest.mark.x11,
    pytest.mark.skipif(shutil.which("xdotool") is None, reason="needs xdotool to strike keys"),
]

KEYSYMS = {"-": "minus", " ": "space", ".": "period"}
PERSON_MS = 60  # a key; a scanner is faster
MOST_TABS = 150


def accessible_name() -> str:
    widget = QApplication.focusWidget()
    return widget.accessibleName() if widget is not None else ""


class Hands:
    """A person at the keyboard of that screen, who knows of the window only what has the focus."""

    def __init__(self, window, qtbot) -> None:
        self.window, self.qtbot = window, qtbot

    def keys(self, *names: str) -> None:
        subprocess.run(["xdotool", "key", "--delay", str(PERSON_MS), *names], check=True, timeout=60)
        QApplication.processEvents()

    def write(self, text: str) -> None:
        self.keys(*(KEYSYMS.get(letter, letter) for letter in text))
        self.qtbot.waitUntil(self._has_arrived(text))

    def _has_arrived(self, text: str):
        def shown() -> bool:
            return not self.window.scanning.held_text and text in QApplication.focusWidget().text()

        return shown

    def walk(self, key: str) -> None:
        """One step of the focus, told apart by the widget it leaves."""
        before = QApplication.focusWidget()

        def has_left() -> bool:
            return QApplication.focusWidget() not in (before, None)

        self.keys(key)
        self.qtbot.waitUntil(has_left)

    def reach(self, name: str) -> None:
        """Tab after Tab to what an ear would be told is that."""
        for _ in range(MOST_TABS):
            if accessible_name() == name:
                return
            self.walk("Tab")
        raise AssertionError(f"Tab never reaches “{name}”")

    def until(self, seen) -> None:
        self.qtbot.waitUntil(seen, timeout=15_000)


@pytest.fixture
def hands(roe_window, qtbot) -> Hands:
    made = Hands(roe_window, qtbot)
    made.keys("F1")
    made.until(lambda: roe_window.current == "delivery" and accessible_name() == "Supplier")
    return made


def take_in_a_boar(hands: Hands, larder) -> str:
    """Supplier, species and weight; its number."""
    hands.keys("Home")
    hands.walk("Return")
    hands.reach("Kind of game: Deer and boar")
    hands.walk("Tab")
    assert accessible_name() == "Species: red"
    hands.walk("Down")
    for _ in range(3):
        hands.walk("Right")
    assert accessible_name() == "Species: wild boar"
    hands.keys("Return")
    hands.reach("Weight")
    hands.write("60")
    hands.keys("ctrl+Return")
    hands.until(lambda: bool(questions.deliveries(larder.register)))
    return questions.deliveries(larder.register)[0].code


def to_the_laboratory(hands: Hands, window, code: str) -> None:
    """From the page of what was taken in to the form of the result."""
    hands.reach("Examine it now")
    hands.keys("Return")
    hands.until(lambda: window.current == "examination")
    station = window.station("examination")
    assert station.presenter.code == code
    hands.reach("Page: Look")
    hands.keys("Right")
    hands.until(lambda: station.page.shown == "laboratory")


def write_result(hands: Hands, reference: str, result: str) -> None:
    hands.reach("Its reference")
    hands.write(reference)
    hands.reach("Its result: Negative")
    hands.keys("space" if result == "negative" else "Right")
    hands.reach("Write the result down")
    hands.keys("Return")


def is_on_the_page(window) -> bool:
    hand = QApplication.focusWidget()
    return hand is not None and window.stack.currentWidget().isAncestorOf(hand)


def change_person(hands: Hands, window, steps: int) -> None:
    """To another name of the list, and back to the page."""
    before = window.bench.person
    hands.reach(window.person_button.accessibleName())
    hands.keys("space")
    hands.until(lambda: accessible_name() == "Who is at the keyboard")
    hands.keys(*["Down"] * steps, "Return")
    hands.until(lambda: window.bench.person != before and is_on_the_page(window))


def animal(larder, code: str):
    return questions.animal_file(larder.register, code)


def waits(larder) -> list[str]:
    return [duty.sentence for duty in questions.today(larder.register) if "waited for the" in duty.sentence]


def test_a_boar_is_taken_in_held_and_released_by_a_second_person(roe_larder, roe_window, hands) -> None:
    code = take_in_a_boar(hands, roe_larder)
    assert animal(roe_larder, code).carcass.lot.state == "on hold"
    assert len(waits(roe_larder)) == 1
    to_the_laboratory(hands, roe_window, code)
    page = roe_window.station("examination").page.boar_page
    write_result(hands, "TL-19", "negative")
    hands.until(page.form.trouble.isVisible)
    assert "person who holds the boar" in page.form.trouble.text()
    assert animal(roe_larder, code).laboratory_result == "", "the one who took it in does not release it"
    change_person(hands, roe_window, 1)
    assert roe_window.bench.person == roe_larder.technician
    assert page.form.fields["reference"].inner.text() == "TL-19", "nothing typed is lost"
    hands.reach("Write the result down")
    hands.keys("Return")
    hands.until(lambda: animal(roe_larder, code).laboratory_result == "negative")
    file = animal(roe_larder, code)
    assert file.laboratory_reference == "TL-19"
    assert file.carcass.lot.state == "hanging"
    assert waits(roe_larder) == []


def test_a_positive_boar_is_locked_and_what_to_do_is_printed(roe_larder, roe_window, hands, tmp_path) -> None:
    code = take_in_a_boar(hands, roe_larder)
    change_person(hands, roe_window, 1)
    to_the_laboratory(hands, roe_window, code)
    write_result(hands, "TL-20", "positive")
    hands.until(lambda: animal(roe_larder, code).laboratory_result == "positive")
    assert animal(roe_larder, code).carcass.lot.state == "locked"
    papers = tmp_path / "papers"
    hands.until(lambda: bool(list(papers.glob("locked-*.pdf"))))
    pdf = next(papers.glob("locked-*.pdf")).read_bytes()
    said = " ".join(page.extract_text() for page in PdfReader(BytesIO(pdf)).pages)
    assert code in said
    assert "Ring the local authority" in " ".join(said.split())
    hands.keys("F7")
    hands.until(lambda: roe_window.current == "today")
    locked = [duty for duty in questions.today(roe_larder.register) if "locked for ever" in duty.sentence]
    assert [(duty.code, duty.act) for duty in locked] == [(code, "What to do")]
    assert waits(roe_larder) == []
