"""Settings that hold for every test; no fixtures of any one room live here.

Python warnings and stray Qt messages fail a test: both are settings in pyproject.toml
(`filterwarnings`, `qt_log_level_fail`), so that they hold for a single test run by hand too.
"""

import os
import sys

import pytest
from hypothesis import settings

# Set before Qt is imported anywhere. A real screen is asked for by name: QT_QPA_PLATFORM=xcb.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

# "ci" is the default and the same on every machine and every run. "long" is for a night.
settings.register_profile("ci", max_examples=50, stateful_step_count=25, deadline=None, derandomize=True)
settings.register_profile("long", max_examples=1000, stateful_step_count=60, deadline=None)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "ci"))


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--server", action="store_true", help="every new register lies on a PostgreSQL server, not in a file"
    )


def pytest_configure(config: pytest.Config) -> None:
    if config.getoption("--server"):
        sys.path.insert(0, os.path.dirname(__file__))
        from on_a_server import OnAServer

        config.pluginmanager.register(OnAServer())


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Skip what needs a real X screen when there is none."""
    if os.environ["QT_QPA_PLATFORM"].startswith("xcb") and os.environ.get("DISPLAY"):
        return
    for item in items:
        if "x11" in item.keywords:
            item.add_marker(pytest.mark.skip(reason="needs a real X screen: QT_QPA_PLATFORM=xcb"))
