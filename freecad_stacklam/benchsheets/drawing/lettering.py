# SPDX-License-Identifier: LGPL-2.1-or-later

"""How lengths are written and how much room a line of lettering takes."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from math import cos, radians, sin

from shapely import Polygon

from freecad_stacklam.benchsheets.drawing.sheet import Text
from freecad_stacklam.lamination.lengths import (
    fine_figure,
    format_bit,
    format_bore,
    format_length,
    format_thickness,
    plain_length,
    rounded_down,
    rounded_up,
)
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import figure, say

#: Fractions of an inch that rules are divided into.
FRACTIONS = (16, 32, 64)

# Advance of a character over the height of the capitals, in groups, for a wide sans-serif. A narrower font leaves room.
_NARROW = 0.46
_WIDTHS = {
    **dict.fromkeys("iljI|'.,:;·!", _NARROW),
    **dict.fromkeys("ftr()[]/- ", 0.56),
    **dict.fromkeys("mwMW%@—", 1.32),
}
_LOWER, _UPPER, _DIGIT = 0.86, 1.0, 0.88
_DESCENDERS = set("gjpqyQ,;()[]/|ŋþçşţ„")


def text_width(text: str, height: float, bold: bool = False) -> float:
    """About how long a line of lettering is, mm, on the generous side."""
    total = 0.0
    for c in text:
        if c in _WIDTHS:
            total += _WIDTHS[c]
        elif c.isdigit():
            total += _DIGIT
        else:
            total += _UPPER if c.isupper() or ord(c) > 0x2000 else _LOWER
    return total * height * (1.1 if bold else 1.0)


def text_box(text: Text, room: float = 0.0) -> Polygon:
    """The rectangle a line of lettering takes, page mm, widened by `room` all round."""
    width = text_width(text.text, text.height, text.bold)
    width = width if text.fit is None else min(width, text.fit)
    left = {"left": 0.0, "centre": -width / 2, "right": -width}[text.align]
    low = -(0.3 if _DESCENDERS & set(text.text) else 0.03) * text.height - room
    high = text.height + room
    c, s = cos(radians(text.turn)), sin(radians(text.turn))
    corners = ((left - room, low), (left + width + room, low), (left + width + room, high), (left - room, high))
    return Polygon([(text.at[0] + c * x - s * y, text.at[1] + s * x + c * y) for x, y in corners])


#: The blank between a figure and its unit, and after Ø, where no line breaks.
_UNBROKEN = re.compile(r"(?<=[\d\])]) (?=(?:mm|in|ft|lb|kg|%|l|m²|in²|ft²|in³)(?![\w°’]))|(?<=Ø) (?=\d)")


def wrapped(text: str, height: float, width: float) -> list[str]:
    """`text` broken at blanks into lines no longer than `width` mm (a single longer word stands alone); a figure stays
    with its unit."""
    lines: list[str] = []
    line = ""
    for word in _UNBROKEN.sub("\u00a0", " ".join(text.split())).split(" "):
        longer = f"{line} {word}".strip()
        if line and text_width(longer, height) > width:
            lines.append(line)
            longer = word
        line = longer
    return [one.replace("\u00a0", " ") for one in ([*lines, line] if line else lines)]


def shortened(text: str, height: float, width: float, bold: bool = False, squeeze: float = 0.75) -> str:
    """`text`, cut off with … where it would have to be condensed to less than `squeeze` of its width to fit."""
    room = width / squeeze
    if text_width(text, height, bold) <= room:
        return text
    while text and text_width(text + "…", height, bold) > room:
        text = text[:-1]
    return text.rstrip() + "…"


@dataclass(frozen=True)
class Units:
    """How lengths are written on a sheet: first in `first` ("mm" or "in"), and with `both` once more in the other unit,
    in brackets. Inches are written to the nearest 1/`fraction`."""

    first: str = "mm"
    fraction: int = 32
    both: bool = False

    def __post_init__(self) -> None:
        if self.first not in ("mm", "in"):
            raise Refusal(say("Lengths cannot be written in “{first}”: choose mm or in.", first=self.first))
        if self.fraction not in FRACTIONS:
            raise Refusal(
                say("Rules are not divided into 1/{fraction} in: choose 16, 32 or 64.", fraction=self.fraction)
            )

    @property
    def second(self) -> str:
        """The other unit, or nothing."""
        return ("in" if self.first == "mm" else "mm") if self.both else ""


#: Where sheets are asked for, units may be given by name: “mm”, “in”, “in/64”, “mm+in”, “in/16+mm”.
AnyUnits = Units | str


@lru_cache(maxsize=64)
def units_of(units: AnyUnits) -> Units:
    """The record for units given by name. Raises Refusal for a name that is not known."""
    if isinstance(units, Units):
        return units
    found = re.fullmatch(r"(mm|in)(?:/(\d+))?(?:\+(mm|in)(?:/(\d+))?)?", units.replace(" ", ""))
    if found is None or found[1] == found[3]:
        raise Refusal(
            say("Lengths cannot be written in “{units}”: choose mm, in, in/16, in/64, mm+in or in+mm.", units=units)
        )
    return Units(found[1], int(found[2] or found[4] or 32), found[3] is not None)


def in_inches(units: Units) -> bool:
    """True when inches come first."""
    return units.first == "in"


def unit_name(units: Units) -> str:
    """“mm”, “in”, or “mm [in]”, for the head of a column."""
    return f"{units.first} [{units.second}]" if units.both else units.first


def unit_words(units: Units) -> str:
    """The unit as it reads in a sentence: “mm”, “inches”, or “inches [mm]”."""
    return re.sub(r"\bin\b", say("inches"), unit_name(units))


def _bare(length: float, unit: str, fraction: int) -> str:
    return format_length(length, unit, fraction).rpartition(" ")[0]


def number(length: float, units: Units) -> str:
    """A length without its unit: mm to 0.1, or inches with a fraction (1-3/4); with both, “45 [1-25/32]”."""
    return figure(_plain_number(length, units))


@lru_cache(maxsize=4096)
def _plain_number(length: float, units: Units) -> str:
    """The same with a decimal point in every language, so that it can be kept."""
    first = _plain(length, units.first, units.fraction)
    return f"{first} [{_plain(length, units.second, units.fraction)}]" if units.both else first


def _plain(length: float, unit: str, fraction: int) -> str:
    return plain_length(length, unit, fraction).rpartition(" ")[0]


def _in_each(units: Units, words: str, *lengths: float) -> str:
    """`words` with the lengths written into it in the first unit, and once more in brackets in the second."""
    parts = [
        f"{words.format(*(_bare(v, unit, units.fraction) for v in lengths))} {unit}"
        for unit in (units.first, units.second)
        if unit
    ]
    return parts[0] if len(parts) == 1 else f"{parts[0]} [{parts[1]}]"


def length_text(length: float, units: Units) -> str:
    """A length with its unit."""
    return _in_each(units, "{}", length)


def thickness_text(length: float, units: Units) -> str:
    """What boards are planed to: as a length, but in thousandths of an inch where no fraction is so near."""
    return _rounded_text(length, units, format_thickness)


def fine_number(length: float, units: Units, to: str = "nearest") -> str:
    """A fit, a clearance or a movement without its unit: mm to 0.01, inches to 0.001; to: see `fine_figure`."""
    first = fine_figure(length, units.first, to)
    return f"{first} [{fine_figure(length, units.second, to)}]" if units.both else first


def fine_text(length: float, units: Units, to: str = "nearest") -> str:
    """The same with its unit."""
    first = f"{fine_figure(length, units.first, to)} {units.first}"
    return f"{first} [{fine_figure(length, units.second, to)} {units.second}]" if units.both else first


def bit_text(diameter: float, units: Units) -> str:
    """A bit by the measure it is sold in: “35 mm”, “1-3/8 in”."""
    return format_bit(diameter, units.first)


def bit_number(diameter: float, units: Units) -> str:
    """A bit where the other figures stand without their unit: “35”, but “35 mm” among inches and “1-3/8 in” among mm,
    for a bit is fetched by the name it was sold under."""
    name = format_bit(diameter, units.first)
    if not name.endswith(units.first):
        return name
    return format_bore(diameter, units.first).rpartition(" ")[0]


def loose_bit_number(diameter: float, units: Units) -> str:
    """The same of a hole that need not fit: among inches the 64th that comes nearest, with what was asked for behind
    it, “21/64 (0.331)”, for no bit of thousandths is sold."""
    asked = bit_number(diameter, units)
    if units.first != "in" or figure(".") not in asked or " " in asked:
        return asked
    return f"{_bare(diameter, 'in', 64)} ({asked})"


def least_text(length: float, units: Units) -> str:
    """The same of wood that is left somewhere: rounded down in each unit."""
    return _rounded_text(length, units, _after(rounded_down))


def least_number(length: float, units: Units) -> str:
    """A depth that must not be exceeded, without its unit: rounded down in each unit."""
    parts = [
        _bare(rounded_down(length, unit, units.fraction), unit, units.fraction)
        for unit in (units.first, units.second)
        if unit
    ]
    return parts[0] if len(parts) == 1 else f"{parts[0]} [{parts[1]}]"


def most_text(length: float, units: Units) -> str:
    """The same of wood that is to be left, or room that is needed: rounded up in each unit."""
    return _rounded_text(length, units, _after(rounded_up))


def _after(to: Callable[[float, str, int], float]) -> Callable[[float, str, int], str]:
    """A length written after it was rounded by `to`."""
    return lambda length, unit, fraction: format_length(to(length, unit, fraction), unit, fraction)


def _rounded_text(length: float, units: Units, written: Callable[[float, str, int], str]) -> str:
    parts = [written(length, unit, units.fraction) for unit in (units.first, units.second) if unit]
    return parts[0] if len(parts) == 1 else f"{parts[0]} [{parts[1]}]"


def range_text(start: float, end: float, units: Units) -> str:
    """Two heights with one unit: “45 to 90 mm”."""
    return _in_each(units, say("{start} to {end}", start="{}", end="{}"), start, end)


def size_text(a: float, b: float, units: Units) -> str:
    """Two sizes with one unit: “312 × 290 mm”."""
    return _in_each(units, "{} × {}", a, b)
