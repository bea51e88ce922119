"""`gametrace tour`: the whole job on an empty register, with every paper and every station's picture."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable
from dataclasses import asdict
from pathlib import Path

from gametrace.documents.labels import label_pdf
from gametrace.documents.stocks import STOCKS
from gametrace.documents.trace_sheet import trace_pdf
from gametrace.documents.visit_pack import visit_pdf
from gametrace.domain.errors import Refusal, Trouble
from gametrace.headless import tour_job
from gametrace.headless.opening import write_file
from gametrace.headless.tour_job import Codes, SteppedClock
from gametrace.register import questions
from gametrace.register.opening import Register, open_register

Step = Callable[[Register, SteppedClock, Codes], None]


def tour(folder: Path) -> int:
    """Do the whole job in `folder`, which must be new or empty, and say where everything lies."""
    _make_empty(folder)
    clock, codes = SteppedClock(), Codes()
    with open_register(folder / "tour.register", clock=clock) as register:
        tour_job.set_up(register, codes)
        pictures = _walk(register, clock, codes, folder)
        papers = _papers(register, codes, folder)
        findings = questions.check(register)
        report = {
            **asdict(codes),
            "register": "tour.register",
            "papers": papers,
            "pictures": pictures,
            "seal": questions.seal(register).head,
            "findings": [f.to_dict() for f in findings],
        }
    write_file(folder / "tour.json", json.dumps(report, ensure_ascii=False, indent=2).encode())
    print(f"The tour is in {folder}: tour.register, {', '.join(papers + pictures)}, tour.json")
    return 1 if findings else 0


def _make_empty(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if any(folder.iterdir()):
            raise Refusal(f"{folder} is not empty.", "Name a new folder, so that nothing is written over.")
    except OSError as error:
        raise Trouble(f"{folder} cannot be used: {error.strerror}.", "Name another folder.") from error


def _walk(register: Register, clock: SteppedClock, codes: Codes, folder: Path) -> list[str]:
    """The acts, station by station, each followed by a picture of the real window."""
    if sys.platform.startswith("linux") and not (
        os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")
    ):
        os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    from gametrace.desktop.app import build_window

    window = build_window(register, papers=folder)
    window.resize(1280, 800)
    window.bench.set_person(codes.technician)
    window.show()
    made: list[str] = []

    def picture(station: str, code: str = "") -> None:
        window.bench.refresh.tell(None)  # the acts went past the window, so it is told to look again
        window.go(station, code)
        name = f"{station}.png"
        if not window.grab_station(station).save(str(folder / name)):
            raise Trouble(f"{folder / name} cannot be written.", "Free some space or name another folder.")
        made.append(name)

    picture("setup")
    tour_job.receive_and_dress(register, clock, codes)
    picture("delivery")
    picture("larder", codes.carcasses["doe"])
    picture("today")
    tour_job.break_down(register, clock, codes)
    picture("block", codes.mince)
    tour_job.cook(register, clock, codes)
    picture("pass")
    picture("trace", codes.dish)
    picture("visit")
    window.close()
    return made


def _papers(register: Register, codes: Codes, folder: Path) -> list[str]:
    """labels.pdf, trace.pdf and visit.pdf, from the register as it now stands."""
    larder = questions.larder(register)
    labels = questions.label_sheets(register, [*codes.carcasses.values(), *codes.packs, codes.dish])
    visit = questions.visit_sheet(
        register, first=tour_job.FIRST_DAY.date(), last=register.today(), lot=codes.dish
    )
    papers = {
        "labels.pdf": label_pdf(labels, STOCKS["single-100x50"]),
        "trace.pdf": trace_pdf(questions.trace(register, codes.dish), larder, register.clock()),
        "visit.pdf": visit_pdf(visit),
    }
    for name, content in papers.items():
        write_file(folder / name, content)
    return list(papers)
