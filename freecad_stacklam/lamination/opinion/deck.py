# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the solver is told of a meshed piece: its points, elements, woods as they lie, floor and load.

Written from the solver's published keywords: nine engineering constants a wood, and the directions of its grain as an
orientation of its elements. Lengths mm, stresses MPa, forces N, all in the piece's frame.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.opinion.tetrahedra import Tetrahedra
from freecad_stacklam.lamination.wood.elastic import Elastic

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Names of the sets that are printed.
FLOOR, LOADED, READ = "FLOOR", "LOADED", "READ"
#: Numbers of a set in one line, as many as the solver reads.
_IN_LINE = 12


@dataclass(frozen=True, eq=False)
class Laid:
    """One wood in one position: how stiff it is, and its directions L, R, T as rows (3, 3)."""

    elastic: Elastic
    axes: Floats


@dataclass(frozen=True, eq=False)
class Deck:
    """A mesh, which of `woods` each element is (`wood`, E), the points that the floor holds (`floor`), the points that
    carry the load (`loaded`) with their `forces`, and the elements whose stresses are printed (`read`)."""

    mesh: Tetrahedra
    woods: Sequence[Laid]
    wood: Ints
    floor: Ints
    loaded: Ints
    forces: Floats
    read: Ints


def deck_of(deck: Deck) -> str:
    """The text. Points and elements are numbered from 1, in their order."""
    return "\n".join([*_mesh(deck), *_woods(deck), *_step(deck), ""])


def _mesh(deck: Deck) -> Iterator[str]:
    yield "*NODE, NSET=ALL"
    for number, (x, y, z) in enumerate(deck.mesh.points, 1):
        yield f"{number}, {x:.9e}, {y:.9e}, {z:.9e}"
    for wood in range(len(deck.woods)):
        own = np.flatnonzero(deck.wood == wood)
        if len(own):
            yield f"*ELEMENT, TYPE=C3D10, ELSET=WOOD{wood}"
            for number in own:
                yield ", ".join(str(v) for v in (number + 1, *(deck.mesh.corners[number] + 1)))
    yield from _set("NSET", FLOOR, deck.floor)
    yield from _set("NSET", LOADED, deck.loaded)
    yield from _set("ELSET", READ, deck.read)


def _set(kind: str, name: str, numbers: Ints) -> Iterator[str]:
    yield f"*{'NSET' if kind == 'NSET' else 'ELSET'}, {kind}={name}"
    for at in range(0, len(numbers), _IN_LINE):
        yield ", ".join(str(v + 1) for v in numbers[at : at + _IN_LINE]) + ","


def _woods(deck: Deck) -> Iterator[str]:
    for number, wood in enumerate(deck.woods):
        if not (deck.wood == number).any():
            continue
        one, (along, radial, _) = wood.elastic, wood.axes
        yield f"*MATERIAL, NAME=WOOD{number}"
        yield "*ELASTIC, TYPE=ENGINEERING CONSTANTS"
        eight = (one.along, one.radial, one.tangential, one.poisson_lr, one.poisson_lt, one.poisson_rt, one.shear_lr,
                 one.shear_lt)  # fmt: skip
        yield ", ".join(f"{v:.9g}" for v in eight) + ","
        yield f"{one.shear_rt:.9g}"
        yield f"*ORIENTATION, NAME=LAID{number}, SYSTEM=RECTANGULAR"
        yield ", ".join(f"{v:.12g}" for v in (*along, *radial))
        yield f"*SOLID SECTION, ELSET=WOOD{number}, MATERIAL=WOOD{number}, ORIENTATION=LAID{number}"


def _step(deck: Deck) -> Iterator[str]:
    yield from ("*BOUNDARY", f"{FLOOR}, 1, 3", "*STEP", "*STATIC", "*CLOAD")
    for point, force in zip(deck.loaded, deck.forces):
        for way, size in enumerate(force, 1):
            if size != 0.0:
                yield f"{point + 1}, {way}, {size:.12e}"
    yield from (f"*NODE PRINT, NSET={FLOOR}", "RF", f"*NODE PRINT, NSET={LOADED}", "U")
    # Stresses in the piece's frame, and where each was integrated.
    yield from (f"*EL PRINT, ELSET={READ}, GLOBAL=YES", "S", "*END STEP")
