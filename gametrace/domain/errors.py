"""The three families of things that go wrong, and nothing about how they are shown.

A Refusal is the user's to mend and says how. Trouble is the surroundings: disk, file, lock, a newer
register. Anything else that escapes is a bug.
"""

from __future__ import annotations


class GametraceError(Exception):
    """Base of every error this program raises on purpose; `str()` of it is a sentence for a person."""


class Refusal(GametraceError):
    """The act was not done and nothing was changed. `sentence` says why, `what_to_do` says what helps.

    `field` names the input it speaks of ("grams", "tag"...), so that a form can show it beside it.
    """

    def __init__(self, sentence: str, what_to_do: str = "", field: str = "") -> None:
        super().__init__(f"{sentence} {what_to_do}".strip())
        self.sentence = sentence
        self.what_to_do = what_to_do
        self.field = field


class Trouble(GametraceError):
    """The surroundings failed. What was acknowledged before is on disk; this act was not done."""

    def __init__(self, sentence: str, what_to_do: str = "") -> None:
        super().__init__(f"{sentence} {what_to_do}".strip())
        self.sentence = sentence
        self.what_to_do = what_to_do
