# SPDX-License-Identifier: LGPL-2.1-or-later

"""One TechDraw page for each layer, which the maker can edit and dimension in FreeCAD.

The views are live: they show the layer's object and follow it. Nothing here waits for them: TechDraw draws in a thread
of its own, and without a window it may never end. On pages that are there already only what the plan says is renewed:
the words, the plan's mark, and the finished outline's place on the blank; what the maker added stays.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from html import escape
from itertools import takewhile
from typing import Any

import FreeCAD

from freecad_stacklam.benchsheets.drawing.lettering import (
    AnyUnits,
    Units,
    length_text,
    range_text,
    size_text,
    units_of,
)
from freecad_stacklam.benchsheets.drawing.paper import SCALES
from freecad_stacklam.benchsheets.drawing.revision import plan_revision
from freecad_stacklam.data import sheet_template
from freecad_stacklam.lamination.keywords import shown as said_word
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import area_polygon
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say

#: Room for the views on the sheet, and its middle, mm from the lower left corner.
ROOM, MIDDLE = (168.0, 186.0), (110.0, 154.0)
#: Where the words and the grain's arrow stand, and the height of their type, mm.
WORDS, GRAIN, TYPE = (110.0, 270.0), (172.0, 60.0), 3.0
#: Half the width of the axis cross, mm in the stack, at most.
CROSS = 12.0
WIDE, NARROW = 0.5, 0.25
#: Steps of a layer: its outlines, its page, the four views.
STEPS = 6
#: Name of the group that the pages lie in.
GROUP = "LayerPages"


def layer_pages(
    document: Any,
    plan: Plan,
    layers: Callable[[StackPlan], Sequence[Any]],
    finished: Callable[[StackPlan, int], Any],
    cross: Callable[[StackPlan], Any],
    units: AnyUnits = "mm",
    on: Callable[[], None] = lambda: None,
) -> list[Any]:
    """A page for every layer that has none yet; the others are brought up to date. Returns the new pages.

    layers: the document objects of a stack's layers, from the bottom. finished: the object that draws the finished
    outlines of a stack's layer with this number. cross: the one that draws its axis cross. on: called after each
    step, at most STEPS for a layer; what it raises ends the work. Part of the caller's undo step if one is open. Raises
    Refusal.
    """
    written, revision, made = units_of(units), plan_revision(plan), []
    there = {source.Name: page for page in _pages(document) for source in _sources(page)}
    for stack in plan.stacks:
        objects = list(layers(stack))
        for layer, obj in zip(stack.layers, objects):
            shown = obj, finished(stack, layer.number), cross(stack)
            on()
            if obj.Name in there:
                _renew(there[obj.Name], plan, stack, layer, shown, written, revision)
            else:
                made.append(_page(document, plan, stack, layer, shown, written, revision))
                _group(document).addObject(made[-1])
                on()
                for view in made[-1].Views:
                    view.recompute()
                    on()
    return made


def _group(document: Any) -> Any:
    """The group in the tree that holds the pages."""
    there = [o for o in document.Objects if o.isDerivedFrom("App::DocumentObjectGroup") and o.Name.startswith(GROUP)]
    if there:
        return there[0]
    group = document.addObject("App::DocumentObjectGroup", GROUP)
    group.Label = "Layer pages"
    return group


def _pages(document: Any) -> list[Any]:
    return [o for o in document.Objects if o.isDerivedFrom("TechDraw::DrawPage")]


def _sources(page: Any) -> list[Any]:
    views = [view for view in page.Views if view.isDerivedFrom("TechDraw::DrawViewPart")]
    return [source for view in views for source in view.Source]


def _page(
    document: Any,
    plan: Plan,
    stack: StackPlan,
    layer: LayerPlan,
    shown: tuple[Any, Any, Any],
    units: Units,
    revision: str,
) -> Any:
    import TechDraw  # noqa: F401  # its kinds of objects are not known before

    blank, finished, cross = shown
    size, (x0, y0, x1, y1) = _extents(layer)
    fitting = [n for n in SCALES if (x1 - x0) / n <= ROOM[0] and (y1 - y0) / n <= ROOM[1]]
    if not fitting:
        raise Refusal(
            say(
                "Layer {layer} of {stack} is too large for a sheet at 1:{scale}.",
                layer=layer.number,
                stack=stack.name,
                scale=SCALES[-1],
            )
        )
    scale = 1.0 / fitting[0]
    page = document.addObject("TechDraw::DrawPage", "LayerPage")
    page.Label = f"{stack.name} layer {layer.number}, sheet"
    template = document.addObject("TechDraw::DrawSVGTemplate", "LayerSheet")
    template.Template = str(sheet_template())
    page.Template = template
    _letter(template, _fields(plan, stack, layer, fitting[0], revision))
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    _view(page, stack, [blank, cross], scale, MIDDLE, f"{stack.name} {layer.number} cut line", WIDE)
    if not (layer.finished_bottom.is_empty and layer.finished_top.is_empty):
        x, y = _middle_of(finished)
        at = MIDDLE[0] + (x - middle[0]) * scale, MIDDLE[1] + (y - middle[1]) * scale
        _view(page, stack, [finished], scale, at, f"{stack.name} {layer.number} finished form", NARROW)
    _words(page, "Words", _lines(stack, layer, size, units), WORDS)
    arrow = "-----  grain  -----"  # not every font has arrows
    _words(page, "Grain", [arrow], GRAIN, layer.grain, f"grain {layer.number}")
    if getattr(page, "ViewObject", None) is not None:
        page.ViewObject.Visibility = False  # or all pages open as tabs when the file is next opened
    return page


def _extents(layer: LayerPlan) -> tuple[tuple[float, float], tuple[float, float, float, float]]:
    """A blank's size over all, and the bounds of what its view shows, axis cross and all, in the stack's frame."""
    x0, y0, x1, y1 = area_polygon(layer.blank).bounds
    return (x1 - x0, y1 - y0), (min(x0, -CROSS), min(y0, -CROSS), max(x1, CROSS), max(y1, CROSS))


def _middle_of(finished: Any) -> tuple[float, float]:
    """The middle of the finished outlines in the stack's frame; TechDraw lays a view out from there."""
    drawn = finished.Shape.copy()
    drawn.Placement = FreeCAD.Placement()
    middle = drawn.optimalBoundingBox().Center  # its arguments crash 0.20
    return middle.x, middle.y


