# SPDX-License-Identifier: LGPL-2.1-or-later

"""Woods of the maker's own: rows of the settings file that stand beside the bundled table, or in the place of its rows.

What a row leaves out is not known of that wood, and is not taken from another: a check that needs it says so.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from typing import Any, ClassVar, NamedTuple

from freecad_stacklam.lamination.options.kinds import TEXT, number
from freecad_stacklam.lamination.options.rows import NEEDED, Record, option
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.wood.elastic import elastic_of
from freecad_stacklam.lamination.wood.species import ElasticRatios, GreenValues, Species
from freecad_stacklam.lamination.words import say

_LINE = "a line of the job's woods"
#: Nothing dry is lighter than balsa by half, or heavier than lignum vitae by a quarter.
_GRAVITY = number(0.05, 1.5)
_SHRINKAGE = number(0.1, 40.0, unit="%")
_STRENGTH = number(0.0, 1000.0, unit="MPa", above=True)
_STIFFNESS = number(0.0, 100.0, unit="GPa", above=True)
_RATIO = number(0.0, 1.0, above=True)
_POISSON = number(0.0, 2.0)
_GREEN = "the same of green wood"
_POISSONS = "Poisson's ratio: strain in {1} over that in {0} of wood pulled along {0}"
_SHEARS = "Shear modulus {} over the stiffness along the grain"


def _value(kind: Any, caption: str, tip: str) -> Any:
    return option(None, kind, caption, f"{tip}; left out: not known", by_hand=_LINE)


@dataclass(frozen=True)
class OwnSpecies(Record):
    """A wood of the maker's own at 12 % moisture: figures as in the bundled table (see Species), means and no design
    values."""

    NOUN: ClassVar[str] = "wood"

    name: str = option(NEEDED, TEXT, "Name", "What the wood is called; a name of the table takes its place",
                       by_hand=_LINE)  # fmt: skip
    specific_gravity: float | None = _value(_GRAVITY, "Gravity", "Oven-dry mass over volume at 12 %, as in 0.68")
    green_gravity: float | None = _value(_GRAVITY, "Green gravity", "Oven-dry mass over green volume")
    shrink_radial: float | None = _value(_SHRINKAGE, "Shrinks radially", "From green to oven-dry, %")
    shrink_tangential: float | None = _value(_SHRINKAGE, "Shrinks tangentially", "From green to oven-dry, %")
    shrink_volume: float | None = _value(_SHRINKAGE, "Shrinks in volume", "From green to oven-dry, %")
    bending: float | None = _value(_STRENGTH, "Bending", "Bending strength along the grain, MPa")
    stiffness: float | None = _value(_STIFFNESS, "Stiffness", "Modulus of elasticity in bending, GPa")
    shear: float | None = _value(_STRENGTH, "Shear", "Shear strength along the grain, MPa")
    tension_across: float | None = _value(_STRENGTH, "Tension across", "Tension strength across the grain, MPa")
    compression_across: float | None = _value(
        _STRENGTH, "Compression across", "Compression strength across the grain, at its proportional limit, MPa"
    )
    hardness: float | None = _value(number(0.0, 1e5, unit="N", above=True), "Hardness", "Side hardness, N")
    intersection: float = option(
        25.0, number(15.0, 30.0, unit="%"), "Drying tells below", "Moisture below which drying wood gains strength, %",
        by_hand=_LINE,
    )  # fmt: skip
    green_bending: float | None = _value(_STRENGTH, "Green bending", _GREEN)
    green_stiffness: float | None = _value(_STIFFNESS, "Green stiffness", _GREEN)
    green_shear: float | None = _value(_STRENGTH, "Green shear", _GREEN)
    green_tension_across: float | None = _value(_STRENGTH, "Green tension across", _GREEN)
    green_compression_across: float | None = _value(_STRENGTH, "Green compression across", _GREEN)
    ratio_radial: float | None = _value(
        _RATIO, "Stiffness radially", "Stiffness across the rings over that along the grain"
    )
    ratio_tangential: float | None = _value(
        _RATIO, "Stiffness tangentially", "Stiffness along the rings over that along the grain"
    )
    shear_lr: float | None = _value(_RATIO, "Shear modulus LR", _SHEARS.format("LR"))
    shear_lt: float | None = _value(_RATIO, "Shear modulus LT", _SHEARS.format("LT"))
    shear_rt: float | None = _value(_RATIO, "Shear modulus RT", _SHEARS.format("RT"))
    poisson_lr: float | None = _value(_POISSON, "Poisson LR", _POISSONS.format("L", "R"))
    poisson_lt: float | None = _value(_POISSON, "Poisson LT", _POISSONS.format("L", "T"))
    poisson_rt: float | None = _value(_POISSON, "Poisson RT", _POISSONS.format("R", "T"))
    source: str = option("the maker's own", TEXT, "Source", "Where the figures come from", by_hand=_LINE)

    def who(self) -> str:
        """See Record."""
        return say("the wood “{name}”", name=self.name)

    def check(self) -> None:
        """See Record."""
        if not self.name.strip():
            raise Refusal(say("A wood has no name: give it one, such as pear."))
        if (self.ratio_radial is None) != (self.ratio_tangential is None):
            raise Refusal(
                say(
                    "The wood “{name}” has one of two ratios of stiffness across the grain: give ratio_radial and "
                    "ratio_tangential, or neither.",
                    name=self.name,
                )
            )
        elastic_of(species_of(self))


def species_of(own: OwnSpecies) -> Species:
    """The row as the table has it."""
    plain = {f.name: getattr(own, f.name) for f in fields(own) if f.name in {s.name for s in fields(Species)}}
    greens = ("bending", "stiffness", "shear", "tension_across", "compression_across")
    green = {name: getattr(own, f"green_{name}") for name in greens}
    elastic = None
    if own.ratio_radial is not None and own.ratio_tangential is not None:
        rest = ("shear_lr", "shear_lt", "shear_rt", "poisson_lr", "poisson_lt", "poisson_rt")
        elastic = ElasticRatios(
            own.ratio_tangential, own.ratio_radial, **{n: getattr(own, n) for n in rest}, source=own.source
        )
    known = any(value is not None for value in green.values())
    return Species(**plain, green=GreenValues(**green, source=own.source) if known else None, elastic=elastic)


class Woods(NamedTuple):
    """A table of species, and what its maker is told about it."""

    table: dict[str, Species]
    notes: tuple[str, ...]


def woods_with(table: Mapping[str, Species], own: Sequence[OwnSpecies]) -> Woods:
    """The table with the maker's own woods, which take the place of those of the same name, whatever its capitals."""
    made, notes = dict(table), []
    for one in own:
        wanted = " ".join(one.name.lower().split())
        for name in [n for n in made if n.lower() == wanted]:
            del made[name]
            if name in table:
                notes.append(
                    say(
                        "{name} is taken as your own row says, and not from the table that comes with StackLam.",
                        name=name,
                    )
                )
        made[" ".join(one.name.split())] = species_of(one)
    return Woods(made, tuple(notes))
