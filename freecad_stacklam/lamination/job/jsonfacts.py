# SPDX-License-Identifier: LGPL-2.1-or-later

"""Numbers and shapes as plan.json writes them: to 1e-6, loops counter-clockwise outside and clockwise in holes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import asdict
from typing import Any

import shapely
from shapely.geometry import MultiPolygon, Polygon
from shapely.geometry.polygon import orient

from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.outline import Outline, polygon_of


def number(value: float) -> float:
    """Rounded to 1e-6, and never -0."""
    return round(float(value), 6) + 0.0


def maybe(value: float | None) -> float | None:
    """The same; None stays None."""
    return None if value is None else number(value)


def numbers(values: Iterable[float]) -> list[float]:
    """Each of them."""
    return [number(v) for v in values]


def _ring(ring: Any) -> list[list[float]]:
    return [[number(x), number(y)] for x, y in shapely.get_coordinates(ring)[:-1].tolist()]


def _polygon(polygon: Polygon) -> dict[str, Any]:
    turned = orient(polygon)
    return {"outer": _ring(turned.exterior), "holes": [_ring(h) for h in turned.interiors]}


def area(region: MultiPolygon) -> list[dict[str, Any]]:
    """The polygons of an area, outer loop and holes."""
    return [_polygon(p) for p in shapely.get_parts(region) if isinstance(p, Polygon) and not p.is_empty]


def outlines(drawn: Sequence[Outline]) -> list[dict[str, Any]]:
    """Drawn outlines as polygons, their arcs sampled."""
    return [_polygon(polygon_of(o)) for o in drawn]


def record_facts(record: Any) -> dict[str, Any]:
    """A flat record as its fields, figures rounded."""
    return {k: number(v) if isinstance(v, float) else v for k, v in asdict(record).items()}


def check_facts(check: Check) -> dict[str, Any]:
    """A verdict as its fields; its place, where it has one, as x, y, z."""
    facts = record_facts(check) | {"place": None if check.place is None else numbers(check.place)}
    del facts["rule"]  # the program's own word, beside its name
    return facts
