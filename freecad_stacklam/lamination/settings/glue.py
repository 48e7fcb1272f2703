# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue: a kind from a table, and whatever the maker's own can says instead."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from difflib import get_close_matches

from freecad_stacklam.lamination.lengths import SQUARE_METRE
from freecad_stacklam.lamination.names import any_of
from freecad_stacklam.lamination.options.kinds import TEXT, length, number
from freecad_stacklam.lamination.options.quantities import duration, pressure, temperature
from freecad_stacklam.lamination.options.rows import Record, option
from freecad_stacklam.lamination.quantities import both_pressures, format_time
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say

#: The kind that is taken where none is named.
USUAL = "yellow glue"
#: °C at which a glue's times are told, and how much warmer it must be for them to halve (common practice, no source).
TOLD_AT, HALVES = 20.0, 10.0
_KIND = "left out: as its kind"


@dataclass(frozen=True)
class Glue:
    """One glue at 20 °C. Times s, pressures MPa, temperatures °C, spread g/m² on each of `faces` faces, gap mm.

    `open_time`: from spreading a face to its contact; `assembly_time`: from the first spread line to full pressure.
    `thin`: it wants a thin line, and pressure by the density of the wood; least_pressure and most_pressure are None
    where the density says. `water`: the share of the wet glue that goes into the wood. `gap`: what it bridges."""

    name: str
    thin: bool
    open_time: float
    assembly_time: float
    least_temperature: float
    spread: float
    faces: int
    water: float
    clamp_time: float
    cure_time: float
    gap: float
    least_pressure: float | None = None
    most_pressure: float | None = None
    reacts_with_iron: bool = False


@dataclass(frozen=True)
class GlueSettings(Record):
    """The glue that is used. What is None is as the table says of its kind."""

    NOUN = "glue"

    kind: str = option(USUAL, TEXT, "Glue", "A kind of glue from the table of kinds", group="Glue")
    open_time: float | None = option(
        None, duration(1.0, 86_400.0), "Open time",
        f"From spreading a face to its contact with the other, at 20 °C; {_KIND}", group="Glue",
    )  # fmt: skip
    assembly_time: float | None = option(
        None, duration(1.0, 86_400.0), "Assembly time",
        f"From the first glue spread to full pressure, at 20 °C; {_KIND}", group="Glue",
    )  # fmt: skip
    least_pressure: float | None = option(
        None, pressure(0.0, 20.0), "Pressure, at least",
        "What the glue wants; left out: by its kind, or by the wood's density for a glue that wants a thin line",
        group="Glue",
    )  # fmt: skip
    most_pressure: float | None = option(
        None, pressure(0.01, 20.0), "Pressure, at most", "More starves the line; left out: as for the least",
        group="Glue",
    )  # fmt: skip
    spread: float | None = option(
        None, number(1.0, 2000.0), "Spread, g/m²", f"Glue on one face, g/m²; {_KIND}", group="Glue"
    )
    faces: int | None = option(
        None, number(1, 2, whole=True), "Faces spread", f"1 or both (2) faces of a line; {_KIND}", group="Glue"
    )
    water: float | None = option(
        None, number(0.0, 1.0), "Water, as a share", f"Share of the wet glue that goes into the wood as water; {_KIND}",
        group="Glue",
    )  # fmt: skip
    least_temperature: float | None = option(
        None, temperature(), "Not below", f"Least temperature of glue, wood and room; {_KIND}", group="Glue"
    )
    clamp_time: float | None = option(
        None, duration(1.0), "In clamps", f"How long the clamps stay on; {_KIND}", group="Glue"
    )
    cure_time: float | None = option(
        None, duration(1.0), "Cured after", f"How long before the joint is worked; {_KIND}", group="Glue"
    )
    gap: float | None = option(None, length(0.0, 20.0), "Bridges", f"Widest gap that it fills; {_KIND}", group="Glue")
    loss: float = option(
        0.15, number(0.0, 1.0), "Share squeezed out", "Share of the glue that is lost in squeeze-out, pot and brush",
        group="Glue",
    )  # fmt: skip
    price: float | None = option(
        None, number(0.0), "Price per kg", "In your own money; left out: not known", group="Glue"
    )

    def who(self) -> str:
        """See Record."""
        return "the glue"

    def check(self) -> None:
        """See Record."""
        low, high = self.least_pressure, self.most_pressure
        if low is not None and high is not None and low > high:
            raise Refusal(
                say(
                    "The glue cannot want at least {low} and at most {high}: give a least pressure up to the most.",
                    low=both_pressures(low),
                    high=both_pressures(high),
                )
            )
        if self.open_time is not None and self.assembly_time is not None and self.open_time > self.assembly_time:
            raise Refusal(
                say(
                    "The glue cannot stay open for {open_time} and have to be under pressure after {assembly_time}: "
                    "give an open time up to the assembly time.",
                    open_time=format_time(self.open_time),
                    assembly_time=format_time(self.assembly_time),
                )
            )
        if self.clamp_time is not None and self.cure_time is not None and self.clamp_time > self.cure_time:
            raise Refusal(
                say(
                    "The glue cannot be in clamps for {clamp_time} and cured after {cure_time}: give a clamp time up "
                    "to the cure time.",
                    clamp_time=format_time(self.clamp_time),
                    cure_time=format_time(self.cure_time),
                )
            )


