"""One declaration, several bodies: Regulation (EC) 853/2004 Annex III Sec. IV Ch. II(4)(a)."""

from __future__ import annotations

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.findings import Severity
from gametrace.domain.shared_declarations import DeclaredBody, shared_declaration_findings

FULL = DeclaredBody("T1", date(2026, 11, 14), "07:40", "Long Covert")


# As substituted by Regulation (EU) 150/2011: each body with its own number, date, time and place.
def test_each_body_on_one_declaration_has_its_own_number_day_time_and_place() -> None:
    other = DeclaredBody("T2", date(2026, 11, 14), "08:05", "Long Covert")
    assert shared_declaration_findings("D-17", (FULL, other)) == ()
    [finding] = shared_declaration_findings("D-17", (FULL, DeclaredBody("T2", None, " ", "Long Covert")))
    assert (finding.code, finding.severity) == ("declaration-body-gaps", Severity.ASK)
    assert "body T2, the day and the time" in finding.sentence
    assert "one establishment" in finding.sentence
    assert "150/2011" in finding.source


def test_a_body_without_a_number_is_called_by_its_line() -> None:
    [finding] = shared_declaration_findings("", (FULL, DeclaredBody("", date(2026, 11, 14), "08:05", "Moss")))
    assert "the body in line 2, its number" in finding.sentence
    assert "without a number" in finding.sentence


def test_a_body_listed_twice_is_asked_about() -> None:
    [finding] = shared_declaration_findings("D-17", (FULL, DeclaredBody("t1 ", *_rest())))
    assert finding.code == "declaration-body-twice"


def _rest() -> tuple[date, str, str]:
    return date(2026, 11, 14), "08:05", "Moss"


def test_one_body_is_an_ordinary_declaration() -> None:
    assert shared_declaration_findings("D-17", (DeclaredBody(),)) == ()
    assert shared_declaration_findings("D-17", ()) == ()


@given(
    bodies=st.lists(
        st.builds(
            DeclaredBody,
            st.text(max_size=3),
            st.none() | st.dates(),
            st.text(max_size=5),
            st.text(max_size=3),
        ),
        max_size=6,
    )
)
def test_any_list_of_bodies_gets_at_most_two_questions(bodies: list[DeclaredBody]) -> None:
    found = shared_declaration_findings("D", bodies)
    assert len(found) <= 2
    assert all(one.severity is Severity.ASK and one.source for one in found)
