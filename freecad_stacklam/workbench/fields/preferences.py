# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the panels offer at first: the maker's own values, kept with FreeCAD's preferences. Lengths mm."""

from __future__ import annotations

from typing import Any

import FreeCAD

from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.settings.carving import CarvingSettings
from freecad_stacklam.lamination.settings.glue import USUAL
from freecad_stacklam.workbench.fields.fields import inches_are_shown

_GROUP = "User parameter:BaseApp/Preferences/Mod/StackLam"


def _group() -> Any:
    return FreeCAD.ParamGet(_GROUP)


def stock() -> float:
    """Planed board thickness, mm."""
    return float(_group().GetFloat("Stock", 44.45 if inches_are_shown() else 45.0))


def allowance() -> float:
    """Wood left outside the form, mm."""
    return float(_group().GetFloat("Allowance", 3.175 if inches_are_shown() else 3.0))


def species() -> str:
    """The wood that is offered first."""
    return str(_group().GetString("Species", "white oak"))


def tenon_side() -> float:
    """Side of a square floating tenon, mm."""
    return float(_group().GetFloat("TenonSide", 38.1 if inches_are_shown() else 40.0))


def pin_diameter() -> float:
    """Diameter of a registration pin, mm."""
    return float(_group().GetFloat("PinDiameter", 9.525 if inches_are_shown() else 10.0))


def pin_depth() -> float:
    """Depth of a pin's hole in each layer, mm."""
    return float(_group().GetFloat("PinDepth", 12.7 if inches_are_shown() else 12.0))


def pin_margin() -> float:
    """Least wood around a pin, mm."""
    return float(_group().GetFloat("PinMargin", 7.9375 if inches_are_shown() else 8.0))


def wall() -> float:
    """Least wood around a void, mm."""
    return float(_group().GetFloat("Wall", 50.8 if inches_are_shown() else 50.0))


def carving() -> CarvingSettings:
    """A new carving guide: the bit at hand, its holes, and the maker's own rate; no hole is asked for yet."""
    group, inches = _group(), inches_are_shown()
    return CarvingSettings(
        bit=float(group.GetFloat("CarvingBit", 7.9375 if inches else 8.0)),
        pitch=float(group.GetFloat("CarvingPitch", 31.75 if inches else 30.0)),
        leave=float(group.GetFloat("CarvingLeave", INCH / 16 if inches else 2.0)),
        rate=float(group.GetFloat("CarvingRate", 0.0)) or None,
    )


def glue() -> str:
    """The kind of glue that is offered first."""
    return str(_group().GetString("Glue", USUAL))


def clamps() -> str:
    """The clamps that the maker owns, as CSV text; "" where none were kept."""
    return str(_group().GetString("Clamps", ""))


def paper() -> str:
    """Paper for the drawings."""
    return str(_group().GetString("Paper", "Letter" if inches_are_shown() else "A4"))


def units() -> str:
    """How lengths are written on the drawings: "mm" or "in"."""
    return str(_group().GetString("Units", "in" if inches_are_shown() else "mm"))


def fraction() -> int:
    """Inches are written to the nearest 1/16, 1/32 or 1/64."""
    return int(_group().GetFloat("Fraction", 32.0))


def both_units() -> bool:
    """Whether lengths are written in the other unit too."""
    return bool(_group().GetFloat("BothUnits", 0.0))


def remember(**values: float | str) -> None:
    """Keep values for the next time, by the names of the functions above."""
    for name, value in values.items():
        key = "".join(part.capitalize() for part in name.split("_"))
        if isinstance(value, str):
            _group().SetString(key, value)
        else:
            _group().SetFloat(key, float(value))
