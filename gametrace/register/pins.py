"""PINs: a short secret beside the initials, so that nobody writes under another's name by a slip or in fun.

A larder may run without any. The journal seals that a PIN was set and by whom; its argon2 hash lies beside
the entries, as name cards do, and is torn up with them.
A PIN does not protect against somebody who has the file: 10,000 to 100,000,000 PINs are soon tried, and names
and weights are not encrypted in any case.
"""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from gametrace.domain.errors import Refusal
from gametrace.register.clock import instant, instant_text
from gametrace.register.opening import Register
from gametrace.register.records import Changes
from gametrace.register.work import Plan, Work, perform
from gametrace.store import pins, rows

if TYPE_CHECKING:
    from argon2 import PasswordHasher

SHORTEST, LONGEST = 4, 8
# Two slips cost nothing; then each wrong PIN doubles the wait, up to a quarter of an hour. The kitchen's own
# figure; inference. At that pace the 10,000 PINs of four digits take more than a hundred days.
FREE_TRIES = 3
FIRST_WAIT = timedelta(seconds=5)
LONGEST_WAIT = timedelta(minutes=15)
_NO_TUTOR = "; without one, whoever looks after this computer: gametrace pin"


def set_pin(register: Register, *, by: str, pin: str, key: str | None = None) -> Changes:
    """Set one's own PIN, or change it; whoever has one has to have given it first. It counts as given."""
    if not (pin.isascii() and pin.isdigit() and SHORTEST <= len(pin) <= LONGEST):
        raise Refusal(f"A PIN is {SHORTEST} to {LONGEST} digits.", "Type digits only.", "pin")
    if len(set(pin)) == 1 or pin in "0123456789" or pin in "9876543210":
        raise Refusal("That PIN is the first one anybody would try.", "Choose another.", "pin")
    hashed = _hasher().hash(pin)

    def decide(work: Work) -> Plan:
        pins.keep(work.connection, by, hashed)
        return Plan({"person": by}, codes=(by,))

    changes = perform(register, "pin.set", decide, by=by, key=key)
    if not changes.was_repeat:
        register.shown[by] = changes.seq
    return changes


def clear_pin(register: Register, *, by: str, person: str, key: str | None = None) -> Changes:
    """Take a PIN away: one's own, as a tutor anybody's who forgot it, as a technician a student's."""

    def decide(work: Work) -> Plan:
        theirs, mine = rows.writer(work.connection, person), rows.writer(work.connection, by)
        if theirs is None or not theirs.pin_seq:
            raise Refusal("There is no PIN to take away.", "Choose somebody who has one.", "person")
        assert mine is not None
        may = person == by or mine.role == "tutor" or (mine.role, theirs.role) == ("technician", "student")
        if not may:
            raise Refusal(
                "That PIN is not yours to take away.", "Ask a tutor to do it under their own name.", "by"
            )
        pins.tear(work.connection, person)
        return Plan({"person": person}, codes=(person,))

    changes = perform(register, "pin.cleared", decide, by=by, key=key)
    register.shown.pop(person, None)
    register.store.settle()
    return changes


def lift_pin(register: Register, *, initials: str, key: str | None = None) -> Changes:
    """Take away a PIN that nobody here can: by whoever has the file, so under no name, and for all to see.

    For a sole tutor who forgot theirs. `initials` may also be the person's code. Today says it for a while.
    """
    asked = initials.strip().casefold()

    def decide(work: Work) -> Plan:
        cards = rows.cards(work.connection)
        found = [
            code
            for code in rows.people_here(work.connection)
            if asked in (code.casefold(), cards.get(code, {}).get("initials", "").casefold())
        ]
        if len(found) != 1:
            how = f"{len(found)} people have" if found else "Nobody here has"
            raise Refusal(
                f"{how} the initials {initials[:40]}.", "Give the code, P001 for example.", "initials"
            )
        writer = rows.writer(work.connection, found[0])
        if writer is None or not writer.pin_seq:
            raise Refusal(f"{initials[:40]} has no PIN.", "Choose the name in the window.", "initials")
        pins.tear(work.connection, found[0])
        return Plan({"person": found[0]}, codes=(found[0],))

    changes = perform(register, "pin.lifted", decide, by="", key=key)
    register.store.settle()
    return changes


