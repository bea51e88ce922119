"""The examination in the order of the body; what was not there is never called normal."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.examination import (
    Answered,
    Look,
    answers_for_what_is_absent,
    examination_findings,
    points_left,
    points_to_look_at,
    what_to_do_on_suspicion,
    whom_to_ring,
)
from gametrace.domain.findings import Finding, Severity
from gametrace.facts import UnknownFact
from gametrace.facts.examination import all_points, contact_for, never_cut, point
from gametrace.facts.seasons import JURISDICTIONS
from gametrace.facts.sources import citation
from gametrace.facts.species import all_species


def look(*answers: Answered, **given_: Any) -> tuple[Finding, ...]:
    whole: dict[str, Any] = {
        "head_on": True,
        "pluck_in": True,
        "species": "fallow",
        "jurisdiction": "england-wales",
    }
    return examination_findings(answers, **(whole | given_))


def one(answer: str, at: str, note: str = "", **given_: Any) -> Finding:
    [finding] = look(Answered(at, answer, note), **given_)
    return finding


def test_the_body_is_looked_at_in_its_order_then_nodes_then_signs() -> None:
    points = points_to_look_at("fallow")
    assert [p.id for p in points[:7]] == [
        "smell",
        "gralloch",
        "shot",
        "flies",
        "dirt",
        "bleeding",
        "condition",
    ]
    kinds = [p.kind for p in points]
    assert kinds == sorted(kinds, key=["point", "node", "sign"].index)


# (node, needs, where it was read): bestpracticeguides.org.uk carcass inspection; stalkers' threads 55370 and
# 115937; Gracey's Meat Hygiene; bestpracticeguides.ie; the rest common practice, no source.
NODES = [
    ("mandibular", "head", "Scottish best-practice"),
    ("retropharyngeal", "head", "Scottish best-practice"),
    ("bronchial", "pluck", "Stalkers' forum"),
    ("mediastinal", "pluck", "Stalkers' forum"),
    ("hepatic", "pluck", "Gracey"),
    ("mesenteric", "gut", "Irish best-practice"),
    ("prescapular", "none", "Stalkers' forum"),
    ("axillary", "none", "Stalkers' forum"),
    ("renal", "none", "Gracey"),
    ("iliac", "none", "common practice"),
    ("inguinal", "none", "Gracey"),
    ("popliteal", "none", "common practice"),
]


@pytest.mark.parametrize(("node", "needs", "read_in"), NODES, ids=[row[0] for row in NODES])
def test_each_node_has_its_place_and_says_what_must_be_there(node: str, needs: str, read_in: str) -> None:
    held = point(node)
    assert (held.kind, held.needs) == ("node", needs)
    assert held.where
    assert read_in in citation(held.source)


# thestalkingdirectory.co.uk thread 55822: cutting spreads pus.
def test_nodes_are_looked_at_and_felt_and_never_cut() -> None:
    assert {p.id for p in all_points() if p.kind == "node"} == {row[0] for row in NODES}
    assert "Never cut" in never_cut().name
    finding = one("not so", "axillary", "egg-sized")
    assert (finding.code, finding.severity) == ("examination-not-so", Severity.STOP)
    assert "do not cut" in finding.what_to_do
    assert "egg-sized" in finding.sentence


@pytest.mark.parametrize(
    ("at", "absent", "word"),
    [
        ("mandibular", {"head_on": False}, "the head"),
        ("mouth", {"head_on": False}, "the head"),
        ("lungs", {"pluck_in": False}, "the pluck"),
        ("bronchial", {"pluck_in": False}, "the pluck"),
        ("mesenteric", {}, "the gut"),
        ("skin-parasites", {"in_skin": False}, "the skin"),
    ],
)
def test_what_was_not_there_cannot_have_been_looked_at(at: str, absent: dict[str, bool], word: str) -> None:
    for answer in ("as it should be", "not so"):
        finding = one(answer, at, **absent)
        assert (finding.code, finding.severity) == ("cannot-have-been-looked-at", Severity.STOP)
        assert word in finding.sentence
        assert "not present" in finding.what_to_do
    assert look(Answered(at, "not present"), **absent) == ()


def test_what_was_there_is_not_passed_off_as_absent() -> None:
    assert one("not present", "mandibular").code == "said-not-present"
    assert one("not present", "smell").code == "said-not-present"
    assert look(Answered("renal", "not present")) == ()  # kidneys often stay with the gralloch


def test_not_so_asks_or_stops_by_point_and_wants_to_know_what() -> None:
    dirty = one("not so", "dirt")
    assert (dirty.severity, dirty.code) == (Severity.ASK, "examination-not-so")
    assert dirty.what_to_do.startswith("Write down what was seen.")
    assert not one("not so", "dirt", "peat in the pelvis").what_to_do.startswith("Write down")
    assert one("not so", "smell", "sour").severity is Severity.STOP
    assert one("not so", "mouth", "blisters").severity is Severity.STOP


# SI 2014/2337 art.4 (TB); trading standards leaflet (foot-and-mouth, anthrax); government list by stalkers.
@pytest.mark.parametrize("sign", ["sign-tb", "sign-foot-and-mouth", "sign-anthrax", "sign-other"])
def test_a_sign_of_a_notifiable_disease_stops_everything(sign: str) -> None:
    finding = one("not so", sign, "runny pus")
    assert (finding.code, finding.severity) == ("notifiable-suspicion", Severity.STOP)
    assert "Keep the carcass" in finding.what_to_do
    assert "Dispose of nothing" in finding.what_to_do
    assert "03000 200 301" in finding.what_to_do
    assert "British Deer Society" in finding.source


# British Deer Society contacts page: England, Wales, and the local office in Scotland.
def test_each_jurisdiction_has_somebody_to_ring() -> None:
    assert "03000 200 301" in whom_to_ring("england-wales")
    assert "0300 303 8268" in whom_to_ring("england-wales")
    assert "Field Services" in whom_to_ring("scotland")
    assert contact_for("northern-ireland").status == "memory"
    assert "check it" in whom_to_ring("northern-ireland")
    assert whom_to_ring("") == ""
    assert len(what_to_do_on_suspicion()) >= 4


def test_with_no_jurisdiction_set_up_yet_a_suspicion_still_stops() -> None:
    assert one("not so", "sign-tb", jurisdiction="").severity is Severity.STOP


def test_swine_fever_is_asked_of_boar_and_not_of_deer() -> None:
    assert "sign-swine-fever" in {p.id for p in points_to_look_at("wild-boar")}
    assert "sign-swine-fever" not in {p.id for p in points_to_look_at("red")}
    assert look(Answered("sign-swine-fever", "not so")) == ()  # not asked of fallow


def test_small_game_has_a_short_list() -> None:
    assert {p.id for p in points_to_look_at("pheasant")} == {
        "smell",
        "flies",
        "dirt",
        "bleeding",
        "condition",
        "sign-avian-influenza",
    }


def test_what_was_passed_over_is_one_question() -> None:
    found = look(Answered("smell", "not looked at"), Answered("popliteal", "not looked at"))
    assert [f.code for f in found] == ["not-looked-at"]
    assert "smell, popliteal" in found[0].sentence


def test_nothing_answered_says_nothing_and_all_as_it_should_be_says_nothing() -> None:
    assert look() == ()
    body = {"head_on": True, "pluck_in": True, "gut_in": True}
    assert look(*(Answered(p.id, "as it should be") for p in points_to_look_at("fallow")), **body) == ()


def test_a_body_without_head_and_pluck_is_filled_in_as_not_present() -> None:
    absent = {"head_on": False, "pluck_in": False}
    filled = answers_for_what_is_absent(species="fallow", **absent)
    assert {a.point for a in filled} >= {"mandibular", "retropharyngeal", "lungs", "bronchial", "mesenteric"}
    assert {a.answer for a in filled} == {"not present"}
    assert look(*filled, **absent) == ()
    assert {p.id for p in points_left(filled, species="fallow")}.isdisjoint(a.point for a in filled)


def test_the_last_answer_at_a_point_counts() -> None:
    assert look(Answered("smell", "not so"), Answered("smell", "as it should be")) == ()


def test_stops_come_before_questions() -> None:
    found = look(Answered("dirt", "not so", "mud"), Answered("sign-tb", "not so", "pus"))
    assert [f.severity for f in found] == [Severity.STOP, Severity.ASK]


def test_an_answer_or_a_point_that_is_none_is_refused() -> None:
    with pytest.raises(ValueError, match="normal"):
        Answered("smell", "normal")
    with pytest.raises(UnknownFact):
        Answered("elbow", "not so")
    with pytest.raises(UnknownFact):
        look(species="dodo")


@given(
    answers=st.lists(
        st.builds(
            Answered,
            st.sampled_from([p.id for p in all_points()]),
            st.sampled_from([one.value for one in Look]),
            st.text(max_size=5),
        ),
        max_size=20,
    ),
    head=st.booleans(),
    pluck=st.booleans(),
    skin=st.booleans(),
    kind=st.sampled_from([one.id for one in all_species()]),
    where=st.sampled_from(["", *JURISDICTIONS]),
)
def test_any_answers_give_findings_with_sources_that_never_say_safe(
    answers: list[Answered], head: bool, pluck: bool, skin: bool, kind: str, where: str
) -> None:
    found = look(*answers, head_on=head, pluck_in=pluck, in_skin=skin, species=kind, jurisdiction=where)
    for finding in found:
        assert finding.source
        assert finding.status
        assert "safe" not in f"{finding.sentence} {finding.what_to_do}"
        assert "fit for" not in finding.sentence
