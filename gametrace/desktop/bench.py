"""What every station works with: the register, who is at the keyboard, the look, and the ways to speak.

`attempt` is the one place where an act is called from the window, and where what goes wrong is sorted: a
Refusal goes back to the page it belongs to, Trouble and bugs go over the page. The register is not imported
before it is opened, so that the window can be seen first.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Signal

from gametrace.desktop.errands import Errands, Stopped, aside
from gametrace.desktop.refresh import Refresh
from gametrace.domain.errors import Refusal, Trouble

if TYPE_CHECKING:
    from datetime import date, datetime

    from gametrace.desktop.look import Look
    from gametrace.desktop.printing import Printing
    from gametrace.desktop.settings import Settings
    from gametrace.register.records import Changes


class NothingOpen(RuntimeError):
    """A station was asked for something before the register was open: a bug of ours."""


class Bench(QObject):
    """Made once by the window and handed to each station.

    Signals: person_changed(str); done(str), refused(str), bug(str): words for the banner;
    trouble(str, object): words, and a callable that tries again or None;
    went(str, str): another station is wanted, with a code or ''. officer_wanted(): the view for an officer.
    """

    person_changed = Signal(str)
    done = Signal(str)
    refused = Signal(str)
    trouble = Signal(str, object)
    bug = Signal(str)
    went = Signal(str, str)
    officer_wanted = Signal()

    def __init__(
        self, look: Look, printing: Printing, settings: Settings, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self.look = look
        self.printing = printing
        self.settings = settings
        self.refresh = Refresh(self)
        self.errands = Errands(self)
        self.last_bug = ""
        self.person = ""
        self._handed: dict[str, Any] = {}
        self._register: Any = None
        self._in_doubt: tuple[str, str] | None = None
        self.last_seq = 0  # the newest entry this window has shown

    # -- the register -----------------------------------------------------------------------------------

    @property
    def is_open(self) -> bool:
        return self._register is not None

    @property
    def register(self) -> Any:
        if self._register is None:
            raise NothingOpen("the register is not open yet")
        return self._register

    def open(self, register: Any) -> None:
        self._register = register
        self.last_seq = self.ask("seal").count

    def close(self) -> None:
        """Let go of the register; the window stays."""
        register, self._register = self._register, None
        if register is not None:
            register.close()

    def look_for_others(self) -> bool:
        """Whether somebody else has written since this window last looked."""
        count = self.ask("seal").count
        was, self.last_seq = self.last_seq, max(self.last_seq, count)
        return count > was

    @property
    def acts(self) -> Any:
        """The module of acts: `bench.acts.hold_lot`."""
        from gametrace.register import acts

        return acts

    @property
    def questions(self) -> Any:
        """The module of questions: `bench.questions.stock(bench.register)`."""
        from gametrace.register import questions

        return questions

    def ask(self, question: str, *given: Any, **named: Any) -> Any:
        """`bench.ask("trace", code)` is `questions.trace(register, code)`."""
        return getattr(self.questions, question)(self.register, *given, **named)

    def today(self) -> date:
        return self.register.today()

    def now(self) -> datetime:
        return self.register.clock()

    # -- acting -----------------------------------------------------------------------------------------

    def attempt(
        self,
        act: str,
        *,
        on_refusal: Callable[[Refusal], None] | None = None,
        said: str = "",
        **given: Any,
    ) -> Changes | None:
        """Do `acts.<act>(register, by=person, **given)`. None where it was not done, and the reason is shown.

        `said` is shown in the banner when done. A refusal goes to `on_refusal`, else to the banner.
        """
        if self.register.is_only_looked_at:
            self.refused.emit("This register is open only to be looked at, so nothing was written.")
            return None
        again = partial(self.attempt, act, on_refusal=on_refusal, said=said, **given)
        key = self._key_of(act, given)
        call = partial(getattr(self.acts, act), self.register, **{"by": self.person, "key": key, **given})
        changes = self.guarded(call, on_refusal=on_refusal, again=again)
        if changes is not None:
            self._in_doubt = None
            self.last_seq = max(self.last_seq, changes.seq)
            if said:
                self.done.emit(said)
            self.refresh.tell(changes)
        return changes

    def _key_of(self, act: str, given: dict[str, Any]) -> str:
        """The same key while the same act has had no answer: a lost answer must not write it twice."""
        import uuid

        doubt = repr((act, self.person, given))
        if self._in_doubt is None or self._in_doubt[0] != doubt:
            self._in_doubt = (doubt, str(uuid.uuid4()))
        return self._in_doubt[1]

    def guarded(
        self,
        call: Callable[[], Any],
        *,
        on_refusal: Callable[[Refusal], None] | None = None,
        again: Callable[[], Any] | None = None,
    ) -> Any:
        """Call it; what goes wrong is shown where it belongs and None comes back."""
        try:
            return call()
        except Refusal as refusal:
            if on_refusal is not None:
                on_refusal(refusal)
            else:
                self.refused.emit(str(refusal))
        except Trouble as trouble:
            self.trouble.emit(str(trouble), again or partial(self.guarded, call, on_refusal=on_refusal))
        except Exception as error:  # a bug must not close the window on half a delivery
            self.report_bug(error)
        return None

    def report_bug(self, error: BaseException) -> None:
        """Something we did wrong: keep the whole story for the page that shows it."""
        import traceback

        self.last_bug = "".join(traceback.format_exception(error))
        self.bug.emit(
            "The program made a mistake. What was acknowledged before is on disk; this was not done."
        )

    def errand_failed(self, error: Exception) -> None:
        """What an errand ended with, sorted as an act's would be. One that a person stopped did not fail."""
        if not isinstance(error, Stopped):
            self.guarded(partial(_raise, error))

    # -- paper ------------------------------------------------------------------------------------------

    def to_paper(self, make: Callable[[], bytes], name: str, said: str) -> int:
        """Make a paper off the GUI thread, then save and show it. `said` goes before the file's name."""
        return self.errands.run(
            partial(aside, make), done=partial(self.deliver, name, said), failed=self.errand_failed
        )

    def deliver(self, name: str, said: str, pdf: bytes) -> None:
        """Save and show a paper that is made."""
        path = self.guarded(partial(self.printing.deliver, pdf, name))
        if path is not None:
            self.done.emit(f"{said} {path.name}, in {path.parent}")

    # -- who and where ----------------------------------------------------------------------------------

    def set_person(self, code: str) -> None:
        if code != self.person:
            self.person = code
            self.settings.keep("person", code)
            self.person_changed.emit(code)

    def go(self, station: str, code: str = "") -> None:
        """Ask the window for another station, or for a page of it: 'examination/second'."""
        self.went.emit(station, code)

    def hand(self, station: str, thing: object) -> None:
        """Ask for another station and take it more than a code; it is there to be fetched once."""
        self._handed[station] = thing
        self.went.emit(station, "")

    def handed(self, station: str) -> Any:
        """What was brought to this station, or None."""
        return self._handed.pop(station, None)


def _raise(error: Exception) -> None:
    raise error
