"""The whole window with keys from a real X server: a two-minute intake, a boar to its release, a warm night.

Runs under xvfb with xdotool: QT_QPA_PLATFORM=xcb xvfb-run -a python -m pytest -m x11 tests/desktop
"""

from __future__ import annotations

import shutil
import subprocess
import time
from datetime import timedelta

import pytest
from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QWindow

from gametrace.register import acts, questions

pytestmark = [
    pytest.mark.x11,
    pytest.mark.skipif(shutil.which("xdotool") is None, reason="needs xdotool to strike keys"),
]

KEYSYMS = {
    "-": "minus", " ": "space", ",": "comma", ".": "period", "/": "slash",
    "enter": "Return", "tab": "Tab", "home": "Home", "right": "Right", "down": "Down",
}  # fmt: skip
DELAY_MS = 60  # between two keys: a quick hand, and no scanner
# Card, Moran and Newell, The keystroke-level model, CACM 23(7), 1980 (from memory): 0.5 s a key for those who
# type seldom, 1.35 s of thinking before each field.
KEY_SECONDS, THOUGHT_SECONDS = 0.5, 1.35
TWO_MINUTES = 120


class Arrived(QObject):
    """Counts the keys from outside by their release: a press that is a shortcut reaches no window."""

    def __init__(self) -> None:
        super().__init__()
        self.count = 0

    def eventFilter(self, watched, event) -> bool:
        if isinstance(watched, QWindow) and event.type() == QEvent.Type.KeyRelease and event.spontaneous():
            self.count += 1
        return False


class RealKeys:
    """A person at the keyboard of the X server."""

    def __init__(self, window, qtbot, qapp) -> None:
        self.window, self.qtbot = window, qtbot
        self.arrived = Arrived()
        self.fields = 0
        qapp.installEventFilter(self.arrived)

    def strike(self, *keys: str) -> None:
        """These keys, then all of them have been worked off."""
        names = [KEYSYMS.get(key, key) for key in keys]
        wanted = self.arrived.count + sum(len(name.split("+")) for name in names)
        self.fields += 1
        subprocess.run(["xdotool", "key", "--delay", str(DELAY_MS), *names], check=True, timeout=60)
        self.qtbot.waitUntil(lambda: self.arrived.count >= wanted and not self.window.scanning.held_text)

    def write(self, text: str) -> None:
        self.strike(*text, "enter")

    @property
    def focus(self) -> str:
        widget = self.window.focusWidget()
        return widget.accessibleName() if widget is not None else ""

    def to(self, name: str, by: str = "enter") -> None:
        """On by Enter, or Tab, until the hand is there."""
        for _ in range(80):
            if self.focus.startswith(name):
                return
            self.strike(by)
        raise AssertionError(f"{name} was not reached; the hand is on {self.focus}")

    @property
    def seconds(self) -> float:
        """What it would cost somebody who types seldom and thinks at every field."""
        return self.arrived.count * KEY_SECONDS + self.fields * THOUGHT_SECONDS


@pytest.fixture
def real(roe_window, qtbot, qapp):
    made = RealKeys(roe_window, qtbot, qapp)
    yield made
    qapp.removeEventFilter(made.arrived)


def test_a_carcass_goes_in_within_two_minutes_and_the_rest_comes_later(
    real: RealKeys, roe_window, roe_larder, qtbot
) -> None:
    roe_window.go("delivery")
    qtbot.waitUntil(lambda: real.focus == "Supplier")
    begun = time.monotonic()
    real.strike("home", "enter")
    real.to("Supplier's tag")
    real.write("0417")
    real.to(
        "Kind of game",
    )
    real.strike("enter", *["right"] * 4, "enter")
    real.to("Weight", by="tab")
    real.write("14,6")
    real.to("Temperature, haunch", by="tab")
    real.write("5,2")
    real.to("Hook or shelf", by="tab")
    real.strike("down")  # the next hook but one is nearer the door
    real.strike("ctrl+Return")
    taken = time.monotonic() - begun
    (one,) = questions.deliveries(roe_larder.register)
    station = roe_window.station("delivery")
    assert station.page.stack.currentWidget() is station.page.done_page
    assert (one.tag, one.grams_received, one.readings) == ("0417", 14_600, (("haunch", 52),))
    assert one.supplier.code == roe_larder.supplier
    assert one.lot.place == "C1.R1.02"
    assert taken < TWO_MINUTES
    assert real.seconds < TWO_MINUTES, f"{real.arrived.count} keys, {real.fields} fields"
    assert (one.species, one.sex, one.age_class, one.has_declaration) == ("roe", "unknown", "", False)
    assert {"the day of killing", "the place of killing"} <= set(one.missing), one.missing

    # The rest, later: its own entry with its own time.
    roe_larder.later(hours=3)
    acts_before = questions.seal(roe_larder.register).count
    roe_window.go("delivery", one.code)
    qtbot.waitUntil(lambda: bool(real.focus))
    real.to("Killed on", by="tab")
    real.write("9 oct")
    real.strike("ctrl+Return")
    assert questions.seal(roe_larder.register).count == acts_before + 1
    after = questions.carcass(roe_larder.register, one.code)
    assert after.killed_on is not None
    assert after.received_at == one.received_at


def test_a_boar_waits_and_is_released_by_a_second_person(
    real: RealKeys, roe_window, roe_larder, qtbot
) -> None:
    boar = roe_larder.in_skin(60_000, species="wild-boar", age_class="")
    assert questions.lot(roe_larder.register, boar).state == "on hold"
    roe_window.go("examination", boar)
    station = roe_window.station("examination")
    station.page.pages_row.choose("laboratory")
    page = station.page.boar_page
    real.to(page.form.fields["reference"].inner.accessibleName(), by="tab")
    real.write("tl-19")
    real.strike(" ")  # negative
    real.to(page.form.act.accessibleName(), by="tab")
    real.strike("enter")
    assert "person who holds the boar" in page.form.trouble.text()
    assert questions.lot(roe_larder.register, boar).state == "on hold"
    roe_window.bench.set_person(roe_larder.technician)
    real.to(page.form.act.accessibleName(), by="tab")
    real.strike("enter")
    assert questions.lot(roe_larder.register, boar).state == "hanging"
    assert questions.animal_file(roe_larder.register, boar).laboratory_reference == "tl-19"


def test_a_warm_night_goes_from_the_list_to_a_decision(real: RealKeys, roe_window, roe_larder, qtbot) -> None:
    buck = roe_larder.in_skin()
    start = int(roe_larder.at.timestamp())
    readings = [(start + 600 * at, 90 if 72 <= at < 102 else 30) for at in range(144)]
    roe_larder.later(days=1)
    acts.set_policy(
        roe_larder.register, by=roe_larder.tutor, name="reading_minutes", value="10", reason="loggers"
    )
    acts.import_readings(
        roe_larder.register, by=roe_larder.tutor, store="C1", readings=readings, name="night", mapping={}
    )
    roe_window.go("cold", "episodes")
    page = roe_window.station("cold").page.episodes
    real.to("Times that were warm or unmeasured", by="tab")
    real.strike("enter")
    real.write("fan mended")
    real.write("3 degrees by nine")
    real.strike("enter")
    now = roe_larder.at
    (one,) = questions.episodes(roe_larder.register, now - timedelta(days=3), now)
    assert (one.action, one.result) == ("fan mended", "3 degrees by nine")
    assert buck in one.lots
    real.to("Hold what stood there", by="tab")
    real.strike("enter")
    assert questions.lot(roe_larder.register, buck).state == "on hold"
    assert "0 unanswered" in page.count.text()
