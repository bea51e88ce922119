"""Several stations write to one register on a PostgreSQL server at once; no act may be lost, doubled or torn.

Each station is a process of its own acting at random. Afterwards the check must be empty, the chain whole,
every acknowledged act there once under the number it was given, and nothing there that nobody wrote. A server
is started for it on loopback, unless an address is given. Also timed: how long an act takes meanwhile, from
the call to its answer (waiting for the other stations, its seal and the server's disk included), and how long
it takes together with the lists that a station looks through before it.
"""

from __future__ import annotations

import argparse
import json
import os
import platform
import statistics
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parents[1])]

import random_acts  # noqa: E402 -- scripts beside this one
from server import Server, binaries  # noqa: E402

from gametrace.register import questions  # noqa: E402
from gametrace.register.opening import open_register  # noqa: E402


@dataclass
class Outcome:
    stations: int
    acts: int
    seconds: float
    act_median_ms: float
    act_p95_ms: float
    with_look_ups_median_ms: float
    with_look_ups_p95_ms: float
    entries: int
    seal: str
    wrong: list[str]


def run(place: str, stations: int, acts_each: int, seed: int) -> Outcome:
    """Let so many stations perform so many tries each, and look at what came of it."""
    random_acts.new_larder(place)
    with open_register(place) as register:
        before = questions.seal(register).count
    began = time.monotonic()
    children = [_station(place, seed + n, acts_each) for n in range(stations)]
    heard = [child.communicate() for child in children]
    seconds = time.monotonic() - began
    wrong = [complaint[-400:] for _, complaint in heard if complaint]
    said: dict[str, int] = {}
    alone: list[float] = []
    with_look_ups: list[float] = []
    for told, _ in heard:
        for line in told.splitlines():
            word, *rest = line.split()
            if word == "done":
                said[rest[0]] = int(rest[1])
                alone.append(float(rest[2]))
                with_look_ups.append(float(rest[3]))
            elif word == "trouble":
                wrong.append(line)
    with open_register(place) as register:
        wrong += [finding.sentence for finding in questions.check(register)]
        head = questions.seal(register)
        with register.store.reading() as connection:
            rows = connection.exec_driver_sql("SELECT key, seq FROM entry").all()
    there = {row.key: row.seq for row in rows}
    wrong += [f"act {key} was acknowledged as {seq}" for key, seq in said.items() if there.get(key) != seq]
    if len(rows) != before + len(said):
        wrong.append(f"{len(rows)} entries where {before + len(said)} were written")
    return Outcome(
        stations=stations,
        acts=len(said),
        seconds=round(seconds, 1),
        act_median_ms=round(statistics.median(alone), 1),
        act_p95_ms=_p95(alone),
        with_look_ups_median_ms=round(statistics.median(with_look_ups), 1),
        with_look_ups_p95_ms=_p95(with_look_ups),
        entries=head.count,
        seal=head.head,
        wrong=wrong,
    )


def _p95(times: list[float]) -> float:
    return round(statistics.quantiles(times, n=20)[-1], 1)


def _station(place: str, seed: int, count: int) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, str(HERE / "random_acts.py"), place, "--seed", str(seed), "--count", str(count)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": str(HERE.parents[1])},
    )


def main(words: Sequence[str] | None = None) -> int:
    parser = argparse.ArgumentParser(
        prog="packaging/stations", description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--stations", type=int, default=8, help="how many at once (8)")
    parser.add_argument("--acts", type=int, default=5_000, help="about how many acts together (5000)")
    parser.add_argument("--server", default="", metavar="URL", help="an empty register's address on a server")
    parser.add_argument("--seed", type=int, default=1, help="where the chances start (1)")
    parser.add_argument("--json", type=Path, metavar="FILE", help="also write the result here")
    given = parser.parse_args(words)
    if not given.server and binaries() is None:
        print("There is no PostgreSQL on this machine. Install the package postgresql, or give --server.")
        return 2
    server = None if given.server else Server()
    try:
        place = given.server or server.new_place()
        load = round(os.getloadavg()[0], 1)  # what else this machine is busy with
        print(f"{given.stations} stations are acting; load before {load} ...", flush=True)
        # About one try in seven finds nothing to do or is refused.
        outcome = run(place, given.stations, given.acts * 7 // 6 // given.stations + 1, given.seed)
    finally:
        if server is not None:
            server.remove()
    machine = f"{platform.platform()}, {os.cpu_count()} cores, Python {platform.python_version()}"
    if given.json:
        result = {"machine": machine, "load_before": load, "seed": given.seed, **asdict(outcome)}
        given.json.write_text(json.dumps(result, indent=2) + "\n", encoding="utf-8")
    print(*outcome.wrong, sep="\n")
    print(
        f"{outcome.stations} stations, {outcome.acts} acts in {outcome.seconds} s, {len(outcome.wrong)} wrong"
    )
    for words, median, p95 in (
        ("an act alone", outcome.act_median_ms, outcome.act_p95_ms),
        ("with its look-ups", outcome.with_look_ups_median_ms, outcome.with_look_ups_p95_ms),
    ):
        print(f"{words}: median {median} ms, 95 in 100 within {p95} ms")
    return 1 if outcome.wrong else 0


if __name__ == "__main__":
    sys.exit(main())
