# SPDX-License-Identifier: LGPL-2.1-or-later

"""Few settings of the drill stop: the depths of many holes brought to some of them, always to a shallower one."""

from __future__ import annotations

from bisect import bisect_right
from collections import Counter
from collections.abc import Sequence

#: The stop is set no more often than this where the maker leaves its steps to the plan (common practice, no source).
MOST_STOPS = 6


def merged_depths(depths: Sequence[float], most: int = MOST_STOPS) -> dict[float, float]:
    """What each depth becomes so that no more than `most` are left, mm.

    Depths only become shallower, so that no hole comes nearer to the finished surface; the shallowest stays as it is,
    so that none is lost. Of all choices the one that takes away the least depth, summed over the holes: what stays
    is wood that no hole shows. Exact, by taking the deepest settings first (dynamic programming).
    """
    count = Counter(depths)
    levels = sorted(count)
    if len(levels) <= most:
        return {depth: depth for depth in levels}

    def lost(first: int, end: int) -> float:
        return sum(count[d] * (d - levels[first]) for d in levels[first:end])

    # best[k][i]: least lost by the first i levels in k settings, and where the last of these begins.
    best: list[dict[int, tuple[float, int]]] = [{0: (0.0, 0)}]
    for _ in range(most):
        before = best[-1]
        best.append({
            end: min((before[first][0] + lost(first, end), first) for first in before if first < end)
            for end in range(1, len(levels) + 1) if any(first < end for first in before)
        })  # fmt: skip
    kept, end = [], len(levels)
    for k in range(most, 0, -1):
        end = best[k][end][1]
        kept.append(levels[end])
    kept.sort()
    return {depth: kept[bisect_right(kept, depth) - 1] for depth in levels}
