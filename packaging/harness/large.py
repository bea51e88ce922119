"""Makes registers of ten years of a busy house and measures what a person waits for on them.

Full size is 100,000 carcasses, 1,000,000 lots, 1,300,000 lineage rows and 300,000 dishes, written to the
journal entry by entry as the acts write them (years_register says how it is proved). Every figure stands
beside the barest way to the same answer, measured in the same run, and beside what was promised.
"""

from __future__ import annotations

import argparse
import json
import os
import platform
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from dataclasses import asdict
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parents[1])]

import years_measures as measures  # noqa: E402 -- scripts beside this one
import years_register  # noqa: E402

SIZES = {"1/100": 0.01, "1/10": 0.1, "full": 1.0}
_MOST_SERVER_SIZE = 0.1  # what the server is asked is promised at one tenth


def run(size: float, folder: Path, *, keep: Path | None, with_rebuild: bool) -> dict:
    path = keep or folder / f"years-{size:g}.register"
    if path.exists():
        _say(f"{path} is there already and is measured as it is")
        made = None
    else:
        began = time.perf_counter()
        years_register.make(path, size, _progress)
        made = time.perf_counter() - began
        _say(f"made in {made:.0f} s")
    counts = years_register.counts(path)
    _say(", ".join(f"{count:,} {name}" for name, count in counts.items()))
    figures = []
    for one in _measured(path, folder, size, with_rebuild=with_rebuild):
        figures.append(one)
        _say(f"{one.what}: {_cell(one)}")
    size_mb = path.stat().st_size / 1e6
    return {"size": size, "made_seconds": made, "file_mb": size_mb, "counts": counts, "figures": figures}


def _measured(path: Path, folder: Path, size: float, *, with_rebuild: bool) -> Iterator[measures.Figure]:
    yield from measures.everything(path, folder)
    if size <= _MOST_SERVER_SIZE:
        yield from measures.on_a_server(path, _say)
    if with_rebuild:
        yield from measures.rebuild(path)


def table(results: Sequence[dict]) -> str:
    """One line a figure, one column a size: ours, and beside it how often the bare way goes into it."""
    names = {size: name for name, size in SIZES.items()}
    heads = [names.get(result["size"], f"{result['size']:g}") for result in results]
    lines = [f"| what | at most | {' | '.join(heads)} |", f"|---|---|{'---|' * len(heads)}"]
    order = list(dict.fromkeys(one.what for result in results for one in result["figures"]))
    for what in order:
        found = [next((one for one in r["figures"] if one.what == what), None) for r in results]
        most = next((one.most for one in found if one is not None), "")
        lines.append(f"| {what} | {most} | {' | '.join(_cell(one) for one in found)} |")
    return "\n".join(lines)


def _cell(one: measures.Figure | None) -> str:
    if one is None:
        return "–"
    said = _span(one.ours)
    if one.p99 is not None:
        said += f", slowest {_span(one.p99)}"
    if one.ratio is not None:
        said += f" ({one.ratio:.1f}x)"
    return f"{said}; {one.note}" if one.note else said


def _span(milliseconds: float) -> str:
    return f"{milliseconds / 1_000:.1f} s" if milliseconds >= 2_000 else f"{milliseconds:.1f} ms"


def _say(words: str) -> None:
    print(f"  {words}", file=sys.stderr, flush=True)


def _progress(done: int, of: int) -> None:
    if sys.stderr.isatty() or done % 1_000 == 0 or done == of:
        print(
            f"  {done:,} of {of:,} batches",
            end="\r" if sys.stderr.isatty() else "\n",
            file=sys.stderr,
            flush=True,
        )


def machine() -> str:
    """The machine in a few words, as a table names it."""
    model = next(
        (line.split(":", 1)[1].strip() for line in _cpu_lines() if line.startswith("model name")),
        platform.machine(),
    )
    pages = os.sysconf("SC_PHYS_PAGES") * os.sysconf("SC_PAGE_SIZE")
    busy = os.getloadavg()[0]  # others at work make every time longer; ratios suffer less
    room = f"{pages / 2**30:.0f} GB, {platform.system()}, Python {platform.python_version()}"
    return f"load {busy:.1f} on {os.cpu_count()} x {model}, {room}"


def _cpu_lines() -> list[str]:
    info = Path("/proc/cpuinfo")
    return info.read_text(encoding="utf-8").splitlines() if info.exists() else []


def main(arguments: Sequence[str] | None = None) -> int:
    parser = argparse.ArgumentParser(
        prog="large", description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument(
        "--size", default="1/100,1/10", metavar="SIZES",
        help="sizes with commas: 1/100, 1/10, full, or a number (1/100,1/10)",
    )  # fmt: skip
    parser.add_argument("--json", type=Path, metavar="FILE", help="also write the result here")
    parser.add_argument("--keep", type=Path, metavar="FILE", help="keep the register here (one size only)")
    parser.add_argument("--only-make", action="store_true", help="make the register and measure nothing")
    parser.add_argument("--no-rebuild", action="store_true", help="leave the rebuild out: it takes longest")
    given = parser.parse_args(arguments)
    try:
        sizes = [SIZES[word] if word in SIZES else float(word) for word in given.size.split(",")]
    except ValueError:
        parser.error(f"“{given.size}” is not a size: use {', '.join(SIZES)} or a number such as 0.05")
    if any(not 0 < size <= 10 for size in sizes):
        parser.error("a size lies above 0 and not above 10; 1 is full")
    if given.keep and len(sizes) > 1:
        parser.error("--keep names one file: give one --size")
    if given.only_make and not given.keep:
        parser.error("--only-make needs --keep, or nothing would be left")
    if given.only_make:
        years_register.make(given.keep, sizes[0], _progress)
        print(json.dumps(years_register.counts(given.keep)))
        return 0
    results = []
    with tempfile.TemporaryDirectory(prefix="gametrace-large-") as folder:
        for size in sizes:
            print(f"size {size:g}", file=sys.stderr)
            results.append(run(size, Path(folder), keep=given.keep, with_rebuild=not given.no_rebuild))
    print(machine())
    print(table(results))
    if given.json:
        plain = [{**one, "figures": [asdict(figure) for figure in one["figures"]]} for one in results]
        given.json.write_text(
            json.dumps({"machine": machine(), "results": plain}, indent=2) + "\n", encoding="utf-8"
        )
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
