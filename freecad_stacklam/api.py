# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a script or macro asks of the workbench: the same steps as its commands, without a window.

Options have the names and the values that they have in a settings file (docs/options.md lists them): a length is text
with its unit, a quantity of FreeCAD's, or a number of mm. What is left out has its first value. Every function that
makes something raises Refusal, with a sentence that says what to do, before anything was made. None opens a step of
undo: a script that wants one opens it.

    from freecad_stacklam import api
    form = document.getObject("Body")
    stack = api.slice_form(form, stock=["45 mm"], allowance="3 mm", species="walnut")
    api.set_pins(stack, diameter="8 mm")
    api.drawings(document, "/home/me/stand.pdf", paper="A4")
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from functools import wraps
from pathlib import Path
from typing import Any, TypeVar, cast

import FreeCAD

from freecad_stacklam.benchsheets.book.whole import KINDS
from freecad_stacklam.benchsheets.drawing.lettering import Units
from freecad_stacklam.docobjects.base.family import name_of_stack
from freecad_stacklam.docobjects.base.protocols import (
    CarvingObject,
    CuttingObject,
    Document,
    GlueUpObject,
    HollowObject,
    JobObject,
    JointObject,
    PieceObject,
    PinsObject,
    ShopObject,
    StackObject,
)
from freecad_stacklam.docobjects.making import (
    boards,
    carving,
    gluelines,
    glueups,
    insides,
    joints,
    naming,
    project,
    stacks,
)
from freecad_stacklam.docobjects.making import piece as finished
from freecad_stacklam.docobjects.reading.insides import finished_stacks
from freecad_stacklam.docobjects.reading.whole import job_settings, plan_of, unboarded_plan
from freecad_stacklam.docobjects.reading.wood import boards_for, key_of, longer_for, wood_settings
from freecad_stacklam.docobjects.spreadsheets.billsheet import write_bill
from freecad_stacklam.docobjects.spreadsheets.rack import write_rack
from freecad_stacklam.keptbook import book_for
from freecad_stacklam.lamination.bill.csvtext import csv_text
from freecad_stacklam.lamination.plan.boards import BoardsPlan
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.board import Board
from freecad_stacklam.lamination.settings.carving import CarvingSettings
from freecad_stacklam.lamination.settings.file import read_settings, record_given
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.words import say
from freecad_stacklam.languages import language_spoken
from freecad_stacklam.objectkinds import kind_of
from freecad_stacklam.qt_binding import gui_application
from freecad_stacklam.sheetwriters.aside import aside
from freecad_stacklam.sheetwriters.boardpicture import drawn
from freecad_stacklam.sheetwriters.pdf import write_pdf

__all__ = (
    "Refusal", "add_joint", "bill", "carving_guide", "change_hollow", "change_joint", "change_layers", "change_pins",
    "checks", "cut_boards", "cut_boards_longer", "draw_glue_lines", "drawings", "finished_piece", "follow",
    "hollow_layers", "job", "look_deeper", "make_all", "name_piece", "plan", "plan_glue_up", "rack",
    "remove_glue_lines", "set_pins", "shop", "slice_form",
)  # fmt: skip


_Step = TypeVar("_Step", bound=Callable[..., Any])


def _of(kind: str) -> Callable[[_Step], _Step]:
    """A step that is done to a document, or to an object of one kind. Raises Refusal where it is given another."""

    def guarded(step: _Step) -> _Step:
        @wraps(step)
        def checked(thing: Any, /, *others: Any, **options: Any) -> Any:
            if getattr(thing, "TypeId", "") != "App::Document" if kind == "document" else not _is(thing, kind):
                raise Refusal(
                    say(
                        "{step} is asked of a {kind}, not of {given}: give it one.",
                        step=step.__name__,
                        kind=say(kind),
                        given=type(thing).__name__,
                    )
                )
            return step(thing, *others, **options)

        return cast(_Step, checked)

    return guarded


def _is(thing: Any, kind: str) -> bool:
    return isinstance(thing, FreeCAD.DocumentObject) and kind_of(thing) == kind


def _plain(value: Any) -> Any:
    """Quantities and vectors of FreeCAD's as a settings file would have them."""
    if isinstance(value, FreeCAD.Units.Quantity):
        return str(value)
    if isinstance(value, FreeCAD.Vector):
        return list(value)
    if isinstance(value, Mapping):
        return {key: _plain(part) for key, part in value.items()}
    if isinstance(value, (list, tuple)):
        return [_plain(part) for part in value]
    return value


# --- making -------------------------------------------------------------------------------------------------------


@_of("document")
def job(document: Document, /, **options: Any) -> JobObject:
    """Title, units, paper and what else stands at the top of a settings file, for a document; made or changed."""
    return project.make_job(document, record_given(Settings, _plain({"title": "", **options})))


