"""What the builder carries from day to day: the register, the clock, the dice, and what lies where."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from random import Random
from typing import Any

from gametrace.register.opening import Register
from gametrace.register.records import Changes
from sample_db.clock import SteppedClock
from sample_db.terms import Terms

STUDENTS = ("briony", "callum", "dilys", "emre")


@dataclass(slots=True)
class Body:
    """One carcass or batch from the door until it is cut up."""

    code: str
    species: str
    sex: str
    origin: str
    source: str
    grams: int
    received_on: date
    dress_on: date
    cut_on: date
    hook: str
    in_skin: bool
    head_on: bool
    count: int = 1
    is_stopped: bool = False  # held, rejected or a specimen: the daily round leaves it alone
    is_cut: bool = False
    is_looked_at: bool = False
    is_decided: bool = False  # a second time, out of the skin


@dataclass(slots=True)
class Pack:
    """Something packed that a dish may be made of."""

    code: str
    product: str
    species: str
    grams: int
    use_by: date
    state: str
    is_forgotten: bool = False  # slips to the back of the shelf and is binned one morning


@dataclass(slots=True)
class Trim:
    """A tray of trim waiting for the mincer."""

    code: str
    animal: str
    grams: int
    cut_on: date


@dataclass(frozen=True, slots=True)
class Lesson:
    """A cutting session that is on: its code, its tables, and the roster codes of who cuts at each."""

    session: str
    tables: tuple[str, ...]
    cutters: tuple[str, ...]


@dataclass(slots=True)
class House:
    """The larder as the builder knows it. `marks` names the lots that the story and the tests speak of."""

    register: Register
    clock: SteppedClock
    rng: Random
    terms: Terms
    people: dict[str, str] = field(default_factory=dict)
    suppliers: dict[str, str] = field(default_factory=dict)
    bodies: list[Body] = field(default_factory=list)
    stock: list[Pack] = field(default_factory=list)
    trims: list[Trim] = field(default_factory=list)
    marks: dict[str, str] = field(default_factory=dict)
    roster: tuple[str, ...] = ()
    lesson: Lesson | None = None
    animals_in: dict[str, int] = field(default_factory=dict)  # of a mince, by its code
    _due: list[tuple[date, int, Callable[[], None]]] = field(default_factory=list)
    _acts: int = 0
    _tags: dict[str, int] = field(default_factory=dict)

    def do(self, act: Callable[..., Changes], *, by: str, **given: Any) -> Changes:
        """One act a minute or so after the last, by someone of the cast."""
        self.clock.pass_seconds(self.rng.randint(35, 100))
        self._acts += 1
        person = self.people.get(by, by)
        return act(self.register, by=person, key=f"fenmoor-{self._acts:05d}", **given)

    def aside(self, act: Callable[..., Changes], *, by: str, **given: Any) -> Changes:
        """An act that rolls none of the story's dice: what comes through the door stays as it was."""
        self.clock.pass_seconds(40)
        self._acts += 1
        return act(self.register, by=self.people.get(by, by), key=f"fenmoor-{self._acts:05d}", **given)

    @property
    def today(self) -> date:
        return self.clock.day

    def later(self, day: date, act: Callable[[], None]) -> None:
        """Something to be done on the first working morning from that day on."""
        self._due.append((self.terms.open_on_or_after(day), len(self._due), act))

    def run_due(self) -> None:
        for due in sorted(self._due, key=lambda one: one[:2]):
            if due[0] <= self.today:
                self._due.remove(due)
                due[2]()

    def student(self) -> str:
        """Someone of the group. One of them leaves after the first summer."""
        group = STUDENTS if "leaver-gone" not in self.marks else STUDENTS[:3]
        return self.rng.choice(group)

    def next_tag(self, letters: str) -> str:
        self._tags[letters] = self._tags.get(letters, 1_000) + self.rng.randint(1, 4)
        return f"{letters} {self._tags[letters]:04d}"

    def free_hook(self, rails: tuple[str, ...]) -> str:
        """The first hook of those rails that nothing hangs on, as far as the builder knows."""
        taken = {body.hook for body in self.bodies if not body.is_cut}
        hooks = (f"{rail}.{n:02d}" for rail in rails for n in range(1, 11 if rail == "C1.R1" else 9))
        return next(hook for hook in hooks if hook not in taken)

    @property
    def lapse_year(self) -> int:
        """The year in whose June one hunter's certificate runs out, in time for its story."""
        return self.terms.newest(9, 22).year

    @property
    def chilled_grams(self) -> int:
        return sum(pack.grams for pack in self.stock if pack.state != "frozen" and not pack.is_forgotten)
