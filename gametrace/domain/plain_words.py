"""Words as a search compares them: lower case, without marks, split at everything but letters and figures."""

from __future__ import annotations

import re
import unicodedata

_APART = re.compile(r"[^0-9a-z]+")


def plain_words(text: str) -> tuple[str, ...]:
    """('26', '00417', 'e') from '26-00417-E'; ('cafe',) from 'Café'."""
    bare = "".join(c for c in unicodedata.normalize("NFKD", text.lower()) if not unicodedata.combining(c))
    return tuple(word for word in _APART.split(bare) if word)


def plain_text(*texts: str) -> str:
    """Each word of the texts once, in the order met."""
    return " ".join(dict.fromkeys(word for text in texts for word in plain_words(text)))
