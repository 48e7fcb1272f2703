# SPDX-License-Identifier: LGPL-2.1-or-later

"""What an option may hold: how it is read from the settings file into mm, degrees, mm³, and written back; what cannot
be; and which kind of FreeCAD's properties holds it in a document.
"""

from __future__ import annotations

import datetime
import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass, replace
from decimal import Decimal
from math import floor, hypot, inf
from numbers import Integral, Real
from typing import Any

from freecad_stacklam.lamination.lengths import INCH, LONGEST, parse_angle, parse_length, parse_volume, size
from freecad_stacklam.lamination.refusal import Refusal, either
from freecad_stacklam.lamination.tolerances import NO_DIRECTION
from freecad_stacklam.lamination.words import mark, quoted, say

#: No figure is larger, whatever it stands for (mm³ are the largest: 1000 m³), no count, no angle (degrees), no list
#: longer; no text has more letters. A plan has no use for more, and arithmetic and sheets do not bear any size.
LARGEST, MOST_WHOLE, WIDEST, MOST_VALUES, MOST_TEXT = 1e12, 9999, 36_000.0, 1000, 200
#: Signs that print nothing and may hide or turn about what stands beside them (Unicode categories Cc, Cf, Cs, Zl, Zp),
#: and those for private use (Co), which every font draws in its own way and refusal.py keeps for its sentences.
_UNPRINTED = {"Cc", "Cf", "Co", "Cs", "Zl", "Zp"}
#: Letters of a value that a sentence repeats.
_REPEATED = 60
AXES = {"x": (1.0, 0.0, 0.0), "y": (0.0, 1.0, 0.0), "z": (0.0, 0.0, 1.0)}


@dataclass(frozen=True)
class Kind:
    """`read` takes a TOML value and the unit of bare numbers ("" : none) and raises Refusal; `write` takes it back.
    `fault` says what would be right where a value cannot be, and nothing where it can. `says` is the kind in a word.

    `property` is the kind of FreeCAD's property. For fields of a panel: `unit` of a bare figure; `least` and `most`,
    where there are such bounds; the words to choose from.
    """

    says: str
    read: Callable[[Any, str], Any]
    write: Callable[[Any], Any]
    fault: Callable[[Any], str]
    property: str
    unit: str = ""
    least: float | None = None
    most: float | None = None
    choices: tuple[str, ...] = ()


def plain(value: float) -> str:
    """A number in full, without exponent."""
    text = format(Decimal(repr(float(value))), "f")
    return text.removesuffix(".0")


def _digits(value: float) -> str:
    """A number as a sentence names it, to six digits; what would have an exponent, in full."""
    text = f"{value:g}"
    return format(Decimal(f"{value:.12g}"), "f") if "e" in text else text


