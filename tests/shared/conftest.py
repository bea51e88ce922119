"""One server for all tests of this folder."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[2] / "packaging" / "harness"))
sys.path.insert(0, str(Path(__file__).parents[1] / "register"))
sys.path.insert(0, str(Path(__file__).parent))

from larder_house import House
from server import Server, binaries


@pytest.fixture(scope="session")
def server() -> Iterator[Server]:
    pytest.importorskip("psycopg", reason="needs psycopg")
    if binaries() is None:
        pytest.skip("needs PostgreSQL on this machine")
    one = Server(keeps=False)
    yield one
    one.remove()


@pytest.fixture
def house(server: Server) -> Iterator[House]:
    one = House(server.lend())
    yield one
    one.close()
    server.take_back(one.path)
