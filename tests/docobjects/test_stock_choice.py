# SPDX-License-Identifier: LGPL-2.1-or-later

"""Several stock thicknesses, forced glue lines and forbidden zones as properties of a stack.

The judges: counting boards by hand, and the same settings planned without a document.
"""

from __future__ import annotations

from typing import Any

import pytest

pytestmark = pytest.mark.freecad


@pytest.fixture
def block(document: Any) -> Any:
    box = document.addObject("Part::Box", "Block")
    box.Length, box.Width, box.Height = 200, 150, 100
    document.recompute()
    return box


def thicknesses(stack: Any) -> list[float]:
    return [round(layer.Thickness.Value, 6) for layer in stack.Layers]


def test_boards_of_two_thicknesses_fill_the_height(document: Any, block: Any) -> None:
    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.docobjects.reading.stacks import settings_of_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    settings = StackSettings(stock=(45.0, 27.0), pick="least wood", glue_line_worth=1e5)
    stack = make_stack(document, block, settings)
    document.recompute()
    # 45 + 27 + 27 = 99 mm is too low; 45 + 45 + 27 = 117 and 27 × 4 = 108 mm reach: the block's wood is least in the
    # lowest stack, 108 mm, as the area is the same all along, and three layers more cost less than 0.1 l each.
    assert thicknesses(stack) == [27.0] * 4
    assert settings_of_stack(stack) == settings
    stack.Pick = "fewest layers"
    document.recompute()
    assert len(stack.Layers) == 3
    assert stack.Layers[-1].Top.Value == pytest.approx(117)
    # A glue line must save 2 l to be worth it: four layers save 0.28 l only.
    stack.Pick, stack.GlueLineWorth = "least wood", 2e6
    document.recompute()
    assert len(stack.Layers) == 3
    assert all(o.State == ["Up-to-date"] for o in document.Objects)


def test_glue_lines_lie_where_they_must_and_not_where_they_may_not(document: Any, block: Any) -> None:
    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.docobjects.reading.stacks import settings_of_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    stack = make_stack(document, block, StackSettings(stock=(25.0,)))
    stack.ForcedPlanes = ["40 mm"]  # 25 and 15 mm
    stack.ForbiddenZones = ["60 mm to 2.75 in"]
    document.recompute()
    tops = [layer.Top.Value for layer in stack.Layers]
    assert any(abs(top - 40) < 0.01 for top in tops)
    assert not any(60.01 < top < 69.84 for top in tops)
    assert settings_of_stack(stack).forbidden == ((60.0, 69.85),)
    stack.ForbiddenZones = ["60 mm"]
    document.recompute()
    assert "write its heights as in 120 mm to 150 mm" in stack.getStatusString()
    stack.ForbiddenZones, stack.MoreStock = [], ["thick"]
    document.recompute()
    assert "is not a length" in stack.getStatusString()


def test_a_file_made_before_has_one_stock_and_counts(document: Any, block: Any) -> None:
    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.docobjects.reading.stacks import settings_of_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    stack = make_stack(document, block, StackSettings(stock=(25.0,)))
    for name in ("MoreStock", "Pick", "GlueLineWorth", "ForcedPlanes", "ForbiddenZones"):
        stack.removeProperty(name)
    stack.Proxy.onDocumentRestored(stack)
    document.recompute()
    assert settings_of_stack(stack) == StackSettings(stock=(25.0,))
    assert len(stack.Layers) == 4
