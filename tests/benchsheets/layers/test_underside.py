# SPDX-License-Identifier: LGPL-2.1-or-later

"""Nothing that is bored from a layer's underside is ever shown so that it would be bored from its top."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
import solids
from plans import plant_stand, stack_of

from freecad_stacklam.benchsheets.book.whole import drawing_book
from freecad_stacklam.benchsheets.drawing.lettering import Units, shortened
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import PLAIN, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.layers.layerdrawing import cuts_line, draw_layers
from freecad_stacklam.benchsheets.layers.underside import hole_words
from freecad_stacklam.benchsheets.pages.strip import FIELDS_WIDTH, SQUEEZE
from freecad_stacklam.lamination.bill.rows import dowel_rows
from freecad_stacklam.lamination.inside.pins import pin_stack
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.outline import polygon_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.stack import StackSettings

#: Three pins that no turn and no mirror maps onto themselves, at different places at each glue line.
AT = ((1.0, 60.0, 10.0), (1.0, -50.0, 30.0), (2.0, 40.0, -45.0), (2.0, -62.0, -8.0))


@cache
def drum(underside: str = "dowel centres", units: str = "mm", by_hand: bool = True) -> Plan:
    mesh = solids.cylinder(100, 180, 120)
    asked = PinSettings(underside=underside, at=AT if by_hand else ())
    stack = pin_stack(plan_stack(mesh, StackSettings(stock=(45.0,)), name="Drum"), mesh, asked)
    return Plan("Drum", units, (stack,))


def sheets(plan: Plan, kind: str, layer: int, mirrored: bool = False) -> list[Sheet]:
    book = drawing_book(plan, paper_named("A4"), plan.units)
    return [s for s in book if (s.kind, s.layer, s.mirrored) == (kind, layer, mirrored)]


@pytest.mark.parametrize("units", ["mm", "in"])
def test_the_strip_always_says_what_is_bored_from_below(units: str) -> None:
    """However long the words of the cuts above are: what does not go into the strip is cut off at its end."""
    layer = drum(units=units).stacks[0].layers[1]
    cut = next(c for c in layer.cuts if c.end == layer.top)
    below = tuple(c for c in layer.cuts if c.start == layer.bottom)
    for name in ("Post", "The long joint from the post of the stand up to its top"):
        long = replace(cut, kind="mortise", joint=name)
        line = cuts_line(replace(layer, cuts=(*below, long)), Units(units))
        assert "UNDERSIDE" in line
        assert shortened(line, PLAIN, FIELDS_WIDTH - 1.0, squeeze=SQUEEZE) == line


def holes(found: list[Sheet]) -> list[tuple[float, float]]:
    """Centres, in the stack's frame, of what is drawn as a cut."""
    places = set()
    for sheet in found:
        for m in sheet.marks:
            if isinstance(m, Polyline) and m.pen.startswith("mortise") and len(m.points) > 8:
                x, y = np.mean([sheet.to_stack(*p) for p in m.points[:-1]], axis=0)
                places.add((round(float(x)), round(float(y))))
    return sorted(places)


def said(found: list[Sheet]) -> str:
    return " ".join(" ".join(m.text for s in found for m in s.marks if isinstance(m, Text)).split())


@pytest.mark.parametrize("kind", ["layer", "template"])
@pytest.mark.parametrize("underside", ["dowel centres", "template"])
def test_the_upper_face_shows_only_what_is_bored_there(kind: str, underside: str) -> None:
    found = sheets(drum(underside), kind, 2)
    assert holes(found) == [(-62, -8), (40, -45)]
    assert "from the bottom" not in said(found)
    traces = [t for t in draw_layers(drum(), drum().stacks[0])[1].traces if t.kind == "pin"]
    assert len(traces) == 2  # nor does the file that a machine reads


def test_the_trades_way_is_printed_as_steps() -> None:
    words = said(sheets(drum(), "layer", 2))
    for step in (
        "UNDERSIDE pins: bore nothing for them here", "1. Bore the top of layer 1 first", "2. Set dowel centres Ø 10",
        "3. Lay this layer on it, this face up, FRONT", "4. Turn this layer over. Bore Ø 10.4",
        "to the bit's tip 16 mm",
        "5. Try it dry on dowels Ø 10 × 21 mm", "grooved and chamfered",
    ):  # fmt: skip
        assert step in words, step
    assert not sheets(drum(), "template", 2, mirrored=True)


