"""An invented larder for tests: people, a supplier, a store, and a clock that stands still."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

from gametrace.domain.deliveries import Answer, Basis, Decision, Delivery
from gametrace.domain.examination import Answered
from gametrace.register import acts, questions
from gametrace.register.opening import open_register
from gametrace.register.records import Changes

START = datetime(2026, 11, 12, 9, 0, tzinfo=UTC)
DRESSED = Basis(in_skin=False, head_on=False, feet_on=False, pluck_in=False)


class Clock:
    """The time the test says it is."""

    def __init__(self, now: datetime = START) -> None:
        self.now = now

    def __call__(self) -> datetime:
        return self.now

    def go(self, **span: float) -> None:
        self.now += timedelta(**span)


class House:
    """A larder in England with a tutor, a technician, a student and an officer, and one wild supplier."""

    def __init__(self, path: Path, jurisdiction: str = "england-wales") -> None:
        self.path = path
        self.clock = Clock()
        self.reg = open_register(path, clock=self.clock)
        acts.set_up_larder(
            self.reg,
            name="Hob Lane Larder",
            address="Hob Lane, Netherby",
            registration_number="NB/1",
            jurisdiction=jurisdiction,
        )
        enrol = acts.enrol_person
        self.tutor = enrol(self.reg, name="Ida Marrow", initials="IM", role="tutor").code
        by = self.tutor
        self.technician = enrol(self.reg, by=by, name="Wat Pell", initials="WP", role="technician").code
        self.student = enrol(self.reg, by=by, name="Una Skerry", initials="US", role="student").code
        self.officer = enrol(self.reg, by=by, name="Odo Finch", initials="OF", role="officer").code
        self.supplier = acts.add_supplier(
            self.reg,
            by=self.tutor,
            name="Perrin Ashdown",
            address="Far Farm, Netherby",
            route="wild-direct",
            trained_hunter="Perrin Ashdown",
            certificate_number="TH-77",
        ).code
        acts.add_store(
            self.reg,
            by=self.tutor,
            name="Chill",
            sort="chill",
            rails=[("Rail 1", 12), ("Rail 2", 4)],
            shelves=["Top", "Low"],
        )
        self._tags = 0

    def delivery(self, **given: Any) -> Delivery:
        """A fallow doe with its whole paper, in season, of a usual weight, cold: nothing to be said of it."""
        self._tags += 1
        fields: dict[str, Any] = {
            "supplier": self.supplier,
            "species": "fallow",
            "sex": "female",
            "grams": 40_000,
            "tag": f"T{self._tags:04d}",
            "age_class": "doe",
            "killed_on": date(2026, 11, 10),
            "kill_time": "07:40",
            "kill_place": "Long Wood",
            "has_declaration": True,
            "declaration_number": f"D{self._tags:04d}",
            "no_abnormal_characteristics": Answer.YES,
            "no_abnormal_behaviour": Answer.YES,
            "no_contamination": Answer.YES,
            "trained_person": "Perrin Ashdown",
            "readings": (("haunch", 30),),
            "pence_per_kg": 320,
        }
        return Delivery(**{**fields, **given})

    def receive(self, **given: Any) -> str:
        return acts.receive_delivery(self.reg, by=self.technician, delivery=self.delivery(**given)).code

    def held(self, decision: Decision, **given: Any) -> str:
        return self.receive(decision=decision, decision_reason="looked at and decided", **given)

    def boar(self, **given: Any) -> str:
        """A wild boar whose paper is whole: nothing stops it but the wait for the laboratory."""
        boar = {"species": "wild-boar", "sex": "male", "age_class": "boar", "grams": 60_000}
        return self.receive(**{**boar, **given})

    def look(self, code: str, *seen: tuple[str, str] | tuple[str, str, str], **given: Any) -> Changes:
        """Examine: (point, answer) or (point, answer, what was seen)."""
        return acts.examine_carcass(
            self.reg,
            by=given.pop("by", self.technician),
            code=code,
            answers=[Answered(*one) for one in seen],
            **given,
        )

    def answer_lab(self, code: str, result: str, by: str = "", reference: str = "LAB 7") -> Changes:
        return acts.record_result(
            self.reg, by=by or self.tutor, code=code, reference=reference, result=result
        )

    def dress(self, code: str, skin: int = 3_000, **given: Any) -> Changes:
        return acts.dress_carcass(
            self.reg,
            by=self.technician,
            code=code,
            outputs=[acts.Out("skin", skin)],
            tag=acts.TagHandOver("printed"),
            **given,
        )

    def dressed(self, **given: Any) -> str:
        """A carcass received skinned already: it can go on the block."""
        return self.receive(basis=DRESSED, **given)

    def out(self, code: str, *outputs: acts.Out, **given: Any) -> tuple[str, ...]:
        return acts.weigh_out(
            self.reg, by=given.pop("by", self.technician), code=code, outputs=outputs, **given
        ).created

    def pack(self, code: str, grams: int = 500, product: str = "haunch", **given: Any) -> str:
        return self.out(code, acts.Out(product, grams, is_pack=True, **given))[0]

    def trim(self, code: str, grams: int = 500) -> str:
        return self.out(code, acts.Out("trim", grams))[0]

    def mix(self, *inputs: tuple[str, int | None], **given: Any) -> str:
        return acts.make_mix(self.reg, by=self.technician, inputs=inputs, **given).code

    def dish(self, *inputs: tuple[str, int | None], name: str = "Ragout", **given: Any) -> str:
        return acts.make_dish(
            self.reg,
            by=self.technician,
            name=name,
            occasion=given.pop("occasion", "Thursday lunch"),
            on=given.pop("on", date(2026, 11, 13)),
            portions=given.pop("portions", 12),
            inputs=inputs,
            **given,
        ).code

    def hold(self, code: str, by: str = "", reason: str = "smells odd") -> int:
        return int(acts.hold_lot(self.reg, by=by or self.technician, code=code, reason=reason).code)

    def bin(self, code: str, grams: int | None = None) -> str:
        return acts.dispose(
            self.reg, by=self.technician, code=code, grams=grams, reason="fell on the floor"
        ).code

    def left(self, code: str) -> int:
        return questions.lot(self.reg, code).grams

    def state(self, code: str) -> str:
        return questions.lot(self.reg, code).state

    def close(self) -> None:
        self.reg.close()
