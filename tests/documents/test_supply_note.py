"""The supply note: the law's eight fields in its order, the same bytes again, any words."""

from datetime import UTC, date, datetime
from io import BytesIO

from pypdf import PdfReader

from gametrace.documents.supply_note import LETTERS, supply_note_pdf
from gametrace.register.plate_records import Customer, Supply, SupplyNote
from gametrace.register.records import Larder

NOON = datetime(2026, 11, 12, 12, 5, tzinfo=UTC)
LARDER = Larder("Fenmoor College larder", "2 Weir Lane, Fenmoor", "FM/1", "england-wales")
# Regulation (EU) 931/2011, Article 3(1), as repeated at pig333.com/latest_swine_news/
# eu-modification-of-traceability-regulations-for-animal-products_4854
NAMES = (
    "description of the food",
    "quantity",
    "dispatched from, name and address",
    "consignor or owner, if different",
    "dispatched to, name and address",
    "consignee or owner, if different",
    "lot, batch or consignment reference",
    "date of dispatch",
)


def note(count: int = 1, name: str = "The Gannet Inn") -> SupplyNote:
    customer = Customer("C001", name, "Quay 4, Saltby", "01632 960004", "SB/9")
    supplies = tuple(
        Supply(
            code=f"26-0041{at}-K",
            from_code="26-00400-A",
            customer=customer,
            dispatched_on=date(2026, 11, 12),
            grams=650,
            fields=tuple(
                (field, f"value {letter}{at}") for letter, field in zip(LETTERS, NAMES, strict=True)
            ),
            by="IM",
        )
        for at in range(count)
    )
    return SupplyNote(supplies[0].code, supplies)


def text(pdf: bytes) -> str:
    return " ".join(" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(pdf)).pages)


def test_the_eight_fields_stand_in_the_order_of_the_law() -> None:
    said = text(supply_note_pdf(note(), LARDER, NOON))
    at = [said.index(f"({letter})") for letter in LETTERS]
    assert at == sorted(at)
    for letter, field in zip(LETTERS, NAMES, strict=True):
        assert field[1:] in said
        assert f"value {letter}0" in said
    for words in ("Supply note 26-00410-K", "The Gannet Inn", "931/2011", "0.650 kg", "Fenmoor"):
        assert words in said


def test_every_lot_of_a_consignment_has_its_own_eight() -> None:
    said = text(supply_note_pdf(note(6), LARDER, NOON))
    assert all(f"value h{at}" in said for at in range(6))
    assert "6 lots, 3.900 kg" in said


def test_the_same_note_is_the_same_bytes_and_markup_stays_words() -> None:
    odd = note(name="<b>Zum & “Hirsch”</b>")
    assert supply_note_pdf(odd, LARDER, NOON) == supply_note_pdf(odd, LARDER, NOON)
    assert "<b>Zum & “Hirsch”</b>" in text(supply_note_pdf(odd, LARDER, NOON))