def at_temperature(seconds: float, temperature: float) -> float:
    """A glue's time, s, at a temperature θ, °C: T · 2^((20 − θ) / 10)."""
    return float(seconds * 2 ** ((TOLD_AT - temperature) / HALVES))


def times_of(glue: Glue, temperature: float) -> tuple[float, float]:
    """Open and assembly time, s, at a temperature, °C."""
    return at_temperature(glue.open_time, temperature), at_temperature(glue.assembly_time, temperature)


def waits_of(glue: Glue, temperature: float) -> tuple[float, float]:
    """Time in clamps and until cured, s, at a temperature, °C: cold lengthens them, and warmth is not counted on."""
    slower = max(1.0, at_temperature(1.0, temperature))
    return glue.clamp_time * slower, glue.cure_time * slower


def glue_grams(glue: Glue, area: float, loss: float) -> float:
    """Glue for lines of an area, mm²: area × spread × faces × (1 + loss), g. loss: the share that is squeezed out."""
    return area / SQUARE_METRE * glue.spread * glue.faces * (1.0 + loss)


def glue_of(settings: GlueSettings, table: Mapping[str, Glue]) -> Glue:
    """The glue that settings mean: its kind's figures, and the maker's own over them. Raises Refusal for a kind that
    the table does not know, and where the maker's figures do not fit its kind's."""
    wanted = " ".join(settings.kind.lower().split())
    known = {name.lower(): glue for name, glue in table.items()}
    if wanted not in known:
        near = get_close_matches(wanted, known, 2, 0.5)
        hint = (
            say("did you mean {list}?", list=any_of(near))
            if near
            else say("take one of {list}, and set its figures.", list=", ".join(known))
        )
        raise Refusal(say("There is no glue “{kind}” in the table: {hint}", kind=settings.kind, hint=hint))
    names = {f.name for f in fields(Glue)}
    own = {f.name: getattr(settings, f.name) for f in fields(settings) if f.name in names}
    glue = replace(known[wanted], **{name: value for name, value in own.items() if value is not None})
    if glue.open_time > glue.assembly_time:
        raise Refusal(
            say(
                "A glue that is open for {open_time} cannot have to be under pressure after {assembly_time}: give "
                "its assembly time too.",
                open_time=format_time(glue.open_time),
                assembly_time=format_time(glue.assembly_time),
            )
        )
    if glue.least_pressure is not None and glue.most_pressure is not None and glue.least_pressure > glue.most_pressure:
        raise Refusal(
            say(
                "The glue cannot want at least {least_pressure} and at most {most_pressure}: give both pressures.",
                least_pressure=both_pressures(glue.least_pressure),
                most_pressure=both_pressures(glue.most_pressure),
            )
        )
    if glue.clamp_time > glue.cure_time:
        raise Refusal(
            say(
                "A glue in clamps for {clamp_time} cannot be cured after {cure_time}: give both times.",
                clamp_time=format_time(glue.clamp_time),
                cure_time=format_time(glue.cure_time),
            )
        )
    return glue
