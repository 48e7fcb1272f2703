# SPDX-License-Identifier: LGPL-2.1-or-later

"""Titles of what goes on, on another page or in another column."""

from __future__ import annotations

from freecad_stacklam.lamination.words import mark, say

_PAGE = mark("{title}, continued")
_COLUMN = mark("{title} (continued)")


def _around(sentence: str) -> tuple[str, str]:
    """What stands before and after the title, in the language that is spoken."""
    before, _, after = say(sentence, title="\0").partition("\0")
    return before, after


def next_page(title: str) -> str:
    """The title of a page that goes on with what is called so."""
    return say(_PAGE, title=title)


def first_page(title: str) -> str:
    """What a page is called on the first of its pages."""
    before, after = _around(_PAGE)
    if title.startswith(before) and title.endswith(after):
        return title.removeprefix(before).removesuffix(after)
    return title


def next_column(title: str) -> str:
    """The title of a table that goes on in another column, however often it does."""
    before, after = _around(_COLUMN)
    return title if title.startswith(before) and title.endswith(after) else say(_COLUMN, title=title)