def slice_form(form: Any, /, path: str = "", piece: str = "", **options: Any) -> StackObject:
    """Slice a form into layers; the stack. form: an object with a solid or a closed mesh; path: to what is meant inside
    a link or an assembly ("Body."); piece: its name on drawings, that of the form if not given. options: those of
    [[stack]]; form="…" there names the solid where there are several."""
    if not isinstance(form, FreeCAD.DocumentObject):
        raise Refusal(
            say(
                "slice_form is asked of an object with a solid, not of {given}: give it one.", given=type(form).__name__
            )
        )
    return stacks.make_stack(form.Document, form, record_given(StackSettings, _plain(options)), path=path, piece=piece)


@_of("stack")
def name_piece(stack: StackObject, name: str, /) -> StackObject:
    """Give a stack's piece the name that stands on its drawings."""
    naming.name_piece(stack, name)
    stack.Document.recompute()
    return stack


@_of("stack")
def change_layers(stack: StackObject, /, **options: Any) -> StackObject:
    """Give a stack other options; what is left out goes back to its first value."""
    stacks.change_stack(stack, record_given(StackSettings, _plain(options)))
    return stack


def add_joint(joined: Sequence[StackObject], /, **options: Any) -> JointObject:
    """Join stacks by a floating tenon. options: those of [[joint]]; `embed` gives the depth in each stack by its name
    (through all of them if left out), `name` is made of theirs."""
    if not isinstance(joined, (list, tuple)) or not joined or not all(_is(one, "stack") for one in joined):
        raise Refusal(say("add_joint is asked of a list of stacks: give those that slice_form made."))
    return joints.make_joint(joined[0].Document, joined, _joint(joined, options))


@_of("joint")
def change_joint(joint: JointObject, /, **options: Any) -> JointObject:
    """Give a joint other options; what is left out goes back to its first value."""
    joints.change_joint(joint, _joint(joint.Stacks, {"name": joint.Label, **options}))
    return joint


def follow(one: Any, target: Any = None, part: str = "", /) -> Any:
    """Let the axis of a joint go through the middle of a vertex, circle or face ("Face1") of an object, wherever that
    moves. Let the axis of a stack take the direction of a face or edge of an object, however that turns; with the
    stack's own form as the target and no part, turn with the form. Without a target an axis stays as it is."""
    if _is(one, "stack"):
        stacks.follow_axis(one, target, part)
    elif _is(one, "joint"):
        one.Anchor = None if target is None else (target, [part])
        one.Document.recompute()
    else:
        raise Refusal(f"follow is asked of a joint or a stack, not of {type(one).__name__}: give it one.")
    return one


def _joint(joined: Sequence[StackObject], options: Mapping[str, Any]) -> JointSettings:
    names = [name_of_stack(stack) for stack in joined]
    given: dict[str, Any] = {"name": " to ".join(names), "embed": dict.fromkeys(names, "through"), **options}
    strange = next((name for name in given["embed"] if name not in names), "")
    if strange:
        raise Refusal(
            say(
                "embed: “{strange}” is none of the stacks that are joined: they are {stacks}.",
                strange=strange,
                stacks=", ".join(names),
            )
        )
    return record_given(JointSettings, _plain(given))


@_of("stack")
def set_pins(stack: StackObject, /, **options: Any) -> PinsObject:
    """Pin the layers of a stack. options: those of [stack.pins]."""
    made = insides.make_pins(stack, record_given(PinSettings, _plain(options)))
    stack.Document.recompute()
    return made


@_of("pins")
def change_pins(pins: PinsObject, /, **options: Any) -> PinsObject:
    """Give pins other options; what is left out goes back to its first value."""
    insides.change_pins(pins, record_given(PinSettings, _plain(options)))
    return pins


@_of("stack")
def hollow_layers(stack: StackObject, /, **options: Any) -> HollowObject:
    """Cut voids into the inner layers of a stack. options: those of [stack.hollow]."""
    made = insides.make_hollow(stack, record_given(HollowSettings, _plain(options)))
    stack.Document.recompute()
    return made


@_of("hollow")
def change_hollow(hollow: HollowObject, /, **options: Any) -> HollowObject:
    """Give a hollow other options; what is left out goes back to its first value."""
    insides.change_hollow(hollow, record_given(HollowSettings, _plain(options)))
    return hollow


@_of("document")
def shop(document: Document, /, **options: Any) -> ShopObject:
    """How boards are sawn and which bits there are. options: those of [shop]."""
    return boards.make_shop(document, record_given(ShopSettings, _plain(options)))


@_of("document")
def rack(document: Document, listed: Iterable[Mapping[str, Any]]) -> Any:
    """The boards on hand and those that can be bought, each by the options of [[board]]; the spreadsheet they stand
    in."""
    given = [record_given(Board, _plain({"name": f"Board {n}", **one})) for n, one in enumerate(listed, 1)]
    return write_rack(document, given)


@_of("document")
def cut_boards(document: Document, /) -> CuttingObject:
    """Plan quickly how the staves of all layers are cut from the boards of the rack, and keep the plan in the
    document."""
    return _kept(document, boards_for(document, finished_stacks(document), wood_settings(document)))


@_of("document")
def cut_boards_longer(document: Document, /) -> CuttingObject:
    """The same, looking longer for a cheaper plan, and for how good any can be."""
    return _kept(document, longer_for(finished_stacks(document), wood_settings(document)))


