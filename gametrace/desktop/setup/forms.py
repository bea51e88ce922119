"""The five forms of the set-up. What the first delivery does not need is not asked in the guide."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from gametrace.desktop.look import SCALES, Look
from gametrace.desktop.parts.choice_row import ChoiceRow
from gametrace.desktop.parts.form import Form
from gametrace.desktop.parts.notice import Field
from gametrace.desktop.parts.sheet import Sheet
from gametrace.desktop.parts.words import Words, clear
from gametrace.facts.origins import ORIGINS, ROUTES

JURISDICTIONS = (
    ("england-wales", "England and Wales"),
    ("scotland", "Scotland"),
    ("northern-ireland", "Northern Ireland"),
)
ROLES = (("tutor", "Tutor"), ("technician", "Technician"), ("student", "Student"), ("officer", "Officer"))
PIN_SAYS = (
    "With a PIN nobody writes under your name by a slip or in fun, and what needs a second person gets one. "
    "It does not protect the register from somebody who has the file, or a copy of it: names and weights are "
    "not encrypted, and so few digits are soon tried. Keep the computer and the backups where only those "
    "come who may."
)
SORTS = (("chill", "Chill"), ("freezer", "Freezer"))


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def larder_form() -> Form:
    form = Form("The larder", "Keep this")
    form.line("name", "What is the larder called?", hint="as it should stand on labels")
    form.choice("jurisdiction", "Whose rules does it keep? They decide seasons and limits.", JURISDICTIONS)
    form.line("address", "Address, as on the officer's papers", most=500)
    form.line("registration_number", "Registration number as a food business", hint="not stated")
    form.finish()
    return form


def person_form() -> Form:
    form = Form("A person", "Enrol")
    form.line("name", "Name")
    form.line("initials", "Initials, as lists and labels show them", most=4)
    form.choice("role", "Role", ROLES, value="tutor")
    form.finish()
    return form


def store_form() -> Form:
    form = Form("A cold store", "Add the store")
    form.line("name", "What is it called?", hint="Chill 1")
    form.choice("sort", "Sort", SORTS, value="chill")
    form.line("rails", "Hooks on each rail: 10 is one rail of ten, 10, 8 are two rails", hint="10")
    form.line("shelves", "How many shelves?", hint="none")
    form.finish()
    return form


def supplier_form() -> Form:
    form = Form("A supplier", "Add the supplier")
    form.line("name", "Who brings the animals?")
    form.line("address", "Address", most=500)
    form.choice("route", "By which route?", [(key, _capital(w)) for key, w in ROUTES.items()], columns=2)
    form.choice(
        "origin",
        "How do the animals live?",
        [(key, _capital(w)) for key, w in ORIGINS.items()],
        value="wild-shot",
    )
    form.line("phone", "Telephone", hint="not stated")
    form.line("approval_number", "Registration or approval number", hint="not stated")
    form.line("trained_hunter", "Trained hunter", hint="not stated")
    form.line("certificate_number", "Certificate number", hint="not stated")
    form.finish()
    return form


class Listing(Sheet):
    """What is there already, a line each."""

    def __init__(self, title: str, parent: QWidget | None = None) -> None:
        super().__init__(title, parent)
        self._lines = QVBoxLayout()
        self._lines.setSpacing(8)
        self.add(self._lines)

    def show_lines(self, lines: Sequence[str]) -> None:
        clear(self._lines)
        self.setVisible(bool(lines))
        for line in lines:
            self._lines.addWidget(Words(line))


class LeaverForm(Form):
    """Tears up a leaver's card; what they did stays under their code."""

    def __init__(self) -> None:
        super().__init__("Somebody has left", "Forget this person")
        self.who = self.choice("person", "Who?", (), columns=2)
        self.line("reason", "Why? The name goes; what was done stays in the register under a code.")
        self.finish()


class OldNameForm(Form):
    """Lets the name of a supplier or hunter go whose records were kept long enough."""

    def __init__(self) -> None:
        super().__init__("A supplier, hunter or customer whose time is over", "Forget this name")
        self.who = self.choice("code", "Whose? Their records were kept as long as is asked.", (), columns=2)
        self.line("reason", "Why? The name goes; what they brought stays in the register under a code.")
        self.finish()


class PinForm(Form):
    """Sets the PIN of whoever is at the keyboard."""

    def __init__(self) -> None:
        super().__init__("Your PIN", "Set this PIN")
        self.says = Words(PIN_SAYS, "quiet")
        self.add(self.says)
        for name, label in (("pin", "4 to 8 digits"), ("again", "The same again")):
            edit = self.line(name, label, most=8)
            edit.setEchoMode(QLineEdit.EchoMode.Password)
        self.finish()


class PinAwayForm(Form):
    """Takes a PIN away."""

    def __init__(self) -> None:
        super().__init__("A PIN was forgotten", "Take this PIN away")
        self.who = self.choice("person", "Whose? They can set another afterwards.", (), columns=2)
        self.finish()


class ScreenSheet(Sheet):
    """Light or dark, and how large."""

    changed = Signal()

    def __init__(self, look: Look, keep: Callable[[str, bool | str], None]) -> None:
        super().__init__("This screen")
        self._look, self._keep = look, keep
        self.ground = ChoiceRow(
            (("light", "Light"), ("dark", "Dark")), value="dark" if look.is_dark else "light", name="Ground"
        )
        sizes = [(str(scale), f"{round(scale * 100)} %") for scale in SCALES]
        self.scale = ChoiceRow(sizes, value=str(look.scale), name="Size")
        self.add(Field("Ground", self.ground))
        self.add(Field("Size of everything; painted parts follow when the page is opened anew", self.scale))
        self.ground.changed.connect(self._set_ground)
        self.scale.changed.connect(self._set_size)

    def _set_ground(self, value: str) -> None:
        self._keep("dark", value == "dark")
        self._look.set_dark(value == "dark")

    def _set_size(self, value: str) -> None:
        self._keep("scale", value)
        self._look.set_scale(float(value))
