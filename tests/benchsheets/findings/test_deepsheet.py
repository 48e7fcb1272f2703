# SPDX-License-Identifier: LGPL-2.1-or-later

"""The page of the deep check: every figure of the findings in a text, the worst place and its load where they are on
the piece, dots that grow with the value, nothing over anything else."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import combinations

import numpy as np
import pytest
from weakforms import tenoned

from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.lettering import text_box
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Circle, FilledRegion, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.findings.deepsheet import deep_sheets
from freecad_stacklam.benchsheets.views.placemarks import ARROW, RING
from freecad_stacklam.lamination.findings.deep import DeepFindings, SurfaceMap, WeakSpot
from freecad_stacklam.lamination.findings.opinion import SecondOpinion

SPOT = WeakSpot((10.0, -25.0, 270.0), "High", 1, "glue line", 0.4876, 1.24, 2.54, False, "own", (0.0, -20.0, 720.0),
                (0.0, -100.0, -300.0), "R up")  # fmt: skip


@cache
def found() -> DeepFindings:
    turns = np.linspace(0, 2 * np.pi, 24, endpoint=False)
    wall = [(30 * np.cos(t), 30 * np.sin(t), z) for t in turns for z in np.arange(5.0, 720.0, 10.0)]
    top = [
        (x, y, 720.0) for x in np.arange(-25.0, 26.0, 5.0) for y in np.arange(-25.0, 26.0, 5.0) if x * x + y * y < 700
    ]
    other = replace(SPOT, place=(-10.0, 25.0, 265.0), stack="Low", layer=6, index=0.31, kind="across the grain")
    return DeepFindings(
        (SPOT, other),
        without_tenon=replace(SPOT, index=0.66, stress=1.68),
        other_rings=replace(SPOT, index=0.41, rings="T up"),
        fine=replace(SPOT, index=0.52, scatter_known=True),
        influence=SurfaceMap(tuple(top), tuple(-y / 500 for _, y, _ in top)),
        surface=SurfaceMap(tuple(wall), tuple(0.6 if abs(z - 550) < 60 else 0.02 for _, _, z in wall)),
        balance=3.5e-5,
        cells=22_493,
        fine_cells=104_000,
        seconds=14.0,
        tried=144,
        solved=26,
        notes=("The feet are held.",),
    )


def sheets(findings: DeepFindings, units: str = "mm", paper: str = "A4") -> list[Sheet]:
    return deep_sheets(book_of(tenoned()[0], paper_named(paper), units), findings)


def words(of: list[Sheet]) -> str:
    return " ".join(" ".join(m.text for s in of for m in s.marks if isinstance(m, Text)).split())


def test_every_figure_is_there() -> None:
    told = words(sheets(found()))
    for part in (
        "49%", "1.24", "2.54", "High 1", "glue line", "300 N", "100 N", "270°", "flat", "quarter", "without the tenons",
        "66%", "boards sawn the other way", "41%", "104000 finer cells", "52%", "22493 small blocks", "144 loads",
        "What the floor bears matches every load.", "The feet are held.", "never a compliance test", "by degrees",
    ):  # fmt: skip
        assert part in told, part


def test_a_floor_that_does_not_answer_is_told_in_percent() -> None:
    told = words(sheets(replace(found(), balance=0.03)))
    assert "out by up to 3 % of a load" in told and "matches every load" not in told
    assert "e-05" not in words(sheets(found()))


def test_inches_have_no_metric_figures() -> None:
    told = words(sheets(found(), "in", "Letter"))
    # 1.24 MPa / 0.00689476 = 180 psi; 300 N / 4.44822 = 67 lbf; 270 mm / 25.4 = 10.63 in (NIST SP 811, B.8).
    assert all(part in told for part in ("180", "67 lbf", "10.63", "psi", "all sizes in inches", "100 lbf"))
    assert " N " not in told and "MPa" not in told and " mm" not in told.replace("100 mm", "").replace("45 mm", "")


def test_the_worst_is_ringed_and_the_load_points_to_its_place() -> None:
    """From the right, for load and place lie further apart in x than in y: what is 450 mm apart in height is 450/n."""
    (sheet,) = sheets(found())
    rings = [m for m in sheet.marks if isinstance(m, Circle) and m.radius == RING]
    assert len(rings) == 2  # in each view
    n = int(next(m.text for m in sheet.marks if isinstance(m, Text) and ", 1:" in m.text).split(":")[1])
    shaft = next(m for m in sheet.marks if isinstance(m, Polyline) and m.pen == "cut" and len(m.points) == 2
                 and abs(m.points[0][1] - rings[0].centre[1]) > 5)  # fmt: skip
    tail, middle = np.array(shaft.points[0]), np.array(shaft.points[1])
    tip = tail + 2 * (middle - tail)
    assert np.hypot(*(tip - tail)) == pytest.approx(ARROW)
    assert tip[1] - rings[0].centre[1] == pytest.approx(450.0 / n)


def test_dots_grow_where_more_is_used() -> None:
    """About 550 mm high the use is 60 %, elsewhere 2 %: large dots only there."""
    (sheet,) = sheets(found())
    ring = next(m for m in sheet.marks if isinstance(m, Circle) and m.radius == RING)
    n = int(next(m.text for m in sheet.marks if isinstance(m, Text) and ", 1:" in m.text).split(":")[1])
    regions = [m for m in sheet.marks if isinstance(m, FilledRegion) and len(m.loops) > 5]
    loops = [np.array(loop) for m in regions for loop in m.loops]
    near = [loop for loop in loops if abs(loop.mean(axis=0)[0] - ring.centre[0]) < 8]
    large = [loop.mean(axis=0)[1] - ring.centre[1] for loop in near if np.ptp(loop[:, 0]) > 2.0]
    assert large and all(abs(up - (550 - 270) / n) < 65.0 / n + 2.6 for up in large)
    assert len(near) > 2 * len(large)


@pytest.mark.parametrize(("units", "paper"), [("mm", "A4"), ("in", "Letter"), ("mm", "A3")])
def test_nothing_covers_anything_or_leaves_the_page(units: str, paper: str) -> None:
    for sheet in sheets(found(), units, paper):
        texts = [m for m in sheet.marks if isinstance(m, Text)]
        for text in texts:
            x0, y0, x1, y1 = text_box(text).bounds
            assert x0 > 5 and y0 > 5 and x1 < sheet.paper[0] - 5 and y1 < sheet.paper[1] - 5, text.text
        for a, b in combinations(texts, 2):
            assert not text_box(a, -0.15).intersects(text_box(b, -0.15)), (a.text, b.text)


def test_what_was_refused_or_stopped_is_said() -> None:
    told = words(sheets(DeepFindings(refused="No load here may break the piece: let one of them.")))
    assert "could not be made" in told and "No load here may break" in told
    told = words(sheets(replace(found(), stopped=True)))
    assert "stopped before its end" in told and "49%" in told
    assert "never a compliance test" in words(sheets(DeepFindings()))


def test_what_is_looked_at_otherwise_and_by_others_is_told() -> None:
    opinion = SecondOpinion(
        place=SPOT.place, load="a guest", kind="glue line", our_kind="glue line", index=0.45, our_index=0.49,
        stress=1.15, our_stress=1.25, elements=19_000, notes=("Pins are left out.",),
    )  # fmt: skip
    told = words(sheets(replace(
        found(), loose_feet=replace(SPOT, index=0.37), second_opinion=opinion,
        untried="Three loads were left untried.", cautions=("Thin walls.",),
    )))  # fmt: skip
    for said in ("feet that may lift and slide", "37%", "Three loads were left untried.", "Thin walls.",
                 "45.0%", "49.0%", "19000 elements", "Pins are left out."):  # fmt: skip
        assert said in told, said
    told = words(sheets(replace(found(), second_opinion=SecondOpinion(refused="No mesher is installed: install one."))))
    assert "No mesher is installed" in told
