# SPDX-License-Identifier: LGPL-2.1-or-later

"""Names: letters in their order, lists in a sentence, and names that every system bears as a file's."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from functools import reduce

from freecad_stacklam.lamination.words import say

#: Letters of a file's name: systems bear 255 bytes, a letter takes up to four, and numbers and endings come after it.
MOST_LETTERS = 40


def letters(index: int) -> str:
    """The letters at a place counted from 0: A … Z, AA, AB …"""
    text = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        text = chr(ord("A") + rest) + text
    return text


def listed(names: Sequence[str]) -> str:
    """Names as they stand in a sentence: “A”, “A and B”, “A, B and C”."""
    *first, last = names
    return say("{names} and {last}", names=", ".join(first), last=last) if first else last


def any_of(names: Sequence[str]) -> str:
    """Names of which one holds: “A”, “A or B”, “A or B or C”."""
    return reduce(lambda one, other: say("{one} or {other}", one=one, other=other), names) if names else ""


def each_of(names: Sequence[str]) -> str:
    """Names that all hold: “A”, “A and B”, “A and B and C”."""
    return reduce(lambda one, other: say("{one} and {other}", one=one, other=other), names) if names else ""


def file_name(words: str, also: str = "") -> str:
    """`words`, composed (NFC), with nothing but letters, digits, - and _ (and the signs in `also`), at most
    MOST_LETTERS; “stack” when nothing is left."""
    composed = unicodedata.normalize("NFC", words)
    plain = "".join(c if c.isalnum() or c in f"-_{also}" else "_" for c in composed).strip(f"_{also}")
    return plain[:MOST_LETTERS].strip(f"_{also}") or "stack"


def file_names(words: Sequence[str]) -> list[str]:
    """A file name for each, numbered where two would be the same where large letters are small ones."""
    taken: set[str] = set()
    names = []
    for plain in map(file_name, words):
        name, number = plain, 2
        while name.casefold() in taken:
            name, number = f"{plain}_{number}", number + 1
        taken.add(name.casefold())
        names.append(name)
    return names
