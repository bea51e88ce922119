"""What the program has noticed, said in one plain sentence with what to do about it.

A finding warns, asks or stops. It does not decide what becomes of the meat: the act that
receives a finding does that, and a person signs for it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from gametrace.facts.loading import STANDINGS


class Severity(StrEnum):
    """How hard a finding knocks: a note informs, an ask wants a reason, a stop means hold."""

    NOTE = "note"
    ASK = "ask"
    STOP = "stop"


def rests_on(source: str, status: str) -> str:
    """'Deer Act 1991, s.2 (read where it is quoted)': the source, and how well it is known, said once.

    What rests on several facts has their standings with '; ' between.
    """
    told = dict.fromkeys(STANDINGS.get(one, one) for one in status.split("; "))
    words = "; ".join(told)
    if not words or words in source:
        return source
    return f"{source} ({words})" if source else words


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing noticed, the rule it rests on, and how well that rule is known."""

    code: str
    severity: Severity
    sentence: str
    what_to_do: str = ""
    source: str = ""
    status: str = ""

    def to_dict(self) -> dict[str, str]:
        """The finding as plain strings, for a journal entry or JSON."""
        return {
            "code": self.code,
            "severity": self.severity.value,
            "sentence": self.sentence,
            "what_to_do": self.what_to_do,
            "source": self.source,
            "status": self.status,
        }

    @classmethod
    def from_dict(cls, plain: Mapping[str, str]) -> Finding:
        """The finding that `to_dict` wrote; the optional words may be missing."""
        return cls(
            code=plain["code"],
            severity=Severity(plain["severity"]),
            sentence=plain["sentence"],
            what_to_do=plain.get("what_to_do", ""),
            source=plain.get("source", ""),
            status=plain.get("status", ""),
        )