def _renew(
    page: Any,
    plan: Plan,
    stack: StackPlan,
    layer: LayerPlan,
    shown: tuple[Any, Any, Any],
    units: Units,
    revision: str,
) -> None:
    kept = _fields(plan, stack, layer, 1, revision)
    _letter(page.Template, {key: kept[key] for key in ("REVISION", "TITLE", "SUPPLEMENTARY_TITLE", "SHEET")})
    size, (x0, y0, x1, y1) = _extents(layer)
    views = {s.Name: v for v in page.Views if v.isDerivedFrom("TechDraw::DrawViewPart") for s in v.Source}
    cut, finished = views.get(shown[0].Name), views.get(shown[1].Name)
    if cut is not None and finished is not None and not shown[1].Shape.isNull():
        x, y = _middle_of(shown[1])
        at = cut.X.Value + (x - (x0 + x1) / 2) * cut.Scale, cut.Y.Value + (y - (y0 + y1) / 2) * cut.Scale
        if abs(finished.X.Value - at[0]) + abs(finished.Y.Value - at[1]) > 0.01:
            finished.X, finished.Y = at
    lines = _lines(stack, layer, size, units)
    for view in page.Views:
        if view.Label == f"{page.Label.removesuffix(', sheet')} words" and list(view.Text) != lines:
            view.Text = lines


def _view(
    page: Any, stack: StackPlan, sources: list[Any], scale: float, at: tuple[float, float], label: str, width: float
) -> Any:
    """A view from above along the stack's axis, its x to the right."""
    view = page.Document.addObject("TechDraw::DrawViewPart", "LayerView")
    view.Label = label
    page.addView(view)
    frame = stack.frame
    view.Source = sources
    view.Direction = FreeCAD.Vector(frame[2], frame[6], frame[10])
    view.XDirection = FreeCAD.Vector(frame[0], frame[4], frame[8])
    view.ScaleType = "Custom"
    view.Scale = scale
    view.X, view.Y = at
    view.HardHidden = True
    if getattr(view, "ViewObject", None) is not None:
        view.ViewObject.LineWidth, view.ViewObject.HiddenWidth = width, min(width, 0.35)
    return view


def _words(
    page: Any, name: str, lines: Sequence[str], at: tuple[float, float], turn: float = 0.0, label: str = ""
) -> None:
    """Lines of text; label: short where they stand near the border, for TechDraw frames a view as wide as its label."""
    words = page.Document.addObject("TechDraw::DrawViewAnnotation", name)
    page.addView(words)
    words.Label = label or f"{page.Label.removesuffix(', sheet')} {name.lower()}"
    words.Text, words.TextSize = list(lines), TYPE
    words.X, words.Y = at
    words.Rotation = turn


def _fields(plan: Plan, stack: StackPlan, layer: LayerPlan, n: int, revision: str) -> dict[str, str]:
    """What the title block says (benchsheets/pages/titleblock.py), by the names of ISO 7200; the note is by hand."""
    before = takewhile(lambda other: other.name != stack.name, plan.stacks)
    page = sum(len(other.layers) for other in before) + layer.number
    return {
        "TITLE": plan.title,
        "DOCUMENT_TYPE": "Layer sheet",
        "SHEET": f"sheet {page} of {sum(len(other.layers) for other in plan.stacks)}",
        "SUPPLEMENTARY_TITLE": f"{stack.name}, layer {layer.number} of {len(stack.layers)}",
        "NUMBER": f"{stack.name}-{layer.number}",
        "REVISION": revision,
        "NOTE": "",
        "CREATOR": plan.author,
        "DATE": plan.date,
        "SCALE": f"1:{n}",
    }


def _letter(template: Any, fields: dict[str, str]) -> None:
    """Write into the template's fields, where something is new."""
    there = dict(template.EditableTexts)
    if {**there, **fields} != there:
        template.EditableTexts = {**there, **fields}


def _lines(stack: StackPlan, layer: LayerPlan, size: tuple[float, float], units: Units) -> list[str]:
    thick = length_text(layer.thickness, units)
    name, wood = (
        escape(stack.name, quote=False),
        escape(said_word(layer.species), quote=False),
    )  # TechDraw takes it for HTML
    return [
        say(
            "{stack}, layer {layer} of {layers}: {thickness} {wood}",
            stack=name,
            layer=layer.number,
            layers=len(stack.layers),
            thickness=thick,
            wood=wood,
        ),
        say("in the stack at {range}; this face up, front below", range=range_text(layer.bottom, layer.top, units)),
        say("blank {size} overall", size=size_text(*size, units)),
        say("wide: cut line; short dashes: cut from below; long dashes: finished form"),
    ]
