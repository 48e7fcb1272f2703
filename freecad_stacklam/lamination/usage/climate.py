# SPDX-License-Identifier: LGPL-2.1-or-later

"""The room that a piece will stand in, month by month, and how wood follows it.

How fast moisture moves in wood is known no better than to a factor of three: the first values are from memory, and what
hangs on them is told as a band.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches
from math import isfinite
from typing import Any

from freecad_stacklam.lamination.findings.seasons import MONTHS
from freecad_stacklam.lamination.names import any_of
from freecad_stacklam.lamination.options.kinds import Kind, length, number, one_of, plain, shown
from freecad_stacklam.lamination.options.quantities import percent
from freecad_stacklam.lamination.options.rows import Record, option
from freecad_stacklam.lamination.quantities import both_temperatures, parse_percent, parse_temperature
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import mark, say

#: Temperature, °C, and relative humidity, %, of twelve months, January first.
Months = tuple[tuple[float, float], ...]
#: Outside these no room is lived in, °C.
COLDEST, HOTTEST = -40.0, 60.0
BEST = "best"
#: Cells that the wood is divided into.
FINENESS = {"coarse": 15_000, "usual": 60_000, "fine": 400_000}
_EXAMPLE = mark('twelve pairs as in [["20 °C", "45 %"], …], January first')
_MEMORY = "from memory"


@dataclass(frozen=True)
class Climate:
    """A climate that comes with the package: invented, not measured. `says` is what kind of room it is."""

    name: str
    months: Months
    says: str = ""


def _pair(value: Any) -> tuple[float, float]:
    """One month. Raises Refusal."""
    if isinstance(value, str):
        value = [part for part in value.replace(";", ",").split(",") if part.strip()]
    if not isinstance(value, (list, tuple)) or len(value) != 2 or any(isinstance(v, bool) for v in value):
        raise Refusal(
            say(
                "{value} is no month: give temperature and humidity, {example}.",
                value=shown(value),
                example=say(_EXAMPLE),
            )
        )
    warmth, damp = value
    if not isinstance(warmth, (int, float, str)) or not isinstance(damp, (int, float, str)):
        raise Refusal(
            say(
                "{value} is no month: give temperature and humidity, {example}.",
                value=shown(value),
                example=say(_EXAMPLE),
            )
        )
    celsius = parse_temperature(warmth) if isinstance(warmth, str) else float(warmth)
    return celsius, parse_percent(damp)


def _read_months(value: Any, _: str) -> str | Months:
    if isinstance(value, str):
        return value
    if not isinstance(value, list):
        raise Refusal(
            say(
                "a climate is needed: the name of one that is bundled, or {example}, not {value}.",
                example=say(_EXAMPLE),
                value=shown(value),
            )
        )
    if len(value) == 1 and isinstance(value[0], str):
        return value[0]
    found = tuple(map(_pair, value))
    fault = _months_fault(found)
    if fault:
        raise Refusal(say("such a climate cannot be: {fault}.", fault=fault))
    return found


def _write_months(months: str | Months) -> Any:
    if isinstance(months, str):
        return months
    return [[f"{plain(warmth)} °C", f"{plain(damp)} %"] for warmth, damp in months]


def _months_fault(months: Any) -> str:
    if isinstance(months, str):
        return "" if months.strip() else say("name a bundled climate, or give {example}", example=say(_EXAMPLE))
    if not isinstance(months, tuple):
        return say("name a bundled climate, or give {example}", example=say(_EXAMPLE))
    if len(months) != len(MONTHS):
        return say("it has {months} months: give {example}", months=len(months), example=say(_EXAMPLE))
    for name, month in zip(MONTHS, months):
        if not isinstance(month, tuple) or len(month) != 2 or not all(isinstance(v, (int, float)) for v in month):
            return say("{name} is no pair: give {example}", name=name, example=say(_EXAMPLE))
        warmth, damp = month
        if not isfinite(warmth) or not COLDEST <= warmth <= HOTTEST:
            given = both_temperatures(warmth) if isfinite(warmth) else say("no number")
            return say(
                "{name} has {given}: give a temperature of {coldest} to {hottest}",
                name=name,
                given=given,
                coldest=both_temperatures(COLDEST),
                hottest=both_temperatures(HOTTEST),
            )
        if not isfinite(damp) or not 0.0 <= damp <= 100.0:
            return say("{name} has a humidity of {damp:g} %: give 0 to 100 %", name=name, damp=damp)
    return ""


#: A name, or twelve pairs; as lines of text "20 °C, 45 %", or one line with the name.
CLIMATE = Kind("name, or twelve pairs", _read_months, _write_months, _months_fault, "StringList")


def month_lines(months: str | Months) -> list[str]:
    """A climate as lines of text: a name, or twelve pairs. `CLIMATE.read` reads them back."""
    return [months] if isinstance(months, str) else [", ".join(pair) for pair in _write_months(months)]


@dataclass(frozen=True)
class ClimateSettings(Record):
    """A year in the room, and how wood follows it. Moisture %, diffusion mm²/day, surface mm/day, lengths mm."""

    months: str | Months = option(
        "heated winters", CLIMATE, "Climate",
        "A bundled climate by its name, or temperature and humidity of the room in twelve months, January first",
        by_hand="a name, or twelve lines of text",
    )  # fmt: skip
    moisture: float = option(
        8.0, percent(0.1, 29.9), "Moisture when glued",
        "What a meter shows in the layers when they are glued; all movement counts from there", group="Wood",
    )  # fmt: skip
    glue_in: str = option(
        BEST, one_of(BEST, *MONTHS), "Glued in", "Month in which it is glued, or the best one", group="Months"
    )
    cut_in: str = option(
        BEST, one_of(BEST, *MONTHS), "Cut in", "Month in which the blanks are cut, or the best one", group="Months"
    )
    deliver_in: str = option(
        BEST, one_of(BEST, *MONTHS), "Delivered in", "Month in which it moves into the room, or the best one",
        group="Months",
    )  # fmt: skip
    across: float = option(
        4.32, number(0.01, 1000.0, unit="mm²/day"), "Diffusion across",
        f"How fast moisture moves across the grain, mm² a day ({_MEMORY})", group="Wood",
    )  # fmt: skip
    ratio: float = option(
        10.0, number(1.0, 100.0), "Along over across", f"How much faster it moves along the grain ({_MEMORY})",
        group="Wood",
    )  # fmt: skip
    surface: float = option(
        2.6, number(0.01, 1e4, unit="mm/day"), "Surface",
        f"What the bare surface lets through, mm a day; a film of finish lets through less ({_MEMORY})", group="Wood",
    )  # fmt: skip
    band: float = option(
        3.0, number(1.0, 10.0), "Band", "Diffusion may be so many times more or less: lags are told between the two",
        group="Wood",
    )  # fmt: skip
    ring_radius: float = option(
        100.0, length(10.0, 2000.0), "Rings curve at",
        "How far the layers' wood lay from the heart of the log, for their cup; less cups more", group="Wood",
    )  # fmt: skip
    fineness: str = option(
        "usual", one_of(*FINENESS), "Fineness", "How finely the wood is divided for it", group="Climate"
    )

    def who(self) -> str:
        """See Record."""
        return "the climate"


def climate_of(settings: ClimateSettings, table: Mapping[str, Climate]) -> ClimateSettings:
    """The same with its twelve months, where it names a bundled climate. Raises Refusal for a name that the table does
    not know."""
    if not isinstance(settings.months, str):
        return settings
    wanted = " ".join(settings.months.lower().split())
    known = {name.lower(): one for name, one in table.items()}
    if wanted not in known:
        near = get_close_matches(wanted, known, 2, 0.5)
        hint = (
            say("did you mean {list}?", list=any_of(near))
            if near
            else say("take one of {list}, or give {example}.", list=", ".join(known), example=say(_EXAMPLE))
        )
        raise Refusal(say("There is no climate “{months}” in the table: {hint}", months=settings.months, hint=hint))
    return replace(settings, months=known[wanted].months)
