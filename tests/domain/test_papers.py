"""Papers by route, origin and kind; the declaration against the law's seven items."""

from __future__ import annotations

from datetime import date
from itertools import product
from typing import Any

import pytest

from gametrace.domain.deliveries import Answer
from gametrace.domain.findings import Finding, Severity
from gametrace.domain.papers import Declaration, evidence_line, paper_findings
from gametrace.facts import UnknownFact
from gametrace.facts.origins import ORIGINS, ROUTES
from gametrace.facts.papers import all_images, declaration_items, images_for, papers_for, usual_origins
from gametrace.facts.species import GROUPS

FULL = Declaration("D-17", Answer.YES, Answer.YES, Answer.YES, "P001")
WILD: dict[str, Any] = {
    "route": "wild-direct",
    "origin": "wild-shot",
    "species": "fallow",
    "killed_on": date(2026, 11, 2),
    "kill_time": "07:40",
    "kill_place": "Long Covert",
    "tag": "T1",
}


def said(**given: Any) -> dict[str, Finding]:
    return {one.code: one for one in paper_findings(**(WILD | given))}


def line(**given: Any) -> str:
    return evidence_line(**(WILD | given))


# Regulation (EC) 853/2004 Annex III Sec. IV Ch. II(4)(a), as substituted by Regulation (EU) 150/2011.
def test_a_declaration_holds_the_seven_items_of_the_regulation() -> None:
    assert [one.id for one in declaration_items()] == [
        "number",
        "no-abnormal-characteristics",
        "no-abnormal-behaviour",
        "no-contamination",
        "day",
        "time",
        "place",
    ]
    assert {one.source for one in declaration_items()} == {"reg-150-2011"}
    assert {one.status for one in declaration_items()} == {"seen"}


# The same text: species, sex, weight and signature are not among its items.
def test_a_declaration_without_a_trained_persons_name_still_holds_what_the_law_lists() -> None:
    assert said(declaration=Declaration("D-17", "yes", "yes", "yes")) == {}
    assert line(declaration=Declaration("D-17", "yes", "yes", "yes")) == "complete"


@pytest.mark.parametrize(
    ("gap", "word"),
    [
        ({"declaration": Declaration("", "yes", "yes", "yes")}, "a number"),
        ({"declaration": Declaration("1", "not stated", "yes", "yes")}, "found on the body (not stated)"),
        ({"declaration": Declaration("1", "yes", "can't read", "yes")}, "it was killed (can't read)"),
        ({"declaration": Declaration("1", "yes", "yes", "not stated")}, "contamination (not stated)"),
        ({"declaration": FULL, "kill_time": "  "}, "the time of killing"),
        ({"declaration": FULL, "kill_place": ""}, "the place of killing"),
        ({"declaration": FULL, "killed_on": None}, "the day of killing"),
    ],
)
def test_each_item_that_is_missing_or_unreadable_is_rung_for(gap: dict[str, Any], word: str) -> None:
    finding = said(**gap)["declaration-call-back"]
    assert finding.severity is Severity.ASK
    assert word in finding.sentence
    assert "Ring the hunter" in finding.what_to_do
    assert "150/2011" in finding.source
    assert line(**gap).endswith("missing")


@pytest.mark.parametrize("which", [0, 1, 2])
def test_a_statement_answered_no_stops(which: int) -> None:
    answers = ["yes", "yes", "yes"]
    answers[which] = "no"
    finding = said(declaration=Declaration("1", *answers))["declaration-abnormal"]
    assert finding.severity is Severity.STOP
    assert "a vet" in finding.what_to_do


def test_an_answer_that_is_none_of_the_four_is_refused() -> None:
    with pytest.raises(ValueError):
        Declaration("1", "maybe", "yes", "yes")


# FSA Wild Game Guidance: hunter exemption, Regulation 853/2004 Art.1(3)(e).
@pytest.mark.parametrize(("route", "origin"), [("wild-direct", "wild-shot"), ("park-as-wild", "park")])
def test_a_direct_sale_in_the_skin_may_lawfully_have_no_declaration(route: str, origin: str) -> None:
    given = {"route": route, "origin": origin}
    finding = said(**given)["declaration-lawfully-absent"]
    assert finding.severity is Severity.NOTE
    assert line(**given) == "declaration lawfully absent"
    assert all(one.severity is Severity.NOTE for one in said(**given).values())
    wanted = said(**given).get("papers-worth-having")
    assert wanted is None or "declaration" not in wanted.sentence


def test_small_game_has_no_declaration_prescribed_and_none_is_missed() -> None:
    # Regulation (EC) 853/2004 Annex III Sec. IV Ch. III.
    assert said(species="pheasant", tag="") == {}
    assert line(species="pheasant", tag="") == "complete"


# Regulation (EC) 853/2004 Art.5: through an establishment the mark with its approval number.
@pytest.mark.parametrize(
    ("route", "origin"),
    [
        ("wild-approved", "wild-shot"),
        ("farmed-slaughterhouse", "field-farmed"),
        ("farmed-on-farm", "indoor-farmed"),
    ],
)
def test_through_an_establishment_the_approval_number_is_asked_for(route: str, origin: str) -> None:
    given = {"route": route, "origin": origin}
    assert said(**given)["approval-number-missing"].severity is Severity.ASK
    assert line(**given) == "1 missing"
    given["approval_number"] = "UK 1234"
    assert "approval-number-missing" not in said(**given)
    assert line(**given) == "complete"
    assert "declaration-lawfully-absent" not in said(**given)


def test_a_paper_ticked_off_by_hand_is_no_longer_wanted() -> None:
    given: dict[str, Any] = {"route": "wild-approved", "approval_number": "UK 1", "declaration": FULL}
    assert "invoice" in said(**given)["papers-worth-having"].sentence
    assert "papers-worth-having" not in said(**given, held=["invoice"])