def test_a_mirrored_template_lies_on_the_layer_that_is_turned_over() -> None:
    found = sheets(drum("template"), "template", 2, mirrored=True)
    assert holes(found) == [(-50, 30), (60, 10)]
    for sheet in found:
        assert sheet.origin is not None
        # What is to the right on the page is to the left on the layer, and up stays up.
        (x0, y0), (x1, _), (_, y1) = sheet.to_stack(50, 50), sheet.to_stack(60, 50), sheet.to_stack(50, 60)
        turn = np.radians(sheet.turn)
        assert (x1 - x0, y1 - y0) == pytest.approx((-10 * np.cos(turn), 10 * np.cos(turn)))
    words = said(found)
    for wanted in ("UNDERSIDE UP", "FRONT", "RIGHT", "pin Ø 10.4", "12 mm deep, from this face", "Mirrored"):
        assert wanted in words, wanted
    assert "THIS FACE UP" not in words
    assert not sheets(drum("template"), "template", 1, mirrored=True)


def test_a_stopped_mortise_from_below_has_its_mirrored_template() -> None:
    plan = plant_stand()
    top = plan.stacks[1]
    cut = replace(top.layers[0].cuts[0], end=18.0)
    plan = replace(plan, stacks=(stack_of("Top", (replace(top.layers[0], cuts=(cut,)), top.layers[1])),))
    found = sheets(plan, "template", 1, mirrored=True)
    assert found
    assert "18 mm deep, from this face" in said(found)
    # On the layer sheet it is a step of its own, after what is cut from the upper face, never a row among that.
    words = said(sheets(plan, "layer", 1))
    own = words.index("UNDERSIDE mortise: cut nothing for it from this face")
    assert own < words.index("turn the layer over, left for right") < words.index("From the UNDERSIDE, layer turned")
    assert "Cuts: centres from the axis" not in words and "UNDER " not in words
    assert polygon_of(cut.outline).contains(polygon_of(cut.outline).centroid)


def test_one_jig_for_all_glue_lines_is_dimensioned_from_the_axis() -> None:
    plan = drum(by_hand=False)
    words = said(sheets(plan, "layer", 1))
    assert "Same pattern at glue lines 1 to 3: one jig drills them." in words
    pins = [p for p in plan.stacks[0].pins if p.interface == 1]
    for pin in pins:
        x, y = (f"{c:g}" for c in pin.centre)
        assert f"{x}, {y}" in words


def test_holes_in_inches_show_the_fit() -> None:
    """3/8 in = 9.525 mm; 9.525 + 0.4 = 9.925 mm is 25/64 in = 9.922 mm; 10.4 mm is 0.409 in and no 64th: the
    next is 26/64 in = 10.32 mm, and no bit of thousandths is sold."""
    inch = Units("in")
    assert [hole_words(d, inch) for d in (9.525, 9.925, 10.4)] == ["Ø 3/8", "Ø 25/64", "Ø 13/32 (0.409)"]
    assert hole_words(10.4, Units()) == "Ø 10.4"


def test_every_page_names_a_pin_s_bit_alike_in_inches() -> None:
    """A dowel of 10 mm is bought as such: a hole of 25/64 in = 9.92 mm is too tight for it. Its two holes of 12 mm less
    3 mm of room are 21 mm = 26.5 of 1/32 in, and 13/16 in = 26 of them is no longer than that."""
    plan = drum(units="in")
    every = said([*sheets(plan, "template", 2), *sheets(plan, "layer", 2)])
    assert "pin Ø 10 mm" in every and "25/64" not in every
    assert "Dowels Ø 10 mm × 13/16 in" in every
    assert "Bore Ø 13/32 (0.409), looser than the dowel" in every
    assert {row.name for row in dowel_rows(plan)} == {"Ø 10 mm × 13/16 in"}
    assert [row.length for row in dowel_rows(plan)] == pytest.approx([13 / 16 * 25.4])  # the bill's column says no more
