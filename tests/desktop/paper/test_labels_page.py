"""The page of labels by keyboard: what prints is seen, printed, counted; a printer gets the very paper."""

from __future__ import annotations

from pathlib import Path

import pypdfium2
import pytest
import zxingcpp
from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtPrintSupport import QPrinter

from gametrace.desktop import paper_printer
from gametrace.desktop.labelling import ask_for_labels, print_labels
from gametrace.documents.labels import label_pdf
from gametrace.domain.errors import Trouble
from gametrace.register import questions

ENTER, TAB = Qt.Key.Key_Return, Qt.Key.Key_Tab


@pytest.fixture
def packs(roe_larder) -> list[str]:
    carcass = roe_larder.dressed()
    return [roe_larder.pack(carcass, grams=700 + at) for at in range(3)]


@pytest.fixture
def page(roe_window, packs, qtbot):
    ask_for_labels(roe_window.bench, packs, back="block")
    settle(roe_window, qtbot)
    return roe_window.station("paper").page.labels


def settle(window, qtbot) -> None:
    window.bench.errands.wait_idle()
    qtbot.wait(1)


def words(path: Path) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(path).pages).split())


def codes_read(pdf: bytes, dpi: int = 203) -> list[str]:
    found = []
    for page in pypdfium2.PdfDocument(pdf):
        picture = page.render(scale=dpi / 72, grayscale=True).to_pil()
        found += [one.text for one in zxingcpp.read_barcodes(picture)]
    return found


def test_the_main_key_prints_what_was_asked_for_and_goes_back(roe_window, page, packs, tmp_path, qtbot):
    assert page.print.text() == "Print 3 labels  Ctrl+Enter"
    assert page.preview.says.text() == "page 1 of 3"
    qtbot.keyClick(page.print, ENTER, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: roe_window.current == "block")
    paper = tmp_path / "papers" / f"labels-{packs[0]}.pdf"
    assert codes_read(paper.read_bytes()) == packs
    assert "copy 2" not in words(paper)


def test_printed_again_they_say_copy_2(roe_window, page, packs, tmp_path, qtbot):
    page.print.click()
    qtbot.waitUntil(lambda: roe_window.current == "block")
    ask_for_labels(roe_window.bench, packs)
    settle(roe_window, qtbot)
    page.print.click()
    settle(roe_window, qtbot)
    assert words(tmp_path / "papers" / f"labels-{packs[0]}.pdf").count("copy 2") == 3


def test_a_sheet_begun_before_is_gone_on_with_where_it_ended(roe_window, page, packs, qtbot, keys):
    page.stock.list.setFocus()
    keys(Qt.Key.Key_Down, Qt.Key.Key_Down)
    settle(roe_window, qtbot)
    assert page.stock.value() == "a4-3x7"
    assert page.place.isVisible()
    page.place.inner.select()
    keys("4", TAB)
    page.print.click()
    qtbot.waitUntil(lambda: roe_window.current == "block")
    ask_for_labels(roe_window.bench, packs[:1])
    settle(roe_window, qtbot)
    assert page.stock.value() == "a4-3x7"
    assert page.place.inner.value() == 7


def test_a_place_the_sheet_does_not_have_is_said_at_its_field_and_nothing_is_printed(
    roe_window, page, packs, tmp_path, qtbot, keys
):
    page.stock.list.setFocus()
    keys(Qt.Key.Key_Down, Qt.Key.Key_Down)
    page.place.inner.set_text("22")
    settle(roe_window, qtbot)
    assert "21 places" in page.place.trouble.text()
    page.print.click()
    settle(roe_window, qtbot)
    assert not list((tmp_path / "papers").glob("*.pdf"))
    assert page.place.inner.text() == "22"


def test_a_lot_scanned_here_is_one_more_and_no_code_is_a_sentence(roe_window, page, packs, roe_larder, qtbot):
    more = roe_larder.pack(roe_larder.dressed(), grams=400)
    station = roe_window.station("paper")
    assert station.on_scan(more)
    settle(roe_window, qtbot)
    assert page.print.text().startswith("Print 4 labels")
    page.code.setText("no such thing")
    page.code.returnPressed.emit()
    assert page.code_field.trouble.isVisible()
    assert page.code.text() == "no such thing"


