# SPDX-License-Identifier: LGPL-2.1-or-later

"""Blanks glued up from staves: a set-up for each panel that has a seam.

Bars lie across the panel, above and below it in turn; all of them press every seam that runs under them. Along the
seams the first stands a little in from the end, the others no further apart than their cones reach. In a set-up of this
kind a `ClampPlace` is a bar: `at` is the middle of the panel's thickness where the bar crosses its middle, `foot` and
`head` are where its jaws stand across the grain, mm from the stack's datum; a `LinePressure` is a seam, numbered from 1
across the grain.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from shapely.geometry import MultiPolygon, Polygon

from freecad_stacklam.lamination.boards.edgeglue import loose_pieces
from freecad_stacklam.lamination.joining.edgeclamps import bars_for, places_of, pressures_of
from freecad_stacklam.lamination.joining.means import Means
from freecad_stacklam.lamination.joining.panels import Panel, panels_of
from freecad_stacklam.lamination.joining.timeline import Spread, late, timeline
from freecad_stacklam.lamination.lengths import format_length, format_place, rounded_down
from freecad_stacklam.lamination.plan.boards import Stave
from freecad_stacklam.lamination.plan.gluing import (
    EDGES,
    BrokenLimit,
    Burden,
    ClampPlace,
    Clock,
    SetUp,
)
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.quantities import format_force, format_pressure
from freecad_stacklam.lamination.settings.glue import glue_grams
from freecad_stacklam.lamination.settings.presses import PressSettings
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.wood.weights import weight_of
from freecad_stacklam.lamination.words import mark, say, say_many


def edge_set_ups(staves: Sequence[Stave], stacks: Sequence[StackPlan], means: Means) -> tuple[SetUp, ...]:
    """A set-up for each panel of the staves, in rounds: panels cure side by side while clamps last that press each as
    well as all of them would. Set-ups and rounds are numbered from 1."""
    by_name = {s.name: s for s in stacks}
    heights = {(s.name, layer.number): (layer.bottom + layer.top) / 2 for s in stacks for layer in s.layers}
    rounds: list[tuple[list[SetUp], tuple[PressSettings, ...]]] = []
    for panel in panels_of(staves):
        height = heights.get((panel.staves[0].stack, panel.staves[0].layer), 0.0)
        best, others = _pressed(panel, means, means.clamps, height)
        best = replace(best, cautions=_loose(panel, by_name.get(best.stack), means.units))
        for i, (mine, left) in enumerate(rounds):
            if sum(p.count for p in left) < len(best.places):
                continue
            made, rest = _pressed(panel, means, left, height)
            if len(made.places) >= len(best.places) and len(made.limits) <= len(best.limits):
                mine.append(replace(made, cautions=best.cautions))
                rounds[i] = mine, rest
                break
        else:
            rounds.append(([best], others))
    flat = [replace(s, round=i + 1) for i, (mine, _) in enumerate(rounds) for s in mine]
    return tuple(replace(s, number=i + 1) for i, s in enumerate(flat))


def _pressed(
    panel: Panel, means: Means, presses: Sequence[PressSettings], height: float
) -> tuple[SetUp, tuple[PressSettings, ...]]:
    """The set-up with these clamps, and the clamps that are left."""
    caul, stave = means.room.caul_thickness, panel.staves[0]
    wanted = means.wanted(stave.species)
    needed = panel.width + 2 * caul
    able = [p for p in presses if p.opening is None or p.opening >= needed - ROUNDING]
    bars, wants = bars_for(panel, able, wanted, caul)
    places = places_of(panel, bars)
    pressures = pressures_of(panel, bars, places, wanted, caul)
    weight = weight_of(means.table, stave.species)
    volume = sum((t[1] - t[0]) * (t[3] - t[2]) for t in panel.strips) * stave.thickness
    middle = MultiPolygon([Polygon(p.region) for p in panel.staves]).centroid
    how = _set(len(places), wants, bars.along, panel.ends, means.units)
    made = SetUp(
        number=1,
        round=1,
        kind=EDGES,
        stack=stave.stack,
        first=stave.layer,
        last=stave.layer,
        joins=(),
        lines=(),
        clock=_clock(panel, means, len(places)),
        glue=glue_grams(means.glue, panel.area, means.loss),
        area=panel.area,
        places=places,
        pressures=pressures,
        opening=needed,
        staves=tuple(s.id for s in panel.staves),
        burden=Burden(
            stave.thickness, None if weight is None else weight * volume, (float(middle.x), float(middle.y), height)
        ),
        why=say(
            mark(
                "The blank of layer {layer} is wider than one board: {staves} staves, once for each of {copies} copies."
            )
            if stave.copies > 1
            else mark("The blank of layer {layer} is wider than one board: {staves} staves."),
            layer=stave.layer,
            staves=len(panel.staves),
            copies=stave.copies,
        ),
        before=(*_before(bars.ease, places, means.units), how),
    )
    rest = {p.name: p.count for p in presses}
    for place in places:
        rest[place.press] -= 1
    left = tuple(replace(p, count=rest[p.name]) for p in presses if rest[p.name] > 0)
    return replace(made, limits=tuple(_limits(panel, means, wants, needed, made))), left


def _set(there: int, wants: int, along: Sequence[float], ends: tuple[float, float], units: str) -> str:
    """How many bars, how far apart and how far from the ends, as they are drawn."""
    if not there:
        return say("Nothing that is owned presses it: see which limit is broken.")
    if there < 2:
        return say(
            mark("Set 1 clamp of the {wants} wanted, in the middle.")
            if there < wants
            else mark("Set 1 clamp, in the middle."),
            wants=wants,
        )
    apart, first = (round(one) for one in (along[1] - along[0], along[0] - ends[0]))
    return say(
        mark("Set {there} clamps of the {wants} wanted, about {apart} apart, the first {first} from the ends.")
        if there < wants
        else mark("Set {there} clamps, about {apart} apart, the first {first} from the ends."),
        there=there,
        wants=wants,
        apart=format_length(apart, units),
        first=format_length(first, units),
    )


def _before(ease: float, places: Sequence[ClampPlace], units: str) -> tuple[str, ...]:
    said = [
        say("Number the staves and draw a triangle across them; joint the edges, and glue them the same day."),
        say(
            "Lay it dry: no light through any seam, bars above and below in turn, a strip of scrap under "
            "every jaw, the panel flat between them."
        ),
    ]
    if ease < 1 and places:
        most = format_force(max(p.force for p in places), units)
        said.append(
            say(
                "Tighten these clamps to about {force} each and no more: their full force would starve the seam.",
                force=most,
            )
        )
    return tuple(said)


def _clock(panel: Panel, means: Means, clamps: int) -> Clock:
    """Each seam spread and closed in turn, then the strips under the jaws and the clamps."""
    seams = [Spread(i + 1, seam.length * panel.staves[0].thickness) for i, seam in enumerate(panel.seams)]
    return timeline(means.glue, means.room, seams, 2 if means.room.caul_thickness > 0 else 0, clamps)


def _limits(panel: Panel, means: Means, wants: int, needed: float, setup: SetUp) -> list[BrokenLimit]:
    """What the panel wants and is not there, each with the smallest change that would do."""
    found, units, used = [], means.units, setup.places
    widest = max((p.opening for p in means.clamps if p.opening is not None), default=0.0)
    if means.clamps and not used and widest < needed and all(p.opening is not None for p in means.clamps):
        found.append(
            BrokenLimit(
                "opening",
                needed,
                widest,
                "mm",
                say(
                    "The panel and its cauls want a clamp that opens {needed} and the widest opens {widest}: get "
                    "longer bars, or glue two halves and join their last seam with something that pulls, such as "
                    "pinch dogs or wedges against battens on a bench.",
                    needed=format_length(needed, units),
                    widest=format_length(widest, units),
                ),
            )
        )
    elif len(used) < wants:
        weakest = min(setup.pressures, key=lambda p: p.mean, default=None)
        reached = 0.0 if weakest is None else weakest.mean
        found.append(
            BrokenLimit(
                "clamps",
                float(wants),
                float(len(used)),
                "",
                say_many(
                    "{wants} clamps are wanted and {count} is there: {more} more would do, or fewer staves; with those "
                    "owned the weakest seam gets {pressure}.",
                    "{wants} clamps are wanted and {count} are there: {more} more would do, or fewer staves; with "
                    "those owned the weakest seam gets {pressure}.",
                    len(used),
                    wants=wants,
                    more=wants - len(used),
                    pressure=format_pressure(reached, units),
                ),
            )
        )
    low = min(setup.pressures, key=lambda p: p.mean - p.wanted[0])
    if used and len(used) >= wants and low.mean < low.wanted[0] - ROUNDING:
        found.append(
            BrokenLimit(
                "pressure",
                low.wanted[0],
                low.mean,
                "MPa",
                say(
                    "Seam {seam} gets {mean} and wants {wanted}: more clamps would starve a shorter seam of the "
                    "panel, so glue that one by itself first.",
                    seam=low.lower,
                    mean=format_pressure(low.mean, units),
                    wanted=format_pressure(low.wanted[0], units),
                ),
            )
        )
    return found + late(
        setup.clock,
        "The longest seam",
        "clamp",
        say("spread it with a helper, or take a slower glue"),
        say("glue the panel in two parts and then those, take a helper, or a slower glue"),
    )


def _loose(panel: Panel, stack: StackPlan | None, units: str) -> tuple[str, ...]:
    """Pieces that the outline and the voids leave with little edge glue."""
    layer = next((x for x in stack.layers if x.number == panel.staves[0].layer), None) if stack is not None else None
    if layer is None:
        return ()
    strips = {s.id: Polygon(s.region) for s in panel.staves}
    return tuple(
        say(
            "A piece of {stave} at ({place}) has only {length} of edge glue: glue the panel before it is "
            "sawn, and handle it there with care.",
            stave=p.stave,
            place=format_place(p.place, units),
            length=format_length(rounded_down(p.length, units), units),
        )
        for p in loose_pieces(layer, strips)
    )
