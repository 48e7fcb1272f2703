# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a second opinion on the deep check found. Lengths mm, forces N, stresses MPa; places are points of the model."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class SecondOpinion:
    """The worst spot of the deep check, reckoned once more by other programs on a mesh of their own.

    `index` and `stress` are theirs, `our_index` and `our_stress` those of the deep check, at the same place under the
    same load, both read by the same straight-line fit; `difference` is index over our_index, less 1. `kind`: what
    breaks by theirs, `our_kind` by ours. `moved`: how far the place of the load moves along the force. `balance`: the
    part of the load that the floor's forces do not answer. `elements` and `points`: of their mesh; `straight`: how many
    elements had to be made straight-sided. `seconds`: by the clock. `refused`: why there is none, else "".
    """

    place: tuple[float, float, float] = (0.0, 0.0, 0.0)
    load: str = ""
    load_place: tuple[float, float, float] = (0.0, 0.0, 0.0)
    kind: str = ""
    our_kind: str = ""
    index: float = 0.0
    our_index: float = 0.0
    stress: float = 0.0
    our_stress: float = 0.0
    difference: float = 0.0
    moved: float = 0.0
    balance: float = 0.0
    elements: int = 0
    points: int = 0
    straight: int = 0
    seconds: float = 0.0
    notes: tuple[str, ...] = ()
    refused: str = ""
