# SPDX-License-Identifier: LGPL-2.1-or-later

"""Times, temperatures, pressures, forces and masses, read from what a maker writes and written on sheets.

Inside they are s, °C, MPa, N and kg. Where lengths are read in inches they are written in °F, psi, lbf and lb. The
factors: NIST SP 811 (2008), appendix B.8.
"""

from __future__ import annotations

import re
from math import ceil

from freecad_stacklam.lamination.lengths import INCH, POUND, parse_number
from freecad_stacklam.lamination.refusal import Refusal, either
from freecad_stacklam.lamination.tolerances import WHOLE
from freecad_stacklam.lamination.words import figure, mark, say

#: Newtons in a pound-force, MPa in a pound-force per square inch.
POUND_FORCE = 4.4482216152605
#: An ounce, g, and glue that is weighed to a tenth of a gram, below this.
OUNCE, WEIGHED_FINELY = 1000 * POUND / 16, 100.0
PSI = 0.006894757293168361
TIMES = {"s": 1.0, "min": 60.0, "h": 3600.0, "d": 86_400.0}
PRESSURES = {"MPa": 1.0, "kPa": 1e-3, "bar": 0.1, "N/mm2": 1.0, "psi": PSI}
FORCES = {"N": 1.0, "kN": 1000.0, "lbf": POUND_FORCE, "lb": POUND_FORCE}
MASSES = {"kg": 1.0, "g": 1e-3, "lb": POUND, "oz": POUND / 16}
_FIGURE = re.compile(r"([+-]?[\d.,]+)\s*([^\d\s.,].*)?")


#: What is no such quantity, and what has an unknown unit, with the example after it.
_NONE = {
    "time": mark("“{text}” is no time: write it as in {example}."),
    "pressure": mark("“{text}” is no pressure: write it as in {example}."),
    "force": mark("“{text}” is no force: write it as in {example}."),
    "weight": mark("“{text}” is no weight: write it as in {example}."),
    "temperature": mark("“{text}” is no temperature: write it as in {example}."),
}
_UNKNOWN = {
    "time": mark("“{unit}” is no unit of time known here: write {example}."),
    "pressure": mark("“{unit}” is no unit of pressure known here: write {example}."),
    "force": mark("“{unit}” is no unit of force known here: write {example}."),
    "weight": mark("“{unit}” is no unit of weight known here: write {example}."),
}


def _parted(text: str, what: str, example: str) -> tuple[float, str]:
    """Number and unit. Raises Refusal, which shows the example."""
    found = _FIGURE.fullmatch(text.strip())
    if not found:
        raise Refusal(say(_NONE[what], text=text, example=example))
    return parse_number(found[1]), (found[2] or "").strip()


def _in(units: dict[str, float], text: str, what: str, example: str) -> float:
    number, unit = _parted(text, what, example)
    same = {name.lower(): worth for name, worth in units.items()}
    worth = same.get(unit.replace("²", "2").lower())
    if worth is None and not unit:
        raise Refusal(say("“{text}” has no unit: write {example}.", text=text, example=example))
    if worth is None:
        raise Refusal(say(_UNKNOWN[what], unit=unit, example=example))
    return number * worth


def parse_time(text: str) -> float:
    """Seconds from "45 s", "10 min", "24 h" or "2 d"; the unit must be written. Raises Refusal."""
    return _in(TIMES, text, "time", say("10 min, 45 s or 24 h"))


def parse_pressure(text: str) -> float:
    """MPa from "0.7 MPa", "100 psi", "7 bar"; the unit must be written. Raises Refusal."""
    return _in(PRESSURES, text, "pressure", say("0.7 MPa or 100 psi"))


def parse_force(text: str) -> float:
    """Newtons from "4.67 kN", "1050 lbf"; the unit must be written. Raises Refusal."""
    return _in(FORCES, text, "force", say("4.67 kN or 1050 lbf"))


def parse_mass(text: str) -> float:
    """Kilograms from "23 kg", "50 lb"; the unit must be written. Raises Refusal."""
    return _in(MASSES, text, "weight", say("23 kg or 50 lb"))


def parse_temperature(text: str) -> float:
    """°C from "19 °C", "19 C", "66 °F", "66 F"; the unit must be written. Raises Refusal."""
    number, unit = _parted(text, "temperature", say("19 °C or 66 °F"))
    unit = unit.replace("°", "").replace("º", "").strip().upper()
    if unit not in ("C", "F"):
        raise Refusal(say("“{text}” is no temperature with its unit: write 19 °C or 66 °F.", text=text))
    return number if unit == "C" else (number - 32.0) / 1.8


def parse_percent(text: str | float) -> float:
    """Percent from "45 %" or 45. Raises Refusal."""
    if isinstance(text, (int, float)):
        return float(text)
    return parse_number(text.strip().removesuffix("%").strip())


def format_time(seconds: float) -> str:
    """A time as a clock in the shop is read: "45 s", "8 min", "12 min 30 s", "1 h 20 min", "24 h"."""
    whole = round(seconds)
    if whole < 60:
        return f"{whole} s"
    minutes, rest = divmod(whole, 60)
    if minutes < 60:
        return f"{minutes} min" + (f" {rest} s" if rest else "")
    hours, minutes = divmod(round(seconds / 60), 60)
    return f"{hours} h" + (f" {minutes} min" if minutes else "")


def format_pressure(pressure: float, units: str = "mm") -> str:
    """A pressure, MPa: "0.93 MPa" or "135 psi"."""
    return f"{pressure / PSI:.0f} psi" if units == "in" else figure(f"{pressure:.2f} MPa")


def format_force(force: float, units: str = "mm") -> str:
    """A force, N: "4.67 kN", "340 N" or "1050 lbf"."""
    if units == "in":
        return f"{force / POUND_FORCE:.0f} lbf"
    return figure(f"{force / 1000:.2f} kN") if force >= 1000 else f"{force:.0f} N"


def moment_in(moment: float, units: str) -> float:
    """A moment, N·m, in the unit of `moment_unit`: N·m, or lbf·ft where lengths are in inches."""
    return moment * 1000 / (POUND_FORCE * 12 * INCH) if units == "in" else moment


def moment_unit(units: str) -> str:
    """The unit of moments."""
    return "lbf·ft" if units == "in" else "N·m"


def format_temperature(celsius: float, units: str = "mm") -> str:
    """A temperature: "19 °C" or "66 °F"."""
    return f"{celsius * 1.8 + 32:.0f} °F" if units == "in" else f"{celsius:.0f} °C"


def format_grams(grams: float, units: str = "mm") -> str:
    """Glue to be mixed or poured, never less than is needed: "82.4 g" (from 100 g on to 1 g) or "2.9 oz": so finely
    that set-ups add up to the whole."""
    if units == "in":
        return figure(f"{_up(grams / OUNCE):.1f} oz")
    return figure(f"{_up(grams):.1f} g") if grams < WEIGHED_FINELY else f"{ceil(grams)} g"


def _up(number: float) -> float:
    """Up to one decimal; what floats add is no reason for one more."""
    return ceil(number * 10 - WHOLE) / 10


def both_pressures(pressure: float) -> str:
    """A pressure in a refusal, told in the maker's units."""
    return either(format_pressure(pressure), format_pressure(pressure, "in"))


def both_forces(force: float) -> str:
    """A force in a refusal, told in the maker's units."""
    return either(format_force(force), format_force(force, "in"))


def both_temperatures(celsius: float) -> str:
    """A temperature in a refusal, told in the maker's units."""
    return either(format_temperature(celsius), format_temperature(celsius, "in"))
