"""What a start does without: each of these costs a cook time before the first scan."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

FILLED = """
import sys
from pathlib import Path
from gametrace.desktop import app as ours
from PySide6.QtCore import QTimer

def open_and_tell(*given):
    open_and_fill(*given)
    app.processEvents()
    print(*sys.modules, flush=True)
    QTimer.singleShot(0, app.quit)

app = ours.application()
open_and_fill, ours.open_and_fill = ours.open_and_fill, open_and_tell
ours.run(Path(sys.argv[1]))
"""
NOT_YET = (
    "sqlmodel", "reportlab", "PIL", "argon2", "psycopg", "serial", "openpyxl", "astral",
    "PySide6.QtMultimedia", "gametrace.register.visits", "gametrace.register.acts",
    "gametrace.register.tracing", "gametrace.store.projection", "gametrace.store.tables",
)  # fmt: skip


def test_a_filled_window_has_read_nothing_that_only_an_act_a_paper_or_a_visit_needs(
    larder, tmp_path: Path
) -> None:
    path = larder.register.store.path
    larder.register.close()
    env = {**os.environ, "XDG_CONFIG_HOME": str(tmp_path), "XDG_DATA_HOME": str(tmp_path)}
    done = subprocess.run(
        [sys.executable, "-c", FILLED, str(path)], env=env, capture_output=True, text=True, check=True
    )
    read = set(done.stdout.split())
    assert "gametrace.register.today" in read  # it was filled
    assert [name for name in NOT_YET if name in read] == []
