# SPDX-License-Identifier: LGPL-2.1-or-later

"""What panels and new documents start from: the one place that reads and writes FreeCAD's preferences. Lengths mm.

Two things are kept: what was used last, and what was set on the preferences page, in a group of its own. The maker
chooses which of the two holds; a value that is set on the page counts as used last from then on. What is in neither has
its first value, which docs/help/preferences.md lists with its source.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import isnan, nan
from typing import Any

import FreeCAD

from freecad_stacklam.lamination.lengths import LARGEST, LONGEST
from freecad_stacklam.lamination.options.rows import Record, Row, rows_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.carving import CarvingSettings
from freecad_stacklam.lamination.settings.glue import USUAL
from freecad_stacklam.lamination.settings.shop import BandSaw, ShopSettings
from freecad_stacklam.lamination.usage.rates import RateSettings
from freecad_stacklam.languages import LANGUAGES
from freecad_stacklam.workbench.fields.fields import inches_are_shown

_GROUP = "User parameter:BaseApp/Preferences/Mod/StackLam"
_SET = _GROUP + "/Set"

#: First values of lengths, mm: where FreeCAD shows millimetres, and where it shows inches.
LENGTHS: Mapping[str, tuple[float, float]] = {
    "stock": (45.0, 44.45),
    "allowance": (3.0, 3.175),
    "tenon_side": (40.0, 38.1),
    "pin_diameter": (10.0, 9.525),
    "pin_depth": (12.0, 12.7),
    "pin_margin": (8.0, 7.9375),
    "wall": (50.0, 50.8),
    "carving_bit": (8.0, 7.9375),
    "carving_pitch": (30.0, 31.75),
    "carving_leave": (2.0, 1.5875),
}
#: First values of the rest; a figure of 0 says that there is none.
FIGURES: Mapping[str, float] = {"carving_rate": 0.0, "hour_price": 0.0, "fraction": 32.0, "both_units": 0.0}
WORDS: Mapping[str, str] = {"species": "white oak", "glue": USUAL}
#: Inches are written to these parts: as on the sheets, whose own file needs shapely, and pages are there without it.
FRACTIONS = (16, 32, 64)
#: What of the band saw the page asks for.
SAW = ("blade", "height", "throat")


def _group(path: str = _GROUP) -> Any:
    return FreeCAD.ParamGet(path)


def _key(name: str) -> str:
    return "".join(part.capitalize() for part in name.split("_"))


def _in_group(group: Any, name: str, like: float | str) -> float | str | None:
    """What a group keeps under a name; None where there is nothing."""
    if isinstance(like, str):
        return str(group.GetString(_key(name), "")) or None
    kept = float(group.GetFloat(_key(name), nan))
    return None if isnan(kept) else kept


def value(name: str, first: float | str) -> Any:
    """What is started with, by the name of a function below."""
    groups = [_group(_SET)] if starts_with() == "set" else [_group(), _group(_SET)]
    kept = next((kept for group in groups if (kept := _in_group(group, name, first)) is not None), first)
    return kept if _can_be(name, kept) else first


def _can_be(name: str, kept: Any) -> bool:
    """Whether a value can be one: anybody may write into FreeCAD's parameters, and what cannot be is passed over."""
    if name in LENGTHS:
        return bool(0.0 < kept <= LONGEST)
    if name == "fraction":
        return kept in FRACTIONS
    if name in FIGURES:
        return bool(0.0 <= kept <= LARGEST)
    return name != "units" or kept in ("mm", "in")


def on_page(name: str, first: float | str) -> Any:
    """What the preferences page shows: what was set there, else the first value."""
    kept = _in_group(_group(_SET), name, first)
    return first if kept is None else kept


def first(name: str) -> float | str:
    """The first value of a name, in the units that FreeCAD shows."""
    if name in LENGTHS:
        return LENGTHS[name][inches_are_shown()]
    if name in FIGURES:
        return FIGURES[name]
    inches = {"paper": ("A4", "Letter"), "units": ("mm", "in")}
    return inches[name][inches_are_shown()] if name in inches else WORDS[name]


def _started(name: str) -> Any:
    return value(name, first(name))


# --- how panels start ---------------------------------------------------------------------------------------------
def starts_with() -> str:
    """Whether panels start with what was used last ("last"), or with what was set on the preferences page ("set")."""
    return "set" if _group().GetString("StartWith", "last") == "set" else "last"


def sheet_language() -> str:
    """The language of sheets and cautions, one of LANGUAGES; "" for the one that FreeCAD speaks."""
    kept = str(_group().GetString("SheetLanguage", ""))
    return kept if kept in LANGUAGES else ""


# --- what they start with -----------------------------------------------------------------------------------------
def stock() -> float:
    """Planed board thickness, mm."""
    return float(_started("stock"))


def allowance() -> float:
    """Wood left outside the form, mm."""
    return float(_started("allowance"))


def species() -> str:
    """The wood that is offered first."""
    return str(_started("species"))


def tenon_side() -> float:
    """Side of a square floating tenon, mm."""
    return float(_started("tenon_side"))


