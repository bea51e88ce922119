"""Shows a refusal at a field once, also where the field itself has already said that it cannot be read."""

from __future__ import annotations

from PySide6.QtCore import Qt

from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.typed_edit import TypedEdit


def refuse_at(field: Field, sentence: str) -> None:
    """The sentence under the field and the hand in it."""
    inner = field.inner
    if isinstance(inner, TypedEdit) and inner.sentence.isVisibleTo(inner):
        inner.setFocus(Qt.FocusReason.OtherFocusReason)
        return
    field.refuse(sentence)
