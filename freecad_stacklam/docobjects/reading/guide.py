# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the maker wants as a guide for carving, and its depth holes in the stacks of a document as they are."""

from __future__ import annotations

from dataclasses import dataclass, replace
from hashlib import sha256
from typing import Any

from freecad_stacklam.docobjects.base.family import carving_in, name_of_stack, stacks_in
from freecad_stacklam.docobjects.base.memory import Memory
from freecad_stacklam.docobjects.base.protocols import CarvingObject, Document
from freecad_stacklam.docobjects.base.rowproperties import read
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.docobjects.reading.insides import finished_stacks
from freecad_stacklam.docobjects.reading.stacks import form_of_stack
from freecad_stacklam.docobjects.reading.wood import boards_for, key_of, wood_settings
from freecad_stacklam.lamination.boards import boardplan
from freecad_stacklam.lamination.carving.depthholes import depth_map
from freecad_stacklam.lamination.carving.guide import removed_from, seams_between
from freecad_stacklam.lamination.plan.carving import DepthHole, DepthMap, Removed
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.carving import CarvingSettings
from freecad_stacklam.lamination.settings.carvingwords import faces_from, plane_from
from freecad_stacklam.lamination.words import say, say_many

#: Depth holes that were found, by what they were found for.
_made: Memory[tuple[DepthMap, ...]] = Memory(24)


@dataclass(frozen=True)
class Guide:
    """The figures of a guide: its depth holes, and what is carved off each layer."""

    maps: tuple[DepthMap, ...]
    removed: tuple[Removed, ...]

    @property
    def holes(self) -> list[DepthHole]:
        """All holes of all faces."""
        return [hole for m in self.maps for hole in m.holes]

    @property
    def stops(self) -> int:
        """How often the drill stop is set: once for each depth, whatever faces have it."""
        return len({round(stop.depth, 6) for m in self.maps for stop in m.stops})

    @property
    def volume(self) -> float:
        """Wood to carve off one of each stack, mm³."""
        return sum(r.volume for r in self.removed)

    @property
    def hours(self) -> float | None:
        """At the maker's own rate; None without one."""
        timed = [r.hours for r in self.removed if r.hours is not None]
        return sum(timed) if timed else None

    def left_out(self) -> list[str]:
        """Places that are not bored, and why."""
        return [
            say_many(
                "{stack}, {face}: {count} place, {why}",
                "{stack}, {face}: {count} places, {why}",
                count,
                stack=m.stack,
                face=m.face,
                why=why,
            )
            for m in self.maps
            for why, count in m.dropped
        ]


def settings_of_carving(carving: CarvingObject) -> CarvingSettings:
    """What the maker chose. Raises Refusal when a value cannot be."""
    return CarvingSettings(
        planes=tuple(plane_from(text) for text in carving.Planes if text.strip()),
        depth_holes=faces_from(carving.DepthHoles),
        point_length=carving.PointLength.Value if carving.OwnPoint else None,
        **read(carving, CarvingSettings),
    )


def carving_of(document: Document) -> CarvingSettings | None:
    """What the document's guide asks for; None without one, or when it is suppressed. Raises Refusal."""
    carving = carving_in(document)
    return None if carving is None or carving.Suppressed else settings_of_carving(carving)


def try_carving(document: Document, settings: CarvingSettings) -> tuple[list[StackPlan], Guide]:
    """The stacks with all that is cut into them, and the guide for these settings. Raises Refusal."""
    stacks = finished_stacks(document)
    return stacks, guide_for(document, stacks, settings)


def guide_for(document: Document, stacks: list[StackPlan], settings: CarvingSettings) -> Guide:
    """The guide for these stacks, found once. Raises Refusal."""
    for name, _ in settings.depth_holes:
        if name and name not in [s.name for s in stacks]:
            known = ", ".join(s.name for s in stacks)
            raise Refusal(
                say(
                    "Depth holes are asked for in “{name}”, which is no stack here: the stacks are {known}.",
                    name=name,
                    known=known,
                )
            )
    key = guide_key(document, stacks, replace(settings, rate=None))
    maps = _made.get(key, lambda: tuple(_maps(document, stacks, settings)))
    return Guide(maps, tuple(r for s in stacks for r in removed_from(s, settings.rate)))


def _maps(document: Document, stacks: list[StackPlan], settings: CarvingSettings) -> list[DepthMap]:
    seams, units = seams_between(_staves(document, stacks)), units_in(document)
    meshes = {name_of_stack(s): form_of_stack(s).mesh for s in stacks_in(document)}
    return [
        depth_map(s, meshes[s.name], face, settings, units=units, seams=seams.get(s.name))
        for s in stacks
        for face in settings.face_of(s.name)
    ]


def _staves(document: Document, stacks: list[StackPlan]) -> Any:
    wood = wood_settings(document)
    return boards_for(document, stacks, wood).staves if boardplan.wanted(wood) else ()


def guide_key(document: Document, stacks: list[StackPlan], settings: CarvingSettings) -> str:
    """What a guide is made for, in few characters: where the stacks stand, what is cut into them, their seams."""
    frames = [[f"{v:.6f}" for v in s.frame] for s in stacks]
    seams = [(s.stack, s.layer, s.region) for s in _staves(document, stacks)] if settings.depth_holes else []
    told = key_of(stacks, wood_settings(document)), frames, seams, repr(settings), units_in(document)
    return sha256(repr(told).encode()).hexdigest()[:32]
