"""How lengths are written and how much room a line of lettering takes."""

from __future__ import annotations

from fractions import Fraction
from math import cos, radians, sin

from shapely import Polygon

from freecad_stacklam.benchsheets.paper import INCH
from freecad_stacklam.benchsheets.sheet import Text

#: Finest fraction of an inch that is written.
INCH_FRACTION = 32

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


def wrapped(text: str, height: float, width: float) -> list[str]:
    """`text` broken at blanks into lines no longer than `width` mm (a single longer word stands alone)."""
    lines: list[str] = []
    line = ""
    for word in text.split():
        longer = f"{line} {word}".strip()
        if line and text_width(longer, height) > width:
            lines.append(line)
            longer = word
        line = longer
    return [*lines, line] if line else lines


def shortened(text: str, height: float, width: float, bold: bool = False, squeeze: float = 0.75) -> str:
    """`text`, cut off with … where it would have to be condensed to less than `squeeze` of its width to fit."""
    room = width / squeeze
    if text_width(text, height, bold) <= room:
        return text
    while text and text_width(text + "…", height, bold) > room:
        text = text[:-1]
    return text.rstrip() + "…"


def number(length: float, units: str) -> str:
    """A length without its unit: mm to 0.1, or inches with a fraction to 1/32 (1-3/4)."""
    if units == "in":
        parts = round(abs(length) / INCH * INCH_FRACTION)
        whole, rest = divmod(parts, INCH_FRACTION)
        fraction = str(Fraction(rest, INCH_FRACTION)) if rest else ""
        sign = "-" if length < 0 and parts else ""
        return sign + "-".join(part for part in (str(whole) if whole or not rest else "", fraction) if part)
    written = f"{length:.1f}".removesuffix(".0")
    return "0" if written == "-0" else written


def length_text(length: float, units: str) -> str:
    """A length with its unit."""
    return f"{number(length, units)} {'in' if units == 'in' else 'mm'}"


def range_text(start: float, end: float, units: str) -> str:
    """Two heights with one unit: “45 to 90 mm”."""
    return f"{number(start, units)} to {length_text(end, units)}"


def size_text(a: float, b: float, units: str) -> str:
    """Two sizes with one unit: “312 × 290 mm”."""
    return f"{number(a, units)} × {length_text(b, units)}"
