"""Performs random acts on a register and says each one aloud: the child that the fault harness kills.

Before an act it prints `try KEY`, after it `done KEY SEQ MILLISECONDS MILLISECONDS`: of the act alone, and
with the look-ups by which it was chosen. A refusal is `no KEY`, trouble is `trouble KEY`. What was said to be
done is what a person would have seen acknowledged.
"""

from __future__ import annotations

import argparse
import random
import sys
import time
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from functools import partial
from pathlib import Path
from typing import Any

from gametrace.domain.deliveries import Basis, Delivery
from gametrace.domain.errors import Refusal, Trouble
from gametrace.register import acts, questions
from gametrace.register.acts import Out, TagHandOver
from gametrace.register.opening import Register, open_register
from gametrace.register.records import Changes


class UnsteadyClock:
    """Goes on by itself, and now and then is set back, as clocks of old computers are."""

    def __init__(self, chance: random.Random, *, jumps: bool) -> None:
        self.at = datetime(2026, 11, 12, 9, 0, tzinfo=UTC)
        self.chance, self.jumps = chance, jumps

    def __call__(self) -> datetime:
        return self.at

    def go_on(self) -> None:
        is_back = self.jumps and self.chance.random() < 0.1
        self.at += timedelta(hours=-3) if is_back else timedelta(minutes=self.chance.randint(1, 60))


def new_larder(path: Path | str) -> None:
    """A register with two people, a cold store and a supplier: what a first delivery needs."""
    clock = UnsteadyClock(random.Random(0), jumps=False)
    with open_register(path, clock=clock) as register:
        acts.set_up_larder(
            register, name="Hob Lane Larder", address="Hob Lane", registration_number="NB/1",
            jurisdiction="england-wales",
        )  # fmt: skip
        tutor = acts.enrol_person(register, name="Ida Marrow", initials="IM", role="tutor").code
        acts.enrol_person(register, by=tutor, name="Wat Pell", initials="WP", role="technician")
        acts.add_store(
            register, by=tutor, name="Chill", sort="chill", rails=[("Rail", 40)], shelves=["Shelf"]
        )
        acts.add_supplier(
            register, by=tutor, name="Perrin Ashdown", address="Far Farm", route="wild-direct",
            trained_hunter="Perrin Ashdown", certificate_number="TH-77",
        )  # fmt: skip


Act = Callable[[], Changes]


