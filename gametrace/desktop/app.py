"""Starts the window: first the paint, then the register.

`run` is for people. `build_window` is for tests and the tour: everything at once, nothing asked.
"""

from __future__ import annotations

import gc
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication

from gametrace.desktop.bench import Bench
from gametrace.desktop.frame import Window
from gametrace.desktop.look import Look, dress
from gametrace.desktop.printing import Printing, Questions
from gametrace.desktop.settings import Settings
from gametrace.domain.errors import Refusal, Trouble

_LOOK_AFTER_MS = 3_000
_LOOK_THROUGH = 50_000  # a second of work aside; a longer journal is read whole by every backup


def application() -> QApplication:
    """The one QApplication, made if there is none."""
    app = QApplication.instance()
    if not isinstance(app, QApplication):
        app = QApplication(sys.argv[:1])
        app.setApplicationName("gametrace")
    return app


def run(path: Path | str | None = None, practice: bool = False, officer: bool = False) -> int:
    """Open the window on a register and stay until it is closed. Gives the exit code.

    With `officer` the officer's window comes first: the register open only to be looked at.
    """
    from gametrace.desktop.questions import DesktopQuestions

    app = application()
    settings = Settings.of_this_machine()
    look = Look(dark=settings.flag("dark"), scale=settings.number("scale", 1.0))
    dress(app, look)
    window = Window(Bench(look, Printing(DesktopQuestions()), settings))
    opening = partial(open_and_fill, window, path, practice)
    window.open_wanted.connect(opening)
    if officer:
        _show_officer(window, path, practice)
    else:
        window.seen.connect(opening)
        window.show()
    sys.excepthook = partial(_escaped, window.bench)
    code = app.exec()
    close_register(window)
    return code


def _show_officer(window: Window, path: Path | str | None, practice: bool) -> None:
    from gametrace.desktop.officer.entering import straight
    from gametrace.register.opening import default_path
    from gametrace.register.practice import practice_register

    straight(window, path or (practice_register() if practice else default_path()))


def _escaped(bench: Bench, kind: type[BaseException], error: BaseException, _trace: object) -> None:
    """What no page caught is a bug of ours: shown in the window, which stays open, and on the terminal."""
    sys.__excepthook__(kind, error, error.__traceback__)
    bench.report_bug(error)


def open_and_fill(window: Window, path: Path | str | None, practice: bool) -> None:
    """After the first paint: import the register, open it, fill the window.

    The invented larder may first have to be built, which takes some seconds and is done aside.
    """
    if practice and path is None:
        from gametrace.register.practice import practice_register

        window.wait_face.show_busy(
            "The invented larder is being laid out", "Two years of it.", can_stop=False
        )
        window.bench.errands.run(
            partial(_laid_out, practice_register),
            done=partial(_open, window),
            failed=partial(_not_opened, window),
        )
        return
    from gametrace.register.opening import default_path

    _open(window, path or default_path())


def _laid_out(practice_register: Callable[[], Path], progress: Callable[[int, int], None]) -> Path:
    return practice_register()


def _open(window: Window, path: Path | str) -> None:
    from gametrace.register.opening import TablesBehind, open_register

    try:
        _opened(window, path, open_register(path, for_people=True))
    except TablesBehind as behind:
        window.wait_face.show_busy(
            behind.sentence, "The journal is played from its beginning.", can_stop=False
        )
        window.stack.setCurrentWidget(window.wait_face)
        window.bench.errands.run(
            partial(_caught_up, path),
            done=partial(_opened, window, path),
            failed=partial(_not_opened, window, path=path),
            progress=window.wait_face.say_progress,
        )
    except (Refusal, Trouble) as error:
        _not_opened(window, error, path=path)


def _caught_up(path: Path | str, progress: Callable[[int, int], None]) -> Any:
    from gametrace.register.opening import open_register

    return open_register(path, progress=progress, for_people=True)


def _opened(window: Window, path: Path | str, register: Any) -> None:
    from gametrace.desktop.safekeeping import Safekeeping

    window.bench.open(register)
    window.register_opened()
    window.safekeeping = Safekeeping(window.bench, window)
    window.safekeeping.start()
    QTimer.singleShot(_LOOK_AFTER_MS, window, partial(_look_through, window, path))
    # What is there now stays as long as the program runs: the collector need not look through all of it
    # again while a page is opened for the first time.
    gc.freeze()


def _look_through(window: Window, path: Path | str) -> None:
    """The older entries, aside, while people work already."""
    if window.bench.is_open:
        window.bench.errands.run(
            partial(_looked_through, window.bench.register),
            done=_nothing,
            failed=partial(_broke, window, path),
        )


def _looked_through(register: Any, _progress: Callable[[int, int], None]) -> None:
    from gametrace.register.opening import look_for_a_break

    look_for_a_break(register, _LOOK_THROUGH)


def _nothing(_value: object) -> None:
    """It holds."""


def _broke(window: Window, path: Path | str, error: Exception) -> None:
    from gametrace.register.opening import JournalBroken

    if isinstance(error, JournalBroken) and window.bench.is_open:
        window.register_lost()
        _not_opened(window, error, path=path)


def _not_opened(window: Window, error: Exception, path: Path | str = "") -> None:
    if hasattr(error, "intact"):  # the journal itself is broken
        from gametrace.desktop.journal_page import JournalPage

        page = JournalPage(error)
        page.look_wanted.connect(partial(_only_look, window, path))
        page.again_wanted.connect(window.open_wanted)
        window.stack.addWidget(page)
        window.stack.setCurrentWidget(page)
        page.setFocus()
        return
    if isinstance(error, Refusal | Trouble):
        window.say_broken(error.sentence, error.what_to_do)
        return
    window.bench.report_bug(error)
    window.say_broken("The register could not be opened.", "See what happened above, then try again.")


def _only_look(window: Window, path: Path | str) -> None:
    """Open what is broken so that it can be read, printed and compared; the database refuses to write."""
    from gametrace.register.opening import look_at_register

    try:
        register = look_at_register(path, with_students=True)
    except (Refusal, Trouble) as error:
        window.say_broken(error.sentence, error.what_to_do)
        return
    window.bench.open(register)
    window.register_opened()


def close_register(window: Window) -> None:
    """Close what is open; an invented larder in a folder of its own goes with it."""
    if not window.bench.is_open:
        return
    register = window.bench.register
    register.close()
    if register.place and register.path.parent.name.startswith("gametrace-practice-"):
        from gametrace.register.practice import throw_away

        throw_away(register.path)


def build_window(
    register: Any = None,
    *,
    questions: Questions | None = None,
    papers: Path | None = None,
    settings: Settings | None = None,
    dark: bool = False,
    scale: float = 1.0,
) -> Window:
    """A filled window for tests and the tour. The register stays the caller's to close."""
    from gametrace.desktop.questions import Answers

    app = application()
    look = Look(dark=dark, scale=scale)
    dress(app, look)
    folder = papers or Path.cwd()
    printing = Printing(questions or Answers(folder), folder)
    window = Window(Bench(look, printing, settings or Settings()))
    if register is not None:
        window.bench.open(register)
        window.register_opened()
    return window
