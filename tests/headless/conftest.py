"""One tour a session: every headless test asks the register it left behind."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from gametrace.headless.tour import tour


@pytest.fixture(scope="session")
def toured(tmp_path_factory: pytest.TempPathFactory, qapp: object) -> Path:
    folder = tmp_path_factory.mktemp("tour") / "out"
    assert tour(folder) == 0
    return folder


@pytest.fixture(scope="session")
def told(toured: Path) -> dict[str, Any]:
    return dict(json.loads((toured / "tour.json").read_text()))
