"""Kills, fills and breaks what the register lives on, and proves that nothing acknowledged is lost.

A child performs random acts and says each one aloud. After every fault the register must open, its check must
be empty (seal, tables against a replay, sums), and every act that was said to be done must be there with the
number it was given; at most the one act in hand may be there besides, and then whole.

  kill   kill -9 at a random moment
  full   the disk has no room left (a small tmpfs where that is allowed, else a limit on the size of files)
  error  writes or syncs fail with EIO from a random one on, once or for good (LD_PRELOAD; needs cc)
  rofs   the same with EROFS: the disk has become read-only
  clock  the clock jumps back while acts go on
  race   two processes write to one register, and one of them is killed
A kill does not show what a power cut does to a disk that lies about syncing; nothing here can.
"""

from __future__ import annotations

import argparse
import errno
import json
import os
import platform
import random
import resource
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import asdict, dataclass, field
from functools import partial
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parents[1])]

import random_acts  # noqa: E402 -- a script beside this one

from gametrace.domain.errors import Trouble  # noqa: E402
from gametrace.register import questions  # noqa: E402
from gametrace.register.opening import open_register  # noqa: E402

KINDS = ("kill", "full", "error", "rofs", "clock", "race")
_SMALL_DISK = 1_400_000  # bytes: room for the larder and some hundred acts
_FRESH_AFTER = 12  # faults on one register before a new one: the check grows with the journal


@dataclass
class Outcome:
    """What a number of faults of one kind came to."""

    faults: int = 0
    acts: int = 0  # acknowledged before a fault
    whole_though_not_said: int = 0  # the act in hand was on disk, its answer was not heard
    told_of_trouble: int = 0  # faults the child named in a sentence before it stopped
    wrong: list[str] = field(default_factory=list)


@dataclass
class Said:
    """What one child said."""

    done: dict[str, int]
    in_hand: str = ""
    trouble: str = ""


class Child:
    """One process acting at random on a register."""

    def __init__(
        self, register: Path, seed: int, *, count: int = 0, jumps: bool = False,
        environment: dict[str, str] | None = None, file_limit: int = 0,
    ) -> None:  # fmt: skip
        command = [sys.executable, str(HERE / "random_acts.py"), str(register), "--seed", str(seed)]
        command += ["--count", str(count)] + (["--clock-jumps"] if jumps else [])
        self.process = subprocess.Popen(
            command,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            env={**os.environ, "PYTHONPATH": str(HERE.parents[1]), **(environment or {})},
            preexec_fn=partial(_limit_files, file_limit) if file_limit else None,
        )
        self.said = Said({})

    def listen(self, acts: int | None = None) -> None:
        """Hear it until it has said `acts` acts, or to its end."""
        assert self.process.stdout is not None
        heard = 0
        while acts is None or heard < acts:
            line = self.process.stdout.readline()
            if not line:
                return
            word, *rest = line.split()
            if word == "try":
                self.said.in_hand = rest[0]
            elif word == "done":
                self.said.done[rest[0]] = int(rest[1])
                heard += 1
            elif word == "trouble":
                self.said.trouble = " ".join(rest[1:])

    def kill(self) -> None:
        self.process.send_signal(signal.SIGKILL)
        self.end()

    def end(self) -> str:
        """Hear it out. Gives what it complained of on the way."""
        self.listen()
        assert self.process.stderr is not None
        complaint = self.process.stderr.read()
        self.process.wait()
        self.process.stderr.close()
        self.process.stdout.close()
        return complaint


def _limit_files(size: int) -> None:
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))


def written(path: Path) -> dict[str, int]:
    """The number each act's key was written under."""
    connection = sqlite3.connect(path)
    try:
        return dict(connection.execute("SELECT key, seq FROM entry"))
    finally:
        connection.close()


