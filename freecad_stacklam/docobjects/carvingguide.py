# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Carving object: what the maker wants as a guide for carving, its depth holes drawn where they are bored.

There is one for all stacks of a document. It depends on all that is cut into them, and on the seams of their staves;
the watcher keeps it in step, so it needs no links.
"""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import dataclass, replace
from hashlib import sha256
from typing import Any

import FreeCAD
import numpy as np
import Part

from freecad_stacklam.docobjects import watcher
from freecad_stacklam.docobjects.base.properties import Property, set_result
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.views import kind_of
from freecad_stacklam.docobjects.cutting import boards_for, finished_stacks, key_of, wood_settings
from freecad_stacklam.docobjects.forms.shapes import show
from freecad_stacklam.docobjects.job import job_in
from freecad_stacklam.docobjects.stack import form_of_stack, name_of_stack
from freecad_stacklam.lamination.boards import boardplan
from freecad_stacklam.lamination.carving.depthholes import depth_map
from freecad_stacklam.lamination.carving.guide import removed_from, seams_between
from freecad_stacklam.lamination.form.frame import to_model
from freecad_stacklam.lamination.plan.carving import Bit, DepthHole, DepthMap, Removed
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.carving import POINTS, CarvingSettings
from freecad_stacklam.lamination.settings.carvingwords import face_text, faces_from, hour_text, plane_from, plane_text

_FIRST = CarvingSettings()
_KEPT = 24
#: Depth holes that were found, by what they were found for.
_made: OrderedDict[str, tuple[DepthMap, ...]] = OrderedDict()


class Carving(Proxy):
    """The carving guide of a document. The name of this class is written in users' files and never changes."""

    KIND = "carving"
    PROPERTIES = (
        Property("Bool", "Suppressed", "Guide", "Leave the guide out for now, without deleting it"),
        Property(
            "StringList", "DepthHoles", "Depth holes",
            "Faces that are bored: top, bottom or both for every stack, or “Name = top” for one; empty: none",
        ),
        Property("Length", "Bit", "Depth holes", "Diameter of the bit", _FIRST.bit),
        Property("Enumeration", "Point", "Depth holes", "Kind of bit", list(POINTS)),
        Property("Angle", "PointAngle", "Depth holes", "Angle of a twist bit's point", _FIRST.angle),
        Property("Bool", "OwnPoint", "Depth holes", "The length of the point was measured and is given below"),
        Property("Length", "PointLength", "Depth holes", "How far the bit's point leads its full width, as measured"),
        Property("Length", "BitLength", "Depth holes", "How deep the bit bores; 0: as deep as is needed"),
        Property("Length", "Pitch", "Depth holes", "Distance from hole to hole", _FIRST.pitch),
        Property("Length", "Leave", "Depth holes", "Least wood left over the finished surface", _FIRST.leave),
        Property("Length", "Cover", "Depth holes", "Least wood to joints, pins, voids and seams", _FIRST.cover),
        Property("Length", "Landing", "Depth holes", "Flat wood around the bit for the drill stop", _FIRST.landing),
        Property("Length", "LeastDepth", "Depth holes", "Shallower holes are left out", _FIRST.least_depth),
        Property("Length", "StopStep", "Depth holes", "What stop depths are rounded to; 0: 0.5 mm, or 1/32 in"),
        Property("Angle", "AzimuthStep", "Offsets", "Step of the table of offsets around the axis", 15.0),
        Property("FloatList", "Azimuths", "Offsets", "Or these directions alone, degrees from the stack's x"),
        Property("Length", "Station", "Offsets", "Distance of stations across the form; 0: none"),
        Property("Angle", "StationsAlong", "Offsets", "Direction in which stations follow each other"),
        Property("FloatList", "Templates", "Templates", "Directions of upright section templates through the axis"),
        Property(
            "StringList", "Planes", "Templates",
            "Other planes, in the model: “Name: x y z; normal nx ny nz”, x y z being a point, with units",
        ),
        Property("Bool", "LevelTemplates", "Templates", "A template at every glue line"),
        Property("StringList", "Gauges", "Templates", "Sides that gauges are held from: right, left, above, below"),
        Property("Length", "Clearance", "Templates", "Cut from a gauge, so that it slides", _FIRST.clearance),
        Property("Length", "Margin", "Templates", "Wood of a gauge around the profile", _FIRST.margin),
        Property("Float", "Rate", "Time", "Litres that you carve in an hour, as measured; 0: no time is stated"),
        Property("Integer", "HoleCount", "Plan", "Depth holes to bore", result=True),
        Property("Integer", "StopCount", "Plan", "How often the drill stop is set", result=True),
        Property("Length", "Deepest", "Plan", "Depth of the deepest hole, to the bit's tip", result=True),
        Property("Length", "Shallowest", "Plan", "Depth of the shallowest hole", result=True),
        Property("Volume", "ToCarve", "Plan", "Wood to carve away, one of each stack", result=True),
        Property("String", "Hours", "Plan", "Hours of carving at your own rate", result=True),
        Property("StringList", "Stops", "Plan", "The settings of the drill stop", result=True),
        Property("StringList", "LeftOut", "Plan", "Places of the grid that are not bored, and why", result=True),
        Property("String", "Verdict", "Plan", "ok or suppressed", result=True),
        Property("String", "ShownFor", "Plan", "What these figures were made for", result=True, hidden=True),
    )  # fmt: skip

    def __init__(self, obj: Any) -> None:
        super().__init__(obj)
        obj.Templates, obj.Gauges = list(_FIRST.templates), list(_FIRST.gauges)
        watcher.install()

    def onDocumentRestored(self, obj: Any) -> None:
        """Called by FreeCAD when a file was opened."""
        super().onDocumentRestored(obj)
        watcher.install()

    def compute(self, obj: Any) -> None:
        """Find the depth holes, draw them, and write the figures."""
        if obj.Suppressed:
            show(obj, Part.Shape(), FreeCAD.Placement())
            _show_figures(obj, Guide((), ()), "suppressed", "suppressed")
            return
        set_result(obj, "ShownFor", "")
        settings = settings_of_carving(obj)
        stacks = finished_stacks(obj.Document)
        guide = _guide(obj.Document, stacks, settings)
        show(obj, hole_shape(stacks, guide.maps), FreeCAD.Placement())
        _show_figures(obj, guide, "ok", _key(obj.Document, stacks, settings))


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
        return [f"{m.stack}, {m.face}: {count} places, {why}" for m in self.maps for why, count in m.dropped]


