"""Outlines of straight lines and arcs: what is drawn, sawn and measured.

A loop is a closed chain of points, each with the bulge of the edge that leaves it: tan(angle / 4) of the arc, positive
when the arc turns to the left, 0 for a straight line (the convention of DXF polylines). Outer loops run counter-clockwise, holes clockwise.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Loop:
    """A closed loop. `points` are (x, y, bulge) in mm; the last point joins the first."""

    points: tuple[tuple[float, float, float], ...]


@dataclass(frozen=True)
class Outline:
    """One island: an outer loop and the holes in it."""

    outer: Loop
    holes: tuple[Loop, ...] = ()
