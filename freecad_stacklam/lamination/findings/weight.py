# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a piece and its parts weigh, and where their weight lies. Lengths mm, volumes mm³, masses kg, inertia kg·mm²."""

from __future__ import annotations

from dataclasses import dataclass

Triple = tuple[float, float, float]

#: Frames that a body may be told in: of its stack, or of the model.
STACK, MODEL = "stack", "model"


@dataclass(frozen=True)
class Body:
    """Something that is lifted: a blank, a run of layers as glued, a carved form, a tenon, the whole piece.

    `kind` is "blank", "glued", "finished", "tenon" or "whole"; `first` and `last` are its layers (0: none). `middle` is
    its centre of mass in `frame`, and `inertia` about it, in the frame's axes. `spread` is one standard deviation of
    the mass, all its wood taken as light or heavy together; `middle_spread` that of the middle, each board by itself.
    Where the weight of a wood is not known, mass, spreads and inertia are None, and the middle is that of the volume.
    """

    kind: str
    name: str
    stack: str
    first: int
    last: int
    frame: str
    volume: float
    mass: float | None
    spread: float | None
    middle: Triple
    middle_spread: Triple | None = None
    inertia: tuple[Triple, Triple, Triple] | None = None


@dataclass(frozen=True)
class WeightFindings:
    """What everything weighs at `moisture` %, sizes as planned.

    `blanks` as sawn, before any cut; `glued`: each run of layers that is handled, mortises, voids and pins counted, in
    the order of the glue-up, each stack as a whole last; `finished`: each stack as carved, without tenons; `whole`: all
    stacks with their tenons, in the model (None: there are no stacks). `unknown`: woods of no known weight.
    """

    moisture: float
    blanks: tuple[Body, ...]
    glued: tuple[Body, ...]
    finished: tuple[Body, ...]
    tenons: tuple[Body, ...]
    whole: Body | None
    unknown: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    source: str = ""
