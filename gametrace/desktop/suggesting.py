"""What the typed letters may mean, in a list under the one box: as one types, without leaving the page.

The list never takes the focus. Down and up walk in it, Enter takes what is marked, Escape puts it away. Made
when the first letter is typed.
"""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtCore import QEvent, QPoint, QSize, Qt, QTimer, Signal
from PySide6.QtWidgets import QLineEdit, QListWidget, QListWidgetItem, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.parts.words import shown

WAIT_MS = 120  # after the last letter
MOST = 8
LEAST_WIDTH = 560
_CODE = Qt.ItemDataRole.UserRole


def suggest_under(window: Any) -> Suggestions:
    """The list for a window's box; what is taken from it is traced."""
    made = Suggestions(window.scan_field, window.bench, window)
    made.taken.connect(partial(window.go, "trace"))
    made.begin()
    return made


class Suggestions(QListWidget):
    """Signals: taken(str): the code of what was chosen."""

    taken = Signal(str)

    def __init__(self, edit: QLineEdit, bench: Bench, parent: QWidget) -> None:
        super().__init__(parent)
        self._edit, self._bench, self._over = edit, bench, parent
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName("What this may be")
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.hide()
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(WAIT_MS)
        self._timer.timeout.connect(self.look)
        edit.textEdited.connect(self._edited)
        edit.installEventFilter(self)
        self.itemClicked.connect(self._take)

    def begin(self) -> None:
        """The first letter made this list: look for it too."""
        self._timer.start()

    def _edited(self, _text: str) -> None:
        self._timer.start()

    def look(self) -> None:
        """Show what the letters may mean now; nothing where nothing does or the box was left."""
        text = self._edit.text().strip()
        is_asked = self._edit.hasFocus() and len(text) >= 2 and not self._is_locked()
        hits = self._bench.guarded(self._find) if is_asked else ()
        self.clear()
        for hit in hits or ():
            item = QListWidgetItem(shown(f"{hit.code}   {hit.words}", 90))
            item.setData(_CODE, hit.code)
            item.setSizeHint(QSize(0, 44))
            self.addItem(item)
        self.setVisible(self.count() > 0)
        if self.count():
            corner = self._edit.mapTo(self._over, QPoint(0, self._edit.height() + 2))
            height = 44 * self.count() + 2 * self.frameWidth()
            self.setGeometry(
                corner.x(), corner.y(), max(self._edit.width(), self._bench.look.px(LEAST_WIDTH)), height
            )
            self.raise_()

    def _is_locked(self) -> bool:
        """While the window waits for a PIN nothing of the register is shown."""
        locking = getattr(self._over, "locking", None)
        return bool(locking and locking.is_locked)

    def _find(self):
        return self._bench.ask("find", self._edit.text(), limit=MOST)

    def _take(self, item: QListWidgetItem) -> None:
        code = item.data(_CODE)
        self._timer.stop()
        self.hide()
        self._edit.clear()
        self.taken.emit(code)

    def eventFilter(self, watched, event) -> bool:
        if event.type() == QEvent.Type.FocusOut:
            self.hide()
        elif event.type() == QEvent.Type.KeyPress and self.isVisible():
            return self._key(event.key())
        elif event.type() == QEvent.Type.KeyPress and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._timer.stop()
        return super().eventFilter(watched, event)

    def _key(self, key: int) -> bool:
        if key in (Qt.Key.Key_Down, Qt.Key.Key_Up):
            step = 1 if key == Qt.Key.Key_Down else -1
            self.setCurrentRow(min(max(self.currentRow() + step, 0), self.count() - 1))
            return True
        if key == Qt.Key.Key_Escape:
            self.hide()
            return True
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._timer.stop()
            if self.currentRow() >= 0:
                self._take(self.currentItem())
                return True
            self.hide()
        return False
