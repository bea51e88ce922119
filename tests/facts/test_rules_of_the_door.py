"""The rules of game hygiene that have words and no figure; each names where it was read."""

from __future__ import annotations

import pytest

from gametrace.facts import UnknownFact
from gametrace.facts.papers import named_rule
from gametrace.facts.sources import citation

# (rule, standing, words of its source, words of its own), written out by hand.
RULES = [
    # Regulation (EC) 853/2004 Annex III Sec. IV Ch. II(1)-(2): wordscope.be.
    ("trained-person-examines", "seen-2", "the trained person", "as soon as may be"),
    # The same, Ch. I: flashcardmachine.com.
    ("who-is-trained", "seen-2", "the trained person", "At least one"),
    # Ch. II(4)(a) as substituted by Regulation (EU) 150/2011: legislation.gov.uk/eur/2011/150/annex.
    ("one-declaration-many-bodies", "seen", "150/2011", "all go to one establishment"),
    ("not-in-the-legal-list", "seen", "150/2011", "Species, sex, weight"),
    ("head-and-viscera", "seen", "150/2011", "save for animals open to Trichinella"),
    # FSA Wild Game Guidance, Annex A: food.gov.uk/our-work/wild-game-guidance-annexes.
    ("example-declarations", "seen", "Annex A", "large and for small game"),
    # Ch. III: fsai.ie, handling of small wild game.
    ("small-game-abnormal", "seen", "Ch. III", "no declaration is prescribed"),
    # Section III(1): fsai.ie, meat of farmed game.
    ("farmed-as-red-meat", "seen", "Section III(1)", "red meat"),
    # food.gov.uk, primary producers of wild game.
    ("primary-products", "seen", "Wild Game Guidance", "gralloching"),
    # tasteofgame.org.uk and nationalcraftbutchers.co.uk, after the FSA.
    ("hunter-exemption", "seen-2", "hunters' supply", "small quantities"),
    ("small-quantities", "seen-2", "hunters' supply", "No number"),
    ("local-for-hunters", "seen-2", "hunters' supply", "50 km"),
    # The same against southlakeland.gov.uk.
    ("hunter-registration", "seen", "one council that differs", "Sources disagree"),
    # food.gov.uk, retail-to-retail supply exemption.
    ("retail-to-retail", "seen", "retail to retail", "a quarter of its food sales"),
    # food.gov.uk/node/10461.
    ("current-guides", "seen", "October 2024", "October 2026"),
    ("northern-ireland-text", "seen", "Northern Ireland", "EU text"),
    # Regulation (EU) 2015/1375 Art.2(3) and 3(1).
    ("boar-trichinella", "seen", "2015/1375", "not for wild boar"),
]


@pytest.mark.parametrize(("rule", "standing", "law", "words"), RULES, ids=[row[0] for row in RULES])
def test_each_rule_of_the_door_names_its_source_and_standing(
    rule: str, standing: str, law: str, words: str
) -> None:
    held = named_rule(rule)
    assert held.status == standing
    assert law in citation(held.source)
    assert words in held.note


def test_a_rule_nobody_holds_is_refused() -> None:
    with pytest.raises(UnknownFact, match="no rule called"):
        named_rule("thumb")
