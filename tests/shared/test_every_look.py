"""Every question that the store can be asked is asked of one register twice: on the server, and as a file.

A new look whose arguments have other names fails here until ASKED says what to ask it with.
"""

from __future__ import annotations

import inspect
import pkgutil
from collections.abc import Callable, Iterator, Mapping
from importlib import import_module
from itertools import product
from typing import Any

import pytest
from larder_house import House
from server import Server
from sqlalchemy import Row
from whole_house import live, live_on

import gametrace.store
from gametrace.register import keeping, questions
from gametrace.register.opening import Register, open_register
from gametrace.store import lineage, searching
from gametrace.store.projection import KINDS

MODULES = (
    *(
        import_module(f"gametrace.store.{module.name}")
        for module in pkgutil.iter_modules(gametrace.store.__path__)
        if module.name.startswith("look_")
    ),
    lineage,
)
LOOKS = {
    f"{module.__name__.rpartition('.')[2]}.{name}": function
    for module in MODULES
    for name, function in inspect.getmembers(module, inspect.isfunction)
    if function.__module__ == module.__name__ and not name.startswith("_")
} | {"searching.lots_with_words": searching.lots_with_words}

CODES = ("S001", "R001", "R002", "C1", "C1.S1", *(f"{letter}001" for letter in "EBDGHJLNQTUVWXYZ"))
ASKED: dict[
    str, tuple[Any, ...]
] = {  # by the name of the argument; `lot`, `lots` and `dishes` are all there are
    "claim": (1,),
    "code": CODES,
    "codes": (CODES,),
    "column": ("supplier", "killed_on", "kill_place", "declaration_number"),
    "cutter": ("R001",),
    "day": ("2026-11-12", "2026-11-13"),
    "first": ("", "2026-11-13"),
    "first_day": ("",),
    "hold": (1, 2),
    "holds": (range(1, 30),),
    "hunters": (("H001", "H002"),),
    "key": ("session", "cutter", "station"),
    "kind": ("mix", "dish", "pack", "lot.divided"),
    "kinds": (("lot.divided", "lots.joined", "pack", "carcass"),),
    "last": ("~", "2026-11-13"),
    "last_day": ("~",),
    "limit": (50, 1),
    "limit_tenths_c": (30,),
    "most": (50, 1),
    "name": ("LOIN", "ragout"),
    "number": ("d0001",),
    "occasion": ("thursday LUNCH",),
    "on": ("2026-11-13",),
    "open_only": (True, False),
    "place": ("C1.S1", "C1.R1.01"),
    "placed_at": ("2026-11-12T09:00:00Z",),
    "seconds": (0,),
    "seq": tuple(range(0, 90, 7)),
    "seqs": (range(1, 400),),
    "session": CODES,
    "since": ("",),
    "species": ("fallow",),
    "store": ("C1",),
    "supplier": ("S001",),
    "tag": ("nb 0417",),
    "tenths_of_a_percent": (0,),
    "value": ("S001", "2026-11-10", "long wood", "d0001", "R001", "table 1"),
    "words": ("LUNCH", ("nb", "04")),
}
INSTANTS = {
    "first": (0,),
    "last": (4_000_000_000,),
    "since": (0,),
}  # the same where they are counted in seconds


@pytest.fixture(scope="module")
def both(server: Server, tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Register, Register]]:
    """A house in which everything happened, lived on the server and moved to a file."""
    house = House(server.new_place())
    folder = tmp_path_factory.mktemp("moved")
    live(house, folder / "backups")
    live_on(house)
    file = folder / "moved.register"
    keeping.move(house.reg, file)
    with open_register(file, clock=house.clock, create=False) as moved:
        yield house.reg, moved
    house.close()


def test_every_kind_of_entry_was_written_there_and_plays_again_as_in_a_file(
    both: tuple[Register, Register],
) -> None:
    shared, _ = both
    with shared.store.reading() as connection:
        kinds = set(connection.exec_driver_sql("SELECT kind FROM happening").scalars())
    assert KINDS - kinds == set()
    assert questions.check(shared) == ()
    assert keeping.rebuild(shared) == questions.seal(shared).count
    assert questions.check(shared) == ()


@pytest.mark.parametrize("name", LOOKS)
def test_a_look_sees_on_the_server_what_it_sees_in_a_file(both: tuple[Register, Register], name: str) -> None:
    shared, moved = both
    look = LOOKS[name]
    with shared.store.reading() as there, moved.store.reading() as here:
        lots = tuple(here.exec_driver_sql("SELECT id FROM lot ORDER BY id").scalars())
        some = False
        for given in _questions(look, lots):
            try:
                answer = plain(look(here, **given))
            except (ValueError, AttributeError):  # not a question for this look
                continue
            assert plain(look(there, **given)) == answer, given
            some = some or bool(answer)
    assert some, "nothing was found with any of these: give ASKED something that is there"


def _questions(look: Callable[..., Any], lots: tuple[int, ...]) -> Iterator[Mapping[str, Any]]:
    wanted = [one for one in inspect.signature(look).parameters.values() if one.name != "connection"]
    values = [_values(look, one, lots) for one in wanted]
    for given in product(*values):
        yield dict(zip((one.name for one in wanted), given, strict=True))


def _values(look: Callable[..., Any], one: inspect.Parameter, lots: tuple[int, ...]) -> tuple[Any, ...]:
    if one.name == "lot":
        return lots
    if one.name in ("lots", "dishes"):
        return (lots,)
    if one.default is not inspect.Parameter.empty:
        return (one.default, *({} if one.annotation == "int" else ASKED).get(one.name, ()))
    return INSTANTS[one.name] if one.name in INSTANTS and one.annotation == "int" else ASKED[one.name]


def plain(answer: Any) -> Any:
    """An answer to be compared: rows as tuples, whatever holds them."""
    if isinstance(answer, Row):
        return tuple(answer)
    if isinstance(answer, Mapping):
        return {key: plain(value) for key, value in answer.items()}
    if isinstance(answer, set | frozenset):
        return set(answer)
    if isinstance(answer, list | tuple) or inspect.isgenerator(answer):
        return [plain(one) for one in answer]
    return answer
