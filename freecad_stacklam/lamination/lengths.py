# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sizes as makers write them: "45mm", "1-3/4in", "2ft 3in", "15deg", "0.3 l". Computation is in mm and mm³.

An inch is 25.4 mm exactly (international yard and pound agreement, 1959). A litre is 1 dm³ (SI Brochure, Table 8).
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction
from math import ceil, floor, isfinite

from freecad_stacklam.lamination.refusal import Refusal, either
from freecad_stacklam.lamination.tolerances import SAME_LINE, WHOLE
from freecad_stacklam.lamination.words import apart, figure, say

INCH = 25.4
#: The pound, kg, exactly (international yard and pound agreement, 1959).
POUND = 0.45359237
#: No length that a maker gives is longer, mm: outlines are closed on a grid that ends there.
LONGEST = 200_000.0
#: No size is written with more letters, and no plain figure of one is larger.
MOST_LETTERS, LARGEST = 400, 1e15
#: What is longer, mm, is told in km or miles.
_NO_SIZE = 1e9
_INCH = Fraction(254, 10)
#: More digits than these before its decimal sign has no figure of a maker's; one of 309 is more than a computer's
#: largest number.
_MOST_DIGITS = 15
#: Units of length in mm, exactly: what is typed as 1-3/4 in is 44.45 mm to the last digit.
LENGTHS = {
    "µm": Fraction(1, 1000), "mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "km": Fraction(1_000_000),
    "thou": _INCH / 1000, "in": _INCH, "ft": 12 * _INCH, "yd": 36 * _INCH, "mi": 63_360 * _INCH,
}  # fmt: skip
SQUARE_METRE, CUBIC_METRE = 1e6, 1e9  # mm², mm³
VOLUMES = {"mm3": 1.0, "cm3": 1e3, "ml": 1e3, "l": 1e6, "in3": INCH**3}
_MARKS = {
    '"': "in",
    "″": "in",
    "”": "in",
    "inch": "in",
    "inches": "in",
    "'": "ft",
    "′": "ft",
    "’": "ft",
    "feet": "ft",
    "um": "µm",
    "μm": "µm",
}
_NUMBER = r"(?:\d+\s*(?:-|\s|\+)\s*\d+/\d+|\d+/\d+|\d+(?:\.\d*)?|\.\d+)"
_UNIT = r"(?:[µμu]m|mm|cm|km|m|thou|yd|mi|inches|inch|in|feet|ft|\"|″|”|'|′|’)"
_ONE = re.compile(rf"([+-]?)\s*({_NUMBER})\s*({_UNIT}?)\.?", re.IGNORECASE)
_FEET_INCHES = re.compile(
    rf"([+-]?)\s*(\d+)\s*(?:feet|ft|'|′|’)\s*[-+]?\s*({_NUMBER})\s*(?:inches|inch|in|\"|″|”)", re.IGNORECASE
)
_ANGLE = re.compile(r"([+-]?(?:\d+(?:\.\d*)?|\.\d+))\s*(?:deg|degrees|°)?")
_PLAIN = re.compile(r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)")
_VOLUME = re.compile(rf"({_NUMBER})\s*([a-zA-Z]+[3³]?)")


def _number(text: str) -> Fraction:
    """The value of "45", "0.5", "3/4", "1-3/4" or "1 3/4". Raises Refusal where it divides by zero."""
    total = Fraction(0)
    for part in re.split(r"[-+\s]+", text.strip()):
        try:
            total += Fraction(part)
        except ZeroDivisionError:
            raise Refusal(say("“{text}” divides by zero: write the fraction as 3/4.", text=text)) from None
    return total


def _decimal(text: str, comma: bool = False) -> str:
    """The text with a decimal comma written as a point. Raises Refusal where it may mean two things, or is longer or
    larger than any figure of a maker's; `comma`: where the text was typed a comma is the decimal sign, so that three
    places after it are no thousands."""
    if len(text) > MOST_LETTERS:
        raise Refusal(
            say(
                "“{text}…” has {letters} letters: write a size with at most {most}.",
                text=text[:20],
                letters=len(text),
                most=MOST_LETTERS,
            )
        )
    if re.search(rf"(?<![.,\d])\d{{{_MOST_DIGITS + 1}}}", text):
        raise Refusal(
            say(
                "“{text}…” is too large a number: write at most {most} digits before the decimal sign.",
                text=text[:20],
                most=_MOST_DIGITS,
            )
        )
    if "," not in text:
        return text
    if "." in text.rstrip(".") or text.count(",") > 1:
        raise Refusal(say("“{text}” has several decimal signs: write one, and no sign between thousands.", text=text))
    if not comma and re.search(r"[1-9]\d{0,2},\d{3}(?!\d)", text):
        plain = text.replace(",", "")
        raise Refusal(
            say(
                "“{text}” may be thousands or thousandths: write {plain}, or {point}.",
                text=text,
                plain=plain,
                point=text.replace(",", "."),
            )
        )
    return re.sub(r"(?<=\d),(?=\d)|^,(?=\d)|(?<=\d),(?=\D|$)", ".", text)


