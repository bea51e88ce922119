"""The two invented years, built once for all tests here: building them takes some seconds."""

import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path

import pytest

from gametrace.register.clock import wall_instant
from gametrace.register.opening import Register, open_register

_ROOT = Path(__file__).parents[2]


@dataclass(frozen=True)
class Sample:
    path: Path
    marks: dict[str, str]
    seconds: float


@pytest.fixture(scope="session")
def build() -> Callable[..., dict[str, str]]:
    if str(_ROOT) not in sys.path:  # sample_db stands beside the program and is not installed with it
        sys.path.insert(0, str(_ROOT))
    from sample_db.build import build

    return build


@pytest.fixture(scope="session")
def sample(build: Callable[..., dict[str, str]], tmp_path_factory: pytest.TempPathFactory) -> Sample:
    out = tmp_path_factory.mktemp("fenmoor") / "fenmoor.register"
    started = time.perf_counter()
    marks = build(out)
    seconds = time.perf_counter() - started
    print(f"\nthe sample register was built in {seconds:.1f} s, {out.stat().st_size:,} bytes")  # noqa: T201
    return Sample(out, marks, seconds)


@pytest.fixture(scope="session")
def fenmoor(sample: Sample) -> Iterator[Register]:
    """The sample as somebody finds it the morning after its last day. For questions only."""
    from sample_db import LAST_DAY

    morning = wall_instant(LAST_DAY + timedelta(days=1), 8)
    with open_register(sample.path, clock=lambda: morning, create=False) as register:
        yield register
