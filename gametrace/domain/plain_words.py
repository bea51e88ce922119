"""Words as a search compares them: lower case, without marks, split at everything but letters and figures."""

from __future__ import annotations

import re
import unicodedata

_APART = re.compile(r"[^0-9a-z]+")


def plain_words(text: str) -> tuple[str, ...]:
    """('26', '00417', 'e') from '26-00417-E'; ('cafe',) from 'Café'."""
    bare = text.lower()
    if not bare.isascii():
        bare = "".join(c for c in unicodedata.normalize("NFKD", bare) if not unicodedata.combining(c))
    return tuple(filter(None, _APART.split(bare)))


def plain_text(*texts: str) -> str:
    """Each word of the texts once, in the order met."""
    return " ".join(dict.fromkeys(plain_words(" ".join(texts))))
