# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue and the room from the properties of a document's glue-up, and the clamps from its sheet."""

from __future__ import annotations

from typing import Any

from freecad_stacklam.docobjects.base.protocols import Document, GlueUpObject
from freecad_stacklam.docobjects.base.rowproperties import read
from freecad_stacklam.docobjects.family import glue_up_in
from freecad_stacklam.docobjects.spreadsheets.clamps import presses_in
from freecad_stacklam.lamination.options.rows import Record, rows_of
from freecad_stacklam.lamination.settings.glue import GlueSettings
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom


def glue_of(glue_up: GlueUpObject) -> GlueSettings:
    """The glue. Raises Refusal when a value cannot be."""
    return GlueSettings(**_values(glue_up, GlueSettings))


def room_of(glue_up: GlueUpObject) -> GluingRoom:
    """The room. Raises Refusal when a value cannot be."""
    return GluingRoom(**_values(glue_up, GluingRoom))


def _values(glue_up: GlueUpObject, record: type[Record]) -> dict[str, Any]:
    """Values of a record's rows. A property's 0 stands for what is left out, unless its name is among the zeros."""
    held = read(glue_up, record)
    meant = [row.name for row in rows_of(record) if row.property in glue_up.Zeros and held[row.name] is None]
    return {**held, **dict.fromkeys(meant, 0.0)}


def zeros_of(*many: Record) -> list[str]:
    """The properties of options that may be left out, and are given as 0."""
    return [
        row.property
        for record in many
        for row in rows_of(type(record))
        if row.property and row.first is None and getattr(record, row.name) == 0
    ]


def gluing_in(document: Document) -> dict[str, Any]:
    """What of a job's settings is about the glue-up, by the names of their fields: without a glue-up no glue and no
    room, without their sheet no clamps. Raises Refusal."""
    glue_up = glue_up_in(document)
    told: dict[str, Any] = {"presses": presses_in(document)}
    if glue_up is not None:
        told |= {"glue": glue_of(glue_up), "room": room_of(glue_up)}
    return told
