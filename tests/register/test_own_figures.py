"""The kitchen's own figures: each beside what the sources say, every change kept with its reason."""

from __future__ import annotations

import pytest

from gametrace.domain.errors import Refusal
from gametrace.register import acts, questions
from gametrace.register.own_figures import value_words


def figure(house, name: str):
    return next(one for one in questions.own_figures(house.reg) if one.name == name)


def set_to(house, name: str, value: str, reason: str = "our plan") -> None:
    acts.set_policy(house.reg, by=house.tutor, name=name, value=value, reason=reason)


def test_every_figure_stands_beside_what_the_sources_say_and_what_it_starts_with(house) -> None:
    for one in questions.own_figures(house.reg):
        assert one.said, one.name
        assert one.words == one.starts_with
        assert all(said.status or "No source" in said.words for said in one.said)


def test_the_chill_stands_beside_the_game_rules_and_the_kitchens_own_law(house) -> None:
    said = " ".join(one.words for one in figure(house, "chill_limit_tenths_c").said)
    # Regulation (EC) 853/2004, Annex III, Section IV: 7 and 4 degrees; SI 2013/2996, schedule 4: 8 degrees.
    assert "7.0 °C" in said
    assert "4.0 °C" in said
    assert "8.0 °C" in said


def test_days_of_hanging_show_the_spread_of_the_sources_until_the_kitchen_sets_its_own(house) -> None:
    assert len({said.words for said in figure(house, "hanging_days.fallow").said}) > 1
    set_to(house, "hanging_days.fallow", "6-9")
    assert figure(house, "hanging_days.fallow").words == "day 6 to day 9"


def test_a_category_is_told_with_who_confirmed_it(house) -> None:
    assert "not yet confirmed" in figure(house, "category.skin").words
    assert len({said.words[:10] for said in figure(house, "category.skin").said}) >= 2
    set_to(house, "category.skin", "2|Netherby council|2026-11-12")
    assert figure(house, "category.skin").words == "category 2, said by Netherby council, 12 Nov 2026"


def test_the_lines_of_a_balance_stand_beside_what_practitioners_quote(house) -> None:
    """98 to 102 % and, of one customer, 99.5 to 105 %: two threads of food safety practitioners, their
    addresses in sources.toml; no official figure exists."""
    said = [one.words for one in figure(house, "unweighed_amber_tenths").said]
    assert said[0].startswith("98 % to 102 % of the weight in")
    assert said[1].startswith("99.5 % to 105 %")


def test_every_change_is_kept_with_the_old_figure_beside_the_new(house) -> None:
    set_to(house, "chill_limit_tenths_c", "40", "tighter chill")
    set_to(house, "chill_limit_tenths_c", "", "back to the usual")
    newest, first = questions.policy_changes(house.reg)
    assert (first.old, first.new, first.reason, first.by) == ("5.0 °C", "4.0 °C", "tighter chill", "IM")
    assert (newest.old, newest.new) == ("4.0 °C", "5.0 °C")


def test_a_student_may_look_and_not_set(house) -> None:
    with pytest.raises(Refusal):
        acts.set_policy(house.reg, by=house.student, name="probe_days", value="9", reason="because")


@pytest.mark.parametrize(
    ("name", "value", "words"),
    [
        ("accepted_origins", "", "every origin but unknown"),
        ("own_limit_tenths_c", "", "none: the game rules' limits alone"),
        ("tolerance_minutes", "1", "1 minute"),
        ("reading_minutes", "720", "12 hours"),
        ("unweighed_amber_tenths", "25", "2.5 % of the weight in"),
        ("unweighed_red_tenths", "", "5 % of the weight in"),
        ("scale_step_grams", "5", "5 grams"),
        ("freezer_limit_tenths_c", "-180", "-18.0 °C"),
    ],
)
def test_figures_are_told_in_words(name: str, value: str, words: str) -> None:
    assert value_words(name, value).replace("−", "-") == words
