"""Who may do what: every kind of entry is in the one table, and every act is held to it."""

from __future__ import annotations

import pytest
from larder_house import House

from gametrace.domain.errors import Refusal
from gametrace.register import questions
from gametrace.register.roles import MAY, ROLES, who_may
from gametrace.register.work import Plan, perform
from gametrace.store.projection import KINDS

# Written out by hand beside the table: what a student may never do. Common practice, no source.
NOT_A_STUDENT_S = {
    "larder.set", "person.enrolled", "person.forgotten", "bag.decided",
    "card.forgotten", "supplier.amended", "store.added",
    "probe.added", "policy.set", "claim.settled", "laboratory.answered", "weight.corrected", "hold.released",
    "entry.struck", "roster.added", "roster.forgotten", "cut.changed", "session.opened", "session.closed",
    "date.overridden", "dish.priced", "pin.lifted", "recall.closed", "set.released", "excursion.answered",
}  # fmt: skip


class Decided(Exception):
    """The act came as far as deciding: nobody was refused for what they are."""


def decide(_work: object) -> Plan:
    raise Decided


def test_every_kind_of_entry_says_who_may_write_it() -> None:
    assert set(MAY) == KINDS


@pytest.mark.parametrize("kind", sorted(MAY))
def test_each_act_is_open_to_its_roles_and_refused_to_all_others(house: House, kind: str) -> None:
    people = dict(zip(ROLES, (house.tutor, house.technician, house.student, house.officer), strict=True))
    before = questions.seal(house.reg)
    for role in ROLES:
        refused: type[Exception] = Decided if role in MAY[kind] else Refusal
        with pytest.raises(refused):
            perform(house.reg, kind, decide, by=people[role])
    assert questions.seal(house.reg) == before


def test_a_student_s_list_is_what_was_written_by_hand_and_an_officer_has_none() -> None:
    assert {kind for kind, roles in MAY.items() if "student" not in roles} == NOT_A_STUDENT_S
    assert not any("officer" in roles for roles in MAY.values())


def test_only_a_tutor_lets_a_name_be_forgotten_or_a_date_be_overridden() -> None:
    assert (
        who_may("person.forgotten") == who_may("card.forgotten") == who_may("date.overridden") == ("tutor",)
    )
