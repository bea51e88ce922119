"""Substitutions on the night: what went in too, what did not, to the gram and through every hold."""

from __future__ import annotations

import pytest
from larder_house import House

from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions


def change(house: House, dish: str, **given) -> acts.Changes if False else object:  # noqa: RUF100
    return acts.change_dish(house.reg, by=house.tutor, code=dish, reason="the night", **given)
