# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is to be pressed in one clamping: a run of layers, its new glue lines, and what each wants. mm, N, MPa."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.plan.gluing import Interface, LinePressure
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.pressing.bell import Floats, LineCells, cells_of, lowest_twentieth
from freecad_stacklam.lamination.pressing.faces import Slab, slab_of
from freecad_stacklam.lamination.pressing.flatness import HOLLOW, gap_closed, stiffness_across
from freecad_stacklam.lamination.pressing.interfaces import LEAST_CONTACT, interfaces_of
from freecad_stacklam.lamination.pressing.wanted import crush_share
from freecad_stacklam.lamination.wood.species import Species

#: Cells of all new lines together while places are sought, at least so many of each; and of a line that is told of.
SOUGHT, EACH, TOLD = 240, 24, 300


@dataclass(frozen=True, eq=False)
class Line:
    """A new glue line of a run: `place` is that of its lower layer in the run, from 0; `wanted` the least and the most
    pressure."""

    interface: Interface
    place: int
    wanted: tuple[float, float]
    below: LayerPlan
    above: LayerPlan

    @property
    def lower(self) -> int:
        """Number of the layer under it."""
        return self.interface.lower

    def pressed(self, force: float, over: Floats, reached: MultiPolygon, cells: LineCells, table: Mapping[str, Species]
                ) -> LinePressure:  # fmt: skip
        """Its figures for the force that goes through it, the pressure over its cells, and what the cones reach."""
        area = self.interface.area
        missed = shapely.difference(self.interface.contact, reached)
        whole = MultiPolygon([p for p in shapely.get_parts(missed) if p.geom_type == "Polygon" and p.area > 1.0])
        mean = force / area if area else 0.0
        return LinePressure(
            lower=self.lower,
            area=area,
            mean=mean,
            least=max(0.0, float(over.min(initial=mean))),
            fifth=max(0.0, lowest_twentieth(over, cells.areas)),
            reached=max(0.0, 1.0 - whole.area / area) if area else 0.0,
            missed=whole,
            wanted=self.wanted,
            closes=self._closes(mean, table),
            crush=crush_share(mean, (self.below.species, self.above.species), table),
        )

    def _closes(self, mean: float, table: Mapping[str, Species]) -> float | None:
        thinner = min(self.below, self.above, key=lambda layer: layer.thickness)
        stiffness = stiffness_across(thinner.species, table)
        if stiffness is None or self.interface.contact.is_empty:
            return None
        turned = shapely.affinity.rotate(self.interface.contact, -thinner.grain, origin=(0, 0))
        _, y0, _, y1 = shapely.bounds(turned)
        return gap_closed(mean, thinner.thickness, min(HOLLOW, float(y1 - y0)), stiffness)


@dataclass(frozen=True, eq=False)
class Work:
    """A run of layers, its new lines, and the woods' figures."""

    run: tuple[Slab, ...]
    lines: tuple[Line, ...]
    contacts: tuple[MultiPolygon, ...]  # of every line of the run, glued before or not
    woods: tuple[str, ...]  # of its layers
    table: Mapping[str, Species]

    @property
    def height(self) -> float:
        """Of the run, mm."""
        return self.run[-1].top - self.run[0].bottom

    @property
    def force(self) -> float:
        """What the line that wants most force wants at least, N."""
        return max(line.wanted[0] * line.interface.area for line in self.lines)

    @property
    def largest(self) -> Line:
        """The line that wants most force."""
        return max(self.lines, key=lambda line: line.wanted[0] * line.interface.area)

    @cached_property
    def sought(self) -> tuple[LineCells, ...]:
        """Cells of the new lines for the search."""
        count = max(EACH, SOUGHT // len(self.lines))
        return tuple(cells_of(line.lower, line.interface.contact, count) for line in self.lines)

    @cached_property
    def told(self) -> tuple[LineCells, ...]:
        """Cells of the new lines for the figures."""
        return tuple(cells_of(line.lower, line.interface.contact, TOLD) for line in self.lines)

    @cached_property
    def weights(self) -> Floats:
        """Of the cells of the search: each line weighs alike."""
        return np.concatenate([cells.areas / cells.areas.sum() for cells in self.sought])


@dataclass(frozen=True, eq=False)
class StackWood:
    """A stack as its set-ups are pressed, worked out once for all of them: its slabs and its lines, from the bottom."""

    layers: tuple[LayerPlan, ...]
    slabs: tuple[Slab, ...]
    faces: tuple[Interface, ...]


def wood_of(stack: StackPlan) -> StackWood:
    """All slabs and lines of a stack."""
    return StackWood(stack.layers, tuple(map(slab_of, stack.layers)), interfaces_of(stack))


def work_of(
    wood: StackWood,
    first: int,
    last: int,
    lines: Iterable[int],
    wanted: Mapping[int, tuple[float, float]],
    table: Mapping[str, Species],
) -> Work:
    """Layers first..last of a stack with the new lines among them; lines where no wood meets are left out."""
    layers = {layer.number: layer for layer in wood.layers}
    faces = [face for face in wood.faces if first <= face.lower < last]
    new = set(lines)
    found = tuple(
        Line(face, face.lower - first, wanted[face.lower], layers[face.lower], layers[face.lower + 1])
        for face in faces
        if face.lower in new and face.area > LEAST_CONTACT
    )
    woods = tuple(layers[n].species for n in range(first, last + 1))
    run = tuple(slab for slab in wood.slabs if first <= slab.number <= last)
    return Work(run, found, tuple(face.contact for face in faces), woods, table)
