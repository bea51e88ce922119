"""Where on the map it was killed and with what: asked for by few, so folded under a heading.

The place is typed as two decimal degrees. What the sun did there is said as an indication only.
"""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.typed_edit import TypedEdit
from gametrace.desktop.parts.words import Words, column
from gametrace.domain.errors import Refusal

AMMUNITION = (("lead", "Lead"), ("not lead", "Not lead"), ("", "Not stated"))
MapPlace = tuple[int, int]  # latitude and longitude in millionths of a degree

_POINT = re.compile(
    r"\s*([+-]?\d{1,3}(?:\.\d{1,12})?)\s*(?:,|;|\s)\s*([+-]?\d{1,3}(?:\.\d{1,12})?)\s*", re.ASCII
)
_COMMA = re.compile(r"\s*([+-]?\d{1,3}(?:,\d{1,12})?)\s*(?:;|\s)\s*([+-]?\d{1,3}(?:,\d{1,12})?)\s*", re.ASCII)


def parse_map(typed: str) -> MapPlace:
    """'54.321, -2.345' as millionths; Refusal for what is no place on the earth."""
    plain = typed.replace("°", " ").replace("−", "-").strip()
    match = _POINT.fullmatch(plain) or _COMMA.fullmatch(plain)
    if match is None:
        raise Refusal(
            f"“{typed.strip()[:40]}” is no place on the map.",
            "Write latitude, then longitude: 54.321, -2.345",
            "latitude_millionths",
        )
    latitude, longitude = (_millionths(part) for part in match.groups())
    if abs(latitude) > 90_000_000 or abs(longitude) > 180_000_000:
        raise Refusal(
            "A latitude ends at 90 degrees and a longitude at 180.",
            "Write latitude, then longitude: 54.321, -2.345",
            "latitude_millionths",
        )
    return latitude, longitude


def _millionths(degrees: str) -> int:
    return int((Decimal(degrees.replace(",", ".")) * 1_000_000).to_integral_value())


def map_text(place: MapPlace) -> str:
    """'54.321, -2.345'."""
    return ", ".join(_degrees(part) for part in place)


def _degrees(millionths: int) -> str:
    whole, rest = divmod(abs(millionths), 1_000_000)
    figures = f"{whole}.{rest:06d}".rstrip("0")
    return f"{'-' if millionths < 0 else ''}{figures}{'0' if figures.endswith('.') else ''}"


def sun_words(killed_on: date | None, place: MapPlace | None) -> str:
    """When the sun rose and set there that day; '' where the day, the place or the sun is not known."""
    from gametrace.domain.night import CIVIL_TIME, INDICATION, sun_on
    from gametrace.facts.night import united_kingdom

    if killed_on is None or place is None or not united_kingdom().holds(*place):
        return ""
    sun = sun_on(killed_on, *place)
    rises, sets = (one.astimezone(CIVIL_TIME).strftime("%H:%M") for one in (sun.rises, sun.sets))
    return f"Sunrise there {rises}, sunset {sets}. {INDICATION}"


class MapEdit(TypedEdit):
    """A place as latitude and longitude in millionths of a degree."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Place on the map", hint="54.321, -2.345", parent=parent)

    def _read(self, typed: str) -> MapPlace:
        return parse_map(typed)

    def _written(self, value: MapPlace) -> str:
        return map_text(value)


class KillDetails(QWidget):
    """Signals: changed()."""

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.map = MapEdit()
        self.sun = Words("", "quiet")
        self.ammunition = ChoiceRow(AMMUNITION, value="", name="Ammunition")
        self.setLayout(
            column(
                Field("Latitude, longitude in degrees", self.map, name="latitude_millionths"),
                self.sun,
                Field("Ammunition", self.ammunition, name="ammunition"),
            )
        )
        self.sun.hide()
        self.map.changed.connect(self.changed)
        self.ammunition.changed.connect(self._chosen)

    def _chosen(self, ammunition: str) -> None:
        self.changed.emit()

    def show_sun(self, killed_on: date | None) -> None:
        """For the day typed beside it."""
        words = sun_words(killed_on, self.map.value_or_none())
        self.sun.say(words)
        self.sun.setVisible(bool(words))

    def set_values(self, place: MapPlace | None, ammunition: str) -> None:
        self.map.set_value(place)
        self.ammunition.set_value(ammunition)
        self.show_sun(None)