def pin_diameter() -> float:
    """Diameter of a registration pin, mm."""
    return float(_started("pin_diameter"))


def pin_depth() -> float:
    """Depth of a pin's hole in each layer, mm."""
    return float(_started("pin_depth"))


def pin_margin() -> float:
    """Least wood around a pin, mm."""
    return float(_started("pin_margin"))


def wall() -> float:
    """Least wood around a void, mm."""
    return float(_started("wall"))


def carving() -> CarvingSettings:
    """A new carving guide: the bit at hand, its holes, and the maker's own rate; no hole is asked for yet."""
    return CarvingSettings(
        bit=float(_started("carving_bit")),
        pitch=float(_started("carving_pitch")),
        leave=float(_started("carving_leave")),
        rate=float(_started("carving_rate")) or None,
    )


def glue() -> str:
    """The kind of glue that is offered first."""
    return str(_started("glue"))


def clamps() -> str:
    """The clamps that the maker owns, as CSV text; "" where none were kept."""
    return str(_group().GetString("Clamps", ""))


def paper() -> str:
    """Paper for the drawings."""
    return str(_started("paper"))


def units() -> str:
    """How lengths are written on the drawings: "mm" or "in"."""
    return str(_started("units"))


def fraction() -> int:
    """Inches are written to the nearest 1/16, 1/32 or 1/64."""
    return int(_started("fraction"))


def both_units() -> bool:
    """Whether lengths are written in the other unit too."""
    return bool(_started("both_units"))


def rates() -> RateSettings:
    """The rates of a new quote: what an hour costs, where the maker said it."""
    return RateSettings(hour_price=float(_started("hour_price")) or None)


# --- the shop -------------------------------------------------------------------------------------------------------
def _kept_as(row: Row, held: Any) -> float | str:
    """An option as it is kept: text, or a figure whose 0 stands for what was left out."""
    return held if isinstance(held, str) else float(held or 0.0)


def _read_as(row: Row, kept: Any) -> Any:
    if row.first is None:
        return kept or None
    return int(kept) if isinstance(row.first, int) else kept


def _options(record: type[Record], names: tuple[str, ...], prefix: str, read: Any) -> dict[str, Any]:
    rows = [row for row in rows_of(record) if row.name in names]
    return {row.name: _read_as(row, read(f"{prefix}_{row.name}", _kept_as(row, row.first))) for row in rows}


#: Who asks for one of these wants staves, also where there is no rack: so no new document starts with them.
STAVES = ("max_stave", "min_stave", "stave_trim", "stagger", "seam_worth", "spare_staves")
#: The shop's options that are kept: those with a property, and without the glue, which its can tells.
SHOP = tuple(row.name for row in rows_of(ShopSettings) if row.property and row.name not in (*STAVES, "glue_spread"))


def shop(read: Any = value) -> ShopSettings:
    """The shop that new documents get. read: `value`, or `on_page` for what the page shows."""
    saw = _options(BandSaw, SAW, "saw", read)
    try:
        band_saw = BandSaw(**saw) if any(saw.values()) else None
        return ShopSettings(**_options(ShopSettings, SHOP, "shop", read), band_saw=band_saw)
    except Refusal:  # written by hand into FreeCAD's parameters: the page refuses it
        return ShopSettings()


def of_shop(settings: ShopSettings) -> dict[str, float | str]:
    """A shop as values to remember or to set."""
    rows = {row.name: row for row in rows_of(ShopSettings)}
    told = {f"shop_{name}": _kept_as(rows[name], getattr(settings, name)) for name in SHOP}
    saw = settings.band_saw or BandSaw()
    return told | {f"saw_{name}": float(getattr(saw, name) or 0.0) for name in SAW}


# --- keeping --------------------------------------------------------------------------------------------------------
def _put(group: Any, name: str, held: float | str) -> None:
    if isinstance(held, str):
        group.SetString(_key(name), held)
    else:
        group.SetFloat(_key(name), float(held))


def remember(**values: float | str) -> None:
    """Keep what was used for the next time, by the names of the functions above."""
    for name, held in values.items():
        _put(_group(), name, held)


def set_on_page(values: Mapping[str, float | str]) -> None:
    """Keep what was changed on the preferences page; from then on it is what was used last, too."""
    for name, held in values.items():
        _put(_group(_SET), name, held)
        _put(_group(), name, held)


def set_ways(start_with: str, language: str) -> None:
    """How panels start, "last" or "set", and the language of sheets: see `starts_with` and `sheet_language`."""
    _group().SetString("StartWith", start_with)
    _group().SetString("SheetLanguage", language)


def forget() -> None:
    """Back to first values: nothing is set, and nothing was used last. The maker's own clamps are kept."""
    names = [*LENGTHS, *FIGURES, *WORDS, "paper", "units", *of_shop(ShopSettings())]
    for group in (_group(), _group(_SET)):
        for name in names:
            group.RemFloat(_key(name))
            group.RemString(_key(name))
    for name in ("StartWith", "SheetLanguage"):
        _group().RemString(name)
