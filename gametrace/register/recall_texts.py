"""Words to send in a recall: to the supplier, to a business that was supplied, to those who were served.

They repeat what the register holds and what the kitchen typed; they name no disease and judge no meat. The
authority's wording, once it gives one, goes before all of them.
"""

from __future__ import annotations

from gametrace.register.clock import day_text, wall_day
from gametrace.register.recall_sheets import RecallSheet
from gametrace.register.records import Larder

SUPPLIER, BUSINESS, SERVED = "to the supplier", "to a business supplied", "to those who were served"


def notice_texts(sheet: RecallSheet, larder: Larder) -> dict[str, str]:
    """The three texts by whom they are for; a text nobody needs is left out."""
    texts = {SUPPLIER: _to_supplier(sheet, larder), BUSINESS: _to_business(sheet, larder)}
    if sheet.services:
        texts[SERVED] = _to_served(sheet, larder)
    return texts


def _from(larder: Larder) -> str:
    registered = f", registration {larder.registration_number}" if larder.registration_number else ""
    return f"{larder.name}, {larder.address}{registered}"


def _day(sheet: RecallSheet) -> str:
    return day_text(wall_day(sheet.opened_at))


def _to_supplier(sheet: RecallSheet, larder: Larder) -> str:
    animals = "\n".join(
        f"  our number {one.code}, your tag {one.tag or 'not stated'}, {one.title}, killed "
        f"{day_text(one.killed_on) if one.killed_on else 'on a day not stated'}, declaration "
        f"{one.declaration_number or 'without a number'}"
        for one in sheet.animals
    )
    return (
        f"{_day(sheet)}\nFrom {_from(larder)}\n\n"
        f"We have stopped meat that came from you: {sheet.what}.\n"
        f"Why: {sheet.reason}\n\nIt concerns\n{animals}\n\n"
        "Please tell us today what else was killed or delivered with these, to whom it went, and whether "
        "anyone else has reported anything. We have told, or are telling, our local authority.\n"
    )


def _to_business(sheet: RecallSheet, larder: Larder) -> str:
    lots = ", ".join(lot.code for lot in sheet.named)
    return (
        f"{_day(sheet)}\nFrom {_from(larder)}\n\n"
        f"Food we supplied to you is being withdrawn: {sheet.what}.\n"
        f"Lots: {lots}, and anything made of them.\n"
        f"Why: {sheet.reason}\n\n"
        "Serve and sell no more of it. Keep what is left cold, apart and marked. Tell us how much that is "
        "and where the rest went. Do not throw it away before you hear from us or from the local authority.\n"
    )


def _to_served(sheet: RecallSheet, larder: Larder) -> str:
    services = "\n".join(f"  {one.words}" for one in sheet.services)
    return (
        f"{larder.name}: notice of {_day(sheet)}\n\n"
        f"{sheet.what} was served at\n{services}\n\nWhy we are telling you: {sheet.reason}\n\n"
        "If you took any of it home, do not eat it; bring it back or throw it away. If you feel unwell, ask "
        f"a doctor or NHS 111 and say what you ate and when. Questions: {larder.name}, {larder.address}.\n"
    )
