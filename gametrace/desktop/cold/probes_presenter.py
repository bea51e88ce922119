"""Shows the probes with what the rule says of their last check, adds one, and writes a check down."""

from __future__ import annotations

import uuid

from PySide6.QtCore import QObject

from gametrace.desktop.bench import Bench
from gametrace.desktop.cold.probes_page import ProbesPage
from gametrace.domain.errors import Refusal
from gametrace.domain.quantities import celsius_text
from gametrace.domain.temperatures import probe_findings


class ProbesPresenter(QObject):
    """One page, one bench."""

    def __init__(self, page: ProbesPage, bench: Bench) -> None:
        super().__init__(page)
        self.page, self.bench = page, bench
        page.check_wanted.connect(self._check)
        page.add_wanted.connect(self._add)

    def refresh(self) -> None:
        from gametrace.register.clock import wall_day, wall_text

        days, today = self.bench.ask("policies").probe_days, self.bench.today()
        probes = self.bench.ask("probes")
        told = []
        for one in probes:
            checked = wall_day(one.checked_at) if one.checked_at else None
            found = probe_findings(probe=one.name, last_checked_on=checked, on=today, days=days)
            said = f"Last checked {wall_text(one.checked_at)}." if one.checked_at else ""
            if one.ice_tenths_c is not None:
                said += f" In melting ice it read {celsius_text(one.ice_tenths_c)}."
            if one.boiling_tenths_c is not None:
                said += f" In boiling water it read {celsius_text(one.boiling_tenths_c)}."
            words = f"{found[0].sentence} {found[0].what_to_do}" if found else said
            told.append((f"{one.name} ({one.code})", words.strip(), bool(found)))
        self.page.set_probes([(one.code, one.name) for one in probes], told)

    def _check(self) -> None:
        page = self.page
        page.clear_refusals()
        if not page.probe.value():
            page.refuse("name" if not page.probe.values() else "probe", "Choose the probe, or add one first.")
            return
        try:
            ice, boiling = page.ice.value(), page.boiling.value()
        except Refusal as refusal:
            self._refused(refusal)
            return
        done = self.bench.attempt(
            "check_probe",
            on_refusal=self._refused,
            said="The check is written down.",
            probe=page.probe.value(),
            ice_tenths_c=ice,
            boiling_tenths_c=boiling,
            key=uuid.uuid4().hex,
        )
        if done is not None:
            page.ice.clear()
            page.boiling.clear()

    def _add(self) -> None:
        self.page.clear_refusals()
        name = self.page.name.text().strip()
        done = self.bench.attempt(
            "add_probe", on_refusal=self._refused, said=f"{name} added.", name=name, key=uuid.uuid4().hex
        )
        if done is not None:
            self.page.name.clear()
            self.page.probe.set_value(done.code)

    def _refused(self, refusal: Refusal) -> None:
        self.page.refuse(refusal.field, str(refusal))