def _bare(value: float | Fraction, default_unit: str, text: str) -> float:
    if not isfinite(value):
        raise Refusal(say("“{text}” is not a size: give a number with its unit, as in 45mm or 1-3/4in.", text=text))
    if default_unit not in LENGTHS:
        raise Refusal(say("“{text}” has no unit: write {text}mm or {text}in, whichever you mean.", text=text))
    return float(Fraction(value) * LENGTHS[default_unit])


def parse_length(text_or_number: str | float, default_unit: str = "mm", *, comma: bool = False) -> float:
    """A length in mm: "45mm", "44,5 mm", "1-3/4in", "1 3/4\"", "2ft 3in". Raises Refusal.

    Plain numbers are in `default_unit` ("" : a unit must be written). comma: the text comes from where a comma is the
    decimal sign; elsewhere "1,250" is refused, for it may be thousands.
    """
    if isinstance(text_or_number, bool):
        raise Refusal(say("A length is needed here, not yes or no: write it as in 45mm or 1-3/4in."))
    if isinstance(text_or_number, (int, float)) and abs(text_or_number) > LARGEST:
        raise Refusal(say("So large a number is no size: give it with its unit, as in 45mm or 1-3/4in."))
    if isinstance(text_or_number, (int, float)):
        return _bare(float(text_or_number), default_unit, f"{text_or_number:g}")
    text = text_or_number.strip()
    text = _decimal(text, comma)
    both = _FEET_INCHES.fullmatch(text)
    if both:
        size = float(_number(both[2]) * LENGTHS["ft"] + _number(both[3]) * LENGTHS["in"])
        return -size if both[1] == "-" else size
    found = _ONE.fullmatch(text)
    if not found:
        raise Refusal(
            say('“{text}” is not a length: write it as in 45mm, 4.5cm, 1-3/4in or 3/4".', text=text_or_number)
        )
    value = -_number(found[2]) if found[1] == "-" else _number(found[2])
    unit = found[3].lower()
    if not unit:
        return _bare(value, default_unit, text)
    return float(value * LENGTHS[_MARKS.get(unit, unit)])


def parse_number(text: str) -> float:
    """A plain number with a decimal point or comma, "92.50", "92,50"; no sign between thousands. Raises Refusal."""
    found = _PLAIN.fullmatch(_decimal(text.strip()))
    if not found:
        raise Refusal(say("“{text}” is no number: write it with digits, without a unit.", text=text))
    return float(found[0])


def parse_lengths(text: str, default_unit: str = "mm") -> tuple[float, ...]:
    """Several lengths in one text, mm, parted by semicolons, or by commas where no comma can be a decimal sign.

    "45mm, 27mm", "1-3/4in; 1in", "44,5; 27". Raises Refusal, also for "44,5", which may be one length or two.
    """
    if ";" in text:
        parts = text.split(";")
    else:
        parts = re.split(r",(?!\d)|(?<!\d),", text)
        unclear = next((part for part in parts if re.search(r"\d,\d", part)), None)
        if unclear is not None:
            raise Refusal(
                say("“{unclear}” may be one size or two: part sizes with a semicolon.", unclear=unclear.strip())
            )
    return tuple(parse_length(part, default_unit) for part in parts if part.strip())


def parse_angle(text_or_number: str | float) -> float:
    """An angle in degrees, "15deg", "15°" or 15. Raises Refusal."""
    if isinstance(text_or_number, bool):
        raise Refusal(say("An angle is needed here, not yes or no: write it as in 15deg."))
    if isinstance(text_or_number, (int, float)):
        if not abs(text_or_number) <= LARGEST:
            raise Refusal(say("An angle must be a number of degrees, as in 15deg."))
        return float(text_or_number)
    found = _ANGLE.fullmatch(_decimal(text_or_number.strip()))
    if not found:
        raise Refusal(say("“{text}” is not an angle: write degrees, as in 15deg.", text=text_or_number))
    return float(found[1])


