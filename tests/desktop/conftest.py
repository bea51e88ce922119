"""What every test of the window shares: a look, and keys struck at chosen times."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

from gametrace.desktop.app import build_window
from gametrace.desktop.frame import Window
from gametrace.desktop.look import Look, dress
from gametrace.domain.deliveries import Answer, Basis, Delivery
from gametrace.register import acts
from gametrace.register.opening import Register, open_register

HERE = Path(__file__).parent

# Qt's offscreen platform says this whenever a window with a least size is shown; it means nothing.
OFFSCREEN_SAYS = "This plugin does not support propagateSizeHints"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Tolerate the one message of the offscreen platform, in the tests of the window only."""
    for item in items:
        if item.path.is_relative_to(HERE):
            item.add_marker(pytest.mark.qt_log_ignore(OFFSCREEN_SAYS))


@pytest.fixture(autouse=True)
def _nothing_stays_open() -> Iterator[None]:
    """What a test closed is gone after it: else each further window would style all the earlier ones."""
    yield
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


@pytest.fixture(scope="session")
def look(qapp) -> Look:
    made = Look()
    dress(qapp, made)
    return made


class Struck:
    """A clock for keys: `at` is the time the next key is struck."""

    def __init__(self) -> None:
        self.at = 1000
        self.step = 0

    def __call__(self, event: QKeyEvent) -> int:
        now = self.at
        self.at += self.step
        return now


@pytest.fixture
def struck() -> Struck:
    return Struck()


# -- a small larder that has lived for a day ------------------------------------------------------------


@dataclass
class Larder:
    """An open register and the codes of what is in it."""

    register: Register
    tutor: str
    student: str
    animals: list[str] = field(default_factory=list)
    packs: list[str] = field(default_factory=list)
    mince: str = ""
    pie: str = ""


class Minutes:
    """A clock that moves on by itself, seven minutes a question."""

    def __init__(self) -> None:
        self.now = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        self.now += timedelta(minutes=7)
        return self.now


@pytest.fixture
def empty_register(tmp_path: Path) -> Iterator[Register]:
    with open_register(tmp_path / "new.register", clock=Minutes()) as register:
        yield register


@pytest.fixture
def larder(tmp_path: Path) -> Iterator[Larder]:
    """Two fallow and a held roe; packs and trim of the fallow, mince of both, a pie. One pack is left."""
    with open_register(tmp_path / "fenmoor.register", clock=Minutes()) as register:
        acts.set_up_larder(
            register, name="Fenmoor larder", address="Fen Lane 1", jurisdiction="england-wales"
        )
        tutor = acts.enrol_person(register, name="Ada Bellweather", initials="AB", role="tutor").code
        student = acts.enrol_person(
            register, by=tutor, name="Cyr Dunmore", initials="CD", role="student"
        ).code
        made = Larder(register, tutor, student)
        supplier = acts.add_supplier(
            register, by=tutor, name="Hartmere Estate", address="Hartmere", route="wild-direct"
        ).code
        acts.add_store(
            register, by=tutor, name="Chill 1", sort="chill", rails=[("rail 1", 6)], shelves=["shelf 1"]
        )
        for hook, (species, sex, age, grams) in enumerate(ANIMALS, 1):
            made.animals.append(_receive(register, tutor, supplier, hook, species, sex, age, grams))
        trim = [_cut(made, code) for code in made.animals[:2]]
        made.mince = acts.make_mix(register, by=tutor, product="mince", inputs=[(c, 1800) for c in trim]).code
        made.pie = acts.make_dish(
            register,
            by=tutor,
            name="Venison pie",
            occasion_kind="service",
            occasion="table d'hôte",
            on=date(2026, 11, 26),
            portions=30,
            inputs=[(made.mince, 3000), (made.packs[0], 1500)],
        ).code
        acts.hold_lot(register, by=tutor, code=made.animals[2], reason="warm at the door")
        yield made


ANIMALS = (
    ("fallow", "female", "doe", 31600),
    ("fallow", "male", "pricket", 38000),
    ("roe", "female", "doe", 16000),
)