def test_when_the_printer_is_dead_the_page_says_what_to_write(roe_window, page, packs, tmp_path, qtbot):
    page.hand.click()
    shown = [one.text() for one in page.by_hand.roll.inside.findChildren(type(page.by_hand.advice))]
    assert packs[0] in shown
    assert any(line.startswith("USE BY ") for line in shown)
    page.by_hand.paper.click()
    settle(roe_window, qtbot)
    assert packs[2] in words(tmp_path / "papers" / f"by-hand-{packs[0]}.pdf")
    page.by_hand.back.click()
    assert page.right.currentWidget() is page.preview


def test_a_test_print_of_the_chosen_stock_is_saved(roe_window, page, tmp_path, qtbot):
    page.grid.click()
    settle(roe_window, qtbot)
    assert "print at 100 %" in words(tmp_path / "papers" / "test-print-single-62x40.pdf")


def test_escape_goes_back_without_printing(roe_window, page, packs, tmp_path, keys):
    keys(Qt.Key.Key_Escape)
    assert roe_window.current == "block"
    assert questions.label_sheets(roe_window.bench.register, packs[:1])[0].copy == 1


def test_ctrl_p_opens_the_page_from_anywhere(roe_window, qtbot):
    roe_window.go("today")
    qtbot.keyClick(roe_window, Qt.Key.Key_P, Qt.KeyboardModifier.ControlModifier)
    assert roe_window.current == "paper"
    assert not roe_window.station("paper").page.labels.print.isEnabled()


def test_what_was_printed_last_is_had_again_with_one_key(roe_window, packs, qtbot):
    print_labels(roe_window.bench, packs[:2])
    settle(roe_window, qtbot)
    roe_window.go("paper")
    page = roe_window.station("paper").page.labels
    assert page.last.isVisible()
    page.last.click()
    settle(roe_window, qtbot)
    assert page.print.text().startswith("Print 2 labels")
    assert not page.last.isVisible()


# -- a printer --------------------------------------------------------------------------------------------


@pytest.fixture
def printed(monkeypatch, tmp_path) -> Path:
    """A printer that writes what it is sent into a file."""
    out = tmp_path / "printed.pdf"

    def called(name: str) -> QPrinter:
        if name != "Larder printer":
            raise Trouble(f"The printer “{name}” is not there.", "Switch it on.")
        made = QPrinter(QPrinter.PrinterMode.HighResolution)
        made.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        made.setOutputFileName(str(out))
        return made

    monkeypatch.setattr(paper_printer, "printer_called", called)
    monkeypatch.setattr(paper_printer, "printer_names", lambda: ["Larder printer"])
    return out


def test_a_printer_is_chosen_by_keyboard_and_gets_pages_of_the_labels_own_size(
    printed, roe_window, page, packs, qtbot, keys
):
    roe_window.station("paper").reload()
    page.to.list.setFocus()
    keys(Qt.Key.Key_Down)
    assert page.to.value() == "Larder printer"
    page.print.click()
    qtbot.waitUntil(lambda: roe_window.current == "block", timeout=20_000)
    pages = PdfReader(printed).pages
    assert len(pages) == 3
    for one in pages:
        assert float(one.mediabox.width) == pytest.approx(62 * 72 / 25.4, abs=1)
        assert float(one.mediabox.height) == pytest.approx(40 * 72 / 25.4, abs=1)
    assert codes_read(printed.read_bytes()) == packs
    assert questions.label_sheets(roe_window.bench.register, packs[:1])[0].copy == 2


def test_what_the_printer_gets_lies_where_the_paper_has_it(printed, roe_window, page, packs, qtbot):
    sheets = questions.label_sheets(roe_window.bench.register, packs[:1])
    station = roe_window.station("paper")
    from gametrace.documents.stocks import STOCKS

    for name in ("single-62x40", "a4-3x7"):
        stock = STOCKS[name]
        pdf = label_pdf(sheets, stock)
        paper_printer.print_paper(
            pdf, (stock.page_w_mm, stock.page_h_mm), paper_printer.printer_called("Larder printer"),
            "labels", lambda _done, _total: None, stock.dpi,
        )  # fmt: skip
        corners = []
        for held in (pdf, printed.read_bytes()):
            picture = next(iter(pypdfium2.PdfDocument(held))).render(scale=300 / 72, grayscale=True).to_pil()
            found = zxingcpp.read_barcodes(picture)[0].position
            corners.append((found.top_left.x, found.top_left.y, found.bottom_right.x, found.bottom_right.y))
        assert corners[1] == pytest.approx(corners[0], abs=4)  # a third of a millimetre
    assert station is not None


