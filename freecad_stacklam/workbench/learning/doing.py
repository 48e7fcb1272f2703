# SPDX-License-Identifier: LGPL-2.1-or-later

"""Does a step for the maker who skips it; with the lines that the panels run, in one undo step."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import FreeCAD
import FreeCADGui

from freecad_stacklam.docobjects.base.family import joints_of, made_for
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.making.project import begin_job
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.outfolder import refuse_unless_replaceable
from freecad_stacklam.workbench.fields import preferences
from freecad_stacklam.workbench.fields.fields import units_shown
from freecad_stacklam.workbench.fields.messages import busy, one_undo_step
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.learning.judging import DISC, FOOT, SIZES
from freecad_stacklam.workbench.learning.looking import look, pdf_of
from freecad_stacklam.workbench.learning.seen import Seen, Solid
from freecad_stacklam.workbench.learning.steps import Step
from freecad_stacklam.workbench.recorded import run


def can_do(step: Step) -> bool:
    """Whether a step can be done for the maker; else it can only be left out."""
    return step.key in ("document", "part", "bench", *_WORK)


def do_it(step: Step, document: Document | None) -> Document | None:
    """Do a step in a document; the document that the guide goes on in. What cannot be done for the maker (the file's
    name, reading) is left out. Raises Refusal."""
    if step.key == "document":
        made = FreeCAD.newDocument("FirstPiece")
        made.Label = translate("StackLam", "First piece")
        FreeCADGui.ActiveDocument.ActiveView.viewDefaultOrientation()  # as New does; else it is seen from above
        return made
    if step.key in ("part", "bench"):
        FreeCADGui.activateWorkbench("PartWorkbench" if step.key == "part" else "StackLamWorkbench")
        return document
    work = _WORK.get(step.key)
    if work is None or document is None:
        return document
    with busy():
        if step.key == "drawings":
            work(document, look(document))
        else:
            with one_undo_step(document, translate("StackLam", step.title)):
                work(document, look(document))
                document.recompute()
    return document


def _cone(document: Any, seen: Seen) -> None:
    if seen.orphan is not None:
        raise Refusal(
            translate("StackLam", "A form that the guide needs was deleted: press Undo in FreeCAD's toolbar.")
        )
    document.addObject("Part::Cone", "Cone")


def _cylinder(document: Any, _: Seen) -> None:
    document.addObject("Part::Cylinder", "Cylinder")


def _foot(document: Any, seen: Seen) -> None:
    _size(document, seen.foot, FOOT, seen.units)


def _top(document: Any, seen: Seen) -> None:
    _size(document, seen.disc, DISC, seen.units)


def _size(document: Any, solid: Solid | None, wanted: Any, units: str) -> None:
    if solid is None:
        return
    obj, asked = document.getObject(solid.name), {name: SIZES[units].get(size, 0.0) for name, size in wanted.items()}
    obj.Angle = 360
    obj.Placement = FreeCAD.Placement(FreeCAD.Vector(*(asked.pop(axis) for axis in "xyz")), FreeCAD.Rotation())
    for name, value in asked.items():
        setattr(obj, name, value)
    document.recompute()
    FreeCADGui.SendMsgToActiveView("ViewFit")


def _rim(document: Any, seen: Seen) -> None:
    """Round both edges of the cylinder; its seam is the edge between."""
    if seen.disc is None:
        return
    if seen.rim is not None:
        document.removeObject(seen.rim.name)
    disc, fillet = document.getObject(seen.disc.name), document.addObject("Part::Fillet", "Fillet")
    fillet.Base = disc
    rounding = SIZES[seen.units]["round"]
    circles = [n for n, edge in enumerate(disc.Shape.Edges, 1) if edge.isClosed()]
    fillet.Edges = [(n, rounding, rounding) for n in circles]
    disc.ViewObject.Visibility = False


def _slice(document: Any, seen: Seen, solid: Solid | None, piece: str, size: str) -> None:
    """Slice a form, or give its stack the boards that were asked for."""
    if solid is None:
        return
    stock, pile = [f"{SIZES[seen.units][size]:g} mm"], seen.pile_of(solid)
    if pile is not None:
        run("stack", "change_layers", document.getObject(pile.name), stock=stock)
        return
    begin_job(document, units_shown(), preferences.paper())
    run("stack", "slice_form", document.getObject(solid.name), piece=piece, stock=stock)


def _slice_foot(document: Any, seen: Seen) -> None:
    _slice(document, seen, seen.foot, translate("StackLam", "Foot"), "foot_boards")


def _slice_top(document: Any, seen: Seen) -> None:
    early = seen.pile_of(seen.disc)
    if early is not None:
        document.removeObject(early.name)
    _slice(document, seen, seen.rim, translate("StackLam", "Top"), "top_boards")


def _stacks(document: Any, seen: Seen) -> list[Any]:
    piles = [seen.pile_of(seen.foot), seen.pile_of(seen.rim)]
    return [document.getObject(pile.name) for pile in piles if pile is not None]


def _joint(document: Any, seen: Seen) -> None:
    sizes = SIZES[seen.units]
    foot, top = _stacks(document, seen)
    for old in joints_of(foot):
        document.removeObject(old.Name)
    depths = {foot.Piece or foot.Label: 1.5 * sizes["tenon"], top.Piece or top.Label: sizes["thick"] / 2}
    run(
        "joint", "add_joint", [foot, top], through=[f"{at:g} mm" for at in (0.0, 0.0, sizes["high"])],
        size=[f"{sizes['tenon']:g} mm"], embed={name: f"{depth:g} mm" for name, depth in depths.items()},
    )  # fmt: skip


def _pins(document: Any, seen: Seen) -> None:
    foot = _stacks(document, seen)[0]
    for old in made_for(foot, "pins"):
        document.removeObject(old.Name)
    sizes = {
        "diameter": preferences.pin_diameter(), "depth": preferences.pin_depth(), "margin": preferences.pin_margin(),
    }  # fmt: skip
    run("pins", "set_pins", foot, **{name: f"{value:g} mm" for name, value in sizes.items()})


def _drawings(document: Any, _: Seen) -> None:
    refuse_unless_replaceable(pdf_of(document))
    run("pages", "drawings", document, str(pdf_of(document)))


_WORK: dict[str, Callable[[Any, Seen], None]] = {
    "cone": _cone, "cylinder": _cylinder, "foot": _foot, "top": _top, "rim": _rim,
    "slice foot": _slice_foot, "slice top": _slice_top, "joint": _joint, "pins": _pins, "drawings": _drawings,
}  # fmt: skip
