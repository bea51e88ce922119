"""Makes a picture fit to be kept with a carcass: known by its bytes, upright, not too large, no metadata.

It reads and gives bytes; whether it shows what it should is for a person to see. Nothing is written here.
"""

from __future__ import annotations

import hashlib
import io
import warnings
from dataclasses import dataclass

from PIL import Image, ImageOps, UnidentifiedImageError

from gametrace.domain.errors import Refusal

MOST_BYTES = 25_000_000  # of a file that is looked at at all
MOST_PDF_BYTES = 6_000_000
MOST_PIXELS = 80_000_000  # a telephone's largest today; beyond it a small file may fill the memory
LONGEST_SIDE = 2_000
JPEG_QUALITY = 85
MOST_PNG_BYTES = 1_500_000  # a drawing or a scan stays a PNG; a photograph saved as one does not

_READ = ("JPEG", "PNG", "WEBP")
_HEIC = (b"ftypheic", b"ftypheix", b"ftypmif1", b"ftyphevc", b"ftypavif")


@dataclass(frozen=True, slots=True)
class Prepared:
    """What is kept, and the SHA-256 of what was given. A PDF has no width and height (0)."""

    content: bytes
    media_type: str
    original_hash: str
    width: int
    height: int


def prepared(content: bytes) -> Prepared:
    """The picture made ready, or a Refusal that says why it cannot be kept.

    A PDF is kept as it is. Every other picture is written anew, so that nothing a camera wrote beside the
    picture (its place, its owner) goes into the register.
    """
    if not content:
        raise Refusal("There is nothing in this file.", "Choose another.", "content")
    if len(content) > MOST_BYTES:
        raise Refusal(
            f"This file has {_megabytes(len(content))} MB; {MOST_BYTES // 1_000_000} are looked at at most.",
            "Take the photograph smaller, or photograph the card alone.",
            "content",
        )
    original = hashlib.sha256(content).hexdigest()
    if content.startswith(b"%PDF-"):
        return _pdf(content, original)
    if any(mark in content[:32] for mark in _HEIC):
        raise Refusal(
            "This is a telephone's HEIC or AVIF picture, which is not read here.",
            "Save or send it as JPEG, then again.",
            "content",
        )
    return _picture(content, original)


def _pdf(content: bytes, original: str) -> Prepared:
    if len(content) > MOST_PDF_BYTES:
        raise Refusal(
            f"This PDF has {_megabytes(len(content))} MB; {MOST_PDF_BYTES // 1_000_000} fit.",
            "Scan it in grey or coarser, or photograph it.",
            "content",
        )
    return Prepared(content, "application/pdf", original, 0, 0)


def _picture(content: bytes, original: str) -> Prepared:
    try:
        with warnings.catch_warnings():
            # Pillow only warns of a picture that would fill the memory; here it is refused.
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(io.BytesIO(content), formats=_READ) as given:
                _check_pixels(given.size)
                was_png = given.format == "PNG"
                given.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))  # a JPEG is read no larger than it must be
                upright = _upright(given)
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise _too_many() from error
    except UnidentifiedImageError as error:
        raise Refusal(
            "This is no JPEG, PNG or WebP picture and no PDF.",
            "Save it as one of these, then again.",
            "content",
        ) from error
    except (OSError, SyntaxError, ValueError, EOFError) as error:
        raise Refusal(
            "This picture is damaged and cannot be read to its end.", "Take or copy it again.", "content"
        ) from error
    kept, media_type = _written(upright, as_png=was_png)
    return Prepared(kept, media_type, original, upright.width, upright.height)


def _check_pixels(size: tuple[int, int]) -> None:
    width, height = size
    if width * height > MOST_PIXELS or width < 1 or height < 1:
        raise _too_many()


def _too_many() -> Refusal:
    return Refusal(
        f"This picture has more than {MOST_PIXELS // 1_000_000} million points.",
        "Take it smaller, or photograph the card alone.",
        "content",
    )


def _upright(given: Image.Image) -> Image.Image:
    """Turned as the camera was held, on white where it is see-through, and no larger than is kept."""
    turned = ImageOps.exif_transpose(given)
    if turned.mode in ("RGBA", "LA", "PA") or "transparency" in turned.info:
        whole = turned.convert("RGBA")
        ground = Image.new("RGB", whole.size, "white")
        ground.paste(whole, mask=whole.getchannel("A"))
        turned = ground
    plain = turned.convert("L" if turned.mode in ("1", "L") else "RGB")
    plain.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
    return plain


def _written(plain: Image.Image, *, as_png: bool) -> tuple[bytes, str]:
    """The pixels alone: a new picture takes no metadata along."""
    bare = Image.frombytes(plain.mode, plain.size, plain.tobytes())
    if as_png:
        out = io.BytesIO()
        bare.save(out, "PNG", optimize=True)
        if out.tell() <= MOST_PNG_BYTES:
            return out.getvalue(), "image/png"
    out = io.BytesIO()
    bare.save(out, "JPEG", quality=JPEG_QUALITY, optimize=True)
    return out.getvalue(), "image/jpeg"


def _megabytes(count: int) -> str:
    tenths = -(-count // 100_000)
    return f"{tenths // 10}.{tenths % 10}"
