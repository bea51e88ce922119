"""Every row of the season, night, paper and temperature tables marked 'seen' is held against the outside.

'Seen' says that a person read it in the published source; so each such row names the test in which what was
read stands written out a second time, by hand. A new row marked 'seen' fails here until it has such a test.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from gametrace.facts.loading import read_subject

TESTS = Path(__file__).parent.parent
SEASONS = "domain/test_seasons.py::test_both_boundary_days_are_open_and_the_days_beyond_are_closed"
YEAR_ROUND = "domain/test_seasons.py::test_what_has_no_close_season_is_open_on_any_day"
REASONS = "domain/test_exceptions.py::test_each_reason_lifts_what_its_source_says"
RULES = "facts/test_rules_of_the_door.py::test_each_rule_of_the_door_names_its_source_and_standing"
ITEMS = "domain/test_papers.py::test_a_declaration_holds_the_seven_items_of_the_regulation"
DEMANDS = "facts/test_papers_by_route.py::test_each_way_to_the_door_asks_for_its_papers"

# subject: {row: the test that holds it against its source}
HELD: dict[str, dict[str, str]] = {
    "seasons": {
        "ew-female-before-2007": SEASONS,
        "ew-hybrid-water-deer-before-2007": (
            "domain/test_seasons.py::test_hybrids_and_water_deer_had_no_close_season_before_october_2007"
        ),
        "s-red-sika-fallow-female": SEASONS,
        "s-roe-female": SEASONS,
        "s-red-sika-male-before-2023": SEASONS,
        "s-fallow-male-before-2023": SEASONS,
        "s-roe-male-before-2023": SEASONS,
        "s-muntjac-water-deer": YEAR_ROUND,
        "s-brown-hare": SEASONS,
        "s-mountain-hare": (
            "domain/test_seasons.py::test_mountain_hares_in_scotland_are_closed_all_year_since_march_2021"
        ),
        "s-mountain-hare-before-2021": SEASONS,
        "s-farmed": (
            "domain/test_seasons.py::"
            "test_farmed_deer_in_scotland_are_exempt_but_not_from_the_dealing_rules"
        ),
        "ew-exceptions": "domain/test_seasons.py::test_every_jurisdiction_names_what_may_make_a_kill_lawful",
    },
    "exceptions": {
        "ew-season-licence": REASONS,
        "ew-night-licence": REASONS,
        "ew-dependent-young": REASONS,
        "s-authorisation": REASONS,
        "s-hare-licence": REASONS,
        "ni-licence": REASONS,
    },
    "night": {
        "ni-night": (
            "domain/test_night.py::test_the_night_runs_from_an_hour_after_sunset_to_an_hour_before_sunrise"
        ),
        "s-night-farmed": (
            "domain/test_night.py::"
            "test_farmed_deer_are_outside_the_rule_in_scotland_and_not_settled_elsewhere"
        ),
    },
    "papers": {
        "declaration-small-game": DEMANDS,
        "declaration-farmed": DEMANDS,
        "ear-tag-farmed": DEMANDS,
        "keeper-statement": DEMANDS,
        "boar-head-and-diaphragm": DEMANDS,
        **dict.fromkeys(
            (
                "number", "no-abnormal-characteristics", "no-abnormal-behaviour", "no-contamination", "day",
                "time", "place",
            ),
            ITEMS,
        ),
        **dict.fromkeys(
            (
                "boar-trichinella", "one-declaration-many-bodies", "not-in-the-legal-list",
                "example-declarations", "head-and-viscera", "small-game-abnormal", "farmed-as-red-meat",
                "primary-products", "hunter-registration", "retail-to-retail", "current-guides",
                "northern-ireland-text",
            ),
            RULES,
        ),
    },
    "temperatures": {
        "small-game": "domain/test_temperatures.py::test_the_limit_itself_is_within_and_a_tenth_more_stops",
        "chill-england-wales": (
            "domain/test_temperatures.py::test_the_kitchen_law_is_kept_apart_from_the_game_limit"
        ),
    },
    "sale": {
        "s-hare-rabbit": (
            "domain/test_sale.py::test_in_scotland_an_unlawfully_killed_hare_or_rabbit_may_not_be_sold"
        ),
        "ni-game-birds": (
            "domain/test_sale.py::test_game_birds_are_sold_all_the_year_since_their_limits_ended"
        ),
    },
    "boar": {
        "head": "domain/test_boar.py::test_everything_of_the_animal_waits",
        "diaphragm": "domain/test_boar.py::test_everything_of_the_animal_waits",
        "establishment": "domain/test_boar.py::test_the_routes_differ_in_force_and_each_says_so",
        "hunter": "domain/test_boar.py::test_the_routes_differ_in_force_and_each_says_so",
        "scotland": "domain/test_boar.py::test_the_routes_differ_in_force_and_each_says_so",
    },
}  # fmt: skip


def marked_seen(subject: str) -> set[str]:
    tables = (rows for rows in read_subject(subject).values() if isinstance(rows, list))
    return {row["id"] for rows in tables for row in rows if row.get("status") == "seen"}


@pytest.mark.parametrize("subject", sorted(HELD))
def test_every_row_marked_seen_names_the_test_that_holds_it(subject: str) -> None:
    assert marked_seen(subject) == set(HELD[subject])


@pytest.mark.parametrize("named", sorted({test for rows in HELD.values() for test in rows.values()}))
def test_every_test_that_is_named_is_there(named: str) -> None:
    file, _, function = named.partition("::")
    assert f"def {function}(" in (TESTS / file).read_text(encoding="utf-8")
