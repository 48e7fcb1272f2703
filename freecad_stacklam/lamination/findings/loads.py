# SPDX-License-Identifier: LGPL-2.1-or-later

"""A load on the finished piece. Forces N, lengths mm, angles degrees; places are points of the model."""

from __future__ import annotations

from dataclasses import dataclass

#: Where a load stands: in the middle of the piece's top, along its edge, anywhere on it; near the top of a back rest.
PLACES = ("middle", "edge", "anywhere", "back")


@dataclass(frozen=True)
class LoadCase:
    """`down` N and, at the same point, `push` N level and outward, on the upper side of the piece.

    `place` is one of PLACES, or "point" for the one point `at`. An edge load stands `inset` inside the edge of what is
    sat on or stood on, at the worst place of the edge. `direction`: of the push, degrees round from RIGHT; None:
    outward at the edge, and every direction elsewhere. `tips` and `bends`: whether it is for the check of standing, and
    for that of strength. `lasting`: it stays for years (a pot), not for minutes (a person).
    """

    name: str
    down: float
    push: float
    place: str
    source: str
    inset: float = 0.0
    at: tuple[float, float, float] | None = None
    direction: float | None = None
    tips: bool = True
    bends: bool = True
    lasting: bool = False
