"""One spelling for every journal entry: JSON as RFC 8785 writes it, without its numbers.

Entries hold text, whole numbers, true, false and null only, so the hard part of RFC 8785 (floats) cannot
arise: a float is refused rather than spelled. The seal is SHA-256 over this spelling.
"""

from __future__ import annotations

import hashlib
import json

_SAFE_INTEGER = 2**53 - 1  # RFC 8785 inherits the exact range of a double


def canonical(value: object) -> str:
    """The RFC 8785 text of `value`. Raises ValueError on floats, huge integers and lone surrogates."""
    text = json.dumps(_ordered(value), ensure_ascii=False, separators=(",", ":"))
    text.encode("utf-8")  # a lone surrogate fails here, as the RFC asks
    return text


def _ordered(value: object) -> object:
    if isinstance(value, dict):
        # The RFC sorts by UTF-16 code units, which differs from Python's order above U+FFFF.
        if not all(isinstance(key, str) for key in value):
            raise ValueError("only text can be a key")
        keys = sorted(value, key=lambda key: key.encode("utf-16-be", "surrogatepass"))
        return {key: _ordered(value[key]) for key in keys}
    if isinstance(value, list | tuple):
        return [_ordered(item) for item in value]
    if value is None or isinstance(value, str | bool):
        return str(value) if isinstance(value, str) else value
    if isinstance(value, int) and abs(value) <= _SAFE_INTEGER:
        return int(value)
    raise ValueError(f"{value!r} has no place in an entry: text, whole numbers, true, false, null only")


def digest(text: str) -> str:
    """SHA-256 of the UTF-8 of `text`, in lower-case hexadecimal."""
    return hashlib.sha256(text.encode("utf-8")).hexdigest()
