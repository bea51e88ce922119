"""The commands that print: labels and the visit's paper, as PDF files."""

from __future__ import annotations

import argparse

from gametrace.documents.labels import label_pdf
from gametrace.documents.stocks import STOCKS
from gametrace.documents.visit_pack import visit_pdf
from gametrace.domain.errors import Refusal
from gametrace.headless.opening import opened, write_file
from gametrace.register.questions import label_sheets, label_stocks, visit_sheet


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
        sheet = visit_sheet(register, first=options.first, last=options.last, lot=options.lot)
    write_file(options.out, visit_pdf(sheet))
    print(f"{len(sheet.deliveries)} deliveries, seal {sheet.seal.head[:16]}…, in {options.out}")
    return 0
