# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sizes as makers write them: "45mm", "1-3/4in", "2ft 3in", "15deg", "0.3 l". Computation is in mm and mm³.

An inch is 25.4 mm exactly (international yard and pound agreement, 1959). A litre is 1 dm³ (SI Brochure, Table 8).
"""

from __future__ import annotations

import re
from fractions import Fraction
from math import floor, isfinite

from freecad_stacklam.lamination.refusal import Refusal

INCH = 25.4
#: No length that a maker gives is longer, mm: outlines are closed on a grid that ends there.
LONGEST = 200_000.0
LENGTHS = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": INCH, "ft": 12 * INCH}
SQUARE_METRE, CUBIC_METRE = 1e6, 1e9  # mm², mm³
VOLUMES = {"mm3": 1.0, "cm3": 1e3, "ml": 1e3, "l": 1e6, "in3": INCH**3}
_MARKS = {'"': "in", "″": "in", "”": "in", "inch": "in", "inches": "in", "'": "ft", "′": "ft", "’": "ft", "feet": "ft"}
_NUMBER = r"(?:\d+\s*(?:-|\s)\s*\d+/\d+|\d+/\d+|\d+(?:\.\d*)?|\.\d+)"
_UNIT = r"(?:mm|cm|m|inches|inch|in|feet|ft|\"|″|”|'|′|’)"
_ONE = re.compile(rf"([+-]?)\s*({_NUMBER})\s*({_UNIT}?)\.?", re.IGNORECASE)
_FEET_INCHES = re.compile(
    rf"([+-]?)\s*(\d+)\s*(?:feet|ft|'|′|’)\s*-?\s*({_NUMBER})\s*(?:inches|inch|in|\"|″|”)", re.IGNORECASE
)
_ANGLE = re.compile(r"([+-]?(?:\d+(?:\.\d*)?|\.\d+))\s*(?:deg|degrees|°)?")
_VOLUME = re.compile(rf"({_NUMBER})\s*([a-zA-Z]+[3³]?)")


def _number(text: str) -> float:
    """The value of "45", "0.5", "3/4", "1-3/4" or "1 3/4"."""
    parts = re.split(r"[-\s]+", text.strip())
    total = Fraction(0)
    for part in parts:
        try:
            total += Fraction(part)
        except ZeroDivisionError:
            raise Refusal(f"“{text}” divides by zero: write the fraction as 3/4.") from None
    return float(total) if "/" in text else float(text)


def _comma(text: str) -> None:
    if re.search(r"\d,\d", text):
        raise Refusal(f"“{text}” has a comma: write a point, as in {re.sub(r'(?<=[0-9]),(?=[0-9])', '.', text)}.")


def _bare(value: float, default_unit: str, text: str) -> float:
    if not isfinite(value):
        raise Refusal(f"“{text}” is not a size: give a number with its unit, as in 45mm or 1-3/4in.")
    if default_unit not in LENGTHS:
        raise Refusal(f"“{text}” has no unit: write {text}mm or {text}in, whichever you mean.")
    return value * LENGTHS[default_unit]


def parse_length(text_or_number: str | float, default_unit: str = "mm") -> float:
    """A length in mm. Plain numbers are in `default_unit` ("" : a unit must be written). Raises Refusal."""
    if isinstance(text_or_number, bool):
        raise Refusal("A length is needed here, not yes or no: write it as in 45mm or 1-3/4in.")
    if isinstance(text_or_number, (int, float)):
        return _bare(float(text_or_number), default_unit, f"{text_or_number:g}")
    text = text_or_number.strip()
    _comma(text)
    both = _FEET_INCHES.fullmatch(text)
    if both:
        size = int(both[2]) * LENGTHS["ft"] + _number(both[3]) * INCH
        return -size if both[1] == "-" else size
    found = _ONE.fullmatch(text)
    if not found:
        raise Refusal(f'“{text_or_number}” is not a length: write it as in 45mm, 4.5cm, 1-3/4in or 3/4".')
    value = -_number(found[2]) if found[1] == "-" else _number(found[2])
    unit = found[3].lower()
    if not unit:
        return _bare(value, default_unit, text)
    return value * LENGTHS[_MARKS.get(unit, unit)]


def parse_angle(text_or_number: str | float) -> float:
    """An angle in degrees, "15deg", "15°" or 15. Raises Refusal."""
    if isinstance(text_or_number, bool):
        raise Refusal("An angle is needed here, not yes or no: write it as in 15deg.")
    if isinstance(text_or_number, (int, float)):
        if not isfinite(text_or_number):
            raise Refusal("An angle must be a number of degrees, as in 15deg.")
        return float(text_or_number)
    _comma(text_or_number)
    found = _ANGLE.fullmatch(text_or_number.strip())
    if not found:
        raise Refusal(f"“{text_or_number}” is not an angle: write degrees, as in 15deg.")
    return float(found[1])


def parse_volume(text: str) -> float:
    """A volume in mm³ from "0.3 l", "300ml", "20in3", "300cm3" or mm3; the unit must be written. Raises Refusal."""
    _comma(str(text))
    found = _VOLUME.fullmatch(str(text).strip())
    unit = found[2].lower().replace("³", "3") if found else ""
    if not found or unit not in VOLUMES:
        raise Refusal(f"“{text}” is not a volume: write it as in 0.3 l, 300 ml, 300 cm3 or 20 in3.")
    return _number(found[1]) * VOLUMES[unit]


def format_length(mm: float, units: str = "mm", denominator: int = 32) -> str:
    """A length as read at the bench: "45 mm", "45.3 mm", or to the nearest 1/denominator inch "1-3/4 in".

    Halves round away from zero; nothing is ever shown as -0.
    """
    if units == "in":
        steps = floor(abs(mm) / INCH * denominator + 0.5)
        whole, part = divmod(Fraction(steps, denominator), 1)
        text = f"{whole}-{part}" if whole and part else f"{part or whole}"
        return f"{'-' if mm < 0 and steps else ''}{text} in"
    tenths = floor(round(abs(mm) * 10, 6) + 0.5)
    text = f"{tenths // 10}.{tenths % 10}" if tenths % 10 else f"{tenths // 10}"
    return f"{'-' if mm < 0 and tenths else ''}{text} mm"
