# SPDX-License-Identifier: LGPL-2.1-or-later

"""A catalogue that marks every sentence that goes through it, to find those that do not."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from gettext import NullTranslations

from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.words import speaking


class Pseudo(NullTranslations):
    """Each message between ⟦ and ⟧: what is shown and stands outside of them was never said."""

    def gettext(self, message: str) -> str:
        return f"⟦{message}⟧"

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return f"⟦{msgid1 if n == 1 else msgid2}⟧"

    def pgettext(self, context: str, message: str) -> str:
        return f"⟦{message}⟧"


def unsaid(text: str) -> str:
    """What of a text stands outside of all marks, without what joins sentences: "" where all of it was said."""
    depth, left = 0, []
    for sign in text:
        depth += (sign == "⟦") - (sign == "⟧")
        if depth == 0 and sign != "⟧":
            left.append(sign)
    return "".join(left).strip(" ;:,.")


def plain(text: str) -> str:
    """A text without the marks."""
    return text.replace("⟦", "").replace("⟧", "")


def same_but_marked(checks: Callable[[], Sequence[Check]]) -> list[Check]:
    """The verdicts in English, after each was found alike in the marked language, with its figures, and said whole."""
    english = list(checks())
    with speaking("en", Pseudo()):
        marked = list(checks())
    assert len(english) == len(marked)
    for one, other in zip(english, marked):
        for text in (other.name, other.says, other.source):
            assert not unsaid(text), f"not said whole: {text}"
        assert (one.name, one.says, one.source) == (plain(other.name), plain(other.says), plain(other.source))
        assert (one.verdict, one.figure, one.limit, one.unit, one.place, one.rule) == (
            other.verdict, other.figure, other.limit, other.unit, other.place, other.rule
        )  # fmt: skip
    return english
