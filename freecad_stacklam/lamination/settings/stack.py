# SPDX-License-Identifier: LGPL-2.1-or-later

"""How one form is stacked."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.options.kinds import (
    ANGLE,
    AXIS,
    BOOLEAN,
    LAYERS,
    PLACE,
    SIZE,
    TEXT,
    VOLUME,
    length,
    number,
    one_of,
    several,
)
from freecad_stacklam.lamination.options.rows import NEEDED, Record, option, table, tables
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.words import say, say_many

_TEXTS = "a list of texts with their units"
_TABLE = "a line of the panel's table"
#: Least radius, mm, of an inner corner: a blade 1/4 in wide turns in 5/8 in (the charts named in bandsaw/curves.py).
BLADE_TURNS = 16.0


@dataclass(frozen=True)
class TabSettings(Record):
    """A tab of waste left on the blanks of some layers, so that the pad of a clamp finds a seat; sawn off after gluing.

    Its middle line runs outwards in a direction from the stack's axis, or beside that; all its layers end at one line,
    `out` beyond the widest of them, so that they stack up under a pad. mm, degrees.
    """

    NOUN: ClassVar[str] = "tab"

    layers: tuple[int, ...] = option(
        NEEDED, LAYERS, "Layers", 'The layers whose blanks it is left on, numbered from the bottom, as in "3-5"',
        by_hand=_TABLE,
    )  # fmt: skip
    direction: float = option(
        0.0, ANGLE, "Direction", "Where it points, degrees round from RIGHT, to the left seen from above",
        by_hand=_TABLE,
    )  # fmt: skip
    width: float = option(60.0, length(5.0, 1000.0), "Width", "From side to side", by_hand=_TABLE)
    out: float = option(
        50.0, length(1.0, 1000.0), "Out", "How far it stands out beyond the widest of these blanks, on its middle line",
        by_hand=_TABLE,
    )  # fmt: skip
    aside: float = option(
        0.0, PLACE, "Aside", "How far its middle line lies beside the stack's axis, to the left as it points",
        by_hand=_TABLE,
    )  # fmt: skip
    fillet: float = option(
        BLADE_TURNS, length(0.0, 200.0), "Fillet", "Radius of the inner corners where it meets the blank, for the "
        "band saw's blade; 0: sharp corners, where two cuts meet", by_hand=_TABLE,
    )  # fmt: skip

    def who(self) -> str:
        """See Record."""
        return "a waste tab"

    @property
    def called(self) -> str:
        """The tab in a sentence."""
        layers = str(LAYERS.write(self.layers))
        return say_many(
            "the tab of layer {layers} at {direction:g}°",
            "the tab of layers {layers} at {direction:g}°",
            len(self.layers),
            layers=layers,
            direction=self.direction,
        )


@dataclass(frozen=True)
class StackSettings(Record):
    """How one form is stacked. `stock` holds the planed thicknesses that are available (one: uniform);
    `thicknesses` are as planed, from the bottom, and win over `stock` for as many layers as are listed.

    glue_line_worth: mm³. forced: heights in the form at which a glue line must lie; forbidden: from and to, heights
    between which none may lie.
    """

    form: str = option("", TEXT, "Form", "Label of the solid in the model; left out: every form not named elsewhere",
                       by_hand="a link to the form, and its solid's label")  # fmt: skip
    stock: tuple[float, ...] = option(
        (45.0,), several(SIZE), "Stock thickness", "Thickness of the boards as they leave the planer; of several, "
        "those are laid that need least wood", by_hand="one length, and a list of texts for the others",
    )  # fmt: skip
    thicknesses: tuple[float, ...] = option(
        (), several(SIZE), "As planed, from layer 1", "Thicknesses measured on your own boards, from layer 1 up: they "
        "win over the stock for as many layers as are listed", by_hand=_TEXTS,
    )  # fmt: skip
    axis: tuple[float, float, float] = option(
        (0.0, 0.0, 1.0), AXIS, "Stacking axis", "Direction in which the layers are piled", group="Piling"
    )
    allowance: float = option(
        3.0, length(0.0, 200.0), "Allowance all round",
        "Wood left outside the form, all round, for the saw, slip and sanding",
        group="Piling",
    )  # fmt: skip
    square: bool = option(
        False, BOOLEAN, "Allowance square to the surface",
        "Measure the allowance square to the surface, under steps too, and not level: shallow slopes keep their wood, "
        "for more wood in the blanks",
        group="Piling", key="allowance_square", property="AllowanceSquare",
    )  # fmt: skip
    least_wood: float = option(
        0.5, number(0.0, 1.0), "Least wood, of the allowance",
        "Share of a level allowance that must be left square to the surface, under steps too: where less is left, you "
        "are told, and the place is marked",
        group="Piling",
    )  # fmt: skip
    species: str = option("white oak", TEXT, "Wood", "The wood, as named in the species table", group="Boards")
    grain: float = option(
        0.0, ANGLE, "Grain from x", "Direction of the grain in the layers, turned from the stack's x", group="Boards"
    )
    copies: int = option(
        1,
        number(1, 999, whole=True),
        "Copies",
        "How many of this stack are made: the bill counts them all",
        group="Boards",
    )
    fill_holes: bool = option(
        False, BOOLEAN, "Leave holes of the form unsawn", "Leave the holes of the form unsawn", group="Piling"
    )
    pick: str = option(
        "",
        one_of("least wood", "fewest layers"),
        "Laid",
        "Where glue lines lie: where they save most wood, or as few "
        "as can be; left out, equal layers from the bottom up",
        by_hand="a word stands for neither",
        key="choose",
        was="pick",
    )
    glue_line_worth: float = option(
        0.0, VOLUME, "A line must save",
        "Wood that one more glue line must save to be worth its work; 0: any saving is", group="Boards",
    )  # fmt: skip
    forced: tuple[float, ...] = option(
        (),
        several(PLACE),
        "Glue lines at",
        "Heights in the form at which a glue line must lie",
        by_hand=_TEXTS,
        key="glue_lines_at",
        was="forced",
    )
    forbidden: tuple[tuple[float, float], ...] = option(
        (), several(several(PLACE, 2)), "No glue lines between", "Heights between which no glue line may lie",
        by_hand=_TEXTS, key="no_glue_line", was="forbidden",
    )  # fmt: skip
    hollow: HollowSettings | None = table(HollowSettings, "Hollow", "Voids inside the inner layers; left out: none")
    pins: PinSettings | None = table(PinSettings, "Pins", "Dowels between the layers; left out: none")
    tabs: tuple[TabSettings, ...] = tables(
        TabSettings, "Waste tabs", "Wood left on blanks for the pads of clamps, sawn off after gluing"
    )

    def who(self) -> str:
        """See Record."""
        return say("stack “{form}”", form=self.form) if self.form else say("the stack")

    def check(self) -> None:
        """See Record."""
        if not self.stock:
            raise Refusal(
                say(
                    "No stock thickness was given: say how thick your planed boards are, for instance {size}.",
                    size=size(45.0),
                )
            )
        for low, high in self.forbidden:
            if low >= high:
                raise Refusal(
                    say(
                        "A zone without glue lines runs from its lower to its upper height, not from {low} to {high}.",
                        low=size(low),
                        high=size(high),
                    )
                )