def _show_figures(obj: Any, guide: Guide, verdict: str, key: str) -> None:
    depths = [h.depth for h in guide.holes]
    for name, value in (
        ("HoleCount", len(depths)),
        ("StopCount", guide.stops),
        ("Deepest", max(depths, default=0.0)),
        ("Shallowest", min(depths, default=0.0)),
        ("ToCarve", guide.volume),
        ("Hours", hour_text(guide.hours)),
        ("Stops", [f"{s.stack}, {s.face}: {s.depth:g} mm, {s.count} holes" for m in guide.maps for s in m.stops]),
        ("LeftOut", guide.left_out()),
        ("Verdict", verdict),
        ("ShownFor", key),
    ):
        set_result(obj, name, value)


# --- the holes as solids ------------------------------------------------------------------------------------------


def hole_shape(stacks: list[StackPlan], maps: tuple[DepthMap, ...]) -> Any:
    """Every depth hole as a solid in the model, with the point that its bit leaves; a null shape without holes."""
    frames = {s.name: s.frame for s in stacks}
    solids = [solid for m in maps for hole in m.holes for solid in _solids(hole, m.bit, frames[m.stack])]
    return Part.Compound(solids) if solids else Part.Shape()


def _solids(hole: DepthHole, bit: Bit, frame: tuple[float, ...]) -> list[Any]:
    into = 1.0 if hole.face == "bottom" else -1.0
    full = hole.depth - bit.point
    ends = np.array([(hole.x, hole.y, hole.surface), (hole.x, hole.y, hole.surface + into * full)])
    mouth, rim = (FreeCAD.Vector(*p) for p in to_model(frame, ends).tolist())
    tip = FreeCAD.Vector(*to_model(frame, np.array([(hole.x, hole.y, hole.tip)]))[0].tolist())
    along = tip - mouth
    body = Part.makeCylinder(bit.diameter / 2, full, mouth, along) if full > 1e-6 else None
    point = Part.makeCone(bit.diameter / 2, 0.0, bit.point, rim, along) if bit.point > 1e-6 else None
    if body is not None and point is not None and bit.kind == "twist":
        return [body.fuse(point)]
    # Other points leave a spur in the middle that is no cone of the full width.
    spur = Part.makeCylinder(bit.diameter / 10, bit.point, rim, along) if bit.point > 1e-6 else None
    return [part for part in (body, spur if bit.kind != "twist" else point) if part is not None]


# --- reading ------------------------------------------------------------------------------------------------------


def carving_in(document: Any) -> Any:
    """The document's carving guide, or None."""
    return next((o for o in document.Objects if kind_of(o) == "carving"), None)


def carving_of(document: Any) -> CarvingSettings | None:
    """What the document's guide asks for; None without one, or when it is suppressed. Raises Refusal."""
    carving = carving_in(document)
    return None if carving is None or carving.Suppressed else settings_of_carving(carving)


def settings_of_carving(carving: Any) -> CarvingSettings:
    """What the maker chose. Raises Refusal when a value cannot be."""
    return CarvingSettings(
        azimuth_step=carving.AzimuthStep.Value,
        azimuths=tuple(carving.Azimuths),
        station=carving.Station.Value or None,
        stations_along=carving.StationsAlong.Value,
        templates=tuple(carving.Templates),
        planes=tuple(plane_from(text) for text in carving.Planes if text.strip()),
        level_templates=carving.LevelTemplates,
        gauges=tuple(carving.Gauges),
        clearance=carving.Clearance.Value,
        margin=carving.Margin.Value,
        depth_holes=faces_from(carving.DepthHoles),
        pitch=carving.Pitch.Value,
        leave=carving.Leave.Value,
        cover=carving.Cover.Value,
        landing=carving.Landing.Value,
        least_depth=carving.LeastDepth.Value,
        bit=carving.Bit.Value,
        point=carving.Point,
        angle=carving.PointAngle.Value,
        point_length=carving.PointLength.Value if carving.OwnPoint else None,
        bit_length=carving.BitLength.Value or None,
        stop_step=carving.StopStep.Value or None,
        rate=carving.Rate or None,
    )


