# SPDX-License-Identifier: LGPL-2.1-or-later

"""Waste tabs as a stack's property: the layers' solids have them, and they are kept with the document."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.freecad
TAB = "layers 2-3; direction 45deg; width 60 mm; out 50 mm"


@pytest.fixture
def drum(document: Any) -> Any:
    form = document.addObject("Part::Cylinder", "Drum")
    form.Radius, form.Height = 80, 100
    document.recompute()
    return form


def sliced(form: Any, **asked: Any) -> Any:
    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    stack = make_stack(form.Document, form, StackSettings(stock=(25.0,), **asked))
    form.Document.recompute()
    return stack


def test_the_layers_that_a_tab_names_have_it_in_their_solids(document: Any, drum: Any) -> None:
    stack = sliced(drum)
    plain, carved = [layer.Shape.Volume for layer in stack.Layers], stack.CarvedVolume.Value
    assert list(stack.WasteTabs) == []
    stack.WasteTabs = [TAB]
    document.recompute()
    assert all(o.State == ["Up-to-date"] for o in document.Objects)
    more = [layer.Shape.Volume - before for layer, before in zip(stack.Layers, plain)]
    assert more[0] == pytest.approx(0.0) and more[3] == pytest.approx(0.0)
    # A rectangle of 60 × 50 from the edge outwards, what is between it and the round edge, and two fillets.
    assert 25.0 * 60.0 * 50.0 < more[1] < 25.0 * (60.0 * 56.5 + 2 * 180.0)
    assert more[2] == pytest.approx(more[1], rel=0.001)
    assert stack.Layers[1].Shape.isValid() and len(stack.Layers[1].Shape.Solids) == 1
    assert stack.Layers[1].BlankVolume.Value == pytest.approx(stack.Layers[1].Shape.Volume)
    assert stack.WoodVolume.Value == pytest.approx(sum(layer.Shape.Volume for layer in stack.Layers))
    # The tabs are sawn off, not carved.
    assert stack.CarvedVolume.Value == pytest.approx(carved, rel=1e-6)
    assert stack.Verdict == "ok"


def test_what_a_maker_types_is_kept_to_the_last_digit(document: Any, drum: Any, tmp_path: Path) -> None:
    import FreeCAD

    from freecad_stacklam.docobjects.reading.stacks import settings_of_stack
    from freecad_stacklam.lamination.settings.stack import TabSettings

    tabs = (TabSettings((1, 2, 4), 12.5, 60.325, 47.6, -3.175, 0.0), TabSettings((3,), -90.0))
    stack = sliced(drum, tabs=tabs)
    assert settings_of_stack(stack).tabs == tabs
    document.saveAs(str(tmp_path / "tabs.FCStd"))
    FreeCAD.closeDocument(document.Name)
    again = FreeCAD.openDocument(str(tmp_path / "tabs.FCStd"))
    try:
        found = next(o for o in again.Objects if type(getattr(o, "Proxy", None)).__name__ == "Stack")
        assert settings_of_stack(found).tabs == tabs
        assert found.State == ["Up-to-date"]
    finally:
        FreeCAD.closeDocument(again.Name)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("layers 9", "There is no layer 9 for the tab of layer 9 at 0°: the stack has 4"),
        ("3-5 at 45°", "is no waste tab: write it as in layers 3-5; direction 45deg"),
        ("layers 2; width 2 mm", "“layers 2; width 2 mm”, width: “2 mm” is impossible here"),
        ("layers 2; aside 200 mm", "passes beside the blank of layer 2"),
    ],
)  # fmt: skip
def test_a_tab_that_cannot_be_is_told_in_the_tree(document: Any, drum: Any, text: str, says: str) -> None:
    stack = sliced(drum)
    stack.WasteTabs = [text]
    document.recompute()
    assert "Invalid" in stack.State
    assert says in stack.getStatusString()
    stack.WasteTabs = []
    document.recompute()
    assert stack.State == ["Up-to-date"]
