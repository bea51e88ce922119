"""The trace as a picture: animals at the left, plates at the right, lines as thick as the grams that went.

Every thing in it is a button of its own. Right and left walk along the thickest line, up and down within a
column; Enter walks on towards the plates, or unfolds a fan. Where everything stands is `trace_layout`'s.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen
from PySide6.QtWidgets import QFrame, QScrollArea, QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.parts.trace_layout import Line, Node, Picture, lay_out
from gametrace.desktop.parts.trace_node import NodeButton
from gametrace.register.records import Trace

NODE_WIDTH, NARROW, NODE_HEIGHT, NODE_GAP = 256, 164, 56, 8
LEAST_GAP, MOST_GAP = 28, 180
THICKEST, THINNEST = 26.0, 1.5


class _Canvas(QWidget):
    """The ground of the picture: places the buttons and paints the lines."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self.setProperty("role", "ground")
        self._look = look
        self.picture = Picture((), ())
        self.buttons: dict[str, NodeButton] = {}
        self.chosen = ""

    def needed(self) -> QSize:
        columns = len(self.picture.columns)
        most = max((len(column) for column in self.picture.columns), default=0)
        px = self._look.px
        wide = columns * px(NARROW) + max(0, columns - 1) * px(LEAST_GAP)
        return QSize(wide, most * px(NODE_HEIGHT + NODE_GAP))

    def place_all(self) -> None:
        px = self._look.px
        columns = self.picture.columns
        if not columns:
            return
        share = (self.width() - (len(columns) - 1) * px(LEAST_GAP)) // len(columns)
        wide, high = min(max(share, px(NARROW)), px(NODE_WIDTH)), px(NODE_HEIGHT)
        gap = 0
        if len(columns) > 1:
            gap = (self.width() - len(columns) * wide) // (len(columns) - 1)
            gap = min(max(gap, px(LEAST_GAP)), px(MOST_GAP))
        for at, column in enumerate(columns):
            step = high + px(NODE_GAP)
            top = max(0, (self.height() - len(column) * step + px(NODE_GAP)) // 2)
            for row, node in enumerate(column):
                self.buttons[node.key].setGeometry(at * (wide + gap), top + row * step, wide, high)
        self.update()

    def resizeEvent(self, event) -> None:
        self.place_all()

    def paintEvent(self, event) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        scale = self._pixels_a_gram()
        used_out: dict[str, float] = {}
        used_in: dict[str, float] = {}
        order = sorted(self.picture.lines, key=self._by_place)
        totals_out = self._totals(order, "parent", scale)
        totals_in = self._totals(order, "child", scale)
        for line in order:
            thick = THINNEST + scale * line.grams
            start = self._edge(line.parent, used_out, totals_out, thick, right=True)
            end = self._edge(line.child, used_in, totals_in, thick, right=False)
            self._paint_line(painter, line, start, end, thick)

    def _pixels_a_gram(self) -> float:
        """One measure for the whole picture: all that leaves or enters a thing fits on its edge."""
        most = max((line.grams for line in self.picture.lines), default=0)
        sums: dict[tuple[str, str], int] = {}
        for line in self.picture.lines:
            for end in (("out", line.parent), ("in", line.child)):
                sums[end] = sums.get(end, 0) + line.grams
        widest = max(sums.values(), default=0)
        if not most:
            return 0.0
        return min(self._look.px(THICKEST) / most, self._look.px(NODE_HEIGHT - 8) / widest)

    def _by_place(self, line: Line) -> tuple[int, int]:
        return self.buttons[line.child].y(), self.buttons[line.parent].y()

    def _totals(self, lines: list[Line], side: str, scale: float) -> dict[str, float]:
        totals: dict[str, float] = {}
        for line in lines:
            key = getattr(line, side)
            totals[key] = totals.get(key, 0.0) + THINNEST + scale * line.grams
        return totals

    def _edge(self, key: str, used: dict[str, float], totals: dict[str, float], thick: float, *, right: bool):
        """The next free place at a node's edge; lines lie beside one another, squeezed where many."""
        box = self.buttons[key].geometry()
        room = min(totals[key], box.height() - 8.0)
        share = room / totals[key]
        at = box.center().y() + 0.5 - room / 2 + (used.get(key, 0.0) + thick / 2) * share
        used[key] = used.get(key, 0.0) + thick
        return QPointF(box.right() if right else box.left(), at)

    def _paint_line(self, painter: QPainter, line: Line, start: QPointF, end: QPointF, thick: float) -> None:
        path = QPainterPath(start)
        bend = max(24.0, (end.x() - start.x()) / 2)
        path.cubicTo(start + QPointF(bend, 0), end - QPointF(bend, 0), end)
        is_lit = self.chosen in (line.parent, line.child)
        colour = QColor(self._look.colour("pine" if is_lit else "line"))
        colour.setAlpha(235 if is_lit else 150)
        pen = QPen(colour, thick)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPath(path)


class TracePicture(QScrollArea):
    """Give it a trace; it keeps which fans are unfolded while the same thing is traced.

    Signals: chosen(str): the code in the hand ('' for a fan).
    """

    chosen = Signal(str)

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look = look
        self._trace: Trace | None = None
        self._unfolded: frozenset[str] = frozenset()
        self._canvas = _Canvas(look)
        self.setWidget(self._canvas)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName("The way from animals to plates")
        look.changed.connect(self._canvas.update)

    def set_trace(self, trace: Trace | None) -> None:
        if trace is None or self._trace is None or trace.code != self._trace.code:
            self._unfolded = frozenset()
        self._trace = trace
        self._draw()
        if trace is not None:
            self.choose(trace.code)
        QTimer.singleShot(0, self, self._keep_in_sight)

    @property
    def picture(self) -> Picture:
        return self._canvas.picture

    @property
    def canvas(self) -> QWidget:
        """The whole picture, also what is scrolled out of sight."""
        return self._canvas

    @property
    def is_unfolded(self) -> bool:
        return bool(self._unfolded)

    def fold(self) -> None:
        """All fans together again."""
        self._unfolded = frozenset()
        self._draw()

    def button(self, key: str) -> NodeButton | None:
        return self._canvas.buttons.get(key)

    def choose(self, key: str, *, focus: bool = False) -> None:
        """Take a thing into the hand: its lines are lit."""
        button = self._canvas.buttons.get(key)
        self._canvas.chosen = key if button is not None else ""
        for other in self._canvas.buttons.values():
            other.setChecked(other is button)
        self._canvas.update()
        if button is not None:
            if focus:
                button.setFocus(Qt.FocusReason.OtherFocusReason)
            self.ensureWidgetVisible(button, 24, 24)

    def take_focus(self, key: str) -> None:
        """The hand goes to this thing, or to the first in the picture."""
        button = self.button(key) or next(iter(self._canvas.buttons.values()), None)
        if button is not None:
            button.setFocus(Qt.FocusReason.OtherFocusReason)

    def resizeEvent(self, event) -> None:
        super().resizeEvent(event)
        self._keep_in_sight()

    def _keep_in_sight(self) -> None:
        """Once everything has its place: what is in the hand stands in the middle."""
        button = self._canvas.buttons.get(self._canvas.chosen)
        if button is not None:
            self.ensureWidgetVisible(button, 24, self.viewport().height() // 2)
        else:
            bar = self.verticalScrollBar()
            bar.setValue((bar.minimum() + bar.maximum()) // 2)

    def _draw(self) -> None:
        canvas = self._canvas
        for button in canvas.buttons.values():
            button.hide()
            button.setParent(None)
            button.deleteLater()
        canvas.picture = Picture((), ()) if self._trace is None else lay_out(self._trace, self._unfolded)
        canvas.buttons = {}
        for column in canvas.picture.columns:
            for node in column:
                button = NodeButton(self._look, node, canvas)
                button.clicked.connect(self._clicked)
                button.walked.connect(self._walked)
                button.show()
                canvas.buttons[node.key] = button
        canvas.setMinimumSize(canvas.needed())
        canvas.place_all()

    def _clicked(self) -> None:
        button = self.sender()
        if isinstance(button, NodeButton):
            self._take(button.node)

    def _take(self, node: Node) -> None:
        if node.members:
            self._unfolded |= {node.key}
            self._draw()
            self.choose(node.members[0], focus=True)
            self.chosen.emit(node.members[0])
            return
        self.choose(node.key, focus=True)
        self.chosen.emit(node.key)

    def _walked(self, way: str) -> None:
        button = self.sender()
        if not isinstance(button, NodeButton):
            return
        node = button.node
        if way == "on" and node.members:
            self._take(node)
            return
        target = self._neighbour(node, way)
        if target:
            self.choose(target, focus=True)
            found = self.picture.node(target)
            self.chosen.emit("" if found is None or found.members else target)

    def _neighbour(self, node: Node, way: str) -> str:
        if way in ("right", "on"):
            lines = self.picture.children(node.key)
            return lines[0].child if lines else ""
        if way == "left":
            lines = self.picture.parents(node.key)
            return lines[0].parent if lines else ""
        for column in self.picture.columns:
            if node in column:
                at = column.index(node) + (1 if way == "down" else -1)
                return column[at].key if 0 <= at < len(column) else ""
        return ""
