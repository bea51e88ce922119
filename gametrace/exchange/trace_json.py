"""A trace as plain values for JSON: what `gametrace trace --json` prints. Writes no file."""

from __future__ import annotations

from typing import Any

from gametrace.register.records import Balance, Trace, TraceAnimal, TraceLot


def trace_json(trace: Trace) -> dict[str, Any]:
    """The whole trace with grams as integers and shares as exact fractions 'n/d'."""
    return {
        "code": trace.code,
        "kind": str(trace.kind),
        "state": str(trace.state),
        "animals": [_animal(animal) for animal in trace.animals],
        "forward": [_forward(lot) for lot in trace.forward],
        "balance": _balance(trace.balance),
        "findings": [finding.to_dict() for finding in trace.findings],
    }


def _animal(animal: TraceAnimal) -> dict[str, Any]:
    return {
        "code": animal.code,
        "tag": animal.tag,
        "species": animal.species,
        "sex": animal.sex,
        "origin_type": animal.origin_type,
        "killed_at": animal.killed_at,
        "place": animal.place,
        "supplier": animal.supplier,
        "grams": animal.grams,
        "share": f"{animal.share.numerator}/{animal.share.denominator}",
    }


def _forward(lot: TraceLot) -> dict[str, Any]:
    return {
        "code": lot.code,
        "kind": str(lot.kind),
        "grams": lot.grams,
        "grams_from": lot.grams_from,
        "state": str(lot.state),
        "where": lot.where,
    }


def _balance(balance: Balance | None) -> dict[str, int] | None:
    if balance is None:
        return None
    return {
        "received_grams": balance.received_grams,
        "accounted_grams": balance.accounted_grams,
        "unaccounted_grams": balance.unaccounted_grams,
    }
