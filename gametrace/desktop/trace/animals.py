"""The animals of a trace in full: share, killing, supplier, declaration; and what the register has found."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QVBoxLayout, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.big_button import Button
from gametrace.desktop.parts.finding_panel import FindingPanel
from gametrace.desktop.parts.sheet import ScrollColumn
from gametrace.desktop.parts.words import Words
from gametrace.desktop.trace.wording import animal_lines, animal_share, animal_title
from gametrace.register.records import Trace, TraceAnimal

Told = tuple[Sequence[str], Sequence[str]]
AT_ONCE = 12  # a supplier of many years has hundreds; the rest comes when asked for
MOST_FINDINGS = 8


class AnimalsColumn(ScrollColumn):
    """Scrolls; shows a dozen at once and more on demand."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self._blocks: dict[str, QWidget] = {}
        self._waiting: list[TraceAnimal] = []
        self._list = QVBoxLayout()
        self.more = Button("")

    def show_trace(self, trace: Trace, told: Told = ((), ())) -> None:
        """`told`: what has lapsed and the scorecard, where a supplier is traced."""
        self.start_anew()
        self._blocks = {}
        self._waiting = list(trace.animals)
        self._list = QVBoxLayout()
        self._list.setSpacing(16)
        self._add_told(*told)
        self.add(self._list)
        self.more = Button("")
        self.more.clicked.connect(self.show_more)
        self.add(self.more)
        self._add_findings(trace)
        self.add_stretch()
        self.show_more()

    def show_more(self) -> None:
        """The next dozen."""
        now, self._waiting = self._waiting[:AT_ONCE], self._waiting[AT_ONCE:]
        for animal in now:
            block = _block(animal)
            self._blocks[animal.code] = block
            self._list.addWidget(block)
        self.more.setText(f"{len(self._waiting)} more animals")
        self.more.setAccessibleName(self.more.text())
        self.more.setVisible(bool(self._waiting))

    def show_code(self, code: str) -> None:
        """Bring one animal into sight."""
        if (block := self._blocks.get(code)) is not None:
            self.ensureWidgetVisible(block, 0, 0)

    def _add_told(self, lapses: Sequence[str], scores: Sequence[str]) -> None:
        if not lapses and not scores:
            return
        self.add(Words("From this larder's own records", "strong"))
        for lines, role in ((lapses, "amber"), (scores, "")):
            for line in lines:
                self.add(Words(line, role))

    def _add_findings(self, trace: Trace) -> None:
        if not trace.findings:
            return
        panel = FindingPanel(self._look, asks=False)
        panel.set_findings(trace.findings[:MOST_FINDINGS])
        self.add(panel)
        if len(trace.findings) > MOST_FINDINGS:
            left = len(trace.findings) - MOST_FINDINGS
            self.add(Words(f"And {left} more; trace one animal to see its own.", "quiet"))


def _block(animal: TraceAnimal) -> QWidget:
    block = QWidget()
    layout = QVBoxLayout(block)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(2)
    layout.addWidget(Words(animal_title(animal), "strong"))
    layout.addWidget(Words(animal_share(animal), "large"))
    layout.addWidget(Words("\n".join(animal_lines(animal))))
    return block