# --- making and changing ------------------------------------------------------------------------------------------


def try_carving(document: Any, settings: CarvingSettings) -> tuple[list[StackPlan], Guide]:
    """The stacks with all that is cut into them, and the guide for these settings. Raises Refusal."""
    stacks = finished_stacks(document)
    return stacks, _guide(document, stacks, settings)


def make_carving(document: Any, settings: CarvingSettings) -> Any:
    """The document's carving guide with these settings; made if there is none. Part of the caller's undo step if one is
    open. Raises Refusal before anything was made."""
    try_carving(document, settings)
    carving = carving_in(document)
    if carving is None:
        carving = document.addObject("Part::FeaturePython", "Carving")
        Carving(carving)
        carving.Label = "Carving guide"
    _fill(carving, settings)
    carving.Suppressed = False
    carving.recompute()
    carving.purgeTouched()
    return carving


def match_carving(document: Any) -> None:
    """Bring the guide up to date when anything that it depends on has changed."""
    carving = carving_in(document)
    if carving is None or carving.Suppressed:
        return
    try:
        key = _key(document, finished_stacks(document), settings_of_carving(carving))
    except Refusal:
        key = ""  # what is wrong is said by the object itself
    if key != carving.ShownFor or ("Invalid" in carving.State and key):
        carving.recompute()
        if "Invalid" not in carving.State:
            carving.purgeTouched()


def _guide(document: Any, stacks: list[StackPlan], settings: CarvingSettings) -> Guide:
    for name, _ in settings.depth_holes:
        if name and name not in [s.name for s in stacks]:
            known = ", ".join(s.name for s in stacks)
            raise Refusal(f"Depth holes are asked for in “{name}”, which is no stack here: the stacks are {known}.")
    key = _key(document, stacks, replace(settings, rate=None))
    if key not in _made:
        _made[key] = tuple(_maps(document, stacks, settings))
        while len(_made) > _KEPT:
            _made.popitem(last=False)
    _made.move_to_end(key)
    return Guide(_made[key], tuple(r for s in stacks for r in removed_from(s, settings.rate)))


def _maps(document: Any, stacks: list[StackPlan], settings: CarvingSettings) -> list[DepthMap]:
    seams, units = seams_between(_staves(document, stacks)), _units(document)
    meshes = {name_of_stack(s): form_of_stack(s).mesh for s in watcher.stacks_in(document)}
    return [
        depth_map(s, meshes[s.name], face, settings, units=units, seams=seams.get(s.name))
        for s in stacks
        for face in settings.face_of(s.name)
    ]


def _staves(document: Any, stacks: list[StackPlan]) -> Any:
    wood = wood_settings(document)
    return boards_for(document, stacks, wood).staves if boardplan.wanted(wood) else ()


def _units(document: Any) -> str:
    job = job_in(document)
    return job.Units if job is not None else "mm"


def _key(document: Any, stacks: list[StackPlan], settings: CarvingSettings) -> str:
    """What a guide is made for, in few characters: where the stacks stand, what is cut into them, their seams."""
    frames = [[f"{v:.6f}" for v in s.frame] for s in stacks]
    seams = [(s.stack, s.layer, s.region) for s in _staves(document, stacks)] if settings.depth_holes else []
    told = key_of(stacks, wood_settings(document)), frames, seams, repr(settings), _units(document)
    return sha256(repr(told).encode()).hexdigest()[:32]


def _fill(carving: Any, settings: CarvingSettings) -> None:
    carving.AzimuthStep, carving.Azimuths = settings.azimuth_step, list(settings.azimuths)
    carving.Station, carving.StationsAlong = settings.station or 0.0, settings.stations_along
    carving.Templates, carving.Planes = list(settings.templates), [plane_text(p) for p in settings.planes]
    carving.LevelTemplates, carving.Gauges = settings.level_templates, list(settings.gauges)
    carving.Clearance, carving.Margin = settings.clearance, settings.margin
    carving.DepthHoles = [face_text(name, face) for name, face in settings.depth_holes]
    carving.Pitch, carving.Leave, carving.Cover = settings.pitch, settings.leave, settings.cover
    carving.Landing, carving.LeastDepth = settings.landing, settings.least_depth
    carving.Bit, carving.Point, carving.PointAngle = settings.bit, settings.point, settings.angle
    carving.OwnPoint = settings.point_length is not None
    carving.PointLength = settings.point_length or 0.0
    carving.BitLength = settings.bit_length or 0.0
    carving.StopStep, carving.Rate = settings.stop_step or 0.0, settings.rate or 0.0
