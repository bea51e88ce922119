"""Long work off the GUI thread, one piece after another, with progress and a way to stop.

An errand is a plain function that takes `progress(done, total)` and returns a frozen value; progress raises
`Stopped` when it should end. The signals belong to this object, which belongs to the window, never to the
thread. Ordinary acts take some milliseconds and need no errand.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Qt, Signal

if TYPE_CHECKING:
    from concurrent.futures import Future, ThreadPoolExecutor


class Stopped(Exception):
    """Raised inside an errand, at its own next step, when a person has stopped it."""


def aside(work: Callable[[], Any], _progress: Callable[[int, int], None]) -> Any:
    """`partial(aside, work)`: work that has nothing to say on the way, as an errand."""
    return work()


@dataclass(slots=True)
class _Errand:
    number: int
    done: Callable[[Any], None]
    failed: Callable[[Exception], None]
    progress: Callable[[int, int], None] | None
    is_stopped: bool = False
    future: Future | None = None


class Errands(QObject):
    """Hand work over with `run`; answers come back on the GUI thread.

    Signals (internal, queued): _ended(number, value, error), _stepped(number, done, total).
    """

    _ended = Signal(int, object, object)
    _stepped = Signal(int, int, int)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._pool: ThreadPoolExecutor | None = None  # made by the first errand: its import is not free
        self._open: dict[int, _Errand] = {}
        self._next = 1
        self._is_closed = False
        self._ended.connect(self._take_end, Qt.ConnectionType.QueuedConnection)
        self._stepped.connect(self._take_step, Qt.ConnectionType.QueuedConnection)

    def run(
        self,
        work: Callable[[Callable[[int, int], None]], Any],
        *,
        done: Callable[[Any], None],
        failed: Callable[[Exception], None],
        progress: Callable[[int, int], None] | None = None,
    ) -> int:
        """Start `work(progress)`; `done(value)` or `failed(error)` follows. Gives a number to stop it by."""
        if self._is_closed:  # a field left by the closing of the window may still ask
            return 0
        errand = _Errand(self._next, done, failed, progress)
        self._next += 1
        self._open[errand.number] = errand
        errand.future = self._worker().submit(self._work, errand, work)
        return errand.number

    def _worker(self) -> ThreadPoolExecutor:
        if self._pool is None:
            from concurrent.futures import ThreadPoolExecutor

            self._pool = ThreadPoolExecutor(max_workers=1, thread_name_prefix="errand")
        return self._pool

    def stop(self, number: int) -> None:
        """End an errand at its next step; its `failed` gets Stopped."""
        if (errand := self._open.get(number)) is not None:
            errand.is_stopped = True

    @property
    def is_busy(self) -> bool:
        return bool(self._open)

    def wait_idle(self, seconds: float = 30) -> None:
        """For tests and for closing: stop nothing, wait for all."""
        for errand in list(self._open.values()):
            if errand.future is not None:
                errand.future.result(timeout=seconds)

    def close(self) -> None:
        """Stop what runs and wait for it; nothing is begun any more."""
        self._is_closed = True
        for errand in self._open.values():
            errand.is_stopped = True
        if self._pool is not None:
            self._pool.shutdown(wait=True, cancel_futures=True)

    def _work(self, errand: _Errand, work: Callable[[Callable[[int, int], None]], Any]) -> None:
        """In the worker: never raises, never touches a widget."""

        def step(done: int, total: int) -> None:
            if errand.is_stopped:
                raise Stopped
            self._stepped.emit(errand.number, done, total)

        try:
            self._ended.emit(errand.number, work(step), None)
        except Exception as error:  # handed to the GUI thread, which sorts it
            self._ended.emit(errand.number, None, error)

    def _take_step(self, number: int, done: int, total: int) -> None:
        errand = self._open.get(number)
        if errand is not None and errand.progress is not None:
            errand.progress(done, total)

    def _take_end(self, number: int, value: object, error: Exception | None) -> None:
        errand = self._open.pop(number, None)
        if errand is None:
            return
        if error is None:
            errand.done(value)
        else:
            errand.failed(error)
