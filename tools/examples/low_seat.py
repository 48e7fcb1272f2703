# SPDX-License-Identifier: LGPL-2.1-or-later

"""The low seat: a dished seat on three splayed legs, each leg a stack of its own. All lengths mm.

Three legs stand on any floor. A leg is straight and piled along itself, so that its layers lie square to the tenon that
joins it, and stout, for it is bent across its grain.
"""

from __future__ import annotations

from math import cos, pi, radians, sin, tan
from typing import Any

from examples.sculpted import closed, oval, row, sculpted

LEGS = 270.0  # from the floor to the underside of the seat
SEAT = 54.0  # two layers of 27 mm
DISH = 14.0
#: From the seat's middle to a leg's axis at the underside of the seat, and how far the axis leans from upright.
PLACE, SPLAY = 118.0, 15.0
#: The legs by name and the way they splay, degrees from x.
WAYS = {"Back leg": 90.0, "Left leg": 210.0, "Right leg": 330.0}
#: A leg from the floor up, row by row: height, half its size in the plane of its splay and across.
LEG = (
    (0.0, 28.0, 27.0),
    (0.0, 35.0, 34.0),
    (12.0, 38.0, 37.0),
    (50.0, 37.0, 36.0),
    (110.0, 38.5, 37.5),
    (165.0, 43.0, 41.5),
    (215.0, 48.0, 46.0),
    (252.0, 53.0, 51.0),
    (LEGS, 54.5, 52.5),
    (LEGS, 49.5, 47.5),
)
#: The seat from the rim of its flat underside round the edge into the dish: share of the outline, height.
RIM = (
    (0.80, 0.0),
    (0.90, 0.0),
    (0.985, 9.0),
    (1.01, 27.0),
    (1.0, 44.0),
    (0.955, 53.5),
    (0.89, 53.7),
    (0.76, 49.5),
    (0.54, 42.5),
    (0.30, SEAT - DISH),
    (0.16, SEAT - DISH),
    (0.10, SEAT - DISH),
)
#: The seat's outline: its mean radius, and how far it stands out over the legs, as a share of it.
RADIUS, CORNERS = 192.0, 0.11


def leg(way: float) -> Any:
    """One leg, its foot at z = 0, splayed towards `way` in degrees."""
    rows = []
    for height, along, across in LEG:
        out = PLACE + (LEGS - height) * tan(radians(SPLAY))
        rows.append(
            row(height, oval(along, across), middle=(out * cos(radians(way)), out * sin(radians(way))), turn=way)
        )
    return closed(sculpted(rows, parts=4))


def outline(share: float) -> Any:
    """The seat's outline, a rounded triangle with its corners over the legs, for an angle in radians."""
    return lambda angle: share * RADIUS * (1 + CORNERS * cos(3 * (angle - pi / 2)))


def seat() -> Any:
    """The seat, its underside at the height of the legs."""
    return closed(sculpted([row(LEGS + height, outline(share)) for share, height in RIM], parts=3))


def forms() -> dict[str, Any]:
    """The solids by their labels."""
    return {"Seat": seat(), **{name: leg(way) for name, way in WAYS.items()}}
