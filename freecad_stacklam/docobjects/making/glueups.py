# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue-up of a document and its set-ups: made, changed, and brought up to date."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from freecad_stacklam.docobjects.base.family import glue_up_in, joints_in, name_of_stack, settling, stacks_in
from freecad_stacklam.docobjects.base.protocols import Document, GlueSetObject, GlueUpObject, LayerObject
from freecad_stacklam.docobjects.base.rowproperties import fill
from freecad_stacklam.docobjects.glueset import GlueSet
from freecad_stacklam.docobjects.glueup import GlueUp
from freecad_stacklam.docobjects.making.single import the_one
from freecad_stacklam.docobjects.reading.glueups import key_now
from freecad_stacklam.docobjects.reading.gluing import zeros_of
from freecad_stacklam.docobjects.spreadsheets.clamps import clamps_in, write_clamps
from freecad_stacklam.lamination.plan.gluing import JOINT
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.glue import GlueSettings
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.presses import PressSettings
from freecad_stacklam.lamination.words import say
from freecad_stacklam.objectkinds import kind_of


def put_glue_up(
    document: Document, glue: GlueSettings, room: GluingRoom, presses: Sequence[PressSettings], units: str = ""
) -> GlueUpObject:
    """The document's glue-up with these settings, and the sheet of its clamps; made where there is none, and not yet
    planned. Part of the caller's undo step if one is open."""
    glue_up = the_one(document, glue_up_in, GlueUp, "Glue-up")
    fill(glue_up, glue)
    fill(glue_up, room)
    glue_up.Zeros = zeros_of(glue, room)
    glue_up.Suppressed = False
    if presses or clamps_in(document) is not None:
        glue_up.Clamps = write_clamps(document, presses, units)
    return glue_up


def match_glue_up(document: Document) -> None:
    """Bring the glue-up up to date when anything that it depends on has changed, and make as many set-ups as it has."""
    glue_up = glue_up_in(document)
    if settling(document):
        return
    for stray in [o for o in document.Objects if kind_of(o) == "set-up" and o.GlueUp is None]:
        document.removeObject(stray.Name)
    if glue_up is None:
        return
    sheet = clamps_in(document)
    if glue_up.Clamps is None and sheet is not None:
        glue_up.Clamps = sheet
    if not glue_up.Suppressed and _outdated(glue_up):
        _compute(glue_up)
    if "Invalid" not in glue_up.State:  # else the set-ups stay as they were
        _match_set_ups(glue_up)


def _outdated(glue_up: GlueUpObject) -> bool:
    try:
        key = key_now(glue_up.Document)
    except Refusal:
        return glue_up.ShownFor != ""  # what is wrong is said by the object itself
    return key != glue_up.ShownFor


def _match_set_ups(glue_up: GlueUpObject) -> None:
    document = glue_up.Document
    there: dict[int, GlueSetObject] = {}
    spare = []
    for one in sorted((o for o in document.Objects if kind_of(o) == "set-up"), key=lambda o: o.ID):
        if one.Number in there or one.Number > glue_up.SetUpCount:
            spare.append(one)
        else:
            there[one.Number] = one
    for one in spare:
        document.removeObject(one.Name)
    for number in range(1, glue_up.SetUpCount + 1):
        new = number not in there
        if new:
            there[number] = _made(glue_up, number)
        if new or there[number].ShownFor != glue_up.ShownFor:
            _compute(there[number])
        _tell(there[number])
    ordered = [there[number] for number in sorted(there)]
    if _names(glue_up.SetUps) != _names(ordered):
        glue_up.SetUps = ordered


def _made(glue_up: GlueUpObject, number: int) -> GlueSetObject:
    one: Any = glue_up.Document.addObject("App::FeaturePython", "GlueSet")
    GlueSet(one)
    one.GlueUp = glue_up
    one.Number = number
    one.Label = say("Set-up {number}", number=number)
    made: GlueSetObject = one
    return made


def _tell(one: GlueSetObject) -> None:
    """Give a set-up the layers and the joint that it glues, as they are in the tree."""
    joint = next((j for j in joints_in(one.Document) if one.Kind == JOINT and j.Label == one.JointName), None)
    for name, found in (("Layers", _layers_of(one)), ("Joint", joint)):
        if _names(getattr(one, name)) != _names(found):
            setattr(one, name, found)


def _layers_of(one: GlueSetObject) -> list[LayerObject]:
    """The layers that a set-up glues; of a joint those of all its stacks."""
    stacks = {name_of_stack(s): s for s in stacks_in(one.Document)}
    if one.Kind == JOINT:
        return [layer for name in one.Stacks if name in stacks for layer in stacks[name].Layers]
    layers = stacks[one.Stack].Layers if one.Stack in stacks else []
    return [layer for layer in layers if one.First <= layer.Number <= one.Last]


def _names(links: Any) -> list[str]:
    found = links if isinstance(links, list) else [links]
    return [o.Name for o in found if o is not None]


def _compute(obj: Any) -> None:
    obj.recompute()
    if "Invalid" not in obj.State:
        obj.purgeTouched()
