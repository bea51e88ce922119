"""Findings keep their words through a journal entry."""

from __future__ import annotations

import json

import pytest

from gametrace.domain.findings import Finding, Severity


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