@pytest.mark.parametrize(("route", "origin"), [("gift-unknown", "wild-shot"), ("wild-direct", "unknown")])
def test_gift_road_casualty_and_unknown_are_a_specimen_or_refused(route: str, origin: str) -> None:
    found = said(route=route, origin=origin, declaration=None)
    assert found["unknown-origin"].severity is Severity.STOP
    assert "teaching specimen" in found["unknown-origin"].what_to_do
    assert "declaration-lawfully-absent" not in found
    assert line(route=route, origin=origin) == "never for service"


# Regulation (EU) 2015/1375 Art.2 and 3: no cutting before the result, freezing no substitute for boar.
def test_a_wild_boar_is_stopped_until_a_negative_result_with_its_reference() -> None:
    waiting = said(species="wild-boar")["boar-result-awaited"]
    assert waiting.severity is Severity.STOP
    assert "freezing does not take its place" in waiting.sentence
    assert "boar-result-awaited" in said(species="wild-boar", boar_result="negative")
    cleared = said(species="wild-boar", boar_result="negative", boar_reference="L-9")
    assert cleared["boar-result-negative"].severity is Severity.NOTE
    positive = said(species="wild-boar", boar_result="positive", boar_reference="L-9")
    assert positive["boar-result-positive"].severity is Severity.STOP
    assert line(species="wild-boar", declaration=FULL) == "1 missing"
    assert (
        line(species="wild-boar", declaration=FULL, boar_result="negative", boar_reference="L-9")
        == "complete"
    )


def test_a_farmed_animal_straight_from_a_hunter_is_asked_about() -> None:
    found = said(origin="field-farmed")
    assert found["route-and-origin"].severity is Severity.ASK
    assert "declaration-lawfully-absent" not in found


@pytest.mark.parametrize(("route", "origin", "group"), list(product(ROUTES, ORIGINS, GROUPS)))
def test_the_table_answers_for_every_route_origin_and_group(route: str, origin: str, group: str) -> None:
    rules = papers_for(route, origin, group)
    assert any(rule.paper == "kill-day" and rule.demand == "must" for rule in rules)
    assert len({rule.paper for rule in rules}) == len(rules)
    assert usual_origins(route)
    kind = {"large": "red", "boar": "wild-boar", "small": "rabbit"}[group]
    for finding in paper_findings(route=route, origin=origin, species=kind):
        assert finding.sentence
        assert finding.source
        assert finding.status
        assert "safe" not in finding.sentence


def test_stops_come_before_questions_and_questions_before_notes() -> None:
    found = paper_findings(
        route="wild-approved",
        origin="wild-shot",
        species="wild-boar",
        declaration=Declaration("1", "no", "yes", "not stated"),
    )
    order = [Severity.STOP, Severity.ASK, Severity.NOTE]
    ranks = [order.index(one.severity) for one in found]
    assert ranks == sorted(ranks)


@pytest.mark.parametrize("spoilt", [{"route": "post"}, {"origin": "shop"}, {"species": "dodo"}])
def test_a_word_nobody_knows_is_refused(spoilt: dict[str, str]) -> None:
    with pytest.raises(UnknownFact):
        said(**spoilt)


# Which pictures are worth keeping: common practice, no source.
@pytest.mark.parametrize(
    ("route", "origin", "group", "images"),
    [
        ("wild-direct", "wild-shot", "large", ["card", "tag"]),
        ("wild-approved", "wild-shot", "large", ["card", "tag", "mark", "invoice"]),
        ("park-as-wild", "park", "large", ["card", "tag", "cull-list"]),
        ("farmed-slaughterhouse", "field-farmed", "large", ["tag", "mark", "invoice"]),
        ("farmed-on-farm", "field-farmed", "large", ["tag", "mark", "invoice", "keeper-statement"]),
        ("wild-direct", "wild-shot", "boar", ["card", "tag", "body"]),
        ("wild-direct", "wild-shot", "small", []),
        ("wild-approved", "wild-shot", "small", ["mark", "invoice"]),
        ("gift-unknown", "unknown", "large", []),
    ],
)
def test_each_way_to_the_door_names_the_pictures_worth_keeping(
    route: str, origin: str, group: str, images: list[str]
) -> None:
    assert [one.id for one in images_for(route, origin, group)] == images


@pytest.mark.parametrize(("route", "origin", "group"), list(product(ROUTES, ORIGINS, GROUPS)))
def test_no_picture_is_asked_of_a_paper_that_is_not_expected(route: str, origin: str, group: str) -> None:
    for rule in papers_for(route, origin, group):
        assert not (rule.demand == "not-expected" and rule.images)
    assert {one.id for one in images_for(route, origin, group)} <= {one.id for one in all_images()}


# Regulation (EU) 150/2011, Section III(3)(i), (j), (3a): the keeper's statement, the vet's certificate.
def test_a_beast_killed_on_the_farm_brings_the_keepers_statement() -> None:
    rules = {one.paper: one for one in papers_for("farmed-on-farm", "field-farmed", "large")}
    assert rules["keeper-statement"].demand == "should"
    assert "vet's certificate" in rules["keeper-statement"].note


# Regulation (EC) 853/2004 Annex III Sec. IV Ch. II(4)(a): boar's head and diaphragm travel with the body.
def test_a_boar_brings_its_head_and_diaphragm() -> None:
    for route, origin in (("wild-direct", "wild-shot"), ("park-as-wild", "park")):
        papers = {one.paper for one in papers_for(route, origin, "boar")}
        assert "head-and-diaphragm" in papers
    assert "head-and-diaphragm" not in {one.paper for one in papers_for("wild-direct", "wild-shot", "large")}
