"""Alters random bytes of a register file and proves that each is found, or changes nothing anyone reads.

Every copy gets one to four altered bytes, a torn page or a cut end. Then either opening refuses the file with
a sentence, or the check names what is wrong, or every row of every table reads as it did before (the byte lay
in unused space, or opening played the tables anew). Anything else is a miss.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import os
import platform
import random
import sqlite3
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parents[1])]

import random_acts  # noqa: E402 -- a script beside this one

from gametrace.domain.errors import Trouble  # noqa: E402
from gametrace.register import questions  # noqa: E402
from gametrace.register.opening import open_register  # noqa: E402

_PAGE = 4096


def sample(path: Path, acts: int = 150) -> bytes:
    """The bytes of a register in which a good deal has happened."""
    random_acts.new_larder(path)
    chance = random.Random(7)
    clock = random_acts.UnsteadyClock(chance, jumps=False)
    with open_register(path, clock=clock) as register:
        hands = random_acts.Hands(register, chance)
        done = 0
        while done < acts:
            clock.go_on()
            try:
                if act := hands.choose(f"sample-{clock.at}"):
                    act()
                    done += 1
            except random_acts.Refusal:
                continue
    with sqlite3.connect(path) as connection:
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    connection.close()
    return path.read_bytes()


def contents(path: Path) -> str:
    """A digest of every row of every table, how they are declared, and what each word finds.

    How the index of words keeps itself is SQLite's own; what it answers is what counts.
    """
    connection = sqlite3.connect(f"file:{path}?mode=ro", uri=True)
    total = hashlib.sha256()
    try:
        for row in connection.execute("SELECT name, sql FROM sqlite_schema ORDER BY name"):
            total.update(repr(row).encode())
        names = connection.execute("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")
        for name in [row[0] for row in names if not row[0].startswith("lot_index")]:
            rows = sorted(repr(row) for row in connection.execute(f'SELECT * FROM "{name}"'))
            total.update("\n".join([name, *rows]).encode())
        texts = connection.execute("SELECT words FROM lot_text")
        for word in sorted({word for row in texts for word in row[0].split()}):
            for manner in (f'"{word}"', f'"{word[:3]}"*'):
                found = connection.execute("SELECT rowid FROM lot_index WHERE lot_index MATCH ?", (manner,))
                total.update(repr((manner, sorted(found))).encode())
    finally:
        connection.close()
    return total.hexdigest()


def altered(whole: bytes, chance: random.Random) -> tuple[bytes, str]:
    """The bytes with something wrong, and what."""
    copy = bytearray(whole)
    deed = chance.choices(("bytes", "bits", "page", "end"), (6, 6, 2, 1))[0]
    if deed == "end":
        size = chance.randrange(len(copy))
        return bytes(copy[:size]), f"cut off at byte {size}"
    if deed == "page":  # half a page is of an earlier writing, as after a torn write
        at = chance.randrange(len(copy) // _PAGE) * _PAGE
        copy[at + 512 : at + _PAGE] = bytes(_PAGE - 512)
        return bytes(copy), f"page at {at} torn"
    places = sorted({chance.randrange(len(copy)) for _ in range(chance.randint(1, 4))})
    for at in places:
        copy[at] = copy[at] ^ (1 << chance.randrange(8)) if deed == "bits" else chance.randrange(256)
    return bytes(copy), f"{deed} at {places}"


def judge(path: Path, right: str) -> str:
    """What became of an altered file: refused, found, harmless, or missed."""
    try:
        with open_register(path, create=False) as register:
            if questions.check(register):
                return "found"
    except Trouble:
        return "refused"
    return "harmless" if contents(path) == right else "missed"


def run(
    times: int, seed: int, say: Callable[[str], None] = lambda _words: None
) -> tuple[Counter[str], list[str]]:
    """How often each, and what was missed."""
    chance = random.Random(seed)
    counted: Counter[str] = Counter()
    missed: list[str] = []
    with tempfile.TemporaryDirectory(prefix="gametrace-flips-") as made:
        folder = Path(made)
        whole = sample(folder / "whole.register")
        right = contents(folder / "whole.register")
        for n in range(1, times + 1):
            copy = folder / "copy.register"
            for old in folder.glob("copy.register*"):
                old.unlink()
            wrong, what = altered(whole, chance)
            copy.write_bytes(wrong)
            if wrong == whole:
                continue
            try:
                answer = judge(copy, right)
            except Exception as error:  # anything but a sentence is a miss
                answer, what = "missed", f"{what}: {error!r}"
            counted[answer] += 1
            if answer == "missed":
                missed.append(what)
            if n % 50 == 0 or n == times:
                say(
                    f"{n} of {times}: "
                    + ", ".join(f"{count} {word}" for word, count in sorted(counted.items()))
                )
    return counted, missed


def main(words: Sequence[str] | None = None) -> int:
    parser = argparse.ArgumentParser(
        prog="packaging/flips", description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--copies", type=int, default=1_000, help="how many altered copies (1000)")
    parser.add_argument("--seed", type=int, default=1, help="where the chances start (1)")
    parser.add_argument("--json", type=Path, metavar="FILE", help="also write the result here")
    given = parser.parse_args(words)
    began = time.monotonic()
    counted, missed = run(given.copies, given.seed, partial(print, flush=True))
    seconds = round(time.monotonic() - began, 1)
    result = {
        "machine": f"{platform.platform()}, {os.cpu_count()} cores, Python {platform.python_version()}, "
        f"SQLite {sqlite3.sqlite_version}",
        "seconds": seconds,
        "copies": given.copies,
        "outcomes": dict(counted),
        "missed": missed,
    }
    if given.json:
        given.json.write_text(json.dumps(result, indent=2) + "\n", encoding="utf-8")
    print(*missed, sep="\n")
    print(f"{given.copies} altered copies: {dict(counted)}, {seconds} s")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
