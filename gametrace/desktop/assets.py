"""The project's own fonts and drawings, found beside the package. A drawing is drawn in any colour and size.

Drawings are one-colour SVG whose ink is written as INK; a missing drawing is None, never an error, so that
a station can fall back to a plain shape.
"""

from __future__ import annotations

from functools import cache, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

import gametrace

if TYPE_CHECKING:
    from PySide6.QtGui import QIcon, QPainter, QPixmap
    from PySide6.QtSvg import QSvgRenderer

INK = "#1C2630"


@cache
def assets_folder() -> Path:
    """The clone's assets folder."""
    return Path(gametrace.__file__).resolve().parent.parent / "assets"


def font_files() -> list[Path]:
    """The weights the window uses; the bold one is the paper's."""
    folder = assets_folder() / "fonts"
    return [path for weight in ("Regular", "SemiBold") for path in folder.glob(f"*-{weight}.ttf")]


@cache
def drawing_path(name: str) -> Path | None:
    """Where a drawing lies: 'red' or 'species/red', with or without its folder."""
    root = assets_folder() / "drawings"
    direct = root / f"{name}.svg"
    if direct.is_file():
        return direct
    return next(iter(sorted(root.rglob(f"{name}.svg"))), None)


@lru_cache(maxsize=256)
def renderer(name: str, colour: str) -> QSvgRenderer | None:
    """The drawing in one colour, ready to paint; None where there is none."""
    from PySide6.QtCore import QByteArray, Qt
    from PySide6.QtSvg import QSvgRenderer

    path = drawing_path(name)
    if path is None:
        return None
    text = path.read_text(encoding="utf-8").replace(INK, colour).replace(INK.lower(), colour)
    made = QSvgRenderer(QByteArray(text.encode("utf-8")))
    made.setAspectRatioMode(Qt.AspectRatioMode.KeepAspectRatio)
    return made if made.isValid() else None


@lru_cache(maxsize=512)
def pixmap(name: str, colour: str, width: int, height: int, ratio: float = 1.0) -> QPixmap | None:
    """The drawing as a picture, sharp at the screen's own pixel ratio."""
    from PySide6.QtCore import QRectF, Qt
    from PySide6.QtGui import QPainter, QPixmap

    drawn = renderer(name, colour)
    if drawn is None:
        return None
    made = QPixmap(round(width * ratio), round(height * ratio))
    made.setDevicePixelRatio(ratio)
    made.fill(Qt.GlobalColor.transparent)
    painter = QPainter(made)
    drawn.render(painter, QRectF(0, 0, width, height))
    painter.end()
    return made


def icon(name: str, colour: str, size: int, ratio: float = 1.0) -> QIcon:
    """The drawing as an icon, empty where there is none."""
    from PySide6.QtGui import QIcon

    drawn = pixmap(name, colour, size, size, ratio)
    return QIcon() if drawn is None else QIcon(drawn)


def paint_drawing(painter: QPainter, name: str, colour: str, rect) -> bool:
    """Paint a drawing into a rectangle. False where there is none and the caller must draw a plain shape."""
    drawn = renderer(name, colour)
    if drawn is None:
        return False
    drawn.render(painter, rect)
    return True
