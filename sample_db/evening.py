"""What is written at the pass in the last days: heat, plates, covers, the menu's line, what left the house.

All of it aside from the story's dice. One dish of the last day is left for whoever practises to finish.
"""

from __future__ import annotations

from datetime import timedelta

from gametrace.domain.ingredients import Ingredient
from gametrace.domain.lots import LotKind, LotState
from gametrace.domain.menu_claims import VENISON, Answer, Claim
from gametrace.register import acts, questions
from gametrace.register.clock import wall_day
from gametrace.register.plate_records import DishFile
from gametrace.register.records import Lot
from sample_db.house import House

_DAYS = timedelta(days=8)
_LEFT = 3  # portions left over on the last day
_PASTRY = Ingredient("Suet pastry", 1_800, "SP 2208", "Staithe Stores", frozenset({"gluten"}))
_CREAM = Ingredient("Cream", 400, "CR 71", "Staithe Stores", frozenset({"milk"}))
_CORE_TENTHS, _CORE_SECONDS = 752, 150  # long enough by both published tables
_ISSUED_TO, _SUPPLIED_TO = "GC3-A", "Heron and Sluice, an inn"


def go_round(house: House) -> None:
    """The dishes of the day, each with its records and its plates."""
    if house.terms.last_day - house.today > _DAYS:
        return
    files = [questions.dish_file(house.register, one.code) for one in _made_today(house)]
    is_last = _is_last(house)
    for turn, dish in enumerate(files):
        _write_down(house, dish, with_plates=not (is_last and turn == 0))
    for kind, occasion in sorted({(one.occasion_kind, one.occasion) for one in files}):
        plates = sum(one.portions for one in files if one.occasion == occasion)
        covers = max(1, plates * 9 // 10)
        house.aside(
            acts.note_covers, by="maud", occasion_kind=kind, occasion=occasion, on=house.today, covers=covers
        )


def _is_last(house: House) -> bool:
    return house.today == house.terms.open_on_or_before(house.terms.last_day)


def _made_today(house: House) -> list[Lot]:
    newest = questions.dishes(house.register, limit=40)
    return [one for one in newest if wall_day(one.made_at) == house.today]


def _write_down(house: House, dish: DishFile, *, with_plates: bool) -> None:
    """Cooked, what else is in it, hot until it went out; what was left over cooled and put by."""
    code = dish.lot.code
    house.aside(
        acts.record_cooking,
        by="maud",
        code=code,
        tenths_c=_CORE_TENTHS,
        seconds=_CORE_SECONDS,
        probe="green pocket probe",
    )
    if besides := _besides(dish.lot.name):
        house.aside(acts.note_ingredients, by="maud", code=code, ingredients=besides)
    _say_on_the_menu(house, dish)
    if not with_plates:
        return
    house.aside(acts.record_hot_hold, by="joss", code=code, tenths_c=680, probe="green pocket probe")
    left = _LEFT if _is_kept(house, dish) else 0
    group = dish.occasion if dish.occasion_kind == "class" else ""
    house.aside(acts.serve_dish, by="joss", code=code, portions=dish.portions - left, to_group=group)
    if left:
        house.aside(acts.record_cooling, by="joss", code=code, tenths_c=40, minutes=85)
        house.aside(acts.keep_left_over, by="joss", code=code, portions=left, place="C2.S2")
        house.marks["left over"] = code


def _besides(name: str) -> list[Ingredient]:
    if "pie" in name or "pudding" in name:
        return [_PASTRY]
    return [_CREAM] if "mustard" in name or "cider" in name else []


def _is_kept(house: House, dish: DishFile) -> bool:
    """One dish of the last day leaves something over, and not the next one too."""
    return _is_last(house) and "left over" not in house.marks and dish.portions > 2 * _LEFT


def _say_on_the_menu(house: House, dish: DishFile) -> None:
    """A service's line says of its deer what the records show of all of them."""
    wanted = (Claim("species", VENISON), Claim("wild"))
    if dish.occasion_kind != "service":
        return
    rulings = questions.menu_check(house.register, dish.lot.code, wanted).rulings
    shown = [one.claim for one in rulings if one.verdict is Answer.SHOWN]
    if shown:
        house.aside(acts.write_menu_line, by="maud", code=dish.lot.code, claims=shown)


def hand_out(house: House) -> None:
    """The last evening: a pack to a class, charged to its code, and a consignment to another business."""
    ready = [
        one
        for one in questions.stock(house.register)
        if one.state is LotState.READY and one.kind == LotKind.PACK and one.pack_state == "vacuum"
    ]
    if len(ready) < 3:  # the first days after a holiday
        return
    to_class, *to_inn = ready[-3:]
    house.aside(
        acts.issue_lot,
        by="joss",
        inputs=[(to_class.code, None)],
        charged_to=_ISSUED_TO,
        on=house.today,
        purpose="Larding and tying",
    )
    inn = house.aside(
        acts.add_customer,
        by="joss",
        name=_SUPPLIED_TO,
        address="Staithe Lane, Fenmoor, Marrowshire",
        phone="01632 960121",
    ).created[0]
    house.aside(
        acts.supply_lot,
        by="joss",
        customer=inn,
        inputs=[(one.code, None) for one in to_inn],
        dispatched_on=house.today,
    )
