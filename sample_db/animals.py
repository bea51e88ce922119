"""What the invented animals weigh and how they come apart. Plausible figures for practice, not measurements.

Weights lie within the usual ranges of gametrace/facts/weights.toml for a carcass in the skin, head and feet
off. Shares of the large kinds follow those published for fallow (Massey University thesis, 1985, abstract:
haunch 39.4, shoulder 17.8, saddle 15.5, flank 15.4, neck 12.6 %), those of the small kinds one roe buck's
full break-down (parey-jagdausbildung.de); each animal strays a little from them.
"""

from __future__ import annotations

from random import Random

SMALL_DEER = frozenset({"roe", "muntjac", "chinese-water-deer"})

# (species, age class): lightest and heaviest in grams
WEIGHTS: dict[tuple[str, str], tuple[int, int]] = {
    ("fallow", "doe"): (23_500, 32_500),
    ("fallow", "yearling-doe"): (19_500, 25_000),
    ("fallow", "pricket"): (25_000, 34_000),
    ("fallow", "sorel"): (32_000, 42_000),
    ("fallow", "buck"): (38_000, 58_000),
    ("red", "hind"): (40_000, 58_000),
    ("red", "yearling-hind"): (34_000, 44_000),
    ("red", "stag"): (62_000, 95_000),
    ("red", "spiker"): (42_000, 56_000),
    ("sika", "stag"): (28_000, 44_000),
    ("sika", "hind"): (20_500, 29_500),
    ("red-sika-hybrid", "stag"): (44_000, 58_000),
    ("roe", "buck"): (12_000, 17_000),
    ("roe", "doe"): (11_000, 15_500),
    ("roe", "kid"): (7_000, 9_500),
    ("muntjac", "buck"): (9_000, 13_000),
    ("muntjac", "doe"): (8_200, 11_500),
    ("chinese-water-deer", "buck"): (9_800, 13_600),
    ("chinese-water-deer", "doe"): (9_200, 12_800),
    ("wild-boar", "boar"): (58_000, 72_000),
    # small game, one body in fur or feather
    ("pheasant", ""): (950, 1_350),
    ("red-legged-partridge", ""): (400, 500),
    ("grey-partridge", ""): (330, 400),
    ("rabbit", ""): (1_250, 1_700),
    ("woodpigeon", ""): (440, 510),
}

# Days in the larder before the block, fewest and most.
HANGING: dict[str, tuple[int, int]] = {
    "fallow": (5, 9),
    "red": (7, 10),
    "sika": (6, 9),
    "red-sika-hybrid": (6, 9),
    "roe": (4, 7),
    "muntjac": (2, 4),
    "chinese-water-deer": (1, 3),
    "pheasant": (2, 4),
    "red-legged-partridge": (1, 3),
    "grey-partridge": (1, 3),
    "rabbit": (0, 1),
    "woodpigeon": (0, 1),
    "wild-boar": (9, 9),
}

# Thousandths of a skinned carcass: (product, side, share)
LARGE_SHARES = (
    ("haunch", "left", 192),
    ("haunch", "right", 192),
    ("saddle", "", 156),
    ("shoulder", "left", 87),
    ("shoulder", "right", 87),
    ("neck", "", 118),
    ("breast", "", 138),
    ("trim", "", 14),
    ("fat", "", 8),
    ("shot-damage", "", 8),
)
SMALL_SHARES = (
    ("haunch", "left", 197),
    ("haunch", "right", 197),
    ("saddle", "", 169),
    ("shoulder", "left", 83),
    ("shoulder", "right", 83),
    ("neck", "", 82),
    ("breast", "", 108),
    ("trim", "", 20),
    ("fat", "", 46),
    ("shot-damage", "", 15),
)
# Thousandths of a bone-in part.
PART_SHARES: dict[str, tuple[tuple[str, int], ...]] = {
    "haunch": (
        ("topside", 230),
        ("silverside", 190),
        ("thick-flank", 175),
        ("rump", 110),
        ("hind-shank", 95),
        ("trim", 35),
        ("bone", 165),
    ),
    "saddle": (("loin", 215), ("loin", 215), ("fillet", 90), ("trim", 60), ("stock-bones", 420)),
    "shoulder": (("dice", 470), ("fore-shank", 120), ("trim", 120), ("bone", 290)),
    "neck": (("neck-fillet", 260), ("trim", 310), ("bone", 430)),
    "breast": (("trim", 560), ("bone", 440)),
}
# The shanks of small deer go to the trim and the dice.
SMALL_SHOULDER = (("dice", 540), ("trim", 170), ("bone", 290))
BATCH_SHARES: dict[str, tuple[tuple[str, int], ...]] = {
    "bird": (
        ("bird-breast", 250),
        ("bird-leg", 190),
        ("stock-bones", 230),
        ("feathers", 90),
        ("gut", 150),
        ("head", 50),
        ("feet", 40),
    ),
    "whole bird": (
        ("whole-oven-ready", 670),
        ("liver", 15),
        ("feathers", 95),
        ("gut", 125),
        ("head", 55),
        ("feet", 40),
    ),
    "rabbit": (
        ("ground-game-saddle", 150),
        ("ground-game-hind-leg", 215),
        ("ground-game-fore-leg", 110),
        ("stock-bones", 90),
        ("skin", 120),
        ("gut", 190),
        ("head", 85),
        ("feet", 40),
    ),
}


def weight(rng: Random, species: str, age_class: str, count: int = 1) -> int:
    """Grams on a scale that reads in steps of 20."""
    low, high = WEIGHTS[species, age_class if count == 1 else ""]
    return sum(rng.randint(low, high) for _ in range(count)) // 20 * 20


def shared_out(rng: Random, grams: int, shares: list[int], most_loss: int = 6) -> list[int]:
    """Grams to each share, each straying up to 3 %; a few thousandths stay on knife and board.

    The rail scale's small tray reads in steps of 5 g, the bench scale for less than 4 kg in single grams.
    """
    step = 5 if grams >= 4_000 else 1
    strayed = [share * rng.randint(970, 1_030) for share in shares]
    target = grams * (1_000 - rng.randint(1, most_loss)) // 1_000
    return [target * one // sum(strayed) // step * step for one in strayed]
