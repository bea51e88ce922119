"""The picture of a trace as it stands in the window, as SVG or PDF: the same things in the same places.

Lines and words stay lines and words, so it can be printed at any size. It is always drawn light, for paper.
"""

from __future__ import annotations

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMarginsF, QPoint, QSize, QSizeF
from PySide6.QtGui import QPageLayout, QPageSize, QPainter, QPdfWriter, QRegion
from PySide6.QtWidgets import QWidget

from gametrace.desktop.look import Look
from gametrace.desktop.palette import LIGHT

_DOTS_AN_INCH = 96


def picture_svg(canvas: QWidget, look: Look, title: str) -> bytes:
    from PySide6.QtSvg import QSvgGenerator

    made, buffer = _buffer()
    generator = QSvgGenerator()
    generator.setOutputDevice(buffer)
    generator.setSize(canvas.size())
    generator.setViewBox(canvas.rect())
    generator.setTitle(title)
    _paint(canvas, look, QPainter(generator), 1.0)
    buffer.close()
    return bytes(made.data())


def picture_pdf(canvas: QWidget, look: Look, title: str) -> bytes:
    """One page as large as the picture."""
    made, buffer = _buffer()
    writer = QPdfWriter(buffer)
    writer.setTitle(title)
    writer.setCreator("gametrace")
    size: QSize = canvas.size()
    points = QSizeF(size.width() * 72 / _DOTS_AN_INCH, size.height() * 72 / _DOTS_AN_INCH)
    page = QPageSize(points, QPageSize.Unit.Point, "", QPageSize.SizeMatchPolicy.ExactMatch)
    writer.setPageLayout(QPageLayout(page, QPageLayout.Orientation.Portrait, QMarginsF(0, 0, 0, 0)))
    _paint(canvas, look, QPainter(writer), writer.width() / size.width())
    buffer.close()
    return bytes(made.data())


def _buffer() -> tuple[QByteArray, QBuffer]:
    made = QByteArray()
    buffer = QBuffer(made)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    return made, buffer


def _paint(canvas: QWidget, look: Look, painter: QPainter, scale: float) -> None:
    """Without its ground and without the mark of the hand: what is left is the picture."""
    kept, look.palette = look.palette, LIGHT
    try:
        painter.scale(scale, scale)
        canvas.render(painter, QPoint(), QRegion(), QWidget.RenderFlag.DrawChildren)
        painter.end()
    finally:
        look.palette = kept