def _kept(document: Document, cut: BoardsPlan) -> CuttingObject:
    gui_application()
    whole = replace(unboarded_plan(document), boards=cut)
    with drawn(whole, whole.units) as picture:
        made = boards.keep_cutting(document, cut, key_of(finished_stacks(document), wood_settings(document)), picture)
    document.recompute()
    return made


@_of("document")
def carving_guide(document: Document, /, **options: Any) -> CarvingObject:
    """The carving guide. options: those of [carving]."""
    return carving.make_carving(document, record_given(CarvingSettings, _plain(options)))


@_of("stack")
def draw_glue_lines(stack: StackObject, /) -> Any:
    """Draw the glue lines on a stack's form; the object that holds them."""
    return gluelines.make_glue_lines(stack)


@_of("stack")
def remove_glue_lines(stack: StackObject, /) -> None:
    """Take the drawn glue lines of a stack away."""
    there = gluelines.glue_lines_of(stack)
    if there is not None:
        stack.Document.removeObject(there.Name)


@_of("document")
def plan_glue_up(document: Document, /, **tables: Any) -> GlueUpObject:
    """Plan the glue-up. tables: `glue` and `room` as tables of options, `clamp` a list of them, as in a settings
    file."""
    asked = _tables(tables, ("glue", "room", "clamp"))
    empty = record_given(Settings, {"glue": {}, "room": {}})
    glue, room = asked.glue or empty.glue, asked.room or empty.room
    assert glue is not None
    assert room is not None
    made = glueups.put_glue_up(document, glue, room, asked.presses)
    document.recompute()
    return made


@_of("document")
def finished_piece(document: Document, /, **tables: Any) -> PieceObject:
    """What is asked of the finished piece. tables: `use`, `climate`, `finish`, `rates` and `budget`, each a table of
    options as in a settings file; what is left out is not asked."""
    made = finished.put_piece(document, _tables(tables, ("use", "climate", "finish", "rates", "budget")))
    document.recompute()
    return made


def _tables(given: Mapping[str, Any], known: Sequence[str]) -> Settings:
    strange = next((name for name in given if name not in known), "")
    if strange:
        raise Refusal(
            say("{strange}: there is no such table here; they are {tables}.", strange=strange, tables=", ".join(known))
        )
    return record_given(Settings, _plain(given))


def make_all(document: Document, forms: Sequence[Any], settings: str) -> None:
    """Everything that a settings file asks for, made of `forms` in a document. settings: the file's text."""
    project.fill_document(document, forms, read_settings(settings))


# --- asking -------------------------------------------------------------------------------------------------------


@_of("document")
def plan(document: Document, /) -> Plan:
    """The plan of a document as it is now: layers, joints, boards, glue-up, checks, bill. Lengths mm."""
    return plan_of(document)


@_of("document")
def checks(document: Document, /) -> tuple[Check, ...]:
    """Every check of the plan, with its verdict "ok", "caution" or "stop"."""
    return plan_of(document).checks


@_of("document")
def look_deeper(document: Document, /) -> tuple[Check, ...]:
    """Make the slow figures of the finished piece, and the checks with them. Takes from seconds to a minute."""
    finished.look_and_keep(document, lambda *_: True)
    return plan_of(document).checks


# --- writing ------------------------------------------------------------------------------------------------------


def drawings(
    document: Document,
    path: str | Path,
    *,
    paper: str = "",
    templates_on: str = "",
    units: str = "",
    fraction: int = 32,
    both_units: bool = False,
    kinds: Sequence[str] = (),
) -> int:
    """Write the drawings as a PDF; how many pages. path: of the file, replaced if it is there. paper, templates_on,
    units: those of the document's job if not given; fraction: inches to the nearest of these; both_units: the other
    unit in brackets; kinds: of sheets, all if none are named."""
    settings = job_settings(document)
    settings = replace(settings, paper=paper or settings.paper, paper_full=templates_on or settings.paper_full)
    strange = next((kind for kind in kinds if kind not in KINDS), "")
    if strange:
        raise Refusal(
            say(
                "kinds: there are no sheets of the kind “{strange}”; the kinds are {kinds}.",
                strange=strange,
                kinds=", ".join(KINDS),
            )
        )
    without = tuple(kind for kind in KINDS if kinds and kind not in kinds)
    written = Units(units or settings.units, fraction, both_units)
    gui_application()  # the writers' fonts want one, in freecadcmd too
    with language_spoken(settings.language):
        sheets = book_for(plan_of(document), settings, written, without, settings.date or date.today().isoformat())
    write_pdf(sheets, Path(path), title=settings.title)
    return len(sheets)


def bill(document: Document, path: str | Path = "", *, units: str = "") -> Any:
    """Write the bill into the document's spreadsheet, and as CSV to `path` where one is given; the spreadsheet."""
    rows, units = plan_of(document).bill, units or job_settings(document).units
    sheet = write_bill(document, rows, units)
    document.recompute()
    if path:
        with aside(path) as part:
            part.write_text(csv_text(rows, units), encoding="utf-8", newline="")
    return sheet
