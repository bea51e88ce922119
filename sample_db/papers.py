"""What goes out and what is agreed: by-products to a collector, claims on suppliers, deliveries announced.

All of it is invented. Like the cold stores it rolls dice of its own.
"""

from __future__ import annotations

from datetime import date, timedelta

from gametrace.domain.lots import LotState
from gametrace.register import acts, questions
from gametrace.register.clock import wall_day
from sample_db.house import House

_COLLECTOR = "Drove End By-products, Saltgarth"
_WORKS = "Drove End works, Saltgarth, Marrowshire"
_WINDOW = 14  # days agreed for a claim
_CLAIMS_BACK = (150, 96, 52, 17)  # days before the end on which claims are looked at


def plan(house: House) -> None:
    """Put everything of this on the calendar."""
    last, day = house.terms.last_day, house.terms.first_day + timedelta(days=27)
    number = 2_100
    while day < last - timedelta(days=10):
        number += 7
        house.later(day, lambda number=number: _collected(house, number))
        day += timedelta(days=28)
    house.later(last - timedelta(days=200), lambda: _agree(house))
    for back in _CLAIMS_BACK:
        house.later(last - timedelta(days=back), lambda back=back: _claim(house, back))
    house.later(last - timedelta(days=11), lambda: _expected_before(house))
    house.later(last, lambda: _announced(house))


def _collected(house: House, number: int) -> None:
    """The monthly van takes what waits, apart from what is on hold."""
    waiting = [line.code for line in questions.bins(house.register) if not line.document_number]
    held = {LotState.ON_HOLD, LotState.LOCKED}
    codes = [code for code in waiting if questions.lot(house.register, code).state not in held]
    if codes:
        house.aside(
            acts.collect_by_products, by="joss", codes=codes, on=house.today, collector=_COLLECTOR,
            document_number=f"DE {number}", destination=_WORKS, note="signed by the driver",
        )  # fmt: skip


def _agree(house: House) -> None:
    """Rules for damage, and the papers of two files; one lapses soon, so that the page of the day asks."""
    last = house.terms.last_day
    for key, rule in (("idris", "bought price"), ("moor", "bought price"), ("park", "fixed")):
        house.aside(
            acts.amend_supplier, by="maud", supplier=house.suppliers[key], reason="agreed on the telephone",
            damage_rule=rule, damage_pence=1_200 if rule == "fixed" else 0, claim_days=_WINDOW,
            price_basis="in the skin, head off", lead_free="yes", insured_until=last + timedelta(days=190),
            lead_free_until=last + timedelta(days=15 if key == "idris" else 240),
            review_on=last + timedelta(days=120),
        )  # fmt: skip


def _claim(house: House, back: int) -> None:
    """The newest body with shot damage that is still within the days agreed; the last claim stays open."""
    first = house.today - timedelta(days=_WINDOW - 1)
    agreed = {house.suppliers[key] for key in ("idris", "moor", "park")}
    for one in questions.deliveries(house.register, first=first, last=house.today):
        if one.supplier.code not in agreed or one.lot.state == LotState.ON_HOLD:
            continue
        grams = _damage(house, one.code)
        if grams:
            claim = house.aside(
                acts.raise_claim, by="maud", code=one.code, grams=grams,
                reason="bloodied round the wound, weighed off at the block",
            )  # fmt: skip
            if back != _CLAIMS_BACK[-1]:
                _settle_later(house, int(claim.code), back)
            return


def _damage(house: House, code: str) -> int:
    forward = questions.trace(house.register, code).forward
    return sum(lot.grams for lot in forward if lot.name.startswith("shot damage"))


def _settle_later(house: House, claim: int, back: int) -> None:
    refused = back == _CLAIMS_BACK[1]
    house.later(
        house.today + timedelta(days=6),
        lambda: house.aside(
            acts.settle_claim, by="maud", claim=claim, status="refused" if refused else "credited",
            note="shot where the park office says it was" if refused else "on the next bill",
        ),
    )  # fmt: skip


def _expected_before(house: House) -> None:
    """Two that were announced: one comes and is ticked off, the other is called off."""
    came = house.aside(
        acts.expect_delivery, by="joss", supplier=house.suppliers["idris"],
        on=house.today + timedelta(days=1), bodies=1, note="rang from the wood",
    ).code  # fmt: skip
    off = house.aside(
        acts.expect_delivery, by="joss", supplier=house.suppliers["moor"],
        on=house.today + timedelta(days=3), bodies=2,
    ).code  # fmt: skip
    house.later(house.today + timedelta(days=5), lambda: _settle_expected(house, came, off))


def _settle_expected(house: House, came: str, off: str) -> None:
    since: date = house.today - timedelta(days=5)
    for one in reversed(questions.deliveries(house.register, first=since, last=house.today)):
        if one.supplier.code == house.suppliers["idris"] and wall_day(one.received_at) >= since:
            house.aside(acts.tick_expected, by="joss", expected=came, code=one.code)
            break
    house.aside(acts.cancel_expected, by="joss", expected=off, reason="Fog on the moor, nobody went out.")


def _announced(house: House) -> None:
    """What somebody who opens the practice register finds announced for the days to come."""
    last = house.terms.last_day
    for key, days, bodies, species, at, note in (
        ("farm", 1, 2, "red", "10:30", "from the slaughterhouse, in their own van"),
        ("park", 2, 4, "", "", "the park's trailer, after the cull"),
        ("warrener", 3, 12, "rabbit", "09:00", ""),
    ):
        house.aside(
            acts.expect_delivery, by="joss", supplier=house.suppliers[key], on=last + timedelta(days=days),
            bodies=bodies, species=species, at=at, note=note,
            store="C2" if key == "farm" else "C1",
        )  # fmt: skip
