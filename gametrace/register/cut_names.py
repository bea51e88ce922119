"""The kitchen's own cut tree: another name, another joint, or not cut here; each with a reason."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from gametrace.domain.cut_changes import CutChange, kitchen_tree
from gametrace.domain.errors import Refusal
from gametrace.facts.loading import UnknownFact
from gametrace.facts.species import species as species_called
from gametrace.register.opening import Register
from gametrace.register.records import Changes
from gametrace.register.tables_kept import kitchen_changes
from gametrace.register.work import Plan, Work, clean, perform

MOST_SYNONYMS = 12


def change_cut(
    register: Register,
    *,
    by: str,
    species: str,
    cut: str,
    name: str = "",
    parent: str = "",
    synonyms: Sequence[str] = (),
    left_out: bool = False,
    as_before: bool = False,
    reason: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Change how this kitchen cuts a kind of animal; it replaces what was changed of that cut before.

    Empty `name` and `parent` keep what the facts say; `synonyms` are added to theirs. `as_before` takes the
    kitchen's change of that cut back. The facts stay, and so does the name of what was cut already.
    """
    why = clean(reason, "reason", most=500, needed="A change of the cut tree needs a reason.")
    words = [one for one in dict.fromkeys(clean(s, "synonyms", most=40).casefold() for s in synonyms) if one]
    if len(words) > MOST_SYNONYMS:
        raise Refusal(f"{len(words)} other names; {MOST_SYNONYMS} fit.", "Keep those in use.", "synonyms")
    called = clean(name, "name", most=40)
    try:
        kind = species_called(species).id
    except UnknownFact as error:
        raise Refusal(str(error), "Choose the kind from the list.", "species") from error
    change = CutChange(
        cut=cut, reason=why, by=by, name=called, parent=parent, synonyms=tuple(words), left_out=left_out
    )

    def decide(work: Work) -> Plan:
        kept = [one for one in kitchen_changes(work.connection, kind) if one.cut != cut]
        had = len(kept) < len(kitchen_changes(work.connection, kind))
        if as_before and not had:
            raise Refusal("Nothing of this cut has been changed.", "Choose one that was.", "cut")
        if not as_before and not (called or parent or words or left_out):
            raise Refusal("Nothing would change.", "Write a name, or choose another joint.", "name")
        tree = kitchen_tree(kind, kept if as_before else [*kept, change])  # refuses what cannot be
        if called and any(one.id != cut and one.name.casefold() == called.casefold() for one in tree.walk()):
            raise Refusal(f"Another cut is called {called}.", "Choose a name of its own.", "name")
        body: dict[str, Any] = {
            "species": kind,
            "cut": cut,
            "name": called,
            "parent": parent,
            "synonyms": words,
            "left_out": left_out,
            "as_before": as_before,
            "reason": why,
        }
        return Plan(body)

    return perform(
        register,
        "cut.changed",
        decide,
        by=by,
        happened_at=happened_at,
        key=key,
    )
