"""Copies the window makes by itself: at its close, and once a day while it is open."""

from __future__ import annotations

from datetime import timedelta
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, QTimer

from gametrace.desktop.errands import aside

if TYPE_CHECKING:
    from gametrace.desktop.bench import Bench

_LOOK_MS = 10 * 60 * 1_000
_DAY = timedelta(days=1)


def folder_of(bench: Bench) -> Path:
    """The folder a person chose on this machine, else one beside the register."""
    from gametrace.register.backups import default_folder

    chosen = bench.settings.text("backup_folder")
    return Path(chosen) if chosen else default_folder(bench.register)


def copy_now(bench: Bench, folder: Path, *, is_rotating: bool = True) -> Any:
    """One backup, by whoever is at the keyboard."""
    return bench.acts.keep_backup(bench.register, by=bench.person, folder=folder, is_rotating=is_rotating)


def is_wanted(register: Any) -> bool:
    """Whether closing now would leave something without a copy. Practice and empty registers need none."""
    from gametrace.register.backups import is_backed_up

    return bool(register.larder.name) and not register.is_practice and not is_backed_up(register)


def is_old(register: Any) -> bool:
    """Whether the last copy is older than the kitchen wants, or there is none."""
    from gametrace.register import questions

    last = questions.last_backup(register)
    days = questions.policies(register).backup_days
    return last is None or register.clock() - last.at >= timedelta(days=days)


class Safekeeping(QObject):
    """Looks every ten minutes whether a day has gone by without a copy."""

    def __init__(self, bench: Bench, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bench = bench
        self._timer = QTimer(self)
        self._timer.setInterval(_LOOK_MS)
        self._timer.timeout.connect(self.look)
        self._has_said = False

    def start(self) -> None:
        self._timer.start()

    def look(self) -> None:
        """Copy aside where the last copy is a day old."""
        from gametrace.register import questions

        bench = self._bench
        if not bench.is_open or bench.errands.is_busy or not is_wanted(bench.register):
            return
        last = questions.last_backup(bench.register)
        if last is None or bench.now() - last.at >= _DAY:
            work = partial(copy_now, bench, folder_of(bench))
            bench.errands.run(partial(aside, work), done=bench.refresh.tell, failed=bench.errand_failed)

    def may_close(self) -> bool:
        """Copy before the window closes. Where that fails it is said once; the second close goes through."""
        self._timer.stop()
        bench = self._bench
        if self._has_said or not bench.is_open or not is_wanted(bench.register):
            return True
        kept = bench.guarded(partial(copy_now, bench, folder_of(bench)))
        if kept is None:
            self._has_said = True
        return kept is not None
