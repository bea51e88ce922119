"""Opens the register a command names, or the user's own."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from gametrace.domain.errors import Trouble
from gametrace.register.opening import Register, default_path, open_register


@contextmanager
def opened(path: Path | str | None) -> Iterator[Register]:
    """The register, closed afterwards. Never a new one: a mistyped name would answer 'all is well'."""
    register = open_register(path or default_path(), create=False)
    try:
        yield register
    finally:
        register.close()


def write_file(path: Path, content: bytes) -> None:
    """Write a paper whole or not at all."""
    half = path.with_name(path.name + ".part")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        half.write_bytes(content)
        half.replace(path)
    except OSError as error:
        half.unlink(missing_ok=True)
        raise Trouble(f"{path} cannot be written: {error.strerror}.", "Choose another place.") from error
