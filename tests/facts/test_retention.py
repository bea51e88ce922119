"""How long names are kept, against what was read."""

from __future__ import annotations

from gametrace.facts.by_products import years_to_keep_papers
from gametrace.facts.retention import months_to_keep_names, periods


def test_the_law_names_no_period_for_traceability_and_the_rest_is_said_to_be_what_it_is() -> None:
    """FSA officer training, module 4: 'no period'; Deer (Scotland) Act 1996 s.34: three years."""
    held = {one.id: (one.months, one.status) for one in periods()}
    assert held["traceability"] == (0, "seen")
    assert held["venison-dealer"] == (36, "part")
    assert held["traceability-eu-guidance"] == (60, "memory")
    assert held["own"][1] == "inference"


def test_names_are_kept_as_long_as_any_paper_they_stand_on() -> None:
    for jurisdiction in ("england-wales", "scotland", "northern-ireland", ""):
        assert months_to_keep_names(jurisdiction) >= 12 * years_to_keep_papers()
    assert months_to_keep_names("scotland") == 36
    assert months_to_keep_names("northern-ireland") == 60
