# SPDX-License-Identifier: LGPL-2.1-or-later

"""The joint sheet: a tenon and its mortises can be made from it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from plans import worked_stand

from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Polyline, Sheet, Text
from freecad_stacklam.benchsheets.joints.jointsheet import joint_sheets


def said(sheets: list[Sheet]) -> list[str]:
    return [m.text for s in sheets for m in s.marks if isinstance(m, Text)]


def test_blank_members_and_drilling_are_there() -> None:
    words = said(joint_sheets(book_of(worked_stand(), paper_named("A4"))))
    every = " ".join(" ".join(words).split())
    for wanted in ("white oak, 40 × 40 mm, 132 mm long, grain along its length", "clearance 0.1 mm", "through",
                   "2, ACROSS the layers' grain, each", "1.5 mm wide", "4.5 mm from the tenon's edge, 33 mm deep",
                   "1:17",
                   "2.6 mm thick 25 mm from their tip", "by 1 mm each at the face, running out 25 mm",
                   "carve the form at the mortise down", "ends 6 mm below the rough face",
                   "stands 5 mm proud"):  # fmt: skip
        assert wanted in every, wanted
    for wanted in (
        "Pedestal 9",
        "Pedestal 10",
        "Ø 38 mm",
        "before glue-up",
        "after glue-up",
        "20 %",
        "132",
        "40",
        "0.4",
    ):
        assert wanted in words, wanted
    for centre in ("-1", "1"):
        assert words.count(centre) >= 3


def test_layers_bored_alike_share_a_row() -> None:
    plan = worked_stand()
    joint = plan.joints[0]
    first = joint.drilling[1]
    alike = tuple(replace(first, layer=n) for n in (7, 8, 9, 10))
    words = said(joint_sheets(book_of(replace(plan, joints=(replace(joint, drilling=alike),)), paper_named("A4"))))
    assert "Pedestal 7 to 10" in words


@pytest.mark.parametrize(("grain", "turned"), [(0.0, False), (90.0, True)])
def test_kerfs_run_across_the_layers_grain(grain: float, turned: bool) -> None:
    """In the end view the kerfs are level; the arrow of the layers' grain beside them must then stand upright."""
    plan = worked_stand()
    top = plan.stacks[1]
    layers = tuple(replace(layer, grain=grain) for layer in (*plan.stacks[0].layers, *top.layers))
    stacks = (replace(plan.stacks[0], layers=layers[:10]), replace(top, layers=layers[10:]))
    joint = plan.joints[0]
    joint = replace(joint, section="rectangle", size=(60.0, 30.0), tenon=replace(joint.tenon, section="rectangle",
                    size=(59.8, 29.8)))  # fmt: skip
    wedge = joint.members[1].wedge
    assert wedge is not None
    members = (joint.members[0], replace(joint.members[1], wedge=replace(wedge, along_first=not turned)))
    joint = replace(joint, members=members)
    (sheet,) = joint_sheets(book_of(replace(plan, stacks=stacks, joints=(joint,)), paper_named("A3")))
    lines = [np.asarray(m.points) for m in sheet.marks if isinstance(m, Polyline)]
    kerfs = [
        np.asarray(m.points) for m in sheet.marks if isinstance(m, Polyline) and m.pen == "mortise" and not m.closed
    ]
    assert len(kerfs) == 2
    across = 59.8 if turned else 29.8  # the kerfs run along the side that lies across the grain
    assert sheet.scale is not None
    for kerf in kerfs:
        assert kerf[0][1] == kerf[1][1]
        assert abs(kerf[1][0] - kerf[0][0]) / sheet.scale == pytest.approx(across)
    arrows = [p for p in lines if len(p) == 2 and np.hypot(*(p[1] - p[0])) == pytest.approx(16.0)]
    assert arrows
    for arrow in arrows:
        assert arrow[0][0] == pytest.approx(arrow[1][0], abs=1e-6)


def test_the_side_view_is_the_tenon_to_scale() -> None:
    sheet, *_ = joint_sheets(book_of(worked_stand(), paper_named("A4")))
    assert sheet.scale is not None
    boxes = [np.ptp(np.asarray(m.points), axis=0) / sheet.scale for m in sheet.marks
             if isinstance(m, Polyline) and m.pen == "cut" and m.closed]  # fmt: skip
    assert any(box == pytest.approx([132.0, 40.0]) for box in boxes)
    assert any(box == pytest.approx([40.0, 40.0]) for box in boxes)


def test_inches() -> None:
    words = said(joint_sheets(book_of(worked_stand("in"), paper_named("Letter"), "in")))
    assert "5-3/16" in words  # 132 mm is 5.1969 in
    assert "Ø 38 mm" in words  # a bit is named by the measure it is sold in


def test_front_is_marked_where_the_stack_has_it() -> None:
    """The stack's front is towards its -y. The stand's section has its sides along x and y, x drawn upwards, y to the
    left: so the front, -y, is to the right."""
    sheet, *_ = joint_sheets(book_of(worked_stand(), paper_named("A4")))
    joint = worked_stand().joints[0]
    assert joint.axis.side == pytest.approx((1.0, 0.0, 0.0)) and joint.axis.other == pytest.approx((0.0, 1.0, 0.0))
    assert any(text == "from the far end, FRONT right" for text in said([sheet]))


def test_only_an_end_that_goes_in_is_chamfered() -> None:
    """2 mm off both corners of the near end, which stands in a stopped mortise; the far end comes through."""
    sheet, *_ = joint_sheets(book_of(worked_stand(), paper_named("A4")))
    assert sheet.scale is not None
    (side,) = (np.asarray(m.points) / sheet.scale for m in sheet.marks
               if isinstance(m, Polyline) and m.pen == "cut" and len(m.points) == 6)  # fmt: skip
    x, y = side.T
    assert np.sort(x - x.min()) == pytest.approx([0, 0, 2, 2, 132, 132])
    assert np.sort(y - y.min()) == pytest.approx([0, 0, 2, 38, 40, 40])
    assert sum(np.hypot(*(a - b)) == pytest.approx(8**0.5) for a, b in zip(side, np.roll(side, 1, axis=0))) == 2


@pytest.mark.parametrize(("paper", "units", "pages"), [("A4", "mm", 1), ("Letter", "in", 2)])
def test_a_wedged_joint_has_one_sheet_where_it_goes_on_it(paper: str, units: str, pages: int) -> None:
    """With its mortises, its notes, its steps in order and both tables, in lettering of no less than 1.8 mm (ISO 3098).
    The shorter Letter takes two, in the usual lettering, and the views stand on the first."""
    sheets = joint_sheets(book_of(worked_stand(units), paper_named(paper), units))
    assert len(sheets) == pages
    sheet, words = sheets[0], said(sheets)
    assert any(text.startswith("mortise in Top") for text in said(sheets[:1]))
    assert sheet.scale is not None and sheet.scale >= 1 / 5
    assert not any(text.startswith("• 1.") for text in words) and any(text.startswith("1. ") for text in words)
    assert "In this order" in words and any(text.startswith("Boring and chiselling") for text in words)
    assert pages == 2 or not any("continued" in text for text in words)
    assert min(m.height for m in sheet.marks if isinstance(m, Text)) >= 1.79
