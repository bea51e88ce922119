"""Takes finished PDF bytes to paper: saved where the person says, then shown in the machine's own viewer,
which prints. Makes no paper itself; `documents` does, and is imported by who asks for it."""

from __future__ import annotations

from pathlib import Path
from typing import Protocol

from gametrace.domain.errors import Trouble


class Questions(Protocol):
    def where_to_save(self, title: str, suggested: Path) -> Path | None: ...
    def which_file(self, title: str, kinds: str) -> Path | None: ...
    def which_folder(self, title: str) -> Path | None: ...
    def show_file(self, path: Path) -> bool: ...


class Printing:
    """`papers` is the folder suggested first: the person's documents."""

    def __init__(self, questions: Questions, papers: Path | None = None) -> None:
        self._questions = questions
        self._papers = papers

    def deliver(self, pdf: bytes, name: str, *, ask: bool = True) -> Path | None:
        """Save under `name` and show it. None where the person changed their mind.

        Raises Trouble where it could not be saved or shown: it must not pass for printed.
        `ask=False` for labels at the bench: straight into the papers folder and on the screen.
        """
        suggested = self._folder() / name
        path = self._questions.where_to_save("Save the paper", suggested) if ask else suggested
        if path is None:
            return None
        _write(path, pdf, "paper")
        if not self._questions.show_file(path):
            sentence = f"The paper lies at {path}, but nothing on this machine opens it."
            raise Trouble(sentence, "Print it from there, or have a viewer for PDF files installed.")
        return path

    def save(self, content: bytes, name: str) -> Path | None:
        """Save a list under `name` and show nothing: it is for another program. None where not wanted."""
        path = self._questions.where_to_save("Save the list", self._folder() / name)
        if path is not None:
            _write(path, content, "list")
        return path

    def folder_for_export(self) -> Path | None:
        """A new folder inside the one the person chooses. None where they changed their mind."""
        chosen = self._questions.which_folder("Where the export goes")
        if chosen is None:
            return None
        number, folder = 1, chosen / "gametrace export"
        while folder.exists():
            number += 1
            folder = chosen / f"gametrace export {number}"
        return folder

    def lay_beside(self, content: bytes, path: Path, suffix: str) -> Path:
        """The same under another kind of file, next to a paper that was just saved."""
        other = path.with_suffix(suffix)
        _write(other, content, "picture")
        return other

    def _folder(self) -> Path:
        if self._papers is None:
            from platformdirs import user_documents_path

            self._papers = user_documents_path() / "gametrace"
        return self._papers


def _write(path: Path, content: bytes, what: str) -> None:
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    except OSError as error:
        sentence = f"The {what} could not be written to {path.parent}: {error.strerror or error}."
        raise Trouble(sentence, "Choose another folder or make room, and try again.") from error
