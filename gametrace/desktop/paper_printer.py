"""Takes a finished paper to a printer of this machine through Qt's print support, in the printer's own dots.

The printer gets the very paper the preview shows, in black and white without greys: a label printer would
scatter them into the square code. Nothing of Qt's print support is imported before it is asked for.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from gametrace.domain.errors import Trouble

BLACK_BELOW = 128
MM_AN_INCH = 25.4
_FALLBACK_DPI = 300


def printer_names() -> list[str]:
    """The printers this machine knows, its own first choice first."""
    from PySide6.QtPrintSupport import QPrinterInfo

    first = QPrinterInfo.defaultPrinterName()
    names = list(QPrinterInfo.availablePrinterNames())
    return sorted(names, key=lambda name: (name != first, name.casefold()))


def printer_called(name: str) -> Any:
    """The printer of this name, ready for a paper. Trouble where it is gone."""
    from PySide6.QtPrintSupport import QPrinter, QPrinterInfo

    info = QPrinterInfo.printerInfo(name)
    if info.isNull():
        advice = "Switch it on, or choose another or the PDF, and print again."
        raise Trouble(f"The printer “{name}” is not there.", advice)
    return QPrinter(info, QPrinter.PrinterMode.HighResolution)


def print_paper(
    pdf: bytes,
    page_mm: tuple[float, float],
    printer: Any,
    title: str,
    progress: Callable[[int, int], None],
    dots_an_inch: int = _FALLBACK_DPI,
) -> int:
    """Print it; gives the number of pages. May run off the GUI thread, with the printer made there."""
    from PySide6.QtCore import QMarginsF, QRectF, QSizeF
    from PySide6.QtGui import QPageLayout, QPageSize, QPainter

    from gametrace.documents.page_pictures import page_count, page_pictures

    wide, high = page_mm
    size = QPageSize(QSizeF(min(page_mm), max(page_mm)), QPageSize.Unit.Millimeter, title)
    # Qt's own page sizes stand upright; a wide label is one of them turned.
    turned = QPageLayout.Orientation.Landscape if wide > high else QPageLayout.Orientation.Portrait
    printer.setFullPage(True)
    printer.setPageLayout(QPageLayout(size, turned, QMarginsF(0, 0, 0, 0)))
    printer.setFullPage(True)
    printer.setResolution(dots_an_inch)
    printer.setDocName(title)
    dots = printer.resolution() or dots_an_inch
    painter = QPainter()
    if not painter.begin(printer):
        advice = "See whether it is on and has paper, then print again."
        raise Trouble("The printer did not take the paper.", advice)
    try:
        total = page_count(pdf)
        for number, picture in enumerate(page_pictures(pdf, dots)):
            progress(number, total)
            if number and not printer.newPage():
                raise Trouble(f"The printer stopped after page {number}.", "Look at it, then print the rest.")
            target = QRectF(0, 0, wide / MM_AN_INCH * dots, high / MM_AN_INCH * dots)
            painter.drawImage(target, black_and_white(picture))
        return total
    finally:
        painter.end()


def grey_image(picture: Any) -> Any:
    """A page as an image in greys that holds its own bytes."""
    return _image(picture.greys, picture.across, picture.down)


def black_and_white(picture: Any) -> Any:
    """The same with every dot black or white."""
    table = bytes(0 if grey < BLACK_BELOW else 255 for grey in range(256))
    return _image(picture.greys.translate(table), picture.across, picture.down)


def _image(greys: bytes, across: int, down: int) -> Any:
    from PySide6.QtGui import QImage

    return QImage(greys, across, down, across, QImage.Format.Format_Grayscale8).copy()
