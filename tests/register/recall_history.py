"""What is announced, gathered, recalled and drilled, as rules beside the meat: see `test_any_history`."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import timedelta

from history_machine import MeatHistory, pick
from hypothesis import strategies as st
from hypothesis.stateful import rule

from gametrace.domain.lots import GONE_KINDS
from gametrace.register import acts, questions
from gametrace.register.asking_round import lots_step


@dataclass
class Announced:
    """One expectation as the model knows it."""

    bodies: int
    status: str = "expected"
    lots: list[str] = field(default_factory=list)


class RecallHistory(MeatHistory):
    def __init__(self) -> None:
        super().__init__()
        self.announced: dict[str, Announced] = {}
        self.sets: dict[str, set[str]] = {}
        self.held_sets: dict[int, tuple[str, set[int]]] = {}  # entry -> who held it, its holds
        self.recalls: dict[str, bool] = {}  # still open
        self.drills: dict[str, bool] = {}

    @rule(bodies=st.sampled_from([1, 1, 2, 0]), days=st.sampled_from([0, 2, 900]))
    def announce(self, bodies: int, days: int) -> None:
        done = self.attempt(
            bodies > 0 and days < 400, acts.expect_delivery, self.reg, by="P003", supplier="S001",
            on=self.reg.today() + timedelta(days=days), bodies=bodies,
        )  # fmt: skip
        if done is not None:
            self.announced[done.code] = Announced(bodies)  # type: ignore[attr-defined]

    @rule(number=pick, is_coming=st.sampled_from([True, True, False]))
    def settle_what_was_announced(self, number: int, is_coming: bool) -> None:
        if not self.announced:
            return self.announce(1, 0)
        code, one = list(self.announced.items())[number % len(self.announced)]
        beast, is_open = self.choose(number, "carcass"), one.status == "expected"
        if not is_coming:
            if self.attempt(is_open, acts.cancel_expected, self.reg, by="P003", expected=code, reason="fog"):
                one.status = "cancelled"
            return None
        ticked = {lot for other in self.announced.values() for lot in other.lots}
        allowed = is_open and self.lots[beast].kind == "carcass" and beast not in ticked
        if self.attempt(allowed, acts.tick_expected, self.reg, by="P003", expected=code, code=beast):
            one.lots.append(beast)
            one.status = "arrived" if len(one.lots) >= one.bodies else "expected"
        return None

    @rule(numbers=st.lists(pick, min_size=1, max_size=3), what=st.sampled_from(["save", "hold", "recall"]))
    def gather(self, numbers: list[int], what: str) -> None:
        """A set saved or held in one act, or a recall that holds it all."""
        codes = {self.choose(number, "carcass", "pack") for number in numbers}
        steps = [lots_step(sorted(codes))]
        if what == "save":
            done = self.attempt(True, acts.save_set, self.reg, by="P003", name="these", steps=steps)
            self.sets[done.code] = codes  # type: ignore[attr-defined]
            return
        here = sorted(code for code in codes if self.lots[code].kind not in GONE_KINDS)
        if what == "hold":
            done = self.attempt(bool(here), acts.hold_set, self.reg, by="P002", steps=steps, reason="asked")
        else:
            done = self.attempt(
                True, acts.open_recall, self.reg, by="P002", codes=sorted(codes), what="haunch", reason="rung"
            )
            self.recalls[done.created[0]] = True  # type: ignore[attr-defined]
        if done is not None:
            holds = dict(zip(range(self.last_hold + 1, self.last_hold + 1 + len(here)), here, strict=True))
            self.holds |= {hold: (code, "hold") for hold, code in holds.items()}
            self.last_hold += len(here)
            if what == "hold":
                self.held_sets[done.seq] = ("P002", set(holds))  # type: ignore[attr-defined]

    @rule(number=pick, by=st.sampled_from(["P001", "P001", "P002", "P003"]))
    def release_a_set(self, number: int, by: str) -> None:
        if not self.held_sets:
            return self.gather([number * 4 + 1], "hold")
        seq = sorted(self.held_sets)[number % len(self.held_sets)]
        held_by, holds = self.held_sets[seq]
        still = holds & set(self.holds)
        allowed = by == "P001" and by != held_by and bool(still)
        if self.attempt(allowed, acts.release_set, self.reg, by=by, seq=seq, reason="looked at"):
            self.holds = {hold: what for hold, what in self.holds.items() if hold not in still}
        return None

    @rule(number=pick, code=st.sampled_from(["", "R009"]))
    def ring_about_a_recall(self, number: int, code: str) -> None:
        known = sorted(self.recalls)
        code = code or (known[number % len(known)] if known else "R009")
        self.attempt(
            self.recalls.get(code, False), acts.note_call, self.reg, by="P003", recall=code, whom="the Inn",
            answer="binned",
        )  # fmt: skip

    @rule(number=pick)
    def drill(self, number: int) -> None:
        running = [code for code, runs in self.drills.items() if runs]
        if not running:
            code = self.choose(number, "carcass", "pack")
            done = self.attempt(True, acts.begin_drill, self.reg, by="P003", code=code)
            self.drills[done.code] = True  # type: ignore[attr-defined]
            return
        self.attempt(True, acts.end_drill, self.reg, by="P003", drill=running[0], found=[])
        self.drills[running[0]] = False

    def the_house_is_as_the_model_says(self) -> None:
        super().the_house_is_as_the_model_says()
        found = questions.expected_deliveries(self.reg, open_only=False)
        assert {one.code: (one.status, one.came, sorted(one.lots)) for one in found} == {
            code: (one.status, len(one.lots), sorted(one.lots)) for code, one in self.announced.items()
        }
        assert {one.code: one.is_open for one in questions.recalls(self.reg)} == self.recalls