def test_a_printer_that_is_gone_is_said_and_nothing_is_counted(printed, roe_window, packs, qtbot):
    roe_window.bench.settings.keep("label_printer", "Old printer")
    print_labels(roe_window.bench, packs)
    settle(roe_window, qtbot)
    assert "Old printer" in roe_window.banner.words.text()
    assert questions.label_sheets(roe_window.bench.register, packs[:1])[0].copy == 1


def test_at_once_they_go_the_way_the_last_ones_went(printed, roe_window, packs, qtbot):
    roe_window.bench.settings.keep("label_printer", "Larder printer")
    print_labels(roe_window.bench, packs)
    settle(roe_window, qtbot)
    assert codes_read(printed.read_bytes()) == packs


# -- stocks and small paper -------------------------------------------------------------------------------


def test_a_stock_is_measured_kept_and_printed_on(roe_window, page, packs, tmp_path, qtbot):
    station = roe_window.station("paper")
    station.page.choice.choose("stocks")
    stocks = station.page.stocks
    stocks.list.set_value("a4-3x7")
    stocks.chosen.emit("a4-3x7")
    stocks.name.inner.setText("Ours")
    stocks.counts["rows"].inner.set_text("8")
    stocks.keep.click()
    assert "need" in stocks.lengths["page_h_mm"].trouble.text()
    stocks.lengths["label_h_mm"].inner.set_text("33,9")
    stocks.lengths["top_mm"].inner.set_text("12,9")
    stocks.keep.click()
    assert [one.name for one in questions.label_stocks(roe_window.bench.register)] == ["Ours"]
    assert questions.label_stocks(roe_window.bench.register)[0].label_h_mm == 33.9
    settle(roe_window, qtbot)
    assert page.stock.value() == "Ours"
    stocks.drop.click()
    assert questions.label_stocks(roe_window.bench.register) == ()


def test_a_printer_that_feeds_off_is_told_once_and_moves_every_label(roe_window, page, packs, qtbot):
    station = roe_window.station("paper")
    before = station.labels.ready().stock
    move = station.page.stocks.moves["right"].inner
    move.set_text("1,5")
    move.edit.editingFinished.emit()
    after = station.labels.ready().stock
    assert after.left_mm - before.left_mm == pytest.approx(1.5)


def test_small_papers_are_saved_and_what_is_missing_is_said_at_its_field(
    roe_window, page, packs, tmp_path, qtbot
):
    station = roe_window.station("paper")
    station.page.choice.choose("small")
    small = station.page.small
    small.cutting.click()
    assert "Give a lot" in small.code.trouble.text()
    small.species.set_value("roe")
    small.cutting.click()
    settle(roe_window, qtbot)
    assert "Cutting sheet: roe" in words(tmp_path / "papers" / "cutting-sheet-empty-roe.pdf")
    small.evidence.click()
    assert "Whose sheet" in small.student.trouble.text()
    small.student.inner.setText("R001")
    small.evidence.click()
    settle(roe_window, qtbot)
    assert "Nothing is written down" in words(tmp_path / "papers" / "evidence-R001.pdf")


@pytest.mark.parametrize("name", ["labels", "stocks", "small"])
@pytest.mark.parametrize("size", [(1280, 800), (1920, 1080)])
def test_every_page_of_paper_fits_a_hand(roe_window, page, qtbot, fits_a_hand, name, size):
    roe_window.resize(*size)
    station = roe_window.station("paper")
    roe_window.go("paper")
    station.page.show_page(name)
    settle(roe_window, qtbot)
    roe_window.grab_station("paper")
    assert fits_a_hand(station) == []


def test_a_picture_of_the_paper_is_bytes_of_its_own() -> None:
    from gametrace.documents.page_pictures import PagePicture

    image = paper_printer.black_and_white(PagePicture(2, 1, b"\x10\xf0"))
    assert [image.pixelColor(at, 0).red() for at in (0, 1)] == [0, 255]