def _receive(
    register, by: str, supplier: str, hook: int, species: str, sex: str, age: str, grams: int
) -> str:
    delivery = Delivery(
        supplier=supplier,
        species=species,
        sex=sex,
        age_class=age,
        grams=grams,
        tag=f"041{hook}",
        killed_on=date(2026, 11, 20),
        kill_time="07:40",
        kill_place="Hartmere wood",
        has_declaration=True,
        declaration_number=f"D{hook}",
        no_abnormal_characteristics=Answer.YES,
        no_abnormal_behaviour=Answer.YES,
        no_contamination=Answer.YES,
        readings=(("haunch", 52),),
        place=f"C1.R1.0{hook}",
    )
    return acts.receive_delivery(register, by=by, delivery=delivery).code


def _cut(made: Larder, code: str) -> str:
    """Dress one, weigh out a pack and trim; gives the trim."""
    register, by = made.register, made.tutor
    acts.dress_carcass(
        register, by=by, code=code, outputs=[acts.Out("skin", 3000)], tag=acts.TagHandOver("printed")
    )
    outputs = [
        acts.Out("haunch", 4600, side="left", pack_state="vacuum", is_pack=True),
        acts.Out("trim", 1800),
    ]
    pack, trim = acts.weigh_out(register, by=by, code=code, outputs=outputs).created[:2]
    made.packs.append(pack)
    return trim


@pytest.fixture
def window(qtbot, larder: Larder, tmp_path: Path) -> Iterator[Window]:
    """The whole window on that larder, the tutor at the keyboard."""
    made = build_window(larder.register, papers=tmp_path / "papers")
    qtbot.addWidget(made)
    made.bench.set_person(larder.tutor)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    yield made
    made.close()


def strike(window: Window, text: str, *, enter: bool = True) -> None:
    """A scanner at the window: keys all at once, then Enter, wherever the focus is.

    All at once for the window too: on a busy machine this test's own keys may come slower than a scanner's.
    """
    scanning = window.scanning
    gap, scanning._gap_ms = scanning._gap_ms, 60_000
    try:
        for letter in text:
            QTest.keyClick(window.windowHandle(), letter)
        if enter:
            QTest.keyClick(window.windowHandle(), Qt.Key.Key_Return)
    finally:
        scanning._gap_ms = gap
    if not enter:
        scanning._timer.start(gap)


@pytest.fixture
def scan(window: Window):
    """`scan(text)`: a scanner at the whole window."""
    return partial(strike, window)


# -- a larder of roe on a calendar that stands still: for the block and the pass --------------------------


