"""The lines of a text file of unknown encoding and line ends, in blocks, with bounds on what is taken.

Knows nothing of columns. UTF-8 is expected; UTF-16 is told by its mark or by its zeros; a byte that is
not UTF-8 is read as Latin-1, which is what a lone degree sign is in files of older loggers.
"""

from __future__ import annotations

import codecs
from collections.abc import Callable, Iterator
from io import SEEK_END, IncrementalNewlineDecoder
from typing import BinaryIO

from gametrace.domain.errors import Refusal, Trouble

MOST_BYTES = 200_000_000
LONGEST_LINE = 10_000
_BLOCK_BYTES = 1 << 18

_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),  # before UTF-16, whose mark it begins with
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_OTHER_KINDS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0", b"%PDF", b"\x1f\x8b")
_SPLIT_UP = "Ask the logger's own program for a shorter time, or split the file."


def _as_latin_1(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeDecodeError):
        raise error
    return error.object[error.start : error.end].decode("latin-1"), error.end


codecs.register_error("gametrace-latin-1", _as_latin_1)


def encoding_of(first: bytes) -> str:
    """The codec for a file that begins with these bytes."""
    for mark, encoding in _MARKS:
        if first.startswith(mark):
            return encoding
    sample = first[:4096]
    zeros_at_even, zeros_at_odd = sample[::2].count(0), sample[1::2].count(0)
    if 3 * zeros_at_odd > len(sample) // 2 > 3 * zeros_at_even:
        return "utf-16-le"
    if 3 * zeros_at_even > len(sample) // 2 > 3 * zeros_at_odd:
        return "utf-16-be"
    return "utf-8"


def first_lines_of(first: bytes) -> list[str]:
    """The lines in the first bytes of a file; the last one may be cut."""
    _refuse_other_kinds(first)
    decoder = _decoder(first)
    lines = _without_zeros(decoder.decode(first, final=True)).split("\n")
    _refuse_long(lines)
    return lines


def line_blocks(
    stream: BinaryIO,
    progress: Callable[[int, int], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> Iterator[list[str]]:
    """Blocks of lines without their ends. `progress` gets bytes done and in all, after every block."""
    total = _bytes_ahead(stream)
    done, tail = 0, ""
    piece = _read(stream)
    _refuse_other_kinds(piece)
    decoder = _decoder(piece)
    while piece:
        following = _read(stream)
        done += len(piece)
        if max(done, total) > MOST_BYTES:
            raise Refusal(f"The file is larger than {MOST_BYTES // 1_000_000} MB.", _SPLIT_UP, "file")
        lines = (tail + _without_zeros(decoder.decode(piece, final=not following))).split("\n")
        _refuse_long(lines)
        tail = lines.pop() if following else ""
        yield lines
        if progress is not None:
            progress(done, max(done, total))
        if cancelled is not None and cancelled():
            raise Refusal("The reading of the file was stopped.", "Nothing was taken in.", "cancelled")
        piece = following


def _decoder(first: bytes) -> IncrementalNewlineDecoder:
    encoding = encoding_of(first)
    errors = "gametrace-latin-1" if encoding.startswith("utf-8") else "replace"
    return IncrementalNewlineDecoder(codecs.getincrementaldecoder(encoding)(errors), translate=True)


def _without_zeros(text: str) -> str:
    """A logger that lost its power may leave a stretch of zeros in the file."""
    return text.replace("\0", "") if "\0" in text else text


def _read(stream: BinaryIO) -> bytes:
    try:
        return stream.read(_BLOCK_BYTES)
    except OSError as error:
        raise Trouble("The file could not be read to its end.", "Copy it to this computer first.") from error


def _bytes_ahead(stream: BinaryIO) -> int:
    """How much there is to read, or nought where the stream cannot tell."""
    try:
        here = stream.tell()
        end = stream.seek(0, SEEK_END)
        stream.seek(here)
    except (OSError, ValueError):
        return 0
    return end - here


def _refuse_other_kinds(first: bytes) -> None:
    if not first:
        raise Refusal("The file is empty.", "Read the logger out again.", "file")
    if first.startswith(_OTHER_KINDS):
        raise Refusal(
            "This is a workbook, a packed file or a PDF, not a text of readings.",
            "Open it in its own program and save it as CSV.",
            "file",
        )


def _refuse_long(lines: list[str]) -> None:
    if max(map(len, lines)) > LONGEST_LINE:
        raise Refusal(
            f"The file has a line of more than {LONGEST_LINE} characters; no logger writes such a line.",
            "Look whether it is the right file.",
            "file",
        )
