"""Pictures made fit to be kept: by their bytes, upright, small enough, bare of what cameras write beside."""

from __future__ import annotations

import hashlib
import io
import struct
import zlib

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from PIL import Image

from gametrace.domain.errors import Refusal
from gametrace.exchange.pictures import LONGEST_SIDE, MOST_BYTES, MOST_PDF_BYTES, prepared

ORIENTATION, MAKER, GPS = 0x0112, 0x010F, 0x8825  # EXIF 2.3 tags


def encoded(size: tuple[int, int], form: str, mode: str = "RGB", **how: object) -> bytes:
    out = io.BytesIO()
    Image.radial_gradient("L").resize(size).convert(mode).save(out, form, **how)
    return out.getvalue()


def opened(content: bytes) -> Image.Image:
    return Image.open(io.BytesIO(content))


def test_a_large_photograph_is_reduced_and_the_hash_of_the_original_is_kept() -> None:
    photograph = encoded((4000, 3000), "JPEG", quality=95)
    kept = prepared(photograph)
    assert (kept.width, kept.height) == (2000, 1500)
    assert opened(kept.content).size == (2000, 1500)
    assert kept.media_type == "image/jpeg"
    assert kept.original_hash == hashlib.sha256(photograph).hexdigest()
    assert len(kept.content) < len(photograph)


def test_a_photograph_taken_sideways_stands_upright_and_carries_no_metadata() -> None:
    """EXIF orientation 6: the top of the picture is the right-hand side of the stored rows."""
    exif = Image.Exif()
    exif[ORIENTATION], exif[MAKER] = 6, "Somebody's telephone"
    exif.get_ifd(GPS)[1] = "N"
    stored = Image.new("RGB", (400, 200), "white")
    stored.paste((255, 0, 0), (0, 0, 40, 200))  # red on the left becomes red on top
    out = io.BytesIO()
    stored.save(out, "JPEG", exif=exif, comment=b"my garden")
    kept = prepared(out.getvalue())
    picture = opened(kept.content)
    assert picture.size == (200, 400)
    red, green, _ = picture.getpixel((100, 10))
    assert red > 200
    assert green < 60
    assert not picture.getexif()
    for word in (b"telephone", b"garden", b"Exif"):
        assert word not in kept.content


def test_what_it_is_is_told_by_its_bytes_and_a_small_drawing_stays_a_png() -> None:
    assert prepared(encoded((300, 200), "PNG")).media_type == "image/png"
    assert prepared(encoded((300, 200), "WEBP")).media_type == "image/jpeg"
    assert prepared(encoded((300, 200), "JPEG", "L")).media_type == "image/jpeg"


def test_what_is_see_through_is_laid_on_white() -> None:
    out = io.BytesIO()
    Image.new("RGBA", (20, 20), (0, 0, 0, 0)).save(out, "PNG")
    assert opened(prepared(out.getvalue()).content).convert("RGB").getpixel((5, 5)) == (255, 255, 255)


def test_a_pdf_is_kept_as_it_is_up_to_six_megabytes() -> None:
    paper = b"%PDF-1.7\n" + b"x" * 1000
    kept = prepared(paper)
    assert (kept.content, kept.media_type, kept.width, kept.height) == (paper, "application/pdf", 0, 0)
    with pytest.raises(Refusal, match=r"6\.1 MB; 6 fit"):
        prepared(b"%PDF-1.7\n" + bytes(MOST_PDF_BYTES))


def test_more_than_twenty_five_megabytes_are_refused_unseen() -> None:
    with pytest.raises(Refusal, match="25 are looked at"):
        prepared(b"\xff\xd8\xff" + bytes(MOST_BYTES))


def bomb(width: int, height: int) -> bytes:
    """A PNG of a few hundred bytes that says it is enormous."""

    def chunk(name: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    head = chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + head + chunk(b"IDAT", zlib.compress(bytes(1000))) + chunk(b"IEND", b"")


@pytest.mark.parametrize("side", [9_000, 10_000, 60_000])
def test_a_small_file_that_would_fill_the_memory_is_refused_with_a_sentence(side: int) -> None:
    with pytest.raises(Refusal, match="more than 80 million points"):
        prepared(bomb(side, side))


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "nothing in this file"),
        (b"MZ\x90\x00 not a picture", "no JPEG, PNG or WebP"),
        (b"GIF89a" + bytes(40), "no JPEG, PNG or WebP"),
        (b"\x00\x00\x00\x18ftypheic" + bytes(40), "HEIC"),
    ],
)
def test_what_is_no_picture_is_refused_with_a_sentence(content: bytes, said: str) -> None:
    with pytest.raises(Refusal, match=said):
        prepared(content)


def test_a_picture_cut_off_half_way_is_refused() -> None:
    whole = encoded((800, 600), "JPEG")
    with pytest.raises(Refusal, match="damaged"):
        prepared(whole[: len(whole) // 2])


def test_the_same_file_gives_the_same_bytes_so_that_it_is_kept_once() -> None:
    photograph = encoded((2500, 1000), "JPEG")
    assert prepared(photograph) == prepared(photograph)


@settings(max_examples=60, deadline=None)
@given(st.integers(1, 2600), st.integers(1, 40), st.sampled_from(["JPEG", "PNG", "WEBP"]))
def test_no_kept_picture_is_longer_than_the_longest_side(width: int, height: int, form: str) -> None:
    kept = prepared(encoded((width, height), form))
    assert max(kept.width, kept.height) <= LONGEST_SIDE
    assert opened(kept.content).size == (kept.width, kept.height)


@settings(max_examples=150, deadline=None)
@given(st.binary(max_size=400), st.sampled_from([b"", b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n", b"RIFF"]))
def test_rubbish_is_refused_and_never_raises_anything_else(rubbish: bytes, start: bytes) -> None:
    assume(not (start + rubbish).startswith(b"%PDF-"))
    with pytest.raises(Refusal, match=r".") as refused:
        prepared(start + rubbish)
    assert refused.value.field == "content"