def parse_volume(text: str) -> float:
    """A volume in mm³ from "0.3 l", "300ml", "20in3", "300cm3" or mm3; the unit must be written. Raises Refusal."""
    found = _VOLUME.fullmatch(_decimal(str(text).strip()))
    unit = found[2].lower().replace("³", "3") if found else ""
    if not found or unit not in VOLUMES:
        raise Refusal(say("“{text}” is not a volume: write it as in 0.3 l, 300 ml, 300 cm3 or 20 in3.", text=text))
    return float(_number(found[1])) * VOLUMES[unit]


def rounded_down(mm: float, units: str = "mm", denominator: int = 32) -> float:
    """A length cut down to the last place in which `format_length` shows it, mm: wood that is left is never overstated.

    A hair is allowed for what arithmetic leaves: 22.999 999 9 mm are 23 mm.
    """
    step = INCH / denominator if units == "in" else 0.1
    return floor(mm / step + WHOLE) * step


def rounded_up(mm: float, units: str = "mm", denominator: int = 32) -> float:
    """A length brought up to the next place in which `format_length` shows it, mm: wood that is to be left, room that
    is needed."""
    step = INCH / denominator if units == "in" else 0.1
    return ceil(mm / step - WHOLE) * step


def format_length(mm: float, units: str = "mm", denominator: int = 32) -> str:
    """A length as read at the bench: see `plain_length`, with the decimal sign of the language."""
    return figure(plain_length(mm, units, denominator))


def plain_length(mm: float, units: str = "mm", denominator: int = 32) -> str:
    """A length as read at the bench: "45 mm", "45.3 mm", or to the nearest 1/denominator inch "1-3/4 in", with a
    decimal point in every language: for names, and for what is read again.

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


def format_thickness(mm: float, units: str = "mm", denominator: int = 32) -> str:
    """What boards are planed to: "45 mm", a fraction of an inch where it is that to a thousandth, "1-3/4 in", else the
    thousandths, "1.772 in": layers add up, and ten of 1-25/32 in would stand 2.4 mm higher than ten of 45 mm."""
    if units != "in":
        return format_length(mm)
    near = abs(mm - floor(mm / INCH * denominator + 0.5) * INCH / denominator) <= INCH / 1000
    return format_length(mm, "in", denominator) if near else figure(f"{mm / INCH:.3f} in")


def fine_figure(mm: float, units: str = "mm", to: str = "nearest") -> str:
    """A fine length without its unit, as it is read: see `plain_fine`."""
    return figure(plain_fine(mm, units, to))


def plain_fine(mm: float, units: str = "mm", to: str = "nearest") -> str:
    """A fine length without its unit: hundredths of a millimetre "0.35", or thousandths of an inch "0.014", with a
    decimal point in every language.

    to: "nearest" for what is made to a fit, "down" for room and wood that is left, "up" for a movement. The one place
    where fits are rounded, so that sheets and sentences never differ.
    """
    step = INCH / 1000 if units == "in" else 0.01
    steps = {"up": ceil(mm / step - WHOLE), "down": floor(mm / step + WHOLE)}.get(to, floor(mm / step + 0.5))
    if steps == 0:
        return "0"
    return f"{steps / 1000:.3f}" if units == "in" else f"{steps / 100:.2f}".rstrip("0").rstrip(".")


def format_fine(mm: float, units: str = "mm", up: bool = False) -> str:
    """A fine length with its unit, "0.35 mm" or "0.014 in", rounded down, or `up` where less would flatter."""
    return f"{fine_figure(mm, units, 'up' if up else 'down')} {units}"


def format_move(mm: float, units: str = "mm") -> str:
    """A movement over the year, never less than it is: up to 0.1 mm or 0.01 in."""
    if units == "in":
        return figure(f"{ceil(mm / INCH * 100 - WHOLE) / 100:.2f} in")
    return figure(f"{ceil(mm * 10 - WHOLE) / 10:.1f} mm")


def format_bit(mm: float, units: str = "mm") -> str:
    """A bit by the measure it is sold in, as it is read: see `plain_bit`."""
    return figure(plain_bit(mm, units))


def plain_bit(mm: float, units: str = "mm") -> str:
    """A bit by the measure it is sold in, whatever the units: "35 mm", "1-3/8 in"; in `units` where it is neither; with
    a decimal point in every language.

    Metric bits go by half millimetres, inch bits by 64ths (common practice, no source).
    """
    if abs(mm * 2 - round(mm * 2)) < WHOLE:
        return plain_length(mm)
    sixty_fourths = mm / INCH * 64
    inch = abs(sixty_fourths - round(sixty_fourths)) < WHOLE or units == "in"
    return plain_length(mm, "in", 64) if inch else plain_length(mm)


def format_volume(mm3: float, units: str = "mm") -> str:
    """A volume of wood: "2.35 l", or "143 in³" where lengths are read in inches."""
    return f"{mm3 / INCH**3:.0f} in³" if units == "in" else figure(f"{mm3 / VOLUMES['l']:.2f} l")


def format_area(mm2: float, units: str = "mm") -> str:
    """An area of glue or wood: "0.912 m²", or "9.82 ft²" where lengths are read in inches."""
    return figure(f"{mm2 / (12 * INCH) ** 2:.2f} ft²" if units == "in" else f"{mm2 / SQUARE_METRE:.3f} m²")


def format_spread(rate: float, units: str = "mm") -> str:
    """A glue rate given in g/m²: "180 g/m²", or "0.59 oz/ft²" where lengths are read in inches."""
    ounce = 1000 * POUND / 16
    if units == "in":
        return figure(f"{rate / ounce * (12 * INCH) ** 2 / SQUARE_METRE:.2f} oz/ft²")
    return figure(f"{rate:g} g/m²")


def format_bore(mm: float, units: str = "mm") -> str:
    """The diameter of a bit, a hole or a dowel: "10.4 mm"; in inches to 1/64 where it is that, "25/64 in", else to a
    thousandth, "0.409 in", for a fit is finer than a length."""
    if units != "in":
        return format_length(mm)
    steps = mm / INCH * 64
    near = abs(steps - round(steps)) * INCH / 64 < SAME_LINE
    return format_length(mm, "in", 64) if near else figure(f"{mm / INCH:.3f} in")


def size(mm: float) -> str:
    """A length in a refusal, which is told in the maker's units: to 0.1 mm, or 0.05 mm where it is that, "44.5 mm"; in
    inches a whole 64th, "1-3/4 in", else a thousandth, so that two lengths that differ never read alike."""
    if not isfinite(mm):
        return f"{mm:g}"
    if abs(mm) > _NO_SIZE:  # its digits would fill a line
        far = max(-LARGEST, min(mm, LARGEST))
        return either(f"{far / 1e6:.0f} km", f"{far / (12 * INCH * 5280):.0f} miles")
    exact = abs(mm * 20 - round(mm * 20)) < WHOLE
    return either(figure(f"{round(mm, 2 if exact else 1) + 0.0:.12g} mm"), format_bore(mm, "in"))


def size_up(mm: float) -> str:
    """What is wanted at the least, in a sentence told in the maker's units: brought up to 0.1 mm or 1/32 in."""
    return either(format_length(rounded_up(mm)), format_length(rounded_up(mm, "in"), "in"))


