"""One roe buck weighed through to the last gram, with the published figures, and the 10 g nobody weighed.

Source of every weight: the two-stage balance of a roe buck of 16.0 kg at
parey-jagdausbildung.de/preisfindung-wildbret (the same table at jung-jaeger.eu/preisfindung-wildbret); seen.
There, 16.00 kg in the skin gives 3.19 kg of skin, head and feet, 1.00 kg of trim loss and 11.80 kg of cuts on
the bone; those give 7.95 kg of boneless meat, 3.48 kg of bone and 0.37 kg lost in cutting. 3.19 + 1.00 +
11.80 is 15.99: the register must show the 0.01, not hide it. How the 3.19 kg divide between skin, head and
feet is our own guess.
"""

from datetime import date

import pytest
from larder_house import House

from gametrace.domain.deliveries import Basis
from gametrace.register import acts, questions


class RoeBuck:
    """The codes of the story."""

    def __init__(self, house: House) -> None:
        self.house = house
        self.buck = house.receive(
            species="roe", sex="male", age_class="", grams=16_000, killed_on=date(2026, 10, 30),
            basis=Basis(in_skin=True, head_on=True, feet_on=True, pluck_in=False), tag="R 0016",
        )  # fmt: skip
        self.dressed_off = acts.dress_carcass(
            house.reg, by=house.technician, code=self.buck, tag=acts.TagHandOver("printed"),
            outputs=[acts.Out("skin", 1_900), acts.Out("head", 860), acts.Out("feet", 430)],
        ).created  # fmt: skip
        self.loss, self.bone_in = house.out(
            self.buck, acts.Out("condemned", 1_000, reason="membranes and fat"), acts.Out("bone-in", 11_800)
        )

    def finish(self) -> None:
        house = self.house
        acts.close_lot(house.reg, by=house.technician, code=self.buck)
        self.dried = acts.reweigh(house.reg, by=house.technician, code=self.bone_in, grams=11_430).code
        self.boneless, self.bone = house.out(
            self.bone_in, acts.Out("boneless", 7_950, is_pack=True), acts.Out("bone", 3_480)
        )


@pytest.fixture
def story(house: House) -> RoeBuck:
    return RoeBuck(house)


def rows(house: House, code: str) -> dict[str, int]:
    balance = questions.trace(house.reg, code).balance
    assert balance is not None
    assert sum(row.grams for row in balance.rows) == balance.received_grams == 16_000
    assert balance.accounted_grams + balance.unaccounted_grams == 16_000
    return {row.words: row.grams for row in balance.rows}


def test_ten_grams_lie_unweighed_on_the_block_before_closing(story: RoeBuck, house: House) -> None:
    view = questions.block_view(house.reg, story.buck)
    assert view.grams_in == 16_000
    assert sum(tray.grams for tray in view.trays) == 3_190 + 1_000 + 11_800
    assert (view.unweighed_grams, view.unaccounted_grams, view.is_closed) == (10, 0, False)
    assert rows(house, story.buck) == {
        "in stock": 11_800, "by-products": 3_190, "condemned and binned": 1_000,
        "on the block, still unweighed": 10, "unaccounted": 0,
    }  # fmt: skip
    balance = questions.trace(house.reg, story.buck).balance
    assert balance is not None
    assert balance.unaccounted_grams == 10


def test_after_closing_the_ten_grams_are_unaccounted_for_ever(story: RoeBuck, house: House) -> None:
    story.finish()
    view = questions.block_view(house.reg, story.buck)
    assert (view.unweighed_grams, view.unaccounted_grams, view.is_closed) == (0, 10, True)
    assert any("0.010 kg unaccounted" in line.sentence for line in questions.story(house.reg, story.buck))


def test_the_second_stage_closes_to_the_gram(story: RoeBuck, house: House) -> None:
    story.finish()
    view = questions.block_view(house.reg, story.bone_in)
    assert [tray.grams for tray in view.trays] == [370, 7_950, 3_480]
    assert (view.unweighed_grams, view.unaccounted_grams, view.is_closed) == (0, 0, True)


def test_the_whole_animal_is_where_the_published_table_says(story: RoeBuck, house: House) -> None:
    story.finish()
    assert rows(house, story.buck) == {
        "in stock": 7_950, "by-products": 3_190 + 3_480, "condemned and binned": 1_000, "drying": 370,
        "unaccounted": 10,
    }  # fmt: skip
    assert questions.check(house.reg) == ()


def test_a_dish_of_it_is_this_buck_and_no_other(story: RoeBuck, house: House) -> None:
    story.finish()
    dish = house.dish((story.boneless, 2_000))
    (animal,) = questions.trace(house.reg, dish).animals
    assert (animal.code, animal.tag, animal.grams, animal.share) == (story.buck, "R 0016", 2_000, 1)
    assert rows(house, story.buck)["served"] == 2_000


def test_the_tag_traces_to_the_same_animal_as_its_house_number(story: RoeBuck, house: House) -> None:
    assert questions.trace(house.reg, "r 0016") == questions.trace(house.reg, story.buck)
