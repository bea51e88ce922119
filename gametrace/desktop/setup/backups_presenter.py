"""Makes backups and looks into copies, off the GUI thread: a register of years takes a while to copy."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

from gametrace.desktop.bench import Bench
from gametrace.desktop.errands import aside
from gametrace.desktop.safekeeping import copy_now, folder_of, is_old
from gametrace.desktop.setup.backups_sheet import BackupsSheet, CopySheet

_KINDS = "Registers (*.register);;All files (*)"


class BackupsPresenter:
    """`questions` asks for files and folders; the desktop itself where none is given."""

    def __init__(self, backups: BackupsSheet, copy: CopySheet, bench: Bench) -> None:
        self._backups, self._copy, self._bench = backups, copy, bench
        self._chosen: Path | None = None
        self.questions: Any = None
        backups.now_wanted.connect(self.back_up)
        backups.stick_wanted.connect(self.to_a_stick)
        backups.folder_wanted.connect(self.choose_folder)
        copy.look_wanted.connect(self.look)
        copy.restore_wanted.connect(self.restore)

    def refresh(self) -> None:
        from gametrace.register.clock import wall_text

        register = self._bench.register
        last = self._bench.ask("last_backup")
        said = "No backup has been kept yet."
        if last is not None:
            said = f"The last one was kept on {wall_text(last.at)}, {last.count:,} entries: {last.where}"
        folder = folder_of(self._bench)
        self._backups.say(said, f"Copies go to {folder}.", is_old=is_old(register))
        self._backups.setVisible(not register.is_practice)

    def open(self, code: str) -> None:
        """There is one page."""

    def _asked(self) -> Any:
        if self.questions is None:
            from gametrace.desktop.questions import DesktopQuestions

            self.questions = DesktopQuestions(self._backups.window())
        return self.questions

    def choose_folder(self) -> None:
        folder = self._asked().which_folder("Where should copies be kept?")
        if folder is not None:
            self._bench.settings.keep("backup_folder", str(folder))
            self.refresh()

    def back_up(self) -> None:
        self._run(partial(copy_now, self._bench, folder_of(self._bench)))

    def to_a_stick(self) -> None:
        folder = self._asked().which_folder("Which stick or folder?")
        if folder is not None:
            self._run(partial(copy_now, self._bench, folder, is_rotating=False))

    def _run(self, work: Callable[[], Any]) -> None:
        self._backups.say_busy(True)
        self._bench.errands.run(partial(aside, work), done=self._kept, failed=self._failed)

    def _kept(self, changes: Any) -> None:
        self._backups.say_busy(False)
        self._bench.done.emit("The backup is kept and was read from end to end.")
        self._bench.refresh.tell(changes)

    def look(self) -> None:
        path = self._asked().which_file("Which copy?", _KINDS)
        if path is None:
            return
        self._copy.say_busy(True)
        work = partial(self._bench.questions.look_into, path)
        self._bench.errands.run(partial(aside, work), done=partial(self._seen, path), failed=self._failed)

    def _seen(self, path: Path, found: Any) -> None:
        from gametrace.register.clock import wall_text

        self._copy.say_busy(False)
        self._chosen = None if found.findings else path
        first = f"{path.name} is whole." if not found.findings else found.findings[0].sentence
        last = f", the newest of {wall_text(found.last_at)}" if found.last_at else ""
        self._copy.show_copy(
            [
                first,
                f"{found.larder or 'No larder'}: {found.carcasses} carcasses, {found.count:,} entries{last}.",
                f"Seal {found.seal}",
            ],
            is_whole=not found.findings,
        )

    def restore(self) -> None:
        if self._chosen is None:
            return
        suggested = self._chosen.with_name("restored.register")
        to = self._asked().where_to_save("Where should the new register be?", suggested)
        if to is not None:
            work = partial(aside, partial(self._bench.acts.restore, self._chosen, to))
            self._bench.errands.run(work, done=partial(self._restored, to), failed=self._failed)

    def _restored(self, to: Path, _found: Any) -> None:
        self._bench.done.emit(f"A whole register is at {to}. Open it with: gametrace {to}")

    def _failed(self, error: Exception) -> None:
        self._backups.say_busy(False)
        self._copy.say_busy(False)
        self._bench.errand_failed(error)
