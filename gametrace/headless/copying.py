"""The command that copies an old list of deliveries: a trial with a report row by row, or all of it."""

from __future__ import annotations

import argparse
from getpass import getpass

from gametrace.domain.errors import Refusal
from gametrace.exchange.old_sheet import guessed_mapping, old_rows, read_sheet
from gametrace.headless.opening import opened
from gametrace.register.copying import copy_old_records
from gametrace.register.opening import Register
from gametrace.register.pins import sign_in
from gametrace.register.questions import people, suppliers


def copy(options: argparse.Namespace) -> int:
    """Exit 0 when every row could be (or was) written, 1 when one was refused: then nothing is written."""
    sheet = read_sheet(options.file, options.sheet)
    mapping = guessed_mapping(sheet.heads) | dict(_pair(one) for one in options.map)
    for field, head in mapping.items():
        print(f"{field} from “{head}”")
    with opened(options.register) as register:
        known = {one.name: (one.code, one.route, one.origin) for one in suppliers(register)}
        done = copy_old_records(
            register,
            by=_person(register, options.by),
            source=sheet.name,
            rows=old_rows(sheet, mapping, known),
            write=options.write,
            is_still_here=options.still_here,
        )
    for row in done.rows:
        said = " ".join(row.words) or "nothing to be said of it"
        print(f"row {row.number}: {row.code or 'REFUSED'}: {said}")
    if done.refused:
        print(f"{done.refused} of {len(done.rows)} rows are refused; nothing was written.")
    elif done.is_written:
        print(f"{len(done.rows)} rows written, each marked as copied from {sheet.name}.")
    else:
        print(f"All {len(done.rows)} rows can be written. Nothing was yet: say --write to do it.")
    return 1 if done.refused else 0


def _person(register: Register, asked: str) -> str:
    """The code of who copies, given as code or initials; who has a PIN is asked for it."""
    here = [one for one in people(register) if one.is_active]
    found = [one for one in here if asked.casefold() in (one.code.casefold(), one.initials.casefold())]
    if len(found) != 1:
        named = ", ".join(f"{one.initials} ({one.code})" for one in here)
        raise Refusal(f"“{asked[:40]}” is no one person here.", f"Give one of {named}.", "by")
    if found[0].has_pin:
        sign_in(register, person=found[0].code, pin=getpass(f"PIN of {found[0].initials}: "))
    return found[0].code


def _pair(text: str) -> tuple[str, str]:
    field, mark, head = text.partition("=")
    if not mark:
        raise Refusal(f"“{text[:60]}” is no mapping.", 'Write it as tag="Tag no".')
    return field, head
