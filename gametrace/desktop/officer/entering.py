"""From the whole window to the officer's and back, and the officer's straight from the command line.

The two are never seen at once. Closing the officer's window ends the program; only leaving leads back.
"""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from gametrace.desktop.bench import Bench
from gametrace.desktop.officer.window import OfficerWindow
from gametrace.domain.errors import Refusal, Trouble

if TYPE_CHECKING:
    from gametrace.desktop.frame import Window


def enter(window: Window) -> OfficerWindow | None:
    """Hide the whole window and show the officer's in its place, on a register of its own."""
    bench = window.bench
    register = bench.guarded(bench.register.looked_at)
    if register is None:
        return None
    officer = _shown_on(register, bench)
    officer.setGeometry(window.geometry())
    officer.left.connect(partial(_back, window, officer))
    officer.closed.connect(partial(_ended, window))
    window.scanning.stop()
    officer.show()
    window.hide()
    window.officer = officer
    return officer


def straight(window: Window, place: Path | str) -> OfficerWindow | None:
    """The officer's window first, the whole one only once somebody of the house has left this one."""
    from gametrace.register.opening import look_at_register

    try:
        register = look_at_register(place)
    except Trouble as trouble:
        window.show()
        window.say_broken(trouble.sentence, trouble.what_to_do)
        return None
    window.scanning.stop()
    officer = _shown_on(register, window.bench)
    officer.left.connect(partial(_open_whole, window, officer, place))
    officer.closed.connect(partial(_ended, window))
    officer.show()
    window.officer = officer
    return officer


def _shown_on(register: Any, bench: Bench) -> OfficerWindow:
    own = Bench(bench.look, bench.printing, bench.settings)
    own.open(register)
    return OfficerWindow(own)


def _back(window: Window, officer: OfficerWindow, person: str, pin: str) -> None:
    try:
        _sign_in(window.bench, person, pin)
    except Refusal as refusal:
        officer.refuse(refusal)
        return
    officer.closed.disconnect()
    window.show()
    officer.close()
    window.scanning.start()
    window.bench.set_person(person)
    window.officer = None


def _open_whole(window: Window, officer: OfficerWindow, place: Path | str, person: str, pin: str) -> None:
    from gametrace.desktop.app import open_and_fill

    if not window.bench.is_open:
        open_and_fill(window, place, False)
    if not window.bench.is_open:
        officer.refuse(Refusal("The register could not be opened for writing.", "Try again.", "pin"))
        return
    _back(window, officer, person, pin)


def _sign_in(bench: Bench, person: str, pin: str) -> None:
    """Where PINs are kept, this one is asked; the act is there once people can set one."""
    if ask := getattr(bench.acts, "sign_in", None):
        ask(bench.register, person=person, pin=pin)


def _ended(window: Window) -> None:
    window.close()