def judge(path: Path, before: dict[str, int], heard: Sequence[Said], outcome: Outcome, what: str) -> None:
    """Add to `outcome` what became of the register after one fault."""
    outcome.faults += 1
    said = {key: seq for one in heard for key, seq in one.done.items()}
    outcome.acts += len(said)
    outcome.told_of_trouble += sum(1 for one in heard if one.trouble)
    try:
        with open_register(path, create=False) as register:
            outcome.wrong += [f"{what}: {finding.sentence}" for finding in questions.check(register)]
    except Trouble as trouble:
        outcome.wrong.append(f"{what}: it does not open: {trouble}")
        return
    there = written(path)
    outcome.wrong += [
        f"{what}: act {key} was acknowledged as entry {seq} and is {there.get(key, 'gone')}"
        for key, seq in {**before, **said}.items()
        if there.get(key) != seq
    ]
    unsaid = {key for key in there if key not in before and key not in said}
    if strangers := unsaid - {one.in_hand for one in heard}:
        outcome.wrong.append(f"{what}: entries nobody wrote: {sorted(strangers)[:3]}")
    outcome.whole_though_not_said += len(unsaid)


class Ground:
    """Where the registers of a run lie. Each fault gets one, used some times and then made anew."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._used = 0
        self.path = folder / "0.register"
        self._renew()

    def _renew(self) -> None:
        for old in self.folder.glob(f"{self.path.stem}.register*"):
            old.unlink()
        self.path = self.folder / f"{int(self.path.stem) + 1}.register"
        random_acts.new_larder(self.path)

    def register(self) -> tuple[Path, dict[str, int]]:
        self._used += 1
        if self._used % _FRESH_AFTER == 0:
            self._renew()
        return self.path, written(self.path)


def kill(ground: Ground, chance: random.Random, outcome: Outcome) -> None:
    path, before = ground.register()
    seed = chance.getrandbits(40)
    child = Child(path, seed)
    child.listen(chance.randint(0, 40))
    time.sleep(chance.random() * 0.004)  # noqa: TID251 -- the kill must fall anywhere within an act
    child.kill()
    judge(path, before, [child.said], outcome, f"kill, seed {seed}")


def full(ground: Ground, chance: random.Random, outcome: Outcome) -> None:
    """Act until there is no room; then carry the file to a larger disk, as a person would, and look."""
    seed = chance.getrandbits(40)
    small = ground.folder / "small"
    small.mkdir(exist_ok=True)
    is_mounted = _mount(small, _SMALL_DISK)
    try:
        path = small / "full.register"
        random_acts.new_larder(path)
        before = written(path)
        limit = 0 if is_mounted else path.stat().st_size + chance.randint(20_000, 400_000)
        child = Child(path, seed, count=3_000, file_limit=limit)
        complaint = child.end()
        if not child.said.trouble:
            outcome.wrong.append(f"full, seed {seed}: nobody was told. {complaint[-300:]}")
        larger = ground.folder / "larger.register"
        for part in small.glob("full.register*"):
            shutil.copy(part, ground.folder / part.name.replace("full", "larger"))
        judge(larger, before, [child.said], outcome, f"full, seed {seed}")
        for part in ground.folder.glob("larger.register*"):
            part.unlink()
    finally:
        if is_mounted:
            subprocess.run(["umount", str(small)], check=False)
        shutil.rmtree(small, ignore_errors=True)


def _mount(folder: Path, size: int) -> bool:
    if os.geteuid() != 0 or shutil.which("mount") is None:
        return False
    command = ["mount", "-t", "tmpfs", "-o", f"size={size}", "tmpfs", str(folder)]
    return subprocess.run(command, capture_output=True).returncode == 0


def failing(number: int, library: Path, ground: Ground, chance: random.Random, outcome: Outcome) -> None:
    path, before = ground.register()
    seed = chance.getrandbits(40)
    environment = {
        "LD_PRELOAD": str(library),
        "DISK_FAILS_AFTER": str(chance.randint(0, 300)),
        "DISK_FAILS_WITH": str(number),
        "DISK_FAILS_TIMES": str(chance.choice((0, 1, 3))),
    }
    child = Child(path, seed, count=60, environment=environment)
    complaint = child.end()
    if "Traceback" in complaint and "Trouble" not in complaint:
        outcome.wrong.append(f"disk error, seed {seed}: not told in a sentence: {complaint[-300:]}")
    child.said.trouble = child.said.trouble or ("at opening" if "Trouble" in complaint else "")
    judge(path, before, [child.said], outcome, f"disk error {number}, seed {seed}")


def clock(ground: Ground, chance: random.Random, outcome: Outcome) -> None:
    path, before = ground.register()
    seed = chance.getrandbits(40)
    child = Child(path, seed, count=40, jumps=True)
    complaint = child.end()
    if complaint:
        outcome.wrong.append(f"clock, seed {seed}: {complaint[-300:]}")
    judge(path, before, [child.said], outcome, f"clock, seed {seed}")


def race(ground: Ground, chance: random.Random, outcome: Outcome) -> None:
    path, before = ground.register()
    seed = chance.getrandbits(40)
    first, second = Child(path, seed, count=40), Child(path, seed + 1)
    second.listen(chance.randint(1, 15))
    second.kill()
    complaint = first.end()
    if complaint or first.said.trouble:
        outcome.wrong.append(f"race, seed {seed}: {complaint[-300:]} {first.said.trouble}")
    judge(path, before, [first.said, second.said], outcome, f"race, seed {seed}")


def failing_disk(folder: Path) -> Path | None:
    """The library that makes a disk fail; None where there is no compiler."""
    compiler = shutil.which("cc") or shutil.which("gcc")
    if compiler is None or platform.system() != "Linux":
        return None
    library = folder / "failing_disk.so"
    source = HERE / "failing_disk.c"
    done = subprocess.run([compiler, "-shared", "-fPIC", "-O1", "-o", str(library), str(source), "-ldl"])
    return library if done.returncode == 0 else None


def run(
    times: dict[str, int], seed: int, say: Callable[[str], None] = lambda _words: None
) -> dict[str, Outcome]:
    """Do each kind of fault so many times. What cannot be done on this machine is left out, and said."""
    chance = random.Random(seed)
    outcomes: dict[str, Outcome] = {}
    with tempfile.TemporaryDirectory(prefix="gametrace-faults-") as made:
        folder = Path(made)
        library = failing_disk(folder)
        deeds: dict[str, Callable[[Ground, random.Random, Outcome], None]] = {
            "kill": kill, "full": full, "clock": clock, "race": race,
        }  # fmt: skip
        if library is None:
            say("error, rofs: left out, no C compiler on this machine")
        else:
            deeds["error"] = partial(failing, errno.EIO, library)
            deeds["rofs"] = partial(failing, errno.EROFS, library)
        for kind in (kind for kind in KINDS if kind in deeds and times.get(kind)):
            (folder / kind).mkdir()
            ground, outcome = Ground(folder / kind), Outcome()
            outcomes[kind] = outcome
            for n in range(times[kind]):
                deeds[kind](ground, chance, outcome)
                if (n + 1) % 10 == 0 or n + 1 == times[kind]:
                    say(f"{kind}: {n + 1} of {times[kind]}, {outcome.acts} acts, {len(outcome.wrong)} wrong")
    return outcomes


def main(words: Sequence[str] | None = None) -> int:
    parser = argparse.ArgumentParser(
        prog="packaging/faults", description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--kills", type=int, default=200, help="how often to kill -9 (200)")
    parser.add_argument("--others", type=int, default=40, help="how often each other fault (40)")
    parser.add_argument("--seed", type=int, default=1, help="where the chances start (1)")
    parser.add_argument("--json", type=Path, metavar="FILE", help="also write the result here")
    given = parser.parse_args(words)
    began = time.monotonic()
    times = {kind: given.kills if kind == "kill" else given.others for kind in KINDS}
    outcomes = run(times, given.seed, partial(print, flush=True))
    seconds = round(time.monotonic() - began, 1)
    result = {
        "machine": f"{platform.platform()}, {os.cpu_count()} cores, Python {platform.python_version()}, "
        f"SQLite {sqlite3.sqlite_version}",
        "seconds": seconds,
        "faults": {kind: asdict(outcome) for kind, outcome in outcomes.items()},
    }
    if given.json:
        given.json.write_text(json.dumps(result, indent=2) + "\n", encoding="utf-8")
    wrong = [sentence for outcome in outcomes.values() for sentence in outcome.wrong]
    print(*wrong, sep="\n")
    faults = sum(outcome.faults for outcome in outcomes.values())
    acts = sum(outcome.acts for outcome in outcomes.values())
    print(f"{faults} faults, {acts} acknowledged acts, {len(wrong)} wrong, {seconds} s")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
