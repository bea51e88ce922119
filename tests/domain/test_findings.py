"""Findings keep their words through a journal entry."""

from __future__ import annotations

import json

import pytest

from gametrace.domain.findings import Finding, Severity, rests_on
from gametrace.facts.loading import STANDINGS


@pytest.mark.parametrize("severity", list(Severity))
def test_a_finding_comes_back_from_plain_strings_as_it_was(severity: Severity) -> None:
    finding = Finding("a-code", severity, "A <b>sentence</b> & more ‮.", "Do it.", "Act s.1", "seen")
    plain = finding.to_dict()
    assert all(type(value) is str for value in plain.values())
    assert Finding.from_dict(json.loads(json.dumps(plain))) == finding


def test_a_finding_needs_only_its_code_severity_and_sentence() -> None:
    plain = {"code": "a", "severity": "ask", "sentence": "Why?"}
    assert Finding.from_dict(plain) == Finding("a", Severity.ASK, "Why?")


def test_a_severity_that_is_none_is_refused() -> None:
    with pytest.raises(ValueError):
        Finding.from_dict({"code": "a", "severity": "panic", "sentence": "No."})


@pytest.mark.parametrize("status", STANDINGS)
def test_every_standing_of_a_fact_has_words_a_person_can_read(status: str) -> None:
    words = rests_on("Deer Act 1991", status)
    assert words.startswith("Deer Act 1991 (")
    assert "seen" not in words


def test_a_standing_that_the_source_says_already_is_not_said_twice() -> None:
    assert rests_on("common practice, no source", "common practice") == "common practice, no source"


def test_what_rests_on_several_facts_says_each_standing_in_words() -> None:
    assert (
        rests_on("Deer Act 1991", "seen; seen-2; seen")
        == "Deer Act 1991 (read there; read where it is quoted)"
    )
