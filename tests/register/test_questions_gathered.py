"""The public interface answers to every name it promises."""

import pytest

from gametrace.register import acts, questions


@pytest.mark.parametrize("name", questions.__all__)
def test_every_question_promised_is_there(name: str) -> None:
    assert callable(getattr(questions, name))


@pytest.mark.parametrize("name", acts.__all__)
def test_every_act_promised_is_there(name: str) -> None:
    assert getattr(acts, name)


def test_a_question_nobody_wrote_is_not_made_up() -> None:
    with pytest.raises(AttributeError, match="no question called"):
        _ = questions.is_it_safe
