"""Which origins a kitchen buys, and what may be decided at the door."""

from __future__ import annotations

from itertools import product

import pytest

from gametrace.domain.deliveries import Decision
from gametrace.domain.findings import Severity
from gametrace.domain.origins import decisions_allowed, never_for_service, origin_findings
from gametrace.facts import UnknownFact
from gametrace.facts.origins import ORIGINS, ROUTES


# Common practice, no source: gift, road casualty and unknown are a teaching specimen or refused.
@pytest.mark.parametrize(("route", "origin"), list(product(ROUTES, ORIGINS)))
def test_gift_and_unknown_are_a_specimen_or_refused_and_nothing_else(route: str, origin: str) -> None:
    allowed = decisions_allowed(route, origin)
    if route == "gift-unknown" or origin == "unknown":
        assert never_for_service(route, origin)
        assert allowed == {"teaching specimen", "reject"}
    else:
        assert allowed == {one.value for one in Decision}


def test_an_origin_the_kitchen_does_not_buy_is_asked_about_at_the_door() -> None:
    [finding] = origin_findings("indoor-farmed", frozenset({"wild-shot", "park"}))
    assert (finding.code, finding.severity) == ("origin-not-bought-here", Severity.ASK)
    assert "It buys: wild-shot, park" in finding.sentence
    assert "slats" in finding.sentence


def test_an_origin_it_buys_or_a_kitchen_with_no_policy_is_not_asked() -> None:
    assert origin_findings("park", frozenset({"park"})) == ()
    assert origin_findings("indoor-farmed", frozenset()) == ()
    assert origin_findings("unknown", frozenset({"park"})) == ()  # its papers stop it already


def test_words_nobody_knows_are_refused() -> None:
    for spoilt in (("shop", frozenset({"park"})), ("park", frozenset({"shop"}))):
        with pytest.raises(UnknownFact):
            origin_findings(*spoilt)
    with pytest.raises(UnknownFact):
        decisions_allowed("post", "park")
