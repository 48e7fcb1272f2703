# SPDX-License-Identifier: LGPL-2.1-or-later

"""A stack's settings from its properties, and the plan that it shows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any
from weakref import WeakKeyDictionary

from freecad_stacklam.docobjects.base.family import name_of_stack
from freecad_stacklam.docobjects.base.protocols import StackObject
from freecad_stacklam.docobjects.base.rowproperties import read
from freecad_stacklam.docobjects.forms import plancache
from freecad_stacklam.docobjects.forms.directions import Triple, direction_of, from_own
from freecad_stacklam.lamination.job.assembly import Form
from freecad_stacklam.lamination.lengths import parse_length
from freecad_stacklam.lamination.options.rowtable import RowTable
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.stack import StackSettings, TabSettings
from freecad_stacklam.lamination.words import say
from freecad_stacklam.objectkinds import kind_of

#: Waste tabs as rows of texts: of a panel's table, and of a property, each column named.
TABS = RowTable(TabSettings, "layers")
#: How glue lines are chosen, as the maker reads it → as the settings say it.
PICKS = {"counted": "", "least wood": "least wood", "fewest layers": "fewest layers"}
#: What a stack's axis may turn with, as the maker reads it.
NOTHING, FORM, PART = FOLLOWS = ("nothing", "the form", "a face or edge")


def settings_of_stack(stack: StackObject) -> StackSettings:
    """What the maker chose, the axis as it is in the model now. `form` is the solid's label. Raises Refusal when a
    value cannot be, what the axis follows is gone, or an expression gives nothing any more."""
    _refuse_dead_expressions(stack)
    return _settings(stack, axis_of(stack))


def _refuse_dead_expressions(stack: StackObject) -> None:
    """FreeCAD recomputes nothing of an object whose expression fails: its values stand there as they last were."""
    for path, expression in stack.ExpressionEngine:
        try:
            stack.evalExpression(expression)
        except Exception:  # of FreeCAD's kinds, which differ by release
            raise Refusal(
                say(
                    "The expression “{expression}” of “{label}” gives nothing any more (property {property}): mend "
                    "it, or clear it in its properties.",
                    expression=expression,
                    label=stack.Label,
                    property=path,
                )
            ) from None


def settings_to_change(stack: StackObject) -> StackSettings:
    """The same for a panel, which also opens where what the axis follows is gone: the axis is then as it was when it
    was chosen."""
    try:
        return settings_of_stack(stack)
    except Refusal:
        return _settings(stack, (stack.Axis.x, stack.Axis.y, stack.Axis.z))


def axis_of(stack: StackObject) -> Triple:
    """The direction of piling in the model as it is now. Raises Refusal where what it follows is gone."""
    axis = stack.Axis.x, stack.Axis.y, stack.Axis.z
    if stack.AxisFollows == FORM and stack.Form is not None and any(axis):
        return from_own(stack.Form, stack.FormPath, axis)
    if stack.AxisFollows != PART:
        return axis
    found = None if stack.AxisFrom is None else direction_of(stack.AxisFrom[0], _element(stack.AxisFrom))
    if found is None:
        raise Refusal(
            say(
                "The face or edge that the stacking axis of “{label}” follows is gone: open its layers and pick "
                "another, or let the axis follow nothing.",
                label=stack.Label,
            )
        )
    x, y, z = found
    return (-x + 0.0, -y + 0.0, -z + 0.0) if stack.AxisAgainst else found


def followed(stack: StackObject) -> tuple[Any, str] | None:
    """What a stack's axis turns with: its form and "", or an object and a face or edge of it; None for nothing."""
    if stack.AxisFollows == FORM and stack.Form is not None:
        return stack.Form, ""
    if stack.AxisFollows == PART and stack.AxisFrom is not None:
        return stack.AxisFrom[0], _element(stack.AxisFrom)
    return None


def _element(link: Any) -> str:
    return str(link[1][0]) if link[1] else ""


