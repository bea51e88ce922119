"""What a delivery's papers say, what is missing for its route, and what may lawfully be missing.

A paper that the law does not ask for is never nagged about. Nothing here judges the meat: a full set
of papers is no promise, and an absent one is not always a fault.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date

from gametrace.domain.boar import boar_findings, is_cleared
from gametrace.domain.deliveries import Answer
from gametrace.domain.findings import Finding, Severity
from gametrace.domain.origins import never_for_service
from gametrace.facts.origins import ORIGINS, ROUTES, check_origin, check_route
from gametrace.facts.papers import PaperRule, declaration_items, named_rule, papers_for, usual_origins
from gametrace.facts.seasons import check_jurisdiction
from gametrace.facts.sources import citation
from gametrace.facts.species import species as species_called

_STATEMENTS = ("no_abnormal_characteristics", "no_abnormal_behaviour", "no_contamination")
_STATEMENT_WORDS = {
    "no_abnormal_characteristics": "nothing abnormal on the body",
    "no_abnormal_behaviour": "no abnormal behaviour before the kill",
    "no_contamination": "no suspicion of contamination from the surroundings",
}


@dataclass(frozen=True, slots=True)
class Declaration:
    """A hunter's declaration as it reads: each statement yes, no, not stated or can't read."""

    number: str = ""
    no_abnormal_characteristics: str = Answer.NOT_STATED
    no_abnormal_behaviour: str = Answer.NOT_STATED
    no_contamination: str = Answer.NOT_STATED
    trained_person: str = ""

    def __post_init__(self) -> None:
        for statement in _STATEMENTS:
            Answer(getattr(self, statement))  # ValueError for a word that is no answer


@dataclass(frozen=True, slots=True)
class _Papers:
    """The papers of one delivery, gathered for the rules below."""

    route: str
    origin: str
    species: str
    declaration: Declaration | None
    killed_on: date | None
    kill_time: str
    kill_place: str
    approval_number: str
    tag: str
    held: Collection[str]

    def __post_init__(self) -> None:
        check_route(self.route)
        check_origin(self.origin)

    @property
    def group(self) -> str:
        return species_called(self.species).group

    def rules(self, demand: str) -> tuple[PaperRule, ...]:
        every = papers_for(self.route, self.origin, self.group)
        return tuple(rule for rule in every if rule.demand == demand)

    def shows(self, rule: PaperRule) -> bool:
        """Whether the delivery shows the paper a rule asks for."""
        if rule.paper in self.held:
            return True
        if rule.proof == "held":
            return False
        value = getattr(self, rule.proof)
        return bool(value.strip()) if isinstance(value, str) else value is not None

    @property
    def missing(self) -> tuple[PaperRule, ...]:
        """Papers that must be there and are not. One only ticked by hand is told, not counted."""
        return tuple(rule for rule in self.rules("must") if rule.proof != "held" and not self.shows(rule))

    @property
    def lawfully_absent(self) -> bool:
        """No declaration, on a way where the law does not ask the kitchen for one."""
        asked = any(rule.paper == "declaration" for rule in self.rules("should"))
        direct = self.route in ("wild-direct", "park-as-wild")
        return self.declaration is None and asked and direct and not self.never_for_service

    @property
    def never_for_service(self) -> bool:
        return never_for_service(self.route, self.origin)

    def gaps_in_declaration(self) -> tuple[str, ...]:
        """The items of the declaration that are missing or unreadable, in the law's order."""
        prescribed = not any(rule.paper == "declaration" for rule in self.rules("not-expected"))
        if self.declaration is None or not prescribed:
            return ()
        gaps = []
        for item in declaration_items():
            if item.field in _STATEMENTS:
                answer = Answer(getattr(self.declaration, item.field))
                if answer in (Answer.NOT_STATED, Answer.CANT_READ):
                    gaps.append(f"{item.name} ({answer})")
            elif not self._declared(item.field):
                gaps.append(item.name)
        return tuple(gaps)

    def _declared(self, field: str) -> bool:
        held = self.declaration.number if field == "number" and self.declaration else None
        value = getattr(self, field) if held is None else held
        return bool(value.strip()) if isinstance(value, str) else value is not None


def paper_findings(
    *,
    route: str,
    origin: str,
    species: str,
    declaration: Declaration | None = None,
    killed_on: date | None = None,
    kill_time: str = "",
    kill_place: str = "",
    approval_number: str = "",
    tag: str = "",
    jurisdiction: str = "england-wales",
    held: Collection[str] = (),
    boar_result: str = "awaited",
    boar_reference: str = "",
) -> tuple[Finding, ...]:
    """Everything the papers give reason to say, stops first.

    `held` names papers ticked off by hand (an invoice, a line of the cull list). `boar_result` is
    awaited, negative or positive; a negative one counts only with the laboratory's reference.
    """
    if jurisdiction:
        check_jurisdiction(jurisdiction)
    papers = _Papers(
        route=route,
        origin=origin,
        species=species,
        declaration=declaration,
        killed_on=killed_on,
        kill_time=kill_time,
        kill_place=kill_place,
        approval_number=approval_number,
        tag=tag,
        held=held,
    )
    findings: list[Finding] = []
    if papers.never_for_service:
        findings.append(_unknown_origin(papers))
    if papers.group == "boar":
        findings += boar_findings(boar_result, boar_reference)
    findings += _statements(papers)
    findings += _pairing(papers)
    if not papers.never_for_service:
        findings += _missing(papers)
        findings += _lawfully_absent(papers)
        findings += _would_help(papers)
    return tuple(findings)


