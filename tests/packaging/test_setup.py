"""What must hold of the clone and of the libraries before anything else can be trusted."""

import subprocess
import sys
from pathlib import Path

import pytest

import gametrace

ROOT = Path(__file__).resolve().parents[2]

# PySide6 6.12.0 on Python 3.10 and 3.11 loses one reference to None in every call that returns None, and
# aborts ("deallocating None") after some 7,000 of them. Measured by us on 25 November 2026; clean with
# 6.8.3 to 6.11.3 on Python 3.11 and with 6.12.0 on 3.12 and 3.13.
CALLS = """
from PySide6.QtCore import QObject
thing = QObject()
for _ in range(20_000):
    thing.setObjectName("x")
print("alive")
"""


def test_twenty_thousand_qt_calls_that_return_none_do_not_end_the_program() -> None:
    # In a process of its own: the fault would end this one.
    done = subprocess.run([sys.executable, "-c", CALLS], capture_output=True, text=True, timeout=60)
    assert done.stdout.strip() == "alive", done.stderr


def test_the_program_finds_its_assets_beside_the_package() -> None:
    assets = Path(gametrace.__file__).parent.parent / "assets"
    assert (assets / "drawings").is_dir()
    assert (assets / "fonts").is_dir()


def test_the_packaging_folder_does_not_hide_the_library_of_that_name() -> None:
    assert not (ROOT / "packaging" / "__init__.py").exists()


@pytest.mark.parametrize(
    "script", ["packaging/start", "packaging/check", "packaging/environment.sh", ".ci/run"]
)
def test_bash_can_read_the_scripts(script: str) -> None:
    done = subprocess.run(["bash", "-n", str(ROOT / script)], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr


def test_nothing_but_the_agreed_files_lies_at_the_top_of_the_clone() -> None:
    agreed = {
        "README.md",
        "DEVELOPERS.md",
        "pyproject.toml",
        "gametrace",
        "tests",
        "assets",
        "sample_db",
        "packaging",
    }
    listing = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True)
    if listing.returncode != 0:
        pytest.skip("not a git clone")
    top = {name.split("/")[0] for name in listing.stdout.splitlines()}
    assert {name for name in top if not name.startswith(".")} <= agreed
