"""What stood half-filled on each lot's page, kept on this machine so that tomorrow it stands there again.

Nothing here is in the register: a weight that was typed and not weighed is nobody's meat yet.
"""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from hashlib import sha256

from gametrace.desktop.settings import Settings

_MOST = 60  # forms kept; the oldest goes first


@dataclass(frozen=True, slots=True)
class Form:
    """What stood in the fields when another lot was taken up, or the window was shut."""

    product: str = ""
    side: str = ""
    typed: str = ""
    mode: str = "tray"
    state: str = ""
    cutter: str = ""


class Drafts:
    """The forms of one register by the code of their lot, and the lot that was in hand last."""

    def __init__(self, settings: Settings, register: str) -> None:
        self._settings = settings
        self._key = f"block_drafts_{sha256(register.encode()).hexdigest()[:12]}"
        self._forms, self._at = self._read()

    def _read(self) -> tuple[dict[str, Form], str]:
        """Whatever is there and can be read; a settings file may have been edited by anybody."""
        try:
            held = json.loads(self._settings.text(self._key) or "{}")
            forms = {
                str(code): Form(**{key: str(value) for key, value in one.items()})
                for code, one in held.get("forms", {}).items()
            }
            return forms, str(held.get("at", ""))
        except (ValueError, TypeError, AttributeError):
            return {}, ""

    def get(self, code: str) -> Form | None:
        return self._forms.get(code)

    def keep(self, code: str, form: Form) -> None:
        if self._forms.get(code) != form:
            self._forms.pop(code, None)
            self._forms[code] = form
            for oldest in list(self._forms)[:-_MOST]:
                del self._forms[oldest]
            self._write()

    def drop(self, code: str) -> None:
        if self._forms.pop(code, None) is not None:
            self._write()

    @property
    def at(self) -> str:
        """The code in hand when the window was last open; ''."""
        return self._at

    @at.setter
    def at(self, code: str) -> None:
        if code != self._at:
            self._at = code
            self._write()

    def _write(self) -> None:
        held = {"forms": {code: asdict(form) for code, form in self._forms.items()}, "at": self._at}
        self._settings.keep(self._key, json.dumps(held))
