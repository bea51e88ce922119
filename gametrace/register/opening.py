"""Opening a register: the object every act and question takes first."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime
from pathlib import Path

from platformdirs import user_data_path

from gametrace.register.clock import now_utc, wall_day
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


def open_register(
    path: Path | str, *, clock: Clock = now_utc, create: bool = True, progress: Progress | None = None
) -> Register:
    """Open the register at `path`, a file or a server's postgresql address.

    Where there is none a new one is made (a file 0600) if `create` is set. One that an older program wrote
    has its tables played anew from the journal first, entries untouched.
    Raises Trouble with a sentence for an empty, foreign, damaged, newer, locked or read-only file.
    """
    if is_shared(path):
        store: Store = open_shared(str(path), create=create)
    else:
        store = open_store(Path(path), create=create)
    try:
        health.bring_up_to_date(store, progress or (lambda _done, _of: None))
    except BaseException:
        store.close()
        raise
    return Register(store, clock)


def look_at_register(place: Path | str, *, clock: Clock = now_utc, with_students: bool = False) -> Register:
    """Open an existing register read-only, the names of students out of sight unless asked for.

    The officer's view and the export rest on it. Raises Trouble as `open_register` does.
    """
    from gametrace.store.looking import open_to_look

    return Register(open_to_look(place, with_students=with_students), clock, is_only_looked_at=True)


def default_path() -> Path:
    """Where a larder's own register lives unless it is named: the user's data folder."""
    return user_data_path("gametrace", appauthor=False) / "larder.register"
