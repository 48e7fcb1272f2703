# SPDX-License-Identifier: LGPL-2.1-or-later

"""How parts of the piece follow the room, read from the runs: means, cores, lags with their band. Moisture %."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.climate.periodic import Groups, Run, cores, lag_of
from freecad_stacklam.lamination.findings.seasons import Following, Year

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Runs:
    """The likely run, one with faster and one with slower diffusion, over the same parts in the same room."""

    likely: Run
    fast: Run
    slow: Run
    groups: Groups
    room: Year

    def gathered(self, group_of: Ints, count: int) -> tuple[Following, ...]:
        """How each of `count` groups of parts follows; `group_of`: the group of each part, −1 for none."""
        volume = np.bincount(self.groups.part, self.groups.volume, self.groups.parts)
        in_group = (group_of[:, None] == np.arange(count)) * volume[:, None]
        whole = in_group.sum(axis=0)

        def means(by_part: Floats) -> list[Year]:
            total = np.nan_to_num(by_part) @ in_group / np.where(whole > 0, whole, 1.0)
            total[:, whole <= 0] = np.array(self.room)[:, None]  # no cells: so thin that it follows at once
            return [_year(column) for column in total.T]

        inside = np.flatnonzero(group_of[self.groups.part] >= 0)
        chosen = replace(
            self.groups, part=group_of[self.groups.part[inside]], volume=self.groups.volume[inside], parts=count
        )
        core = [
            tuple(
                _year(np.where(np.isfinite(column), column, self.room))
                for column in cores(chosen, run.snapshots[:, inside]).T
            )
            for run in (self.likely, self.fast, self.slow)
        ]
        first = means(self.likely.first)
        mean, fast, slow = (means(run.settled) for run in (self.likely, self.fast, self.slow))
        return tuple(
            Following(
                mean[i], core[0][i], first[i],
                lag_of(mean[i], fast[i], slow[i], self.room),
                lag_of(core[0][i], core[1][i], core[2][i], self.room),
            )
            for i in range(count)
        )  # fmt: skip

    def of_cells(self, weights: Floats) -> Year:
        """The settled mean of cells, weighted (in the solver's order)."""
        total = float(weights.sum())
        return self.room if total <= 0 else _year(self.likely.snapshots @ weights / total)

    def slopes(self, along: Floats) -> Floats:
        """Points of moisture per mm along `along` (a place of each cell, mm), in every part: 12 × parts, a straight
        line through its cells; 0 where a part has but one row of them."""
        part, volume, parts = self.groups.part, self.groups.volume, self.groups.parts
        whole = np.bincount(part, volume, parts)
        whole = np.where(whole > 0, whole, 1.0)
        away = along - (np.bincount(part, volume * along, parts) / whole)[part]
        square = np.bincount(part, volume * away**2, parts)
        flat = square / whole < 1.0  # within a millimetre: one row
        found = [np.bincount(part, volume * away * month, parts) for month in self.likely.snapshots]
        return np.where(flat, 0.0, np.array(found) / np.where(flat, 1.0, square))


def _year(values: Sequence[float] | Floats) -> Year:
    return tuple(float(v) for v in values)
