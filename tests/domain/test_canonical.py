"""The one spelling of entries, against RFC 8785, its author's vectors and another implementation."""

import json
from pathlib import Path

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st

from gametrace.domain.canonical import canonical, digest

VECTORS = Path(__file__).parent.parent / "vectors" / "rfc8785"

text = st.text(max_size=20)
whole = st.integers(-(2**53) + 1, 2**53 - 1)
plain = st.recursive(
    st.none() | st.booleans() | whole | text,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(text, inner, max_size=4),
    max_leaves=25,
)


# testdata of github.com/cyberphone/json-canonicalization, by the author of RFC 8785.
@pytest.mark.parametrize("name", ["arrays", "french", "unicode", "weird"])
def test_a_vector_without_fractions_is_spelled_byte_for_byte(name: str) -> None:
    value = json.loads((VECTORS / "input" / f"{name}.json").read_text("utf-8"))
    assert canonical(value).encode() == (VECTORS / "output" / f"{name}.json").read_bytes()


@pytest.mark.parametrize("name", ["structures", "values"])
def test_a_vector_with_fractions_is_refused(name: str) -> None:
    value = json.loads((VECTORS / "input" / f"{name}.json").read_text("utf-8"))
    with pytest.raises(ValueError, match="no place in an entry"):
        canonical(value)


@given(plain)
def test_any_entry_is_spelled_as_another_implementation_spells_it(value: object) -> None:
    assert canonical(value).encode() == rfc8785.dumps(value)  # type: ignore[arg-type]


@given(plain)
def test_what_was_spelled_reads_back_as_it_was_and_spells_the_same_again(value: object) -> None:
    spelled = canonical(value)
    assert json.loads(spelled) == value
    assert canonical(json.loads(spelled)) == spelled


# FIPS 180-4 / NIST example "abc" for SHA-256.
def test_the_digest_is_sha_256() -> None:
    assert digest("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


@pytest.mark.parametrize(
    "value",
    [1.0, 0.5, float("nan"), float("inf"), 2**53, -(2**53), b"x", {1, 2}, object(), {1: "a"}, {"a": [1.5]}],
)
def test_what_cannot_be_spelled_exactly_is_refused(value: object) -> None:
    with pytest.raises(ValueError, match=r"no place in an entry|only text can be a key"):
        canonical(value)


@pytest.mark.parametrize("value", ["\ud800", {"\udc00": 1}, ["a\udfff"]])
def test_half_a_surrogate_pair_is_refused(value: object) -> None:
    with pytest.raises(ValueError, match="surrogates not allowed"):
        canonical(value)


def test_keys_are_ordered_by_utf_16_as_the_rfc_asks_and_not_by_code_point() -> None:
    """RFC 8785, 3.2.3: U+1F600 is spelled with surrogates, so it comes before U+FB33."""
    assert canonical({"\ufb33": 1, "\U0001f600": 2}) == '{"\U0001f600":2,"\ufb33":1}'
