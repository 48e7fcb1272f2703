# SPDX-License-Identifier: LGPL-2.1-or-later

"""Outside judge for layers laid the wrong way: turns and mirrors by shapely, tried one by one."""

from __future__ import annotations

import numpy as np
import shapely
from shapely import affinity


def lobed(radius, depth, lobes, turn=0.0, points=240):
    a = 2 * np.pi * np.arange(points) / points
    r = radius * (1 + depth * np.cos(lobes * (a - turn)))
    return shapely.Polygon(np.stack([r * np.cos(a), r * np.sin(a)], axis=1))


def differs(piece, laid):
    return piece.symmetric_difference(laid).area / piece.area


def tried_one_by_one(piece, pins, share, step=1.0):
    """Least misfit over all turns and mirrors whose outline differs by less than `share`, each tried with shapely."""
    centre = piece.centroid
    points = shapely.MultiPoint(pins)

    def missed(laid):
        holes = shapely.get_coordinates(laid)
        apart = np.hypot(*(pins[:, None] - holes[None]).transpose(2, 0, 1))
        return apart.min(axis=1).max(), (np.diag(apart) <= apart.min(axis=1) + 1e-9).all()

    found, seating = [], {1: True, -1: True}
    for turn in np.arange(step, 180 + step / 2, step):
        for sign in (1, -1):
            near = differs(piece, affinity.rotate(piece, sign * turn, origin=centre)) < share
            distance, own = missed(affinity.rotate(points, sign * turn, origin=centre))
            seating[sign] = seating[sign] and near and own
            if near and not seating[sign]:
                found.append(distance)
    for axis in np.arange(0, 180, step):

        def over(shape, axis=axis):
            flat = affinity.rotate(shape, -axis, origin=centre)
            return affinity.rotate(affinity.scale(flat, 1, -1, origin=centre), axis, origin=centre)

        if differs(piece, over(piece)) < share:
            found.append(missed(over(points))[0])
    return min(found, default=np.inf)


SHAPES = {
    "round": lobed(120, 0.0, 1),
    "square": shapely.box(-90, -90, 90, 90),
    "oblong": shapely.box(-150, -80, 150, 80),
    "oval": affinity.scale(lobed(100, 0.0, 1), 1.5, 1.0),
    "three lobes": lobed(120, 0.25, 3, 0.3),
    "five lobes": lobed(120, 0.2, 5),
    "triangle": shapely.Polygon([(0, 0), (260, 0), (130, 225.2)]),
    "L": shapely.Polygon([(0, 0), (240, 0), (240, 90), (100, 90), (100, 200), (0, 200)]),
}
