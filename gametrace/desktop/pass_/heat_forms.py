"""Temperatures of a dish: cooked, kept hot, cooled, reheated. What the tables ask is said as it is typed."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QWidget

from gametrace.desktop.parts.duration_edit import DurationEdit
from gametrace.desktop.parts.kilo_edit import CoreEdit
from gametrace.desktop.pass_.record_form import RecordForm
from gametrace.domain.cooking import LOWEST_TENTHS_C, cook_demand, time_text
from gametrace.domain.quantities import celsius_text

_PLAN = "the kitchen's own plan, if followed"


class HeatForm(RecordForm):
    """One temperature and one time. `act` is what it writes down, `time_as` how that act calls its time."""

    def __init__(
        self, act: str, time_as: str, words: tuple[str, str, str, str], parent: QWidget | None = None
    ) -> None:
        hint, heat, time, button = words
        super().__init__(hint, button, parent)
        self.act_name, self._time_as = act, time_as
        self.heat: CoreEdit = self.add("tenths_c", heat, CoreEdit(heat))
        self.time: DurationEdit = self.add(time_as, time, DurationEdit(time, field=time_as))
        self.line("probe", "Probe", hint="may stay empty", most=80)
        self.line("note", "Note", hint=_PLAN, most=500)
        self.finish()
        if act in ("record_cooking", "record_reheat"):
            self.heat.changed.connect(self._say_asked)

    def given(self) -> dict[str, Any]:
        """What the act is called with; a Refusal where something is missing."""
        heat = self.needed("tenths_c", "The temperature is missing.")
        seconds = self.value(self._time_as)
        if seconds is None and self.act_name != "record_hot_hold":
            self.needed(self._time_as, "How long? The time is missing.")
        time = seconds or 0
        return {
            "tenths_c": heat,
            self._time_as: time if self._time_as == "seconds" else (time + 59) // 60,
            "probe": self.value("probe"),
            "note": self.value("note"),
        }

    def _say_asked(self) -> None:
        tenths = self.heat.value_or_none()
        hint = self.fields["tenths_c"].hint
        hint.setVisible(tenths is not None)
        if tenths is None:
            return
        if not LOWEST_TENTHS_C <= tenths <= 1300:
            hint.say("Below 60 °C neither published table has a line.")
            return
        asked = cook_demand(tenths)
        hint.say(
            f"At {celsius_text(tenths)}: {time_text(asked.seconds)}, the longer of "
            f"{time_text(asked.business_seconds)} (business table) and "
            f"{time_text(asked.committee_seconds)} (committee's)."
        )


def cook_form() -> HeatForm:
    return HeatForm(
        "record_cooking",
        "seconds",
        ("", "At the core", "Held for", "Write down: cooked"),
    )


def hold_form() -> HeatForm:
    return HeatForm(
        "record_hot_hold",
        "minutes_below",
        (
            "The coldest reading while it was kept hot. Leave the time empty where it never fell below.",
            "Kept at",
            "Below the figure for",
            "Write down: kept hot",
        ),
    )


def cool_form() -> HeatForm:
    return HeatForm("record_cooling", "minutes", ("", "Cooled to", "In", "Write down: cooled"))


def reheat_form() -> HeatForm:
    return HeatForm("record_reheat", "seconds", ("", "At the core", "Held for", "Write down: reheated"))