def evidence_line(
    *,
    route: str,
    origin: str,
    species: str,
    declaration: Declaration | None = None,
    killed_on: date | None = None,
    kill_time: str = "",
    kill_place: str = "",
    approval_number: str = "",
    tag: str = "",
    held: Collection[str] = (),
    boar_result: str = "awaited",
    boar_reference: str = "",
) -> str:
    """The papers in a few words: complete, n missing, or declaration lawfully absent.

    A boar's written result counts as a paper. Whatever is never for service has no line to complete.
    """
    papers = _Papers(
        route=route,
        origin=origin,
        species=species,
        declaration=declaration,
        killed_on=killed_on,
        kill_time=kill_time,
        kill_place=kill_place,
        approval_number=approval_number,
        tag=tag,
        held=held,
    )
    if papers.never_for_service:
        return "never for service"
    count = len(papers.missing) + len(papers.gaps_in_declaration())
    if papers.group == "boar" and not is_cleared(boar_result, boar_reference):
        count += 1
    if count:
        return f"{count} missing"
    return "declaration lawfully absent" if papers.lawfully_absent else "complete"


def _unknown_origin(papers: _Papers) -> Finding:
    rule = named_rule("unknown-origin")
    return Finding(
        "unknown-origin",
        Severity.STOP,
        "Nobody can answer for where this animal came from or how it died; it can never go to a plate.",
        "Keep it as a teaching specimen, or refuse it.",
        citation(rule.source),
        rule.status,
    )


def _statements(papers: _Papers) -> list[Finding]:
    """Each statement answered no stops; what is missing or unreadable is asked for in one call."""
    if papers.declaration is None:
        return []
    item = declaration_items()[0]
    source, status = citation(item.source), item.status
    findings = [
        Finding(
            "declaration-abnormal",
            Severity.STOP,
            f"The declaration does not say '{_STATEMENT_WORDS[statement]}': it is answered no.",
            "Hold the carcass with head and viscera, and ask the hunter, the local authority and a vet.",
            source,
            status,
        )
        for statement in _STATEMENTS
        if getattr(papers.declaration, statement) == Answer.NO
    ]
    gaps = papers.gaps_in_declaration()
    if gaps:
        findings.append(
            Finding(
                "declaration-call-back",
                Severity.ASK,
                f"The declaration lacks {len(gaps)} of its {len(declaration_items())} items: "
                f"{'; '.join(gaps)}.",
                "Ring the hunter; write down the answer, who took it and when.",
                source,
                status,
            )
        )
    return findings


def _pairing(papers: _Papers) -> list[Finding]:
    if papers.never_for_service or papers.origin in usual_origins(papers.route):
        return []
    sentence = (
        f"An animal of the origin '{ORIGINS[papers.origin]}' does not usually come by the way "
        f"'{ROUTES[papers.route]}'."
    )
    ask = "Ask the supplier which it is; the papers and the season rule depend on it."
    rule = named_rule("unknown-origin")
    return [Finding("route-and-origin", Severity.ASK, sentence, ask, citation(rule.source), rule.status)]


def _missing(papers: _Papers) -> list[Finding]:
    return [
        Finding(
            f"{rule.paper}-missing",
            Severity.ASK,
            f"The {rule.name} is missing. {rule.note}".strip(),
            "Ask the supplier for it, or say why it cannot be had.",
            citation(rule.source),
            rule.status,
        )
        for rule in papers.missing
    ]


def _lawfully_absent(papers: _Papers) -> list[Finding]:
    if not papers.lawfully_absent:
        return []
    rule = next(rule for rule in papers.rules("should") if rule.paper == "declaration")
    sentence = (
        "No declaration came with it. A hunter's direct sale in the skin to a kitchen may lawfully have none."
    )
    return [
        Finding(
            "declaration-lawfully-absent",
            Severity.NOTE,
            sentence,
            "Examine the carcass with care.",
            citation(rule.source),
            rule.status,
        )
    ]


def _would_help(papers: _Papers) -> list[Finding]:
    """One line for everything worth asking for: told once, never a fault."""
    wanted = [
        rule
        for rule in (*papers.rules("must"), *papers.rules("should"))
        if not papers.shows(rule)
        and rule not in papers.missing
        and not (rule.paper == "declaration" and papers.lawfully_absent)
        and not (papers.declaration is not None and rule.proof in ("kill_time", "kill_place"))
    ]
    if not wanted:
        return []
    sentence = f"Worth having, where it can be had: {', '.join(rule.name for rule in wanted)}."
    sources = "; ".join(dict.fromkeys(citation(rule.source) for rule in wanted))
    status = "; ".join(dict.fromkeys(rule.status for rule in wanted))
    return [Finding("papers-worth-having", Severity.NOTE, sentence, "", sources, status)]
