"""Who and what there is: the larder, its people, its suppliers, its stores. All of it invented."""

from __future__ import annotations

from dataclasses import dataclass

from gametrace.register import acts
from sample_db.house import House

_PEOPLE = (
    # key, name, initials, role
    ("maud", "Maud Ellerby-Finch", "ME", "tutor"),
    ("joss", "Joss Penderry", "JP", "technician"),
    ("anand", "Anand Sulekar", "AS", "tutor"),
    ("briony", "Briony Tackett", "BT", "student"),
    ("callum", "Callum Rookwith", "CR", "student"),
    ("dilys", "Dilys Ofomata", "DO", "student"),
    ("emre", "Emre Vanestone", "EV", "student"),
    ("hester", "Hester Quillamy", "HQ", "officer"),
)


@dataclass(frozen=True, slots=True)
class Source:
    """A supplier and what the builder needs to write its papers."""

    name: str
    address: str
    route: str
    origin: str
    phone: str  # numbers kept free for fiction
    hunter: str = ""
    certificate: str = ""
    approval: str = ""
    tag_letters: str = ""
    places: tuple[str, ...] = ()


SOURCES: dict[str, Source] = {
    "idris": Source(
        "Idris Fennimoor, stalker",
        "2 Sluice Cottages, Cold Thorn, Marrowshire",
        "wild-direct",
        "wild-shot",
        "01632 960101",
        "Idris Fennimoor",
        "TH-INV-1041",
        tag_letters="IF",
        places=("Cold Thorn Wood", "Sallow Carr", "Gorsey Bottom", "Nine Acre Spinney"),
    ),
    "park": Source(
        "Marlhanger Deer Park",
        "The Park Office, Marlhanger, Marrowshire",
        "park-as-wild",
        "park",
        "01632 960102",
        "Gwen Ashcomb-Lee",
        "TH-INV-2203",
        tag_letters="MP",
        places=("Marlhanger, east lawn", "Marlhanger, the Hangings", "Marlhanger, lake side"),
    ),
    "moor": Source(
        "Ruddle Moor Stalking",
        "Kiln End, Upper Ruddle, Marrowshire",
        "wild-direct",
        "wild-shot",
        "01632 960103",
        "Tam Ruddlestone",
        "TH-INV-0877",
        tag_letters="RM",
        places=("Ruddle Moor, north face", "Peat Gill", "Upper Ruddle plantation"),
    ),
    "farm": Source(
        "Saltgarth Red Deer",
        "Saltgarth Farm, Fen Drove, Marrowshire",
        "farmed-slaughterhouse",
        "field-farmed",
        "01632 960104",
        approval="INV-4410",
        tag_letters="SG",
        places=("Saltgarth Farm",),
    ),
    "onfarm": Source(
        "Copsey Hill Farm",
        "Copsey Hill, Marrowshire",
        "farmed-on-farm",
        "field-farmed",
        "01632 960105",
        approval="INV-4471",
        tag_letters="CH",
        places=("Copsey Hill Farm",),
    ),
    "dealer": Source(
        "Wick and Loam, game handlers",
        "Unit 3, Staithe Yard, Fenmoor, Marrowshire",
        "wild-approved",
        "wild-shot",
        "01632 960106",
        approval="INV-2018",
        tag_letters="WL",
        places=("Marrowshire coast woods", "Upper Ruddle plantation"),
    ),
    "shoot": Source(
        "Bennet Stile Shoot",
        "The Gun Room, Bennet Stile, Marrowshire",
        "wild-direct",
        "wild-shot",
        "01632 960107",
        "Perpetua Stiles",
        "TH-INV-3310",
        tag_letters="BS",
        places=("Bennet Stile, home beat", "Bennet Stile, far beat"),
    ),
    "warrener": Source(
        "Nan Thackeroy, warrener",
        "The Burrows, Sandy Drove, Marrowshire",
        "wild-direct",
        "wild-shot",
        "01632 960108",
        tag_letters="NT",
        places=("Sandy Drove", "Glebe Field"),
    ),
    "gate": Source(
        "Left at the gate, giver not known",
        "",
        "gift-unknown",
        "unknown",
        "",
        tag_letters="",
    ),
}


def set_up(house: House) -> None:
    """The first morning: the larder says who it is and takes on its people, suppliers and stores."""
    house.do(
        acts.set_up_larder,
        by="",
        name="Fenmoor Training Larder",
        address="Weirgate Lane, Fenmoor, Marrowshire",
        registration_number="INVENTED-0001",
        jurisdiction="england-wales",
        is_practice=True,
    )
    for key, name, initials, role in _PEOPLE:
        by = house.people.get("maud", "")
        changes = house.do(acts.enrol_person, by=by, name=name, initials=initials, role=role)
        house.people[key] = changes.code
    for key, one in SOURCES.items():
        lapse = f", to 30 June {house.lapse_year}" if key == "moor" else ""
        changes = house.do(
            acts.add_supplier,
            by="maud",
            name=one.name,
            address=one.address,
            route=one.route,
            origin=one.origin,
            phone=one.phone,
            approval_number=one.approval,
            trained_hunter=one.hunter,
            certificate_number=one.certificate + lapse,
        )
        house.suppliers[key] = changes.code
    house.do(
        acts.add_store,
        by="joss",
        name="Skin chill",
        sort="chill",
        rails=[("near rail", 10), ("far rail", 8)],
        shelves=["birds and ground game"],
    )
    house.do(
        acts.add_store,
        by="joss",
        name="Meat chill",
        sort="chill",
        rails=[("dressed rail", 8)],
        shelves=["trays", "packs, top", "packs, bottom"],
    )
    house.do(
        acts.add_store,
        by="joss",
        name="Walk-in freezer",
        sort="freezer",
        shelves=["haunch and saddle", "shoulder and dice", "mince", "birds"],
    )


def leave(house: House) -> None:
    """A student goes; the name is forgotten and the work stays."""
    house.do(
        acts.forget_person,
        by="maud",
        person=house.people["emre"],
        reason="Left at the end of the summer term.",
    )
