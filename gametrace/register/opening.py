"""Opening a register: the object every act and question takes first."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime
from pathlib import Path

from platformdirs import user_data_path

from gametrace.domain.errors import Trouble
from gametrace.register.clock import instant, now_utc, wall_day, wall_text
from gametrace.register.records import Larder
from gametrace.store import health
from gametrace.store.engine import Store, Watch, open_store
from gametrace.store.rows import settings
from gametrace.store.shared import is_shared, open_shared

Clock = Callable[[], datetime]
Progress = Callable[[int, int], None]


class Register:
    """An open register. Hold one a window or script and close it at the end; it is also a context manager."""

    def __init__(self, store: Store, clock: Clock, *, is_only_looked_at: bool = False) -> None:
        self.store = store
        self.clock = clock
        self.is_only_looked_at = is_only_looked_at  # the database itself refuses to write
        self.shown: dict[str, int] = {}  # whose PIN was given here, and the entry that set it

    @property
    def path(self) -> Path:
        return self.store.path

    def today(self) -> date:
        """The day on the larder's calendar."""
        return wall_day(self.clock())

    @property
    def larder(self) -> Larder:
        """Whose register this is; all empty before the set-up."""
        with self.store.reading() as connection:
            return larder_from(settings(connection))

    @property
    def is_practice(self) -> bool:
        """Whether this is a practice register, to be marked as one on every screen and paper."""
        return self.larder.is_practice

    def settle(self) -> None:
        """Bring the file itself up to date without waiting for anybody, as closing does."""
        self.store.settle(wait=False)

    @property
    def place(self) -> str:
        """The file or the server's address, without its password, for people."""
        return self.store.place

    def looked_at(self) -> Register:
        """The same register, opened a second time and only to be looked at: for an officer."""
        return look_at_register(self.store.address, clock=self.clock)

    def watch(self) -> Watch:
        """What says, when asked, that somebody else has written to this register."""
        return self.store.watch()

    def has_shown(self, person: str) -> bool:
        """Whether this name's PIN was given here."""
        return person in self.shown

    def close(self) -> None:
        self.store.close()

    def __enter__(self) -> Register:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()


def larder_from(kept: dict[str, str]) -> Larder:
    """The larder from its settings as the store keeps them."""
    return Larder(
        name=kept.get("name", ""),
        address=kept.get("address", ""),
        registration_number=kept.get("registration_number", ""),
        jurisdiction=kept.get("jurisdiction", ""),
        is_practice=kept.get("is_practice") == "yes",
    )


class TablesBehind(Trouble):
    """The tables have to be played anew from the journal, which takes a while; nothing is wrong with it."""


class JournalBroken(Trouble):
    """The journal does not hold at `seq`. Read-only until somebody has decided what becomes of it."""

    def __init__(self, seq: int, why: str, written_at: str) -> None:
        self.seq = seq
        until = f", the last of them written on {wall_text(instant(written_at))}," if written_at else ""
        self.intact = (
            f"Entries 1 to {seq - 1:,}{until} are intact."
            if seq > 1
            else "No entry of it can be vouched for."
        )
        super().__init__(
            f"The journal does not hold at entry {seq:,}: {why}.",
            "Keep this file as it is and write nothing more to it. Restore the last good backup into a new "
            "file, compare its seal with the newest visit papers, and write down again what came after.",
        )


TAIL = 2_000  # entries looked at before anybody works; every backup reads all of them


def look_for_a_break(register: Register, newest: int = TAIL) -> None:
    """Raises JournalBroken where one of the newest entries does not hold."""
    if broken := health.first_break(register.store, newest):
        raise JournalBroken(*broken)


def open_register(
    path: Path | str,
    *,
    clock: Clock = now_utc,
    create: bool = True,
    progress: Progress | None = None,
    for_people: bool = False,
) -> Register:
    """Open the register at `path`, a file or a server's postgresql address.

    Where there is none a new one is made (a file 0600) if `create` is set. One that an older program wrote
    has its tables played anew from the journal first, entries untouched.
    Raises Trouble with a sentence for an empty, foreign, damaged, newer, locked or read-only file.
    `for_people` opens nothing whose journal is broken (JournalBroken) and, without `progress`, does not keep
    anybody waiting for the tables (TablesBehind).
    """
    if is_shared(path):
        store: Store = open_shared(str(path), create=create)
    else:
        store = open_store(Path(path), create=create)
    register = Register(store, clock)
    try:
        if for_people:
            look_for_a_break(register)
            if progress is None and health.is_behind(store):
                raise TablesBehind("The tables are behind the journal and are laid out anew.", "Wait for it.")
        health.bring_up_to_date(store, progress or (lambda _done, _of: None))
    except BaseException:
        store.close()
        raise
    return register


def look_at_register(place: Path | str, *, clock: Clock = now_utc, with_students: bool = False) -> Register:
    """Open an existing register read-only, the names of students out of sight unless asked for.

    The officer's view and the export rest on it. Raises Trouble as `open_register` does.
    """
    from gametrace.store.looking import open_to_look

    return Register(open_to_look(place, with_students=with_students), clock, is_only_looked_at=True)


def default_path() -> Path:
    """Where a larder's own register lives unless it is named: the user's data folder."""
    return user_data_path("gametrace", appauthor=False) / "larder.register"
