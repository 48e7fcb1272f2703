# SPDX-License-Identifier: LGPL-2.1-or-later

"""Text on its way into a table that a spreadsheet will open."""

from __future__ import annotations


def safe_cell(text: str) -> str:
    """Text that no spreadsheet takes for a formula: a leading = + - @, tab or return gets an apostrophe before it."""
    bare = text.lstrip(" \n\u00a0\ufeff")
    return f"'{text}" if bare[:1] in tuple("=+-@\t\r＝＋－＠") and bare else text
