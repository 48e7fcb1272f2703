# SPDX-License-Identifier: LGPL-2.1-or-later

"""Names: letters in their order, and names that every system bears as a file's."""

from __future__ import annotations


def letters(index: int) -> str:
    """The letters at a place counted from 0: A … Z, AA, AB …"""
    text = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        text = chr(ord("A") + rest) + text
    return text


def file_name(words: str, also: str = "") -> str:
    """`words` with nothing but letters, digits, - and _ (and the signs in `also`); “stack” when nothing is left."""
    return "".join(c if c.isalnum() or c in f"-_{also}" else "_" for c in words).strip(f"_{also}") or "stack"
