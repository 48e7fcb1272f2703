# SPDX-License-Identifier: LGPL-2.1-or-later

"""The carving guide of a document: made, changed, and brought up to date."""

from __future__ import annotations

from freecad_stacklam.docobjects.base.family import carving_in
from freecad_stacklam.docobjects.base.protocols import CarvingObject, Document
from freecad_stacklam.docobjects.base.rowproperties import fill
from freecad_stacklam.docobjects.carvingguide import Carving
from freecad_stacklam.docobjects.making.single import the_one
from freecad_stacklam.docobjects.reading.guide import guide_key, settings_of_carving, try_carving
from freecad_stacklam.docobjects.reading.insides import finished_stacks
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.carving import CarvingSettings
from freecad_stacklam.lamination.settings.carvingwords import face_text, plane_text


def make_carving(document: Document, settings: CarvingSettings) -> CarvingObject:
    """The document's carving guide with these settings; made if there is none. Part of the caller's undo step if one is
    open. Raises Refusal before anything was made."""
    try_carving(document, settings)
    return put_carving(document, settings)


def put_carving(document: Document, settings: CarvingSettings) -> CarvingObject:
    """The same untried: a guide that cannot be made shows its sentence as an error."""
    carving = the_one(document, carving_in, Carving, "Carving guide", solid=True)
    _fill(carving, settings)
    carving.Suppressed = False
    carving.recompute()
    carving.purgeTouched()
    return carving


def match_carving(document: Document) -> None:
    """Bring the guide up to date when anything that it depends on has changed."""
    carving = carving_in(document)
    if carving is None or carving.Suppressed:
        return
    try:
        key = guide_key(document, finished_stacks(document), settings_of_carving(carving))
    except Refusal:
        key = ""  # what is wrong is said by the object itself
    if key != carving.ShownFor or ("Invalid" in carving.State and key):
        carving.recompute()
        if "Invalid" not in carving.State:
            carving.purgeTouched()


def _fill(carving: CarvingObject, settings: CarvingSettings) -> None:
    carving.Planes = [plane_text(p) for p in settings.planes]
    carving.DepthHoles = [face_text(name, face) for name, face in settings.depth_holes]
    carving.OwnPoint = settings.point_length is not None
    carving.PointLength = settings.point_length or 0.0
    fill(carving, settings)