def shown(value: Any, unit: str = "") -> str:
    """A value as a sentence names it."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int) and abs(value) > LARGEST:
        return "so large a number"  # it may have thousands of digits
    if isinstance(value, (int, float)):
        return size(value) if unit == "mm" else f"{_digits(value)} {unit}".rstrip()
    if isinstance(value, (tuple, list)):
        return ", ".join([*(shown(v, unit) for v in value[:6]), *(["…"] if len(value) > 6 else [])]) or "nothing"
    if value is None:
        return "through"  # the only option left out inside a list is a depth
    text = value if isinstance(value, str) else str(value)
    text = printed(text[:_REPEATED]) + ("…" if len(text) > _REPEATED else "")
    return quoted(text) if isinstance(value, str) else text


def printed(text: str) -> str:
    """A text with what prints nothing left out."""
    return "".join(c for c in text if unicodedata.category(c) not in _UNPRINTED)


def _held(kind: Kind) -> Kind:
    """The same kind, which refuses in a file what its record would refuse."""

    def read(value: Any, unit: str) -> Any:
        found = kind.read(value, unit)
        fault = kind.fault(found)
        if fault:
            raise Refusal(say("{value} is impossible here: {fault}.", value=shown(value), fault=fault))
        return found

    return replace(kind, read=read)


# --- figures --------------------------------------------------------------------------------------------------------


def _figure_fault(
    least: float | None, most: float | None, above: bool, whole: bool, unit: str = "", largest: float = LARGEST
) -> Callable[[Any], str]:
    def shown_with(figure: float) -> str:
        return size(figure) if unit == "mm" else f"{_digits(figure)} {unit}".rstrip()

    def fault(value: Any) -> str:
        wanted = Integral if whole else Real
        if isinstance(value, bool) or not isinstance(value, wanted):
            return say("give a whole number") if whole else say("give a number")
        if value != value or value in (inf, -inf):  # isfinite bears no whole number of thousands of digits
            return say("give a whole number") if whole else say("give a number")
        far: Any = value
        if most is None and abs(far) > largest:
            return say("give at most {largest}", largest=shown_with(largest))
        low = least is not None and (value < least or (above and value <= least))
        if not low and (most is None or value <= most):
            return ""
        if least is not None and most is not None:
            sentence = mark("give more than {least} and at most {most}") if above else mark("give {least} to {most}")
            return say(sentence, least=shown_with(least), most=shown_with(most))
        assert least is not None  # no kind has a most alone
        return (
            say("give more than {least}", least=shown_with(least))
            if above
            else say("give {least} or more", least=shown_with(least))
        )

    return fault


def number(
    least: float | None = None,
    most: float | None = None,
    *,
    above: bool = False,
    whole: bool = False,
    property: str = "",
    unit: str = "",
) -> Kind:
    """A plain number from `least` (with `above`: more than it) to `most`."""
    said = "whole number" if whole else "number"

    def read(value: Any, _: str) -> float | int:
        fits = not isinstance(value, bool) and isinstance(value, (int, float))
        if fits and abs(value) > LARGEST:
            value = int(LARGEST) + 1 if whole else 10 * LARGEST  # refused below; a float bears no thousand digits
        if not fits or (whole and not isinstance(value, int)):
            raise Refusal(
                say("a {said} is needed, without quotes or unit, not {value}.", said=say(said), value=shown(value))
            )
        return value if whole else float(value)

    fault = _figure_fault(least, most, above, whole, largest=MOST_WHOLE if whole else LARGEST)
    return _held(Kind(said, read, lambda v: v, fault, property or ("Integer" if whole else "Float"), unit, least, most))


_LONGEST = either(f"{LONGEST / 1000:g} m", f"{floor(LONGEST / INCH / 12)} ft")


def length(
    least: float | None = None, most: float | None = None, *, above: bool = False, property: str = "Length"
) -> Kind:
    """A length in mm from `least` (with `above`: more than it) to `most`; none is longer than LONGEST."""

    def read(value: Any, unit: str) -> float:
        if not isinstance(value, (str, int, float)):
            raise Refusal(say('a length is needed, as in "45mm" or "1-3/4in", not {value}.', value=shown(value)))
        return parse_length(value, unit)

    within = _figure_fault(least, most, above, False, "mm", inf)

    def fault(value: Any) -> str:
        return within(value) or ("" if abs(value) <= LONGEST else say("give at most {longest}", longest=_LONGEST))

    return _held(Kind("length", read, lambda mm: f"{plain(mm)}mm", fault, property, "mm", least))


def angle(least: float | None = None, most: float | None = None) -> Kind:
    """An angle in degrees."""

    def read(value: Any, _: str) -> float:
        if not isinstance(value, (str, int, float)):
            raise Refusal(say('an angle is needed, as in "15deg", not {value}.', value=shown(value)))
        return parse_angle(value)

    fault = _figure_fault(least, most, False, False, "°", WIDEST)
    return _held(Kind("angle", read, lambda degrees: f"{plain(degrees)}deg", fault, "Angle", "°", least, most))


def _volume(value: Any, _: str) -> float:
    if not isinstance(value, str):
        raise Refusal(
            say('a volume with its unit is needed, as in "0.3 l" or "20 in3", not {value}.', value=shown(value))
        )
    return parse_volume(value)


# --- words ----------------------------------------------------------------------------------------------------------


def one_of(*choices: str) -> Kind:
    """One of a few words."""
    words = [repr(c)[1:-1] for c in choices]
    said = " or ".join(filter(None, (", ".join(words[:-1]), words[-1])))

    def read(value: Any, _: str) -> str:
        if value not in choices:
            raise Refusal(say("{value} is not known here: write {said}.", value=shown(value), said=said))
        return str(value)

    def fault(value: Any) -> str:
        return "" if value in choices else say("write {said}", said=said)

    return Kind("word", read, lambda v: v, fault, "Enumeration", choices=choices)


def _text(value: Any, _: str) -> str:
    if not isinstance(value, str):
        raise Refusal(say("text in quotes is needed, not {value}.", value=shown(value)))
    return re.sub(r"\s*[\n\r\t]+\s*", " ", value)  # a line of a text in several lines goes on in the next


UNPRINTED = mark("give letters and signs that print, without line ends or control signs")


def _text_fault(value: Any) -> str:
    if not isinstance(value, str):
        return "give a text"
    if len(value) > MOST_TEXT:
        return say("give at most {most_text} letters, not {value}", most_text=MOST_TEXT, value=len(value))
    return "" if printed(value) == value else say(UNPRINTED)


def _date(value: Any, unit: str) -> str:
    return value.isoformat() if isinstance(value, datetime.date) else _text(value, unit)


def _boolean(value: Any, _: str) -> bool:
    if not isinstance(value, bool):
        raise Refusal(say("true or false is needed, without quotes, not {value}.", value=shown(value)))
    return value


def _boolean_fault(value: Any) -> str:
    return "" if isinstance(value, bool) else "give true or false"


# --- several values -------------------------------------------------------------------------------------------------


def several(kind: Kind, count: int | None = None, property: str = "") -> Kind:
    """A list, of `count` values where that is given; a single value stands for a list of one where it is not.

    property: of FreeCAD, where one holds such a list.
    """

    def read(value: Any, unit: str) -> tuple[Any, ...]:
        if not isinstance(value, list):
            if count is not None:
                raise Refusal(
                    say("a list of {count} values in [ ] is needed, not {value}.", count=count, value=shown(value))
                )
            value = [value]
        if count is not None and len(value) != count:
            raise Refusal(say("give a list of {count} values, not of {value}.", count=count, value=len(value)))
        if len(value) > MOST_VALUES:
            raise Refusal(
                say(
                    "give a list of at most {most_values} values, not of {value}.",
                    most_values=MOST_VALUES,
                    value=len(value),
                )
            )
        return tuple(kind.read(v, unit) for v in value)

    def fault(value: Any) -> str:
        if not isinstance(value, tuple) or (count is not None and len(value) != count):
            if count is None:
                return say("give a tuple of values")
            return say("give a tuple of {count} values", count=count)
        if len(value) > MOST_VALUES:
            return say("give at most {most_values} values, not {value}", most_values=MOST_VALUES, value=len(value))
        return next(filter(None, map(kind.fault, value)), "")

    each = kind.says if kind.says.endswith("s") else f"{kind.says}s"
    says = f"{count} {each}" if count is not None else f"list of {each}"  # said where it is shown
    return Kind(
        says, read, lambda values: [kind.write(v) for v in values], fault, property, kind.unit, choices=kind.choices
    )


def _pin_place(value: Any, unit: str) -> tuple[float, float, float]:
    """The place of a pin: the number of its glue line, then x and y."""
    if not isinstance(value, list) or len(value) != 3:
        raise Refusal(
            say('a place is needed as [glue line, x, y], as in [1, "40mm", "-12mm"], not {value}.', value=shown(value))
        )
    return float(COUNT.read(value[0], "")), PLACE.read(value[1], unit), PLACE.read(value[2], unit)


def _pin_place_fault(value: Any) -> str:
    if not isinstance(value, tuple) or len(value) != 3:
        return "give a glue line, x and y"
    if NUMBER.fault(value[0]) or value[0] < 1 or value[0] % 1:
        return "give the glue line as a whole number from 1"
    return PLACE.fault(value[1]) or PLACE.fault(value[2])


def _layers(value: Any, _: str) -> tuple[int, ...]:
    """Numbers of layers: one, a list, or a text of runs as in "3-5, 8"."""
    if isinstance(value, str):
        value = [number for run in value.split(",") for number in _run(run, value)]
    found = several(COUNT).read(value, "")
    return tuple(sorted(set(found)))


def _run(text: str, whole: str) -> list[int]:
    """The numbers from the first to the last of a run."""
    ends = re.fullmatch(r"\s*(\d{1,4})\s*(?:(?:-|–|to)\s*(\d{1,4})\s*)?", text)
    low, high = (int(ends[1]), int(ends[2] or ends[1])) if ends else (1, 0)
    if low > high:
        raise Refusal(
            say(
                '{whole} are no layers: write their numbers from the bottom, as in "3-5" or "3, 5".', whole=shown(whole)
            )
        )
    return list(range(low, high + 1))


def _write_layers(layers: tuple[int, ...]) -> str:
    """Numbers that follow each other as a run from the first to the last."""
    runs: list[list[int]] = []
    for layer in sorted(layers):
        if runs and layer == runs[-1][-1] + 1:
            runs[-1].append(layer)
        else:
            runs.append([layer])
    return ", ".join(f"{run[0]}-{run[-1]}" if len(run) > 1 else f"{run[0]}" for run in runs)


def _layers_fault(value: Any) -> str:
    return several(COUNT).fault(value) or ("" if value else "give the number of a layer")


def _axis(value: Any, _: str) -> tuple[float, float, float]:
    if isinstance(value, str) and value in AXES:
        return AXES[value]
    if isinstance(value, list) and len(value) == 3:
        x, y, z = (float(NUMBER.read(v, "")) for v in value)
        if x or y or z:
            return x, y, z
        raise Refusal(say('an axis of [0, 0, 0] has no length: write "x", "y", "z" or a direction.'))
    raise Refusal(
        say('{value} is not an axis: write "x", "y", "z" or a direction as in [0, 0, 1].', value=shown(value))
    )


def _write_axis(axis: tuple[float, float, float]) -> Any:
    return next((name for name, known in AXES.items() if known == tuple(axis)), list(axis))


def _axis_fault(axis: Any) -> str:
    if isinstance(axis, tuple) and len(axis) == 3 and any(abs(x) > LONGEST for x in axis if x in (inf, -inf) or x == x):
        return "give x, y or z, or a shorter direction, as in 0, 0, 1"
    if THREE.fault(axis) or hypot(*axis) < NO_DIRECTION:
        return "that has no length; give x, y or z, or a direction"
    return "" if hypot(*axis) <= LONGEST else "give x, y or z, or a shorter direction, as in 0, 0, 1"


NUMBER = number()
COUNT = number(1, whole=True)
THREE = several(NUMBER, 3)
SIZE = length(0.0, above=True)
ROOM = length(0.0)
PLACE = length(property="Distance")
POINT = several(PLACE, 3, "VectorDistance")
#: Either way round, and no more than a whole turn: what is far beyond is a slip, and no sine is known of it.
ANGLE = angle(-360.0, 360.0)
AREA = number(0.0, property="Area", unit="mm²")
VOLUME = _held(
    Kind(
        "volume", _volume, lambda mm3: f"{plain(mm3)}mm3", _figure_fault(0.0, None, False, False), "Volume", "mm³", 0.0
    )
)
TEXT = _held(Kind("text", _text, lambda v: v, _text_fault, "String"))
DATE = _held(Kind("text or date", _date, lambda v: v, _text_fault, "String"))
BOOLEAN = Kind("true or false", _boolean, lambda v: v, _boolean_fault, "Bool")
AXIS = Kind("axis", _axis, _write_axis, _axis_fault, "Vector")
#: Glue line, x, y.
PIN_PLACE = Kind(
    "glue line, x and y", _pin_place, lambda p: [int(p[0]), PLACE.write(p[1]), PLACE.write(p[2])], _pin_place_fault, "",
    "mm",
)  # fmt: skip
#: Numbers of layers, in order.
LAYERS = _held(Kind("layers", _layers, _write_layers, _layers_fault, ""))
