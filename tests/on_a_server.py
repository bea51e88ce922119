"""`pytest --server tests/register`: every new register lies on a PostgreSQL server instead of in a file.

The tests do not know of it. Where a test opens a path at which there is no file yet, that path gets a schema
of its own on one server, and whoever opens the path again comes to that schema: for use, or only to look. A
file that is there (a copy, a backup, a register of an older version) stays a file. What only makes sense on a
file is marked `file` and left out. A schema goes with the test, or with the folder, that its path belongs to.
"""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "packaging" / "harness"))

from server import Server, binaries

from gametrace.register import opening
from gametrace.store import looking
from gametrace.store.engine import Store, open_store
from gametrace.store.shared import open_shared


class OnAServer:
    """The plugin: it stands in for the two functions that open a file."""

    def __init__(self) -> None:
        if binaries() is None:
            raise pytest.UsageError("--server needs PostgreSQL on this machine")
        self._places: dict[Path, str] = {}  # the server's address for each path
        self._server = Server(keeps=False)
        self._look_at_file = looking._file
        opening.open_store = self.open
        looking._file = self.look

    def open(self, path: Path, *, create: bool) -> Store:
        place = self._places.get(path)
        if path.exists() or not (place or create):
            return open_store(path, create=create)
        if place is None:
            place = self._places[path] = self._server.lend()
        return open_shared(place, create=create)

    def look(self, path: Path, with_students: bool) -> Store:
        place = self._places.get(path)
        return (
            self._look_at_file(path, with_students)
            if place is None
            else looking._shared(place, with_students)
        )

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        for item in items:
            if item.get_closest_marker("file"):
                item.add_marker(pytest.mark.skip(reason="only makes sense on a file"))

    @pytest.hookimpl(trylast=True)
    def pytest_runtest_teardown(self, item: pytest.Item) -> None:
        own = getattr(item, "funcargs", {}).get("tmp_path")
        for path in [one for one in self._places if own in one.parents or not one.parent.exists()]:
            self._server.take_back(self._places.pop(path))

    def pytest_unconfigure(self) -> None:
        self._server.remove()
