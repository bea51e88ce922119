"""The drawings: all there, all of one ink, told apart where a person must tell them apart."""

import re
import tomllib
from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter
from PySide6.QtSvg import QSvgRenderer

ROOT = Path(__file__).resolve().parents[2]
DRAWINGS = ROOT / "assets" / "drawings"
INK = "#1C2630"
STATES = ["ready", "hanging", "hold", "stopped", "spent"]
DEER = ["red", "fallow", "sika", "roe", "muntjac", "chinese-water-deer"]
PARTS = {
    "head",
    "neck",
    "shoulder",
    "shank-fore",
    "saddle",
    "breast",
    "flank",
    "haunch",
    "shank-hind",
    "far-legs",
}
every_drawing = pytest.mark.parametrize("path", sorted(DRAWINGS.rglob("*.svg")), ids=lambda path: path.stem)


def picture(path: Path, width: int, height: int) -> list[bool]:
    """The drawing in plain black and white, one truth a pixel."""
    return [tone < 128 for tone in tones(path, width, height)]


def differing_share(first: Path, second: Path, width: int, height: int) -> float:
    pairs = list(zip(picture(first, width, height), picture(second, width, height), strict=True))
    return sum(a != b for a, b in pairs) / len(pairs)


def tones(path: Path, width: int, height: int) -> list[int]:
    """The drawing in grey, one value a pixel: white 255."""
    image = QImage(width, height, QImage.Format.Format_Grayscale8)
    image.fill(255)
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    QSvgRenderer(str(path)).render(painter, QRectF(0, 0, width, height))
    painter.end()
    return [image.pixelColor(x, y).value() for y in range(height) for x in range(width)]


def differing_tones(first: Path, second: Path, width: int, height: int) -> float:
    """The share of pixels that a person would see as another tone."""
    pairs = list(zip(tones(first, width, height), tones(second, width, height), strict=True))
    return sum(abs(a - b) > 24 for a, b in pairs) / len(pairs)


@every_drawing
def test_a_drawing_can_be_read_and_puts_ink_on_the_sheet(path: Path, qapp: object) -> None:
    assert QSvgRenderer(str(path)).isValid()
    assert any(picture(path, 64, 64))


@every_drawing
def test_a_drawing_has_one_ink_so_that_it_can_be_recoloured(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert set(re.findall(r"#[0-9A-Fa-f]{3,8}", text)) == {INK}
    assert path.stat().st_size < 12_000


@every_drawing
def test_a_drawing_says_what_it_shows(path: Path) -> None:
    title = ElementTree.parse(path).getroot().find("{http://www.w3.org/2000/svg}title")
    assert title is not None
    assert title.text


def test_every_species_has_its_drawing() -> None:
    species = tomllib.loads((ROOT / "gametrace/facts/species.toml").read_text(encoding="utf-8"))["species"]
    missing = [
        entry["id"] for entry in species if not (DRAWINGS / "species" / f"{entry['id']}.svg").is_file()
    ]
    assert not missing


def answers_of_the_key() -> dict[str, list[str]]:
    """Question id to answer ids, as the facts hold them."""
    facts = tomllib.loads((ROOT / "gametrace/facts/identification.toml").read_text(encoding="utf-8"))
    return {one["id"]: [answer["id"] for answer in one["answers"]] for one in facts["question"]}


def test_every_answer_of_the_key_has_its_drawing_and_no_drawing_is_left_over() -> None:
    wanted = {f"{asked}-{answer}" for asked, answers in answers_of_the_key().items() for answer in answers}
    assert {path.stem for path in (DRAWINGS / "traits").glob("*.svg")} == wanted


@pytest.mark.parametrize("asked", sorted(answers_of_the_key()))
def test_the_answers_to_one_question_differ_at_the_size_of_the_guide(asked: str, qapp: object) -> None:
    for one, other in combinations(answers_of_the_key()[asked], 2):
        share = differing_tones(one_trait(asked, one), one_trait(asked, other), 128, 96)
        assert share > 0.003, (asked, one, other)


def one_trait(asked: str, answer: str) -> Path:
    return DRAWINGS / "traits" / f"{asked}-{answer}.svg"


@pytest.mark.parametrize(("one", "other"), list(combinations(DEER, 2)))
def test_the_deer_differ_at_the_size_of_the_species_picker(one: str, other: str, qapp: object) -> None:
    folder = DRAWINGS / "species"
    assert differing_share(folder / f"{one}.svg", folder / f"{other}.svg", 64, 48) > 0.04


@pytest.mark.parametrize("size", [14, 24])
@pytest.mark.parametrize(("one", "other"), list(combinations(STATES, 2)))
def test_states_differ_without_colour(one: str, other: str, size: int, qapp: object) -> None:
    folder = DRAWINGS / "signs"
    assert differing_share(folder / f"state-{one}.svg", folder / f"state-{other}.svg", size, size) > 0.08


@pytest.mark.parametrize("size", ["large", "medium", "small"])
def test_a_skinned_carcass_is_pale_beside_one_in_the_skin(size: str, qapp: object) -> None:
    in_skin = picture(DRAWINGS / "hanging" / f"hanging-{size}-in-skin.svg", 96, 208)
    skinned = picture(DRAWINGS / "hanging" / f"hanging-{size}-skinned.svg", 96, 208)
    assert sum(skinned) < 0.6 * sum(in_skin)


def test_the_beast_is_given_in_named_parts_that_plain_code_can_read() -> None:
    paths = ElementTree.parse(DRAWINGS / "beast-parts.svg").getroot().iter("{http://www.w3.org/2000/svg}path")
    data = {path.get("id"): path.get("d", "") for path in paths}
    assert set(data) == PARTS
    command = r"(?:M{p}|L{p}|C{p} {p} {p}|Z)".replace("{p}", r"-?\d+(?:\.\d+)? -?\d+(?:\.\d+)?")
    for part, text in data.items():
        assert re.fullmatch(rf"{command}(?: {command})*", text), part
