# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the cells of a piece are made of: the wood of every layer and tenon as it lies, and the lattice of all.

Boards are flat-sawn, with the rings level and the radius up (`R up`), or quarter-sawn, with the rings upright and the
tangent up (`T up`): across the grain one is more than twice as stiff as the other, and nobody marks which. Both are
reckoned, and the worse is told. Lengths mm, stresses MPa.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.elastic.element import turned_stiffness
from freecad_stacklam.lamination.elastic.lattice import Lattice, Wood, lattice_of
from freecad_stacklam.lamination.form.frame import direction_to_stack
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import PARALLEL
from freecad_stacklam.lamination.voxels.grid import Voxels
from freecad_stacklam.lamination.wood.elastic import Elastic, elastic_of
from freecad_stacklam.lamination.wood.species import Species, find_species
from freecad_stacklam.lamination.wood.strengths import Strengths, strengths_of
from freecad_stacklam.lamination.wood.unknown import WHOLE_PIECE, not_judged
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: How the rings lie in a layer: which direction across the grain looks up.
FLAT_SAWN, QUARTER_SAWN = "R up", "T up"
#: Directions nearer than this to each other, of one, are one.
_SAME = 4


@dataclass(frozen=True, eq=False)
class Timber:
    """The woods of a piece: `of_layer` and `of_tenon` say which of `woods` each is; `strengths` are those of each
    wood's species. `assumed`: what is not in the table, as sentences."""

    woods: tuple[Wood, ...]
    strengths: tuple[Strengths, ...]
    of_layer: tuple[int, ...]
    of_tenon: tuple[int, ...]
    assumed: tuple[str, ...]


def elastic_for(table: Mapping[str, Species], name: str) -> Elastic:
    """The stiffness of a species. Raises Refusal where the table does not have it."""
    try:
        species = find_species(table, name)
    except Refusal:
        raise Refusal(not_judged(say(WHOLE_PIECE), name)) from None
    found = elastic_of(species)
    if found is None:
        raise Refusal(not_judged(say(WHOLE_PIECE), name, say("stiffness across the grain")))
    return found


def timber_of(cells: Voxels, table: Mapping[str, Species], rings: str) -> Timber:
    """The woods of all layers and tenons, with the rings lying as `rings` says in the layers. Raises Refusal for a wood
    that is not known well enough."""
    woods: list[Wood] = []
    strengths: list[Strengths] = []
    known: dict[tuple[object, ...], int] = {}
    assumed: list[str] = []

    def number(kind: str, species: str, axes: Floats) -> int:
        key = (kind, species, tuple(np.round(_upward(axes), _SAME).ravel() + 0.0))
        if key not in known:
            elastic = elastic_for(table, species)
            assumed.extend(s for s in elastic.assumed if s not in assumed)
            known[key] = len(woods)
            woods.append(Wood(turned_stiffness(elastic.stiffness(), axes), axes))
            strengths.append(strengths_of(find_species(table, species)))
        return known[key]

    layers = []
    for layer in cells.layers:
        along, normal = np.array(layer.grain), np.array(layer.normal)
        level = np.cross(normal, along)
        radial, tangential = (normal, level) if rings == FLAT_SAWN else (level, normal)
        layers.append(number("layer", layer.species, np.stack([along, radial, tangential])))
    tenons = []
    for tenon in cells.tenons:
        along = np.array(tenon.grain)
        side = np.eye(3)[int(np.abs(along).argmin())]
        side = side - along * (side @ along)
        side /= np.linalg.norm(side)
        tenons.append(number("tenon", tenon.species, np.stack([along, side, np.cross(along, side)])))
    return Timber(tuple(woods), tuple(strengths), tuple(layers), tuple(tenons), tuple(assumed))


def _upward(axes: Floats) -> Floats:
    """The same directions, each turned so that its largest part is positive: wood knows no ahead and back."""
    rows = np.arange(3)
    return np.asarray(axes * np.sign(axes[rows, np.abs(np.round(axes, _SAME)).argmax(axis=1)])[:, None])


@dataclass(frozen=True, eq=False)
class Body:
    """A piece ready to be loaded: its bricks, and of each the layer or the tenon that it belongs to by one number
    (`group`), whether it is tenon, and whether its group lies level in the grid. `up`: in the piece's frame."""

    lattice: Lattice
    timber: Timber
    rings: str
    group: Ints
    in_tenon: NDArray[np.bool_]
    level: NDArray[np.bool_]
    up: Floats


def body_of(cells: Voxels, table: Mapping[str, Species], rings: str, tenons: bool = True) -> Body:
    """The bricks of a piece with its tenons glued in, or without them, their mortises empty. Pins carry nothing: they
    stand dry in loose holes. Raises Refusal for a wood that is not known well enough, and as lattice_of."""
    timber = timber_of(cells, table, rings)
    there = cells.layer >= 0
    layer_wood = np.asarray(timber.of_layer)[np.where(there, cells.layer, 0)]
    filled = cells.filled.astype(np.float64)
    in_tenon = cells.tenon_part.astype(np.float64)
    share = np.where(there, np.clip(filled - in_tenon - cells.pin_part, 0.0, 1.0), 0.0)
    shares, which = [share], [layer_wood]
    if tenons and timber.of_tenon:
        shares.append(in_tenon)
        which.append(np.asarray(timber.of_tenon)[np.maximum(cells.tenon_of, 0)])
    up = np.asarray(direction_to_stack(cells.frame, np.array([0.0, 0.0, 1.0])))
    lattice = lattice_of(cells.origin, cells.size, cells.heights, timber.woods, shares, which, up)
    at = tuple(lattice.cell.T)
    tenon = np.isin(lattice.wood, np.array(timber.of_tenon, dtype=np.int64))
    group = np.where(tenon, len(cells.layers) + cells.tenon_of[at], cells.layer[at]).astype(np.int64)
    lies = np.array([abs(each.normal[2]) >= 1 - PARALLEL for each in cells.layers] + [False] * len(cells.tenons))
    return Body(lattice, timber, rings, group, tenon, lies[group], up)
