"""The commands that keep the register whole or carry it out: check, rebuild, backup, export and move."""

from __future__ import annotations

import argparse
import json

from gametrace.exchange.export import export_to
from gametrace.headless.opening import opened
from gametrace.register import keeping
from gametrace.register.backups import look_into
from gametrace.register.backups import restore as restored
from gametrace.register.clock import wall_text
from gametrace.register.pins import lift_pin
from gametrace.register.questions import seal


def check(options: argparse.Namespace) -> int:
    """Exit 0 when the register is whole, 1 with the findings when it is not."""
    with opened(options.register) as register:
        findings = keeping.check(register)
        head = seal(register)
    if options.json:
        print(
            json.dumps(
                {"entries": head.count, "seal": head.head, "findings": [f.to_dict() for f in findings]},
                ensure_ascii=False,
                indent=2,
            )
        )
    elif findings:
        print("\n".join(f"{finding.sentence} {finding.what_to_do}" for finding in findings))
    else:
        print(f"Whole: {head.count} entries, seal {head.head}")
    return 1 if findings else 0


def rebuild(options: argparse.Namespace) -> int:
    with opened(options.register) as register:
        count = keeping.rebuild(register)
    print(f"Tables rebuilt from {count} entries.")
    return 0


def backup(options: argparse.Namespace) -> int:
    with opened(options.register) as register:
        kept = keeping.back_up(register, options.out)
    print(f"A whole copy is in {kept}. Keep it on another disk.")
    return 0


def export(options: argparse.Namespace) -> int:
    with opened(options.register) as register:
        made = export_to(register, options.out)
    print(f"{made.files} files, {made.seal.count} entries, seal {made.seal.head}, in {made.folder}")
    return 0


def move(options: argparse.Namespace) -> int:
    with opened(options.source) as register:
        head = keeping.move(register, options.destination)
        was = seal(register)
    if was != head:
        print("It was written to meanwhile. Close every window on it and move it to another new place.")
        return 1
    print(f"Moved: {head.count} entries, seal {head.head}. Use the new one from now on.")
    return 0


def restore(options: argparse.Namespace) -> int:
    """Exit 0 when the copy is whole; with a second name also a new register made from it."""
    found = restored(options.copy, options.to) if options.to else look_into(options.copy)
    last = f", the newest of {wall_text(found.last_at)}" if found.last_at else ""
    print(f"{found.larder}: {found.carcasses} carcasses, {found.count} entries{last}, seal {found.seal}")
    for finding in found.findings:
        print(f"{finding.sentence} {finding.what_to_do}")
    if options.to:
        print(f"A whole register is at {options.to}.")
    elif not found.findings:
        print("Whole. Name a new file to make a register of it.")
    return 1 if found.findings else 0


def pin(options: argparse.Namespace) -> int:
    with opened(options.register) as register:
        lift_pin(register, initials=options.initials)
    print(f"{options.initials} has no PIN now. The register says when it was taken away, and so does Today.")
    return 0
