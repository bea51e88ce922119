"""What the window remembers on this machine: ground, size, who was last at the keyboard.

Nothing about meat. Booleans are read with their type: an ini file gives back the word 'false' otherwise.
"""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QSettings


class Settings:
    """A typed face on one ini file. Without a path nothing is kept (tests, the tour)."""

    def __init__(self, path: Path | None = None) -> None:
        self._store = QSettings(str(path), QSettings.Format.IniFormat) if path else None
        self._loose: dict[str, object] = {}

    @classmethod
    def of_this_machine(cls) -> Settings:
        from platformdirs import user_config_path

        return cls(user_config_path("gametrace", appauthor=False) / "window.ini")

    def flag(self, key: str, default: bool = False) -> bool:
        if self._store is None:
            return bool(self._loose.get(key, default))
        return bool(self._store.value(key, default, type=bool))

    def text(self, key: str, default: str = "") -> str:
        if self._store is None:
            return str(self._loose.get(key, default))
        return str(self._store.value(key, default, type=str))

    def number(self, key: str, default: float) -> float:
        try:
            return float(self.text(key, str(default)))
        except ValueError:
            return default

    def keep(self, key: str, value: bool | str | float) -> None:
        if self._store is None:
            self._loose[key] = value
        else:
            self._store.setValue(key, value)
