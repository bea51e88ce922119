"""Takes the notices of the door and the claim note to paper; drawn off the GUI thread.

A notice goes straight to paper without a question: it is wanted at once. A claim note is saved where the
person says.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from gametrace.desktop.bench import Bench

if TYPE_CHECKING:
    from gametrace.register.animal_file import AnimalFile, Claim

SHOWN_TO_SUPPLIER = ("wound", "carcass", "mark", "tag")
_DRAWN = ("image/jpeg", "image/png")


def print_suspicion(bench: Bench, file: AnimalFile, signs: Sequence[tuple[str, str]]) -> None:
    """The notice of a notifiable sign, for the door."""
    larder = bench.ask("larder")
    _print(
        bench, partial(_suspicion, file, tuple(signs), larder, bench.now()), f"stop-{file.carcass.code}.pdf"
    )


def print_positive(bench: Bench, file: AnimalFile) -> None:
    """The notice of a positive boar, for the door."""
    larder = bench.ask("larder")
    _print(bench, partial(_positive, file, larder, bench.now()), f"locked-{file.carcass.code}.pdf")


def print_claim(bench: Bench, file: AnimalFile, claim: Claim) -> None:
    """The claim note with the pictures that show the damage."""
    pictures = [
        (one.what, content[1])
        for one in file.pictures
        if one.what in SHOWN_TO_SUPPLIER and one.media_type in _DRAWN
        for content in [bench.ask("picture", one.hash)]
        if content is not None
    ]
    make = partial(_claim, file, claim, bench.ask("larder"), pictures, bench.now())
    bench.to_paper(make, f"claim-{claim.id}-{file.carcass.code}.pdf", "The claim note is in")


def _suspicion(file: AnimalFile, signs: tuple[tuple[str, str], ...], larder: Any, at: Any) -> bytes:
    from gametrace.documents.notices import notice_pdf, suspicion_notice

    return notice_pdf(suspicion_notice(file, signs, larder.jurisdiction), larder, at)


def _positive(file: AnimalFile, larder: Any, at: Any) -> bytes:
    from gametrace.documents.notices import notice_pdf, positive_notice

    return notice_pdf(positive_notice(file), larder, at)


def _claim(
    file: AnimalFile, claim: Claim, larder: Any, pictures: Sequence[tuple[str, bytes]], at: Any
) -> bytes:
    from gametrace.documents.claim_note import claim_note_pdf

    return claim_note_pdf(file, claim, larder, pictures, at)


def _print(bench: Bench, make: Callable[[], bytes], name: str) -> None:
    bench.errands.run(partial(_made, make), done=partial(_deliver, bench, name), failed=bench.errand_failed)


def _made(make: Callable[[], bytes], progress: Callable[[int, int], None]) -> bytes:
    progress(0, 1)
    return make()


def _deliver(bench: Bench, name: str, pdf: bytes) -> None:
    path = bench.guarded(partial(bench.printing.deliver, pdf, name, ask=False))
    if path is not None:
        bench.done.emit(f"The notice for the door is in {path.name}, in {path.parent}")
