"""The two commands that only ask: trace and season, as JSON for programs and as plain lines for people."""

from __future__ import annotations

import argparse
import json

from gametrace.domain.errors import Refusal
from gametrace.domain.findings import Finding, rests_on
from gametrace.domain.quantities import kg_to_the_gram
from gametrace.domain.seasons import rule_season
from gametrace.exchange.csv_out import deliveries_csv, trace_csv
from gametrace.exchange.season_json import season_json
from gametrace.exchange.trace_json import trace_json
from gametrace.facts.loading import UnknownFact
from gametrace.headless.opening import opened
from gametrace.register.clock import wall_text
from gametrace.register.questions import deliveries as ask_deliveries
from gametrace.register.questions import trace as ask_trace
from gametrace.register.records import Trace

_ALL = 1_000_000


def trace(options: argparse.Namespace) -> int:
    with opened(options.register) as register:
        answer = ask_trace(register, options.code)
    if options.json:
        print(json.dumps(trace_json(answer), ensure_ascii=False, indent=2))
    elif options.csv:
        print(trace_csv(answer), end="")
    else:
        print("\n".join(_lines(answer)))
    return 0


def deliveries(options: argparse.Namespace) -> int:
    """What came in between two days, both included, the oldest first."""
    if options.last < options.first:
        raise Refusal("The period ends before it begins.", "Swap the two dates.")
    with opened(options.register) as register:
        found = ask_deliveries(register, first=options.first, last=options.last, limit=_ALL)[::-1]
    if options.csv:
        print(deliveries_csv(found), end="")
        return 0
    for one in found:
        tag = f", tag {one.tag}" if one.tag else ""
        print(
            f"{wall_text(one.received_at)}  {one.code}  {one.title}{tag}, "
            f"{kg_to_the_gram(one.grams_received)}, {one.supplier.name}; {one.decision}; "
            f"papers: {one.evidence}"
        )
    print("Nothing came in." if not found else f"{len(found)} in all.")
    return 0


def season(options: argparse.Namespace) -> int:
    try:
        ruling = rule_season(
            species=options.species,
            sex=options.sex,
            killed_on=options.on,
            jurisdiction=options.jurisdiction,
            origin=options.origin,
        )
    except UnknownFact as error:
        raise Refusal(str(error)) from error
    if options.json:
        print(json.dumps(season_json(ruling), ensure_ascii=False, indent=2))
        return 0
    word = {True: "in season", False: "out of season", None: "no rule settles it"}[ruling.open]
    print(f"{options.species} {options.sex}, {options.on}: {word}")
    if ruling.opens and ruling.closes:
        print(f"open {ruling.opens} to {ruling.closes}")
    print(rests_on(ruling.source, ruling.status))
    if ruling.note:
        print(ruling.note)
    return 0


def _lines(answer: Trace) -> list[str]:
    lines = [f"{answer.code}  {answer.name}  {answer.kind}  {answer.state}".rstrip(), "", "From"]
    for animal in answer.animals:
        share = f"{animal.share.numerator}/{animal.share.denominator}"
        killed = f"{animal.killed_at or 'not stated'} at {animal.place or 'a place not stated'}"
        lines.append(
            f"  {animal.code}  {animal.name}, tag {animal.tag or 'none'}, killed {killed}; "
            f"{animal.supplier}; {animal.grams / 1000:.3f} kg, share {share}"
        )
    lines += ["", "On to"]
    for lot in answer.forward:
        lines.append(f"  {lot.code}  {lot.name}, {lot.grams / 1000:.3f} kg, {lot.state}, {lot.where}")
    if answer.balance:
        lines += ["", f"Received {answer.balance.received_grams / 1000:.3f} kg"]
        lines += [f"  {row.words}: {row.grams / 1000:.3f} kg" for row in answer.balance.rows]
    lines += [_finding_line(finding) for finding in answer.findings]
    return lines


def _finding_line(finding: Finding) -> str:
    return f"{finding.severity}: {finding.sentence} {finding.what_to_do}".rstrip()
