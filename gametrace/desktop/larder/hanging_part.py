"""How long it may hang: the plan with its sources, and the reason asked where it hangs past its day."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.finding_panel import FindingPanel
from gametrace.desktop.parts.words import Words, column, set_role
from gametrace.domain.findings import Finding


@dataclass(frozen=True, slots=True)
class Hung:
    """Days from and to, the findings of today, and the reason given before."""

    line: str = ""
    is_over: bool = False
    findings: tuple[Finding, ...] = ()
    answer: str = ""


class HangingPart(QWidget):
    """Signals: reason_wanted(object): the reasons written, by finding."""

    reason_wanted = Signal(object)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.line = Words("", "strong")
        self.answer = Words("", "quiet")
        self.panel = FindingPanel(look)
        self.write = Button("Write the reason down")
        self.write.clicked.connect(self._wanted)
        self.setLayout(column(self.line, self.answer, self.panel, self.write, gap=8))
        self._shown = Hung()

    def show_hung(self, hung: Hung, *, is_other: bool) -> None:
        """Show it; a reason being typed for the same animal stays."""
        self.setVisible(bool(hung.line or hung.findings))
        self.line.say(hung.line)
        set_role(self.line, "amber" if hung.is_over and not hung.answer else "strong")
        self.line.setVisible(bool(hung.line))
        self.answer.say(f"Why it hangs on: {hung.answer}")
        self.answer.setVisible(hung.is_over and bool(hung.answer))
        if is_other or hung.answer != self._shown.answer:
            self.panel.forget()
        self.panel.set_findings(hung.findings)
        self.write.setVisible(hung.is_over)
        self._shown = hung

    def _wanted(self) -> None:
        self.reason_wanted.emit(self.panel.reasons())