def _settings(stack: StackObject, axis: Triple) -> StackSettings:
    held = {**read(stack, StackSettings), "axis": axis}
    return StackSettings(
        form=stack.Solid,
        stock=(stack.Stock.Value, *_lengths(stack.MoreStock)),
        thicknesses=_lengths(stack.PlanedThicknesses),
        pick=PICKS[stack.Pick],
        forced=_lengths(stack.ForcedPlanes),
        forbidden=tuple(_zone(text) for text in stack.ForbiddenZones if text.strip()),
        tabs=tuple(tab_from(text) for text in stack.WasteTabs if text.strip()),
        **held,
    )


def tab_text(tab: TabSettings) -> str:
    """“layers 3-5; direction 45deg; width 60 mm; out 50 mm; aside 0 mm; fillet 16 mm”."""
    cells = zip(TABS.columns, TABS.write_row(tab))
    return "; ".join(f"{column} {cell}{' mm' if column in TABS.figures else ''}" for column, cell in cells)


def tab_from(text: str) -> TabSettings:
    """The tab that a text names. Raises Refusal."""
    cells = {}
    for part in text.split(";"):
        column, _, cell = part.strip().partition(" ")
        if column not in TABS.columns or column in cells:
            raise Refusal(
                say(
                    "“{text}” is no waste tab: write it as in layers 3-5; direction 45deg; width 60 mm; out 50 mm.",
                    text=text,
                )
            )
        cells[column] = cell
    return TABS.read_row(cells, {}, 0, lambda _, column: f"“{text}”, {column}")


def _lengths(texts: Sequence[str]) -> tuple[float, ...]:
    return tuple(parse_length(text) for text in texts if text.strip())


def _zone(text: str) -> tuple[float, float]:
    low, to, high = text.partition(" to ")
    if not to:
        raise Refusal(
            say("“{text}” is no zone without glue lines: write its heights as in 120 mm to 150 mm.", text=text)
        )
    return parse_length(low), parse_length(high)


#: The plan that a stack's last execute found, so that its layers need not look at the form again.
_shown: WeakKeyDictionary[Any, tuple[StackSettings, StackPlan, Form]] = WeakKeyDictionary()


def planned_stack(stack: StackObject) -> tuple[StackPlan, Form]:
    """The plan and the form, both as they are now. Raises Refusal."""
    return _planned(stack, settings_of_stack(stack))


def form_of_stack(stack: StackObject) -> Form:
    """The form as it is now, for joints and for the whole job. Raises Refusal."""
    return _form(_find(stack), stack, settings_of_stack(stack))


def shown_plan(stack: StackObject) -> tuple[StackPlan, Form]:
    """The plan that the stack shows: the one of its last recompute while its settings are the same, else a new one.

    Raises Refusal.
    """
    if kind_of(stack) != "stack":
        raise Refusal(say("“{label}” is no stack: choose one instead.", label=stack.Label))
    settings = settings_of_stack(stack)
    kept = _shown.get(stack.Proxy)
    if kept is not None and kept[0] == settings and kept[1].name == name_of_stack(stack):
        return kept[1], kept[2]
    return plan_anew(stack)


def plan_anew(stack: StackObject) -> tuple[StackPlan, Form]:
    """The plan for the form and the settings as they are now, which the stack then shows. Raises Refusal."""
    _shown.pop(stack.Proxy, None)
    settings = settings_of_stack(stack)
    plan, form = _planned(stack, settings)
    _shown[stack.Proxy] = settings, plan, form
    return plan, form


def _find(stack: StackObject) -> plancache.Found:
    if stack.Form is None:
        raise Refusal(say("The form of “{label}” is gone: choose another, or delete the stack.", label=stack.Label))
    return plancache.find_form(stack.Form, stack.FormPath, stack.Solid)


def _form(found: plancache.Found, stack: StackObject, settings: StackSettings) -> Form:
    return Form(name_of_stack(stack), found.mesh, found.datum, found.exact_along(settings.axis))


def _planned(stack: StackObject, settings: StackSettings) -> tuple[StackPlan, Form]:
    found = _find(stack)
    return plancache.plan_for(found, settings, name_of_stack(stack)), _form(found, stack, settings)
