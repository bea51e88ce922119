"""The commands that print: labels, the visit's paper, a dealer's old book, as PDF files."""

from __future__ import annotations

import argparse

from gametrace.documents.book_paper import book_pdf
from gametrace.documents.hand_over_sheet import hand_over_pdf
from gametrace.documents.labels import label_pdf
from gametrace.documents.stocks import STOCKS
from gametrace.documents.visit_pack import visit_pdf
from gametrace.domain.errors import Refusal
from gametrace.exchange.csv_out import csv_text
from gametrace.facts.loading import UnknownFact
from gametrace.headless.opening import opened, write_file
from gametrace.register.questions import book_list, hand_over, label_sheets, label_stocks, visit_sheet


def label(options: argparse.Namespace) -> int:
    with opened(options.register) as register:
        stocks = {**STOCKS, **{one.name: one for one in label_stocks(register)}}
        stock = stocks.get(options.stock)
        if stock is None:
            raise Refusal(f"There is no label stock “{options.stock}”.", f"Use one of: {', '.join(stocks)}.")
        sheets = label_sheets(register, options.codes)
    write_file(options.out, label_pdf(sheets, stock))
    print(f"{len(sheets)} label{'s' if len(sheets) > 1 else ''} in {options.out}")
    return 0


def visit(options: argparse.Namespace) -> int:
    with opened(options.register) as register:
        sheet = visit_sheet(
            register, first=options.first, last=options.last, lot=options.lot, with_pictures=options.pictures
        )
    write_file(options.out, visit_pdf(sheet))
    print(f"{len(sheet.deliveries)} deliveries, seal {sheet.seal.head[:16]}…, in {options.out}")
    return 0


def sheet(options: argparse.Namespace) -> int:
    with opened(options.register) as register:
        found = hand_over(register, options.code)
    write_file(options.out, hand_over_pdf(found))
    print(f"The {found.sort} {found.trace.code}, one page, in {options.out}")
    return 0


def book(options: argparse.Namespace) -> int:
    """A list for its own year, or for a period, as CSV on standard output or as a PDF."""
    try:
        with opened(options.register) as register:
            made = book_list(register, options.which, first=options.first, last=options.last)
            larder, now = register.larder, register.clock()
    except UnknownFact as error:
        raise Refusal(error.sentence) from error
    if options.out is None:
        print(csv_text(made.heads, made.rows), end="")
        return 0
    write_file(options.out, book_pdf(made, larder, now))
    print(f"{len(made.rows)} lines, {made.first} to {made.last}, in {options.out}")
    return 0
