"""The practice register: a private throw-away copy of the invented larder that `sample_db` builds.

It ends yesterday, so that whoever opens it finds carcasses hanging, dates to come and a block left open. The
two years take some seconds to build and are kept ready in the user's cache for the day. This module knows
nothing of what is in them, and never touches a larder's own register.
"""

from __future__ import annotations

import hashlib
import importlib
import importlib.util
import os
import shutil
import sys
import tempfile
from datetime import date, timedelta
from pathlib import Path
from types import ModuleType

from platformdirs import user_cache_path

import gametrace
from gametrace.domain.errors import Trouble
from gametrace.register.clock import now_utc, wall_day

_PREFIX = "gametrace-practice-"
# What the built file depends on: a change of any of these makes it anew.
_ROOMS = ("facts", "domain", "store", "register")


def practice_register(folder: Path | None = None, *, today: date | None = None) -> Path:
    """A fresh copy (0600) in `folder`, or in a new private folder (0700); never over a file that is there.

    Raises Trouble where the sample did not come with the program or there is no room for it.
    """
    last_day = (today or wall_day(now_utc())) - timedelta(days=1)
    try:
        home = folder or Path(tempfile.mkdtemp(prefix=_PREFIX))
        home.mkdir(mode=0o700, parents=True, exist_ok=True)
        content = _built(last_day).read_bytes()
        target = _free_file(home)
        target.write_bytes(content)
    except OSError as error:
        raise Trouble(
            f"The practice register cannot be laid out: {error.strerror}.", "Free some space, then try again."
        ) from error
    return target


def throw_away(path: Path) -> None:
    """Remove a practice register laid out in a private folder of its own, with that folder."""
    home = path.parent
    if home.name.startswith(_PREFIX) and home.parent == Path(tempfile.gettempdir()):
        shutil.rmtree(home, ignore_errors=True)


def _free_file(home: Path) -> Path:
    """A new empty file, private before anything is written to it."""
    number = 1
    while True:
        target = home / ("practice.register" if number == 1 else f"practice-{number}.register")
        try:
            os.close(os.open(target, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
            return target
        except FileExistsError:
            number += 1


def _built(last_day: date) -> Path:
    """The built sample for that day, from the cache or made now; builds of other days are thrown away."""
    sample = _sample_folder()
    cache = user_cache_path("gametrace", appauthor=False) / "practice"
    cache.mkdir(mode=0o700, parents=True, exist_ok=True)
    ready = cache / f"{last_day.isoformat()}-{_fingerprint(sample)}.register"
    if not ready.exists():
        with tempfile.TemporaryDirectory(prefix="building-", dir=cache) as workplace:
            half = Path(workplace) / "sample.register"
            _builder(sample).build(half, last_day=last_day)
            half.replace(ready)
        for old in cache.glob("*.register"):
            if old != ready:
                old.unlink(missing_ok=True)
    return ready


def _sample_folder() -> Path:
    sample = Path(gametrace.__file__).parent.parent / "sample_db"
    if not (sample / "build.py").is_file():
        raise Trouble(
            "The invented larder is not here: it lies in the folder sample_db beside the program.",
            "Run the program from its clone, or start a register of your own.",
        )
    return sample


def _fingerprint(sample: Path) -> str:
    """Of everything the built file depends on, so that a changed program never shows an old build."""
    house = Path(gametrace.__file__).parent
    sources = [path for room in _ROOMS for end in ("*.py", "*.toml") for path in (house / room).rglob(end)]
    total = hashlib.sha256()
    for path in sorted((*sources, *sample.glob("*.py"))):
        total.update(path.read_bytes())
    return total.hexdigest()[:16]


def _builder(sample: Path) -> ModuleType:
    """The builder, loaded from its folder: it stands beside the program and is not a part of it."""
    if "sample_db" not in sys.modules:
        spec = importlib.util.spec_from_file_location(
            "sample_db", sample / "__init__.py", submodule_search_locations=[str(sample)]
        )
        assert spec is not None
        assert spec.loader is not None
        module = importlib.util.module_from_spec(spec)
        sys.modules["sample_db"] = module
        spec.loader.exec_module(module)
    return importlib.import_module("sample_db.build")
