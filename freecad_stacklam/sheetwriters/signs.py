# SPDX-License-Identifier: LGPL-2.1-or-later

"""Signs that no font on this computer has, in names that a maker gave: something stands for them on paper, and a line
at the foot of the page says what.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from dataclasses import replace

from freecad_stacklam.benchsheets.drawing.sheet import NOTE, Mark, Sheet, Text
from freecad_stacklam.lamination.words import say

#: What stands for such a sign; the second where a font has no first.
STAND_INS = "□?"
#: Signs that a note names.
_NAMED = 3
#: Where the note stands beside the line that asks for actual size, mm: over the check scales, and how long it may be
#: there; and where on a page without that line.
_BESIDE, _LONG, _CORNER = (-110.5, 2.3), 97.0, (12.0, 11.0)


def spelled(sheet: Sheet, has: Callable[[str], bool]) -> Sheet:
    """The sheet with a stand-in for every sign that cannot be printed, and a note that names them. has: whether there
    is a font with a sign."""
    texts = [mark for mark in sheet.marks if isinstance(mark, Text)]
    missing = [c for c in dict.fromkeys(c for text in texts for c in text.text) if c >= " " and not has(c)]
    if not missing:
        return sheet
    stand_in = next((c for c in STAND_INS if has(c)), "?")
    # What only colours or shapes the sign before it leaves no gap.
    table = {ord(c): "" if _belongs_to_another(c) else stand_in for c in missing}
    named = [c for c in missing if table[ord(c)]]
    marks: list[Mark] = [
        replace(mark, text=mark.text.translate(table)) if isinstance(mark, Text) else mark for mark in sheet.marks
    ]
    if named:
        marks.append(_note(texts, named, stand_in))
    return replace(sheet, marks=tuple(marks))


def _belongs_to_another(sign: str) -> bool:
    return unicodedata.category(sign) in ("Mn", "Cf") or unicodedata.name(sign, "").startswith("EMOJI MODIFIER")


def _note(texts: list[Text], missing: list[str], stand_in: str) -> Text:
    names = [_name(c) for c in missing[:_NAMED]]
    if len(missing) > _NAMED:
        names.append("…")
    words = say(
        "{stand_in} stands for {signs}: no font on this computer has it.",
        stand_in=stand_in,
        signs=", ".join(names),
    )
    # In every language, and French parts the two by a space that does not break.
    actual_size = [text for text in texts if re.search(r"100\s%", text.text) and text.fit is not None and not text.turn]
    if not actual_size:
        return Text(_CORNER, words, NOTE)
    beside = min(actual_size, key=lambda text: text.at[1])
    return Text((beside.at[0] + _BESIDE[0], beside.at[1] + _BESIDE[1]), words, NOTE, fit=_LONG)


def _name(sign: str) -> str:
    """What a sign is called in the Unicode standard, and its number there."""
    name = unicodedata.name(sign, "").lower()
    return f"“{name}” (U+{ord(sign):04X})" if name else f"U+{ord(sign):04X}"
