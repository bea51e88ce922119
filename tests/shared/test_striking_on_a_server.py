"""Striking on a server does what it does in a file: every kind, one after the other, in one larder."""

from __future__ import annotations

from history_model import standing
from larder_house import House
from slips import Slips, last, strike

from gametrace.register import questions
from gametrace.register.undoing import UNDO


def test_a_slip_of_every_kind_is_struck_on_a_server_and_everything_stands_as_it_stood(house: House) -> None:
    slips = Slips(house)
    before = standing(house.reg)
    for kind in sorted(UNDO):
        slips.do(kind)
        assert questions.strikable_of(house.reg, [kind])[0].seq == last(house), kind
        strike(house, last(house))
        assert standing(house.reg) == before, kind
    assert questions.check(house.reg) == ()