class SmallLarder:
    """An invented larder with a few roe, made through the public acts, on a calendar that stands still."""

    def __init__(self, path: Path) -> None:
        self.acts = acts
        self.at = datetime(2026, 10, 10, 9, 0, tzinfo=UTC)
        self.register = open_register(path, clock=self.clock)
        acts.set_up_larder(
            self.register,
            name="Tarn House larder",
            address="Tarn Lane, Ousemere OM2 7QT",
            registration_number="OM/0311",
            jurisdiction="england-wales",
            is_practice=True,
        )
        self.tutor = acts.enrol_person(self.register, name="Ada Birkett", initials="AB", role="tutor").code
        self.technician = acts.enrol_person(
            self.register, by=self.tutor, name="Col Dacre", initials="CD", role="technician"
        ).code
        for name, sort in (("Chill 1", "chill"), ("Freezer 1", "freezer")):
            acts.add_store(
                self.register,
                by=self.tutor,
                name=name,
                sort=sort,
                rails=[("rail 1", 8)] if sort == "chill" else [],
                shelves=["shelf 1", "shelf 2"],
            )
        self.supplier = acts.add_supplier(
            self.register,
            by=self.tutor,
            name="Jem Askew, stalker",
            address="Gill Cottage, Ousemere",
            route="wild-direct",
            origin="wild-shot",
            trained_hunter="Jem Askew",
            certificate_number="TH-1180",
        ).code
        self.hooks = 0

    def clock(self) -> datetime:
        return self.at

    def later(self, **span: int) -> None:
        self.at += timedelta(**span)

    def in_skin(self, grams: int = 16_000, tag: str = "", **fields: Any) -> str:
        """A roe buck killed yesterday, on the next hook; its code."""
        self.hooks += 1
        given = {
            "species": "roe",
            "sex": "male",
            "age_class": "buck",
            "grams": grams,
            "basis": Basis(in_skin=True, head_on=True, feet_on=True),
            "tag": tag or f"JA {self.hooks:03d}",
            "killed_on": self.at.date() - timedelta(days=1),
            "kill_time": "06:40",
            "kill_place": "Askew Gill",
            "place": f"C1.R1.{self.hooks:02d}",
            "has_declaration": True,
            "declaration_number": f"JA {self.hooks:03d}",
            "no_abnormal_characteristics": Answer.YES,
            "no_abnormal_behaviour": Answer.YES,
            "no_contamination": Answer.YES,
            "readings": (("haunch", 45),),
        } | fields
        delivery = Delivery(supplier=self.supplier, **given)
        return self.acts.receive_delivery(self.register, by=self.tutor, delivery=delivery).code

    def dressed(self, grams: int = 16_000, off: int = 3_190, **fields: Any) -> str:
        """The same with `off` grams of skin, head and feet taken off; its code."""
        code = self.in_skin(grams, **fields)
        self.acts.dress_carcass(
            self.register,
            by=self.tutor,
            code=code,
            outputs=[self.acts.Out("skin", off)],
            tag=self.acts.TagHandOver("printed"),
        )
        return code

    def weigh(self, code: str, product: str, grams: int, **how: Any) -> str:
        """One tray or pack out of a lot; its code."""
        out = self.acts.Out(product, grams, **how)
        return self.acts.weigh_out(self.register, by=self.tutor, code=code, outputs=[out]).code

    def pack(self, code: str, product: str = "steak", grams: int = 1_000, pack_state: str = "vacuum") -> str:
        place = "F2.S1" if pack_state == "frozen" else "C1.S1"
        return self.weigh(code, product, grams, pack_state=pack_state, is_pack=True, place=place)


@pytest.fixture
def roe_larder(tmp_path: Path) -> Iterator[SmallLarder]:
    made = SmallLarder(tmp_path / "small.gametrace")
    yield made
    made.register.close()


@pytest.fixture
def roe_window(qtbot, roe_larder: SmallLarder, tmp_path: Path):
    """The whole window on the small larder, shown, the tutor at the keyboard."""
    made = build_window(roe_larder.register, papers=tmp_path / "papers")
    qtbot.addWidget(made)
    made.bench.set_person(roe_larder.tutor)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    yield made
    made.bench.errands.wait_idle()
    made.close()


@pytest.fixture
def keys(qtbot, roe_window: Window):
    """`keys("haunch l", Qt.Key.Key_Return)`: a person at the keyboard, slower than a scanner."""
    return partial(_type, qtbot, roe_window)


def _type(qtbot, window: Window, *struck: str | Qt.Key) -> None:
    for one in struck:
        if isinstance(one, str):
            for letter in one:
                QTest.keyClick(window.windowHandle(), letter)
            qtbot.waitUntil(lambda: not window.scanning.held_text)
        else:
            QTest.keyClick(window.windowHandle(), one)


@pytest.fixture
def roe_scan(roe_window: Window):
    """A scanner at the window on the larder of roe."""
    return partial(strike, roe_window)


def not_fit_for_a_hand(station) -> list[str]:
    """What on the page cannot be pressed with a glove (under 44 px), has no name, or is cut off."""
    from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit

    wrong = []
    for one in station.findChildren(QWidget):
        if not isinstance(one, (QAbstractButton, QComboBox, QLineEdit)) or not one.isVisible():
            continue
        if one.objectName().startswith("qt_"):
            continue
        said = one.accessibleName() or one.metaObject().className()
        if not one.accessibleName():
            wrong.append(f"{said}: no name")
        if one.height() < 44:
            wrong.append(f"{said}: {one.height()} px high")
        if isinstance(one, QAbstractButton) and one.text():
            need = one.fontMetrics().horizontalAdvance(one.text())
            if need > one.width():
                wrong.append(f"{said}: {need} px of words in {one.width()}")
    return wrong


@pytest.fixture
def fits_a_hand():
    return not_fit_for_a_hand
