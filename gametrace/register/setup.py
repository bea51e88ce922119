"""Acts of the set-up: the larder, its people, its stores. Suppliers have a book of their own."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from gametrace.domain.errors import Refusal
from gametrace.facts.origins import JURISDICTIONS
from gametrace.register.opening import Register
from gametrace.register.records import Changes
from gametrace.register.roles import KEEPERS, ROLES
from gametrace.register.work import Plan, Work, clean, perform
from gametrace.store import look_setup, pins, rows

STORE_SORTS = ("chill", "freezer")
_MOST_HOOKS = 200


def set_up_larder(
    register: Register,
    *,
    by: str = "",
    name: str,
    address: str,
    registration_number: str = "",
    jurisdiction: str,
    is_practice: bool = False,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Say whose register this is; done again, it says what changed. Jurisdiction decides seasons and limits.

    A practice register stays one: the watermark cannot be set up away.
    """
    if jurisdiction not in JURISDICTIONS:
        raise Refusal(
            "The jurisdiction decides the seasons and limits.",
            "Choose England and Wales, Scotland or Northern Ireland.",
            "jurisdiction",
        )
    body = {
        "name": clean(name, "name", needed="The larder needs a name."),
        "address": clean(address, "address", most=500),
        "registration_number": clean(registration_number, "registration_number"),
        "jurisdiction": jurisdiction,
    }

    def decide(work: Work) -> Plan:
        was_practice = rows.settings(work.connection).get("is_practice") == "yes"
        return Plan({**body, "is_practice": "yes" if is_practice or was_practice else ""})

    return perform(register, "larder.set", decide, by=by, happened_at=happened_at, key=key)


def enrol_person(
    register: Register,
    *,
    by: str = "",
    name: str,
    initials: str,
    role: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Enrol a person. The journal holds a code; the name lies on a card that can be torn up one day."""
    if role not in ROLES:
        raise Refusal(f"“{role}” is not a role here.", f"Choose one of: {', '.join(ROLES)}.", "role")
    card = {
        "name": clean(name, "name", needed="A person needs a name."),
        "initials": clean(initials, "initials", most=4, needed="Initials are what labels and lists show."),
    }

    def decide(work: Work) -> Plan:
        if role not in KEEPERS and not rows.has_people(work.connection):
            raise Refusal(
                "The first person is one who may enrol the others.",
                "Begin with a tutor or a technician.",
                "role",
            )
        code = rows.next_code(work.connection, "person", "P")
        sealed = rows.write_card(work.connection, code, card)
        return Plan({"person": code, "role": role, "card": sealed}, created=(code,))

    return perform(register, "person.enrolled", decide, by=by, happened_at=happened_at, key=key)


def forget_person(
    register: Register,
    *,
    by: str,
    person: str,
    reason: str,
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Tear up a leaver's card. What they did stays in the register under their code; traces stay whole.

    The name is gone from the file, not from backups made before.
    """
    why = clean(reason, "reason", needed="Forgetting a person needs a reason.")

    def decide(work: Work) -> Plan:
        if rows.active_role(work.connection, person) is None:
            raise Refusal("There is no such person here now.", "Choose them from the list.", "person")
        if person == by:
            raise Refusal("You cannot forget yourself.", "Ask another person to do it.", "person")
        name = rows.cards(work.connection).get(person, {}).get("name", "")
        if name and name.casefold() in why.casefold():
            raise Refusal(
                "The reason holds the name that is to be forgotten, and reasons stay for ever.",
                "Say why without the name.",
                "reason",
            )
        rows.tear_card(work.connection, person)
        pins.tear(work.connection, person)
        return Plan({"person": person, "reason": why}, codes=(person,))

    changes = perform(register, "person.forgotten", decide, by=by, happened_at=happened_at, key=key)
    register.store.settle()
    return changes


def add_store(
    register: Register,
    *,
    by: str,
    name: str,
    sort: str,
    rails: Sequence[tuple[str, int]] = (),
    shelves: Sequence[str] = (),
    happened_at: datetime | None = None,
    key: str | None = None,
) -> Changes:
    """Add a cold store with rails (name, hooks) and shelves. Changes.code is its code, 'C1' or 'F2'."""
    if sort not in STORE_SORTS:
        raise Refusal("A store is a chill or a freezer.", "Choose one.", "sort")
    store_name = clean(name, "name", needed="A store needs a name.")
    if not rails and not shelves:
        raise Refusal("A store needs a rail or a shelf to put things on.", "Add one.", "rails")
    for _, hooks in rails:
        if not 1 <= hooks <= _MOST_HOOKS:
            raise Refusal(f"A rail has between 1 and {_MOST_HOOKS} hooks.", "Count them again.", "rails")

    def decide(work: Work) -> Plan:
        number = look_setup.store_count(work.connection) + 1
        code = f"{'C' if sort == 'chill' else 'F'}{number}"
        body = {"store": code, "sort": sort, "places": _places(code, store_name, rails, shelves)}
        return Plan(body, created=(code,))

    return perform(register, "store.added", decide, by=by, happened_at=happened_at, key=key)


def _places(
    code: str, store: str, rails: Sequence[tuple[str, int]], shelves: Sequence[str]
) -> list[dict[str, object]]:
    places: list[dict[str, object]] = [{"code": code, "kind": "store", "name": store}]
    for rail, (rail_name, hooks) in enumerate(rails, 1):
        words = f"{store} · {clean(rail_name, 'rails') or f'rail {rail}'}"
        places.append({"code": f"{code}.R{rail}", "kind": "rail", "name": words})
        places += [
            {"code": f"{code}.R{rail}.{hook:02d}", "kind": "hook", "name": f"{words} · hook {hook}"}
            for hook in range(1, hooks + 1)
        ]
    for shelf, shelf_name in enumerate(shelves, 1):
        words = f"{store} · {clean(shelf_name, 'shelves') or f'shelf {shelf}'}"
        places.append({"code": f"{code}.S{shelf}", "kind": "shelf", "name": words})
    return [{**place, "position": position} for position, place in enumerate(places)]
