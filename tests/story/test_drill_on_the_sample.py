"""The larder of two years is drilled: every pack stands where the register says, and the sums hold."""

from __future__ import annotations

import random
from pathlib import Path

from gametrace.register import acts, questions
from gametrace.register.opening import open_register
from gametrace.register.practice import practice_register


def test_drills_on_the_sample_end_at_a_hundred_per_cent(tmp_path: Path) -> None:
    """What is to be found is looked for in the lists of the shelves and hooks, not in the trace itself."""
    with open_register(practice_register(tmp_path), create=False) as register:
        by = next(person.code for person in questions.people(register) if person.role == "tutor")
        pick = random.Random(11)
        for sort in ("lot", "animal", "lot", "animal", "lot"):
            drill = acts.begin_drill(register, by=by, sort=sort, pick=pick.randrange).code
            running = questions.running_drill(register, drill)
            stands = _where_everything_stands(register)
            found = [
                lot.code
                for lot in running.to_find
                if lot.code in stands and lot.place in ("", stands[lot.code])
            ]
            acts.end_drill(register, by=by, drill=drill, found=found)
            balance = running.balance
            assert sum(row.grams for row in balance.rows) == balance.received_grams
        book = questions.drill_book(register)
        assert [one.percent for one in book] == [100] * 5
        assert any(one.asked for one in book)
        assert questions.check(register) == ()


def _where_everything_stands(register) -> dict[str, str]:
    """Lot to place, from the larder's own picture, the stock and the blocks."""
    stands = {lot.code: lot.place for lot in questions.stock(register)}
    stands |= {lot.code: lot.place for lot in questions.block_candidates(register)}
    for store in questions.larder_view(register):
        for rail in store.rails:
            stands |= {hook.carcass.code: hook.place for hook in rail.hooks if hook.carcass}
        for place, lots in store.shelves:
            stands |= {lot.code: place.code for lot in lots}
    return stands
