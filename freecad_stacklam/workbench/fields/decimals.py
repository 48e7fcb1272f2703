# SPDX-License-Identifier: LGPL-2.1-or-later

"""Figures in the decimal sign of the window: a comma where FreeCAD's own fields show one."""

from __future__ import annotations

import re

from freecad_stacklam.qt_binding import QtCore

#: A quotation, by the marks of any of our languages, which stays as it was written, or the point inside a figure.
_POINT = re.compile(r"„[^“]*“|“[^”]*”|«[^»]*»|(?<![\d.,])(\d+)\.(\d+)(?!\.?\d)")
#: A figure with a decimal comma, and nothing that could part thousands.
_COMMA = re.compile(r"(?<![\d.,])(\d*),(\d+)(?![.,]?\d)")


def comma_is_decimal() -> bool:
    """Whether the window's fields show a comma in 44,5."""
    return QtCore.QLocale().decimalPoint() in (",", ord(","))


def shown_decimals(text: str) -> str:
    """A text with its figures as the window's fields show them; what it quotes stays as it was typed."""
    if not comma_is_decimal():
        return text
    return _POINT.sub(lambda found: found[0] if found[1] is None else f"{found[1]},{found[2]}", text)


def typed_decimals(text: str) -> str:
    """A typed text with its decimal commas as points, where the window's fields show commas; elsewhere a comma may part
    thousands, and what reads the text says so."""
    return _COMMA.sub(r"\1.\2", text) if comma_is_decimal() else text
