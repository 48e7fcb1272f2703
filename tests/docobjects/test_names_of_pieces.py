# SPDX-License-Identifier: LGPL-2.1-or-later

"""Names of pieces: a copy gets its own, a renamed form takes its piece along, a maker's own name stays."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.freecad


def box(document: Any, name: str = "Foot", high: float = 90.0) -> Any:
    form = document.addObject("Part::Box", name)
    form.Length, form.Width, form.Height = 100, 80, high
    document.recompute()
    return form


def sliced(form: Any, **options: Any) -> Any:
    from freecad_stacklam import api

    return api.slice_form(form, **options)


def test_a_copied_stack_is_a_piece_of_its_own(document: Any) -> None:
    from freecad_stacklam.docobjects.reading.whole import plan_of

    stack = sliced(box(document))
    copy = document.copyObject(stack, False)
    document.recompute()
    assert (stack.Piece, copy.Piece) == ("Foot", "Foot 2")
    assert [s.name for s in plan_of(document).stacks] == ["Foot", "Foot 2"]
    again = document.copyObject(copy, False)
    document.recompute()
    assert again.Piece == "Foot 3"
    assert len({s.name for s in plan_of(document).stacks}) == 3
    assert copy.Layers[0].Label.startswith("Foot 2 layer")


def test_a_name_that_the_maker_gave_twice_is_still_refused(document: Any) -> None:
    from freecad_stacklam.docobjects.reading.whole import plan_of
    from freecad_stacklam.lamination.refusal import Refusal

    one, other = sliced(box(document)), sliced(box(document, "Rail"))
    document.recompute()
    other.Piece = one.Piece
    document.recompute()
    assert other.Piece == "Foot"
    with pytest.raises(Refusal, match="Two stacks are called “Foot”"):
        plan_of(document)


def test_a_renamed_form_takes_its_piece_along(document: Any) -> None:
    form = box(document)
    stack = sliced(form)
    form.Label = "Plinth"
    document.recompute()
    assert (stack.Piece, stack.Label) == ("Plinth", "Plinth stack")
    assert stack.Layers[0].Label == "Plinth layer 1"
    document.openTransaction("call it")
    form.Label = "Base"
    document.commitTransaction()
    document.recompute()
    assert stack.Piece == "Base"
    document.undo()
    assert (form.Label, stack.Piece) == ("Plinth", "Plinth")


def test_a_piece_that_the_maker_named_keeps_its_name(document: Any) -> None:
    form = box(document)
    stack = sliced(form, piece="Left foot")
    form.Label = "Plinth"
    document.recompute()
    assert (stack.Piece, stack.Label) == ("Left foot", "Left foot stack")


def test_one_solid_of_several_is_found_under_its_new_label(document: Any) -> None:
    from freecad_stacklam import api

    low, high = box(document, "Low"), box(document, "High")
    high.Placement.Base.z = 200
    both = document.addObject("App::Part", "Both")
    both.addObjects([low, high])
    document.recompute()
    stack = api.slice_form(both, form="High")
    assert stack.Solid == "High"
    high.Label = "Upper"
    document.recompute()
    assert (stack.Solid, stack.Piece) == ("Upper", "Upper")
    assert "Invalid" not in stack.State


def test_a_file_that_is_opened_keeps_its_names(document: Any, tmp_path: Path) -> None:
    import FreeCAD

    form = box(document)
    stack = sliced(form)
    copy = document.copyObject(stack, False)
    document.recompute()
    copy.Piece = "Foot"
    document.recompute()
    document.saveAs(str(tmp_path / "twins.FCStd"))
    FreeCAD.closeDocument(document.Name)
    there = FreeCAD.openDocument(str(tmp_path / "twins.FCStd"))
    try:
        there.recompute()
        assert [o.Piece for o in there.Objects if o.Name.startswith("Stack")] == ["Foot", "Foot"]
    finally:
        FreeCAD.closeDocument(there.Name)


def test_a_piece_is_named_by_a_function(document: Any) -> None:
    from freecad_stacklam import api

    foot, rail = sliced(box(document)), sliced(box(document, "Rail"))
    api.name_piece(rail, "  Stretcher\nlow ")
    document.recompute()
    assert (rail.Piece, rail.Layers[0].Label) == ("Stretcher low", "Stretcher low layer 1")
    with pytest.raises(api.Refusal, match="Another piece is called “Foot”"):
        api.name_piece(rail, "Foot")
    with pytest.raises(api.Refusal, match="has no name"):
        api.name_piece(foot, " ")