class Hands:
    """Chooses an act that could be done now and gets it ready, with a key of its own."""

    def __init__(self, register: Register, chance: random.Random) -> None:
        self.register, self.chance = register, chance
        self.deeds: tuple[tuple[Callable[[str], Act | None], int], ...] = (
            (self.receive, 3), (self.dress, 3), (self.cut, 8), (self.mix, 2), (self.dish, 3), (self.move, 2),
            (self.weigh_again, 2), (self.hold, 1), (self.release, 1), (self.close, 1), (self.bin, 1),
            (self.put_right, 1),
        )  # fmt: skip

    def choose(self, key: str) -> Act | None:
        """One act, to be done by calling it; None where nothing of that sort could be done."""
        (deed,) = self.chance.choices([d for d, _ in self.deeds], [n for _, n in self.deeds])
        return deed(key)

    def _ready(self, act: Callable[..., Changes], key: str, *, by: str = "P002", **given: Any) -> Act:
        return partial(act, self.register, by=by, key=key, **given)

    def _some(self, lots: tuple) -> str | None:
        return self.chance.choice(lots).code if lots else None

    def receive(self, key: str) -> Act:
        delivery = Delivery(
            route="wild-direct", supplier="S001", species="fallow", sex="female",
            killed_on=date(2026, 11, 8), tag=key, grams=self.chance.randint(25_000, 45_000),
            basis=Basis(in_skin=True, head_on=False, feet_on=False, pluck_in=False),
        )  # fmt: skip
        return self._ready(acts.receive_delivery, key, delivery=delivery)

    def dress(self, key: str) -> Act | None:
        hanging = [one for one in questions.deliveries(self.register, limit=60) if one.in_skin]
        if not hanging:
            return None
        one = self.chance.choice(hanging)
        outputs = [Out("skin", one.lot.grams // 12)]
        return self._ready(
            acts.dress_carcass, key, code=one.code, outputs=outputs, tag=TagHandOver("printed")
        )

    def cut(self, key: str) -> Act | None:
        code = self._some(questions.block_candidates(self.register))
        if code is None:
            return None
        left = questions.lot(self.register, code).grams
        product = self.chance.choice(("haunch", "loin", "trim", "bone", "shot-damage", "neck"))
        out = Out(product, max(1, left // self.chance.randint(2, 9)), is_pack=product == "loin")
        return self._ready(acts.weigh_out, key, code=code, outputs=[out])

    def _inputs(self) -> list[tuple[str, int | None]]:
        stock = questions.stock(self.register)
        chosen = self.chance.sample(stock, min(len(stock), self.chance.randint(1, 3)))
        return [(lot.code, max(1, lot.grams // 2)) for lot in chosen]

    def mix(self, key: str) -> Act | None:
        inputs = self._inputs()
        return self._ready(acts.make_mix, key, inputs=inputs) if inputs else None

    def dish(self, key: str) -> Act | None:
        if not (inputs := self._inputs()):
            return None
        return self._ready(
            acts.make_dish, key, by="P001", name="Braise", occasion="Lunch", on=self.register.today(),
            portions=4, inputs=inputs,
        )  # fmt: skip

    def weigh_again(self, key: str) -> Act | None:
        code = self._some(questions.block_candidates(self.register))
        if code is None:
            return None
        left = questions.lot(self.register, code).grams
        return self._ready(acts.reweigh, key, code=code, grams=max(1, left - left // 40))

    def hold(self, key: str) -> Act | None:
        code = self._some(questions.stock(self.register))
        return self._ready(acts.hold_lot, key, code=code, reason="smell") if code else None

    def release(self, key: str) -> Act | None:
        holds = [one for one in questions.holds(self.register) if one.sort == "hold"]
        if not holds:
            return None
        hold = self.chance.choice(holds).id
        return self._ready(acts.release_hold, key, by="P001", hold=hold, reason="looked at")

    def close(self, key: str) -> Act | None:
        code = self._some(questions.open_blocks(self.register))
        return self._ready(acts.close_lot, key, code=code, reason="cleared") if code else None

    def bin(self, key: str) -> Act | None:
        code = self._some(questions.stock(self.register))
        return self._ready(acts.dispose, key, code=code, reason="dropped") if code else None

    def put_right(self, key: str) -> Act | None:
        code = self._some(questions.deliveries(self.register, limit=60))
        if code is None:
            return None
        changes = {"kill_place": f"Wood {key}"}
        return self._ready(acts.amend_carcass, key, code=code, changes=changes, reason="read again")

    def move(self, key: str) -> Act | None:
        code = self._some(questions.stock(self.register))
        shelves = [place.code for place in questions.places(self.register) if ".S" in place.code]
        if code is None or not shelves:
            return None
        return self._ready(acts.move_lot, key, code=code, to=self.chance.choice(shelves))


def say(*words: object) -> None:
    sys.stdout.write(" ".join(map(str, words)) + "\n")
    sys.stdout.flush()


def go(path: Path | str, seed: int, count: int, *, jumps: bool) -> None:
    """Act `count` times (0: without end) and say each."""
    chance = random.Random(seed)
    clock = UnsteadyClock(chance, jumps=jumps)
    with open_register(path, clock=clock) as register:
        hands = Hands(register, chance)
        say("open")
        n = 0
        while not count or n < count:
            n += 1
            key = f"{seed}-{n}"
            say("try", key)
            began = acted = time.perf_counter()
            try:
                act = hands.choose(key)
                acted = time.perf_counter()
                done = act() if act else None
            except Refusal:
                done = None
            except Trouble as trouble:
                say("trouble", key, trouble)
                return
            ended = time.perf_counter()
            took = [f"{(ended - since) * 1_000:.1f}" for since in (acted, began)]
            say("done", key, done.seq, *took) if done else say("no", key)
            clock.go_on()


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("register", help="a file, or a server's address")
    parser.add_argument("--seed", type=int, required=True)
    parser.add_argument("--count", type=int, default=0)
    parser.add_argument("--clock-jumps", action="store_true")
    given = parser.parse_args()
    go(given.register, given.seed, given.count, jumps=given.clock_jumps)
