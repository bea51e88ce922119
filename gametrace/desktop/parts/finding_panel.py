"""Findings in sentences beside the thing they speak of: mark, sentence, what to do, source in quiet type.

A finding that asks has one line for the reason. Reasons typed are kept while findings come and go.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QLineEdit, QVBoxLayout, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.state_sign import SignFace
from gametrace.desktop.parts.words import Words
from gametrace.desktop.style import GAP
from gametrace.domain.findings import Finding, Severity, rests_on

_ORDER = {Severity.STOP: 0, Severity.ASK: 1, Severity.NOTE: 2}
_ROLE = {Severity.STOP: "plum", Severity.ASK: "strong", Severity.NOTE: ""}


class FindingRow(QWidget):
    """One finding."""

    def __init__(
        self, look: Look, finding: Finding, *, with_reason: bool, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.finding = finding
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(2)
        grid.setColumnStretch(1, 1)
        grid.addWidget(SignFace(look, finding.severity.value, size=24), 0, 0, Qt.AlignmentFlag.AlignTop)
        self.sentence = Words(finding.sentence, _ROLE[finding.severity])
        grid.addWidget(self.sentence, 0, 1)
        if finding.what_to_do:
            grid.addWidget(Words(finding.what_to_do), 1, 1)
        if finding.source:
            grid.addWidget(Words(rests_on(finding.source, finding.status), "quiet"), 2, 1)
        self.reason = QLineEdit(self)
        self.reason.setPlaceholderText("Why?")
        self.reason.setMaxLength(300)
        self.reason.setAccessibleName(f"Why: {finding.sentence}")
        self.reason.setVisible(with_reason)
        grid.addWidget(self.reason, 3, 1)
        self.setAccessibleName(f"{finding.severity.value}: {finding.sentence}")


class FindingPanel(QWidget):
    """All findings of one thing, hardest first.

    `reasons()` gives what was written, by the finding's code. `asks=False` where nothing is to be answered.
    Signals: changed(): a reason was written.
    """

    changed = Signal()

    def __init__(
        self, look: Look, *, asks: bool = True, empty: str = "", parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._look, self._asks = look, asks
        self._rows: dict[str, FindingRow] = {}
        self._reasons: dict[str, str] = {}
        self._empty = Words(empty, "quiet", parent=self)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(GAP)
        self._layout.addWidget(self._empty)
        self._empty.setVisible(bool(empty))
        self.setAccessibleName("Findings")

    def set_findings(self, findings: Sequence[Finding]) -> None:
        """Show these; rows that stay are not touched, so that a reason being typed is not disturbed."""
        wanted = sorted(findings, key=_hardness)
        keys = [_key(finding) for finding in wanted]
        for key in [key for key in self._rows if key not in keys]:
            row = self._rows.pop(key)
            self._layout.removeWidget(row)
            row.hide()
            row.deleteLater()
        for at, (key, finding) in enumerate(zip(keys, wanted, strict=True)):
            row = self._rows.get(key) or self._new_row(key, finding)
            self._layout.removeWidget(row)
            self._layout.insertWidget(at, row)
            row.show()
        self._empty.setVisible(not wanted and bool(self._empty.text()))

    def _new_row(self, key: str, finding: Finding) -> FindingRow:
        row = FindingRow(self._look, finding, with_reason=self._asks and finding.severity == Severity.ASK)
        row.reason.setText(self._reasons.get(finding.code, ""))
        row.reason.textEdited.connect(self._reason_written)
        self._rows[key] = row
        return row

    def findings(self) -> tuple[Finding, ...]:
        return tuple(row.finding for row in self._rows.values())

    def reasons(self) -> dict[str, str]:
        """What was written, by code, of the findings that are shown."""
        shown = {row.finding.code for row in self._rows.values()}
        return {code: text for code, text in self._reasons.items() if code in shown and text}

    def give_reasons(self, reasons: Mapping[str, str]) -> None:
        """Reasons written before, by code, to stand in the lines of findings shown from now on."""
        self._reasons.update(reasons)

    def unanswered(self) -> tuple[Finding, ...]:
        """Those that ask and have no reason yet."""
        given = self.reasons()
        return tuple(f for f in self.findings() if f.severity == Severity.ASK and f.code not in given)

    def forget(self) -> None:
        """Start anew for another thing."""
        self._reasons.clear()
        self.set_findings(())

    def focus_first_ask(self) -> None:
        for finding in self.unanswered():
            self._rows[_key(finding)].reason.setFocus()
            return

    def _reason_written(self, text: str) -> None:
        for row in self._rows.values():
            if row.reason is self.sender():
                self._reasons[row.finding.code] = text.strip()
        self.changed.emit()


def _key(finding: Finding) -> str:
    return f"{finding.code}|{finding.severity}|{finding.sentence}|{finding.what_to_do}"


def _hardness(finding: Finding) -> int:
    return _ORDER[finding.severity]
