"""A small larder of roe for the tests of the block: invented people, places and animals."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest


class SmallLarder:
    """An invented larder with a few roe, made through the public acts, on a calendar that stands still."""

    def __init__(self, path: Path) -> None:
        from gametrace.register import acts
        from gametrace.register.opening import open_register

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
        from gametrace.domain.deliveries import Answer, Basis, Delivery

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
        return self.weigh(code, product, grams, pack_state=pack_state, is_pack=True, place="C1.S1")


@pytest.fixture
def small_larder(tmp_path: Path) -> Iterator[SmallLarder]:
    made = SmallLarder(tmp_path / "small.gametrace")
    yield made
    made.register.close()


@pytest.fixture
def window(qtbot, small_larder: SmallLarder, tmp_path: Path):
    """The whole window on the small larder, shown, the tutor at the keyboard."""
    from gametrace.desktop.app import build_window

    made = build_window(small_larder.register, papers=tmp_path / "papers")
    qtbot.addWidget(made)
    made.bench.set_person(small_larder.tutor)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    yield made
    made.bench.errands.wait_idle()
    made.close()