def sign_in(register: Register, *, person: str, pin: str = "") -> None:
    """Say who is at the keyboard. Raises a Refusal for a wrong PIN, and for any PIN while one has to wait.

    The try is counted before the PIN is looked at, so that a program that is killed forgets none.
    """
    with register.store.writing() as connection:
        found = rows.writer(connection, person)
        if found is None:
            raise Refusal("There is no such person here now.", "Choose them from the list.", "person")
        if not found.pin_seq:
            register.shown.clear()
            return
        card = pins.kept(connection, person)
        if card is None:
            raise Refusal("The PIN of this name is lost.", f"Ask a tutor to take it away{_NO_TUTOR}.", "pin")
        now = register.clock()
        if (wait := _still_to_wait(card.wrong, card.wrong_at, now)) > timedelta():
            raise Refusal(
                f"{card.wrong} wrong PINs. The next may be typed in {_span(wait)}.",
                f"Wait, or ask a tutor to take the PIN away{_NO_TUTOR}.",
                "pin",
            )
        pins.count_tries(connection, person, card.wrong + 1, instant_text(now))
    if not _fits(card.hash, pin):
        raise Refusal("That is not the PIN.", "Type it again.", "pin")
    with register.store.writing() as connection:
        pins.count_tries(connection, person, 0, "")
    register.shown.clear()  # one person is at a keyboard at a time
    register.shown[person] = found.pin_seq


def sign_out(register: Register) -> None:
    """Whoever acts next has to give their PIN again."""
    register.shown.clear()


def refuse_one_person(work: Work, first: str, by: str) -> None:
    """Raises a Refusal where nobody can tell that `first` and `by` are two persons.

    Without PINs two names have to do. Where PINs are in use each of the two has to have given theirs; of
    somebody who left none can be asked any more.
    """
    if not rows.has_pins(work.connection):
        return
    mine, theirs = rows.writer(work.connection, by), rows.writer(work.connection, first)
    if mine is not None and not mine.pin_seq:
        raise Refusal(
            "A second person is asked for, and your name has no PIN to show that you are one.",
            "Set your PIN under Set-up, People; then do it again.",
            "by",
        )
    if theirs is not None and not theirs.pin_seq:
        name = rows.cards(work.connection).get(first, {}).get("initials", first)
        raise Refusal(
            f"{name}, the first of the two, has no PIN, so nobody can tell that you are two.",
            f"Let {name} set a PIN under Set-up, People; then do it again.",
            "by",
        )


def _still_to_wait(wrong: int, wrong_at: str, now: datetime) -> timedelta:
    if wrong < FREE_TRIES:
        return timedelta()
    wait: timedelta = min(LONGEST_WAIT, FIRST_WAIT * 2 ** min(wrong - FREE_TRIES, 20))
    last = instant(wrong_at)
    if last > now + LONGEST_WAIT:
        return timedelta()  # a clock that was set back far must not shut somebody out for years
    return min(wait, last + wait - now)


def _span(wait: timedelta) -> str:
    seconds = max(1, round(wait.total_seconds()))
    return f"{seconds} seconds" if seconds < 90 else f"{-(-seconds // 60)} minutes"


def _hasher() -> PasswordHasher:
    from argon2 import PasswordHasher  # late: only where a PIN is set or asked

    return PasswordHasher()


def _fits(hashed: str, pin: str) -> bool:
    from argon2.exceptions import Argon2Error, InvalidHashError

    try:
        return bool(_hasher().verify(hashed, pin))
    except (Argon2Error, InvalidHashError):
        return False