def sizes(*many: float) -> str:
    """Lengths as of a board in a refusal: "45 mm × 100 mm × 2000 mm"."""
    return " × ".join(map(size, many))


def format_mass(kg: float, units: str = "mm") -> str:
    """A weight to a tenth: "12.3 kg", or in pounds where lengths are read in inches."""
    return figure(f"{kg / POUND:.1f} lb" if units == "in" else f"{kg:.1f} kg")


def format_figure(value: float, unit: str, units: str = "mm") -> str:
    """A check's figure with its unit to four digits: mm, kg and l as they are, or in, lb and in³ where lengths are read
    in inches; a figure of another unit or of none as it is."""
    inches = {"mm": (INCH, "in"), "mm²": (INCH**2, "in²"), "mm³": (INCH**3, "in³"), "kg": (POUND, "lb")}
    inches["l"] = INCH**3 / VOLUMES["l"], "in³"
    worth, name = inches.get(unit, (1.0, unit)) if units == "in" else (1.0, unit)
    figured = value / worth
    written = f"{figured:.4g}"
    if "e-" in written:  # nobody at the bench reads powers of ten
        written = f"{Decimal(f'{figured:.1g}'):f}"
    return f"{figure(written)} {name}".strip()


def format_place(place: Iterable[float], units: str = "mm") -> str:
    """Coordinates in mm as they stand in a sentence, without unit: to 0.1 mm or 0.01 in, "12.5, 0, -3", or
    "12,5; 0; -3" where the comma is the decimal sign."""
    return apart().join(place_figures(place, units))


def place_figures(place: Iterable[float], units: str = "mm") -> list[str]:
    """The coordinates of `format_place`, each by itself."""
    unit, places = (INCH, 2) if units == "in" else (1.0, 1)
    return [figure(f"{round(c / unit, places) + 0.0:g}") for c in place]


def format_small_area(mm2: float, units: str = "mm") -> str:
    """An area as small as a hole or a void: "25 cm²" or "3.9 in²"."""
    return figure(f"{mm2 / INCH**2:.4g} in²" if units == "in" else f"{mm2 / 100:.4g} cm²")
