"""Which origins this kitchen buys, and what may be decided at the door for a route and origin.

Which origins it buys is the kitchen's own policy. That gift, road casualty and unknown never reach a plate
is common practice here; nothing in this module judges the meat.
"""

from __future__ import annotations

from gametrace.domain.deliveries import Decision
from gametrace.domain.findings import Finding, Severity
from gametrace.facts.origins import ORIGIN_MEANINGS, ORIGINS, check_origin, check_route
from gametrace.facts.papers import named_rule
from gametrace.facts.sources import citation

_NEVER_FOR_SERVICE = frozenset({Decision.SPECIMEN.value, Decision.REJECT.value})


def never_for_service(route: str, origin: str) -> bool:
    """Gift, road casualty or unknown: a teaching specimen or refused."""
    return check_route(route) == "gift-unknown" or check_origin(origin) == "unknown"


def decisions_allowed(route: str, origin: str) -> frozenset[str]:
    """The decisions open at the door."""
    if never_for_service(route, origin):
        return _NEVER_FOR_SERVICE
    return frozenset(one.value for one in Decision)


def origin_findings(origin: str, accepted: frozenset[str]) -> tuple[Finding, ...]:
    """A question where the kitchen does not buy that origin. With nothing set, every origin is bought.

    An unknown origin is stopped by its papers, whatever the policy.
    """
    check_origin(origin)
    for one in accepted:
        check_origin(one)
    if not accepted or origin in accepted or origin == "unknown":
        return ()
    bought = ", ".join(name for one, name in ORIGINS.items() if one in accepted)
    rule = named_rule("origin-policy")
    sentence = (
        f"This kitchen does not buy game of the origin '{ORIGINS[origin]}'. {ORIGIN_MEANINGS[origin]} "
        f"It buys: {bought}."
    )
    ask = "Ask the supplier which it is; refuse it, or say why it is taken."
    return (
        Finding("origin-not-bought-here", Severity.ASK, sentence, ask, citation(rule.source), rule.status),
    )
