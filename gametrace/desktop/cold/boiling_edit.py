"""A field for a probe held in boiling water: hotter than anything that is ever a reading of meat."""

from __future__ import annotations

import re

from gametrace.desktop.parts.kilo_edit import CelsiusEdit
from gametrace.domain.errors import Refusal

_FIGURE = re.compile(r"(\d{1,3})(?:[.,](\d))?\s*(?:°?\s*[cC])?", re.ASCII)
LEAST, MOST = 800, 1100  # tenths: on a high moor it boils lower, and a bad probe may be far off


class BoilingEdit(CelsiusEdit):
    """Tenths of a degree, 80 to 110 °C."""

    def _read(self, typed: str) -> int:
        match = _FIGURE.fullmatch(typed.strip())
        if match is None:
            raise Refusal("That is not a temperature.", "Write degrees Celsius, for example 99.8.")
        tenths = int(match[1]) * 10 + int(match[2] or 0)
        if not LEAST <= tenths <= MOST:
            raise Refusal("Boiling water is not so warm or cold.", "Read the probe again.")
        return tenths
