"""Brings pictures in, by file, camera, paste or drop, has each made fit aside, and hands it on to be kept.

The chooser of files is handed in, so that no test waits at a dialog.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QBuffer, QEvent, QIODevice, QMimeData, QObject, Qt
from PySide6.QtGui import QGuiApplication, QImage, QKeySequence, QShortcut
from PySide6.QtWidgets import QLineEdit, QPlainTextEdit, QWidget

from gametrace.desktop.bench import Bench
from gametrace.desktop.delivery.fold import Fold
from gametrace.domain.errors import Refusal, Trouble

KINDS = "Pictures and PDF (*.jpg *.jpeg *.png *.webp *.pdf)"
NOTHING = Refusal("There is no picture on the clipboard.", "Copy one first, or choose a file.", "content")

# What is kept is decided when the picture is given: the page may show another carcass once it is ready.
Keep = Callable[[str, Any], None]


def read_file(path: Path) -> bytes:
    """The bytes of a file; one too large is refused before it is read."""
    from gametrace.exchange.pictures import MOST_BYTES

    try:
        if path.stat().st_size > MOST_BYTES:
            raise Refusal(
                f"“{path.name}” is larger than {MOST_BYTES // 1_000_000} MB.",
                "Take the photograph smaller, or photograph the card alone.",
                "content",
            )
        return path.read_bytes()
    except OSError as error:
        sentence = f"“{path.name}” cannot be read: {error.strerror or error}."
        raise Trouble(sentence, "Choose another file, or copy this one first.") from error


def given_in(mime: QMimeData | None) -> tuple[bytes | Path, ...]:
    """The pictures that were pasted or dropped: files, or the picture itself."""
    if mime is None:
        return ()
    files = tuple(Path(url.toLocalFile()) for url in mime.urls() if url.isLocalFile())
    if files:
        return files
    image = mime.imageData() if mime.hasImage() else None
    return (_png(image),) if isinstance(image, QImage) and not image.isNull() else ()


def _png(image: QImage) -> bytes:
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(buffer, "PNG")  # type: ignore[call-overload]
    return bytes(buffer.data().data())


def _made_ready(given: bytes | Path, progress: Callable[[int, int], None]) -> Any:
    """Off the GUI thread."""
    from gametrace.exchange.pictures import prepared

    return prepared(read_file(given) if isinstance(given, Path) else given)


class Pictures(QObject):
    """`keep_as()` gives the call that keeps a picture of the carcass on show now.

    `which_file` is asked for a file; without one the desktop is asked.
    """

    def __init__(self, page: QWidget, fold: Fold, bench: Bench, keep_as: Callable[[], Keep | None]) -> None:
        super().__init__(page)
        self._page, self._fold, self._bench, self._keep_as = page, fold, bench, keep_as
        self.which_file: Callable[[str, str], Path | None] | None = None
        self._is_wired = False
        page.setAcceptDrops(True)
        page.installEventFilter(self)
        fold.grew.connect(self.watch)
        shortcut = QShortcut(QKeySequence(QKeySequence.StandardKey.Paste), page)
        shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        shortcut.activated.connect(self.paste)
        self.watch()

    @property
    def part(self) -> Any:
        return self._fold.inner

    def watch(self) -> None:
        """A picture is pasted from within a line of text too, which would take the keys for itself."""
        for kind in (QLineEdit, QPlainTextEdit):
            for edit in self._page.findChildren(kind):
                edit.installEventFilter(self)
        if self._fold.is_made and not self._is_wired:
            self._is_wired = True
            self.part.file_wanted.connect(self.choose)
            self.part.paste_wanted.connect(self.paste)
            self.part.taken.connect(self.take_image)

    def choose(self) -> None:
        """Ask for a file."""
        ask = self.which_file
        if ask is None:
            from gametrace.desktop.questions import DesktopQuestions

            ask = DesktopQuestions(self._page.window()).which_file
        path = ask("Choose a picture", KINDS)
        if path is not None:
            self.take((path,))

    def paste(self) -> None:
        self.take(given_in(QGuiApplication.clipboard().mimeData()))

    def take_image(self, image: QImage) -> None:
        self.take((_png(image),))

    def take(self, given: tuple[bytes | Path, ...]) -> None:
        """Have these made ready and kept, one after another."""
        keep = self._keep_as()
        if keep is None:
            return
        self._fold.set_open(True)
        self.part.clear_refusal()
        if not given:
            self._failed(NOTHING)
        for one in given:
            self.part.say_working(True)
            self._bench.errands.run(
                partial(_made_ready, one),
                done=partial(self._ready, keep, self.part.what()),
                failed=self._failed,
            )

    def _ready(self, keep: Keep, what: str, made: Any) -> None:
        self.part.say_working(False)
        keep(what, made)

    def _failed(self, error: Exception) -> None:
        self.part.say_working(False)
        if isinstance(error, (Refusal, Trouble)):
            self.part.refuse(str(error))
        else:
            self._bench.report_bug(error)

    def eventFilter(self, watched, event) -> bool:
        kind = event.type()
        if kind == QEvent.Type.ShortcutOverride and event.matches(QKeySequence.StandardKey.Paste):
            mime = QGuiApplication.clipboard().mimeData()
            if mime is not None and mime.hasImage() and not mime.hasText():
                event.ignore()
                return True  # the line of text is not asked; the page's shortcut has it
        if watched is not self._page:
            return False
        if kind in (QEvent.Type.DragEnter, QEvent.Type.DragMove):
            mime = event.mimeData()
            if mime.hasImage() or mime.hasUrls():
                event.acceptProposedAction()
                return True
        if kind == QEvent.Type.Drop:
            self.take(given_in(event.mimeData()))
            event.acceptProposedAction()
            return True
        return False
