"""Reads where a register is: a file, or a server's address as it stands (a path would lose a slash)."""

from __future__ import annotations

from pathlib import Path


def place(text: str) -> Path | str:
    """The file, or the address of a server."""
    return text if text.startswith("postgresql") else Path(text)
