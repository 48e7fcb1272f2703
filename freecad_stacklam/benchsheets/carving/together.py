# SPDX-License-Identifier: LGPL-2.1-or-later

"""Small outlines laid side by side on shared pages, none of them turned: paper and pages are saved."""

from __future__ import annotations

from collections.abc import Sequence

#: Wood, card and scissors need so much between two outlines, mm.
BETWEEN = 5.0

Place = tuple[int, float, float]


def places_on_pages(sizes: Sequence[tuple[float, float]], width: float, height: float) -> list[Place] | None:
    """Page and lower left corner of each outline, mm from the lower left of a page `width` × `height`; None where one
    of them is larger than the page. Highest first, each in the first row that has room for it, rows from the top."""
    if any(w > width or h > height for w, h in sizes):
        return None
    rows: list[list[float]] = []  # page, top, height, right end
    found: dict[int, Place] = {}
    for i in sorted(range(len(sizes)), key=lambda i: -sizes[i][1]):
        w, h = sizes[i]
        row = next((r for r in rows if h <= r[2] and r[3] + w <= width), None)
        if row is None:
            feet: dict[int, float] = {}
            for page, top, tall, _ in rows:
                feet[int(page)] = min(feet.get(int(page), height), top - tall - BETWEEN)
            page, top = next(((p, foot) for p, foot in feet.items() if foot >= h), (len(feet), height))
            row = [page, top, h, 0.0]
            rows.append(row)
        found[i] = int(row[0]), row[3], row[1] - h
        row[3] += w + BETWEEN
    return [found[i] for i in range(len(sizes))]
