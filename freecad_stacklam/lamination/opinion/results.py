# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the solver printed, and whether it is an answer: judged by the balance of forces, never by how it ended.

The solver may stop halfway and say all is well, or print nothing but zeros. Lengths mm, forces N, stresses MPa.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.opinion.deck import FLOOR, LOADED, READ, Deck
from freecad_stacklam.lamination.tolerances import BALANCED
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]

#: The printed order xx yy zz xy xz yz as ours: xx yy zz yz xz xy.
_ORDER = [0, 1, 2, 5, 4, 3]
_PLACES = 4  # at which a ten-node tetrahedron is integrated


@dataclass(frozen=True, eq=False)
class Results:
    """`held`: the floor's forces on its points (F × 3), `moved`: movements of the loaded points (L × 3), `stress`
    (R × 4 × 6, order xx yy zz yz xz xy) at the four places of each element that is read; each in the deck's order, NaN
    where it was not printed."""

    held: Floats
    moved: Floats
    stress: Floats


def read_results(text: str, deck: Deck) -> Results:
    """The printed text of a deck's run, whatever there is of it."""
    held, moved = np.full((len(deck.floor), 3), np.nan), np.full((len(deck.loaded), 3), np.nan)
    stress = np.full((len(deck.read), _PLACES, 6), np.nan)
    where = {name: {int(v) + 1: i for i, v in enumerate(numbers)}
             for name, numbers in ((FLOOR, deck.floor), (LOADED, deck.loaded), (READ, deck.read))}  # fmt: skip
    for what, name, row in _rows(text):
        at = where.get(name, {}).get(int(row[0]))
        if at is None:
            continue
        if what == "forces" and name == FLOOR and len(row) == 4:
            held[at] = row[1:]
        elif what == "displacements" and name == LOADED and len(row) == 4:
            moved[at] = row[1:]
        elif what == "stresses" and name == READ and len(row) == 8 and 1 <= row[1] <= _PLACES:
            stress[at, int(row[1]) - 1] = np.array(row[2:])[_ORDER]
    return Results(held, moved, stress)


def _rows(text: str) -> Iterator[tuple[str, str, list[float]]]:
    """Kind, set and figures of each printed line. A line that is no figures is a heading, or of no meaning."""
    what = name = ""
    for line in text.splitlines():
        words = line.split()
        if not words:
            continue
        if words[0][0].isalpha():
            what = words[0]
            name = words[words.index("set") + 1] if "set" in words[:-1] else ""
            continue
        try:
            row = [float(word) for word in words]
        except ValueError:
            continue
        if row[0] == int(row[0]):
            yield what, name, row


def balance_of(results: Results, deck: Deck) -> float:
    """Forces and moments that the floor does not answer, over those of the load, as the deep check reckons its own;
    infinite where forces were not printed."""
    if not np.isfinite(results.held).all() or not len(results.held):
        return float("inf")
    points = deck.mesh.points
    middle = points.mean(axis=0)
    on, under = points[deck.loaded] - middle, points[deck.floor] - middle
    missing = deck.forces.sum(axis=0) + results.held.sum(axis=0)
    turning = np.cross(on, deck.forces).sum(axis=0) + np.cross(under, results.held).sum(axis=0)
    size = float(np.abs(deck.forces).sum()) or 1.0
    reach = float(np.abs(np.cross(on, deck.forces)).sum()) or 1.0
    return float(max(np.abs(missing).max() / size, np.abs(turning).max() / reach))


def fault_of(results: Results, deck: Deck) -> str:
    """Why this is no answer, as the end of a sentence; "" where it is one."""
    if not np.isfinite(results.stress).all() or not np.isfinite(results.moved).all():
        return say("it printed no stresses, or not all")
    balance = balance_of(results, deck)
    if not balance <= BALANCED:
        lacks = say("none of") if not np.isfinite(balance) else say("{balance:.1f} % off", balance=balance * 100)
        return say("the floor's forces are {lacks} the load", lacks=lacks)
    if not np.abs(results.stress).max() > 0:
        return say("every stress is nothing")
    return ""
