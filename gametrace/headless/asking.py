"""The two commands that only ask: trace and season, as JSON for programs and as plain lines for people."""

from __future__ import annotations

import argparse
import json

from gametrace.domain.errors import Refusal
from gametrace.domain.findings import Finding, rests_on
from gametrace.domain.seasons import rule_season
from gametrace.exchange.csv_out import trace_csv
from gametrace.exchange.season_json import season_json
from gametrace.exchange.trace_json import trace_json
from gametrace.facts.loading import UnknownFact
from gametrace.headless.opening import opened
from gametrace.register.questions import trace as ask_trace
from gametrace.register.records import Trace


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
