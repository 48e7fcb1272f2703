# SPDX-License-Identifier: LGPL-2.1-or-later

"""Offsets, section templates, depth holes and the carving guide: hand-made records, read back from the pages."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import numpy as np
import pytest
import shapely
from plans import plant_stand
from shapely import MultiPolygon

from freecad_stacklam.benchsheets.book.whole import drawing_book
from freecad_stacklam.benchsheets.drawing.lettering import text_box
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Polyline, Sheet, Text
from freecad_stacklam.lamination.plan.carving import (
    Bit,
    CarvingPlan,
    CarvingStep,
    DatumLine,
    DepthHole,
    DepthMap,
    Gauge,
    Offset,
    Removed,
    SectionTemplate,
    Stop,
)
from freecad_stacklam.lamination.plan.whole import Plan

RADIUS = 200.0


def ball_row(height: float, azimuth: float) -> Offset:
    """A ball of radius 200 about height 225 on the pedestal's axis, in closed form; blank 5 mm outside it."""
    radius = sqrt(RADIUS**2 - (height - 225.0) ** 2)
    number = round(height / 45)
    return Offset("Pedestal", number, number + 1, height, 1, "azimuth", (0.0, 0.0), "axis", azimuth, azimuth, radius,
                  radius, radius + 5.0, radius + 12.7)  # fmt: skip


def holes(face: str) -> tuple[DepthHole, ...]:
    """A grid of holes that are not symmetric about the axis."""
    return tuple(
        DepthHole("Top", face, x, y, 54.0 if face == "top" else 0.0, depth, depth + 0.2, stop, "twist 118° 8 mm")
        for x, y, depth, stop in ((-30.0, 0.0, 12.0, 2), (60.0, 30.0, 9.5, 1), (90.0, -60.0, 9.5, 1))
    )


def depth_map(face: str) -> DepthMap:
    stops = (Stop("Top", face, 1, 9.5, 2, "twist 118° 8 mm"), Stop("Top", face, 2, 12.0, 1, "twist 118° 8 mm"))
    bit = Bit("twist 118° 8 mm", "twist", 8.0, 2.4)
    return DepthMap("Top", face, bit, 2.0, 30.0, holes(face), stops, (("too shallow", 7),))


def profile() -> SectionTemplate:
    """A trapezium 300 × 450 with a gauge to its right, at azimuth 0."""
    form = shapely.Polygon([(-150, 0), (150, 0), (80, 450), (-80, 450)])
    gauge = shapely.box(0, 0, 190, 450).difference(form)
    marks = (DatumLine("glue line 1/2", (-190.0, 45.0), (190.0, 45.0)), DatumLine("axis", (0.0, -40.0), (0.0, 490.0)))
    return SectionTemplate("Pedestal", "at 0°", "vertical", (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0), 0.0,
                    MultiPolygon([form]), (Gauge("right", MultiPolygon([gauge]), True),), marks)  # fmt: skip


def carved(units: str = "mm", rate: float | None = 0.5) -> Plan:
    offsets = tuple(ball_row(h, a) for h in (90.0, 135.0, 225.0) for a in range(0, 360, 15))
    steps = (CarvingStep("Pedestal", 1, 45.0, 18.8, (10.0, 19.1), (3.4, 4.2), (), ()),
             CarvingStep("Pedestal", 2, 90.0, 0.0, None, None, (), ()))  # fmt: skip
    removed = (Removed("Pedestal", 1, 3.29e6, 2.89e6, 0.8 if rate else None),
               Removed("Pedestal", 2, 2.69e6, 2.03e6, 1.3 if rate else None))  # fmt: skip
    guide = CarvingPlan(offsets, (profile(),), (depth_map("top"), depth_map("bottom")), steps, removed, rate)
    return replace(plant_stand(units), carving=guide)


def pages(kind: str, units: str = "mm", paper: str = "A4", rate: float | None = 0.5) -> list[Sheet]:
    return [s for s in drawing_book(carved(units, rate), paper_named(paper), units) if s.kind == kind]


def said(sheets: list[Sheet]) -> list[str]:
    return [m.text for s in sheets for m in s.marks if isinstance(m, Text)]


def lines(sheet: Sheet, pen: str) -> list[np.ndarray]:
    return [np.asarray(m.points) for m in sheet.marks if isinstance(m, Polyline) and m.pen == pen]


@pytest.mark.parametrize(("paper", "units"), [("A4", "mm"), ("Letter", "in"), ("A3", "mm+in"), ("Letter", "in/64+mm")])
def test_nothing_lies_on_anything_else(paper: str, units: str) -> None:
    for sheet in drawing_book(carved(), paper_named(paper), units):
        if sheet.kind in ("carving", "offsets", "section", "depth holes"):
            words = [m for m in sheet.marks if isinstance(m, Text)]
            boxes = [text_box(m, room=-0.15) for m in words]
            page = shapely.box(9.9, 9.2, sheet.paper[0] - 9.9, sheet.paper[1] - 9.9)
            assert not [m.text for m, box in zip(words, boxes) if not page.contains(box)], sheet.title
            one, other = shapely.STRtree(boxes).query(boxes, predicate="intersects")
            pairs = [(words[a].text, words[b].text) for a, b in zip(one, other) if a < b]
            assert not pairs, f"{pairs} lie on each other in {sheet.title}"


def test_offsets_of_a_ball_as_they_are_read() -> None:
    words = said(pages("offsets"))
    # sqrt(200² − 135²) = 147.56; edges 5 and 12.7 mm further out.
    for figure in ("147.6", "152.6", "160.3", "200", "205", "212.7", "345°"):
        assert figure in words
    assert words.count("12.7") == 3 * 24
    assert "glue line 2/3, at 90 mm" in words
    inches = said(pages("offsets", "in", "Letter"))
    # 200 mm is 7.8740 in = 7-28/32; 147.56 mm is 5.8095 in = 5-25.9/32; 12.7 mm is 1/2 in.
    for figure in ("7-7/8", "5-13/16", "1/2"):
        assert figure in inches


def test_a_step_on_the_glue_line_shows_both_radii() -> None:
    plan = carved()
    assert plan.carving is not None
    row = replace(plan.carving.offsets[0], radius_below=120.0, radius_above=110.5, inner=(40.0,))
    plan = replace(plan, carving=replace(plan.carving, offsets=(row,)))
    words = said([s for s in drawing_book(plan, paper_named("A4")) if s.kind == "offsets"])
    assert "120/110.5" in words
    assert "further in: 40" in words


def test_the_profile_and_its_gauge_are_true_size() -> None:
    sheets = pages("section")
    titles = {s.title.rpartition(", ")[0] for s in sheets}
    assert titles == {"Pedestal, section at 0°, profile", "Pedestal, section at 0°, gauge, right"}
    for title, area in (("profile", profile().form), ("gauge", profile().gauges[0].area)):
        found = [s for s in sheets if title in s.title]
        # Chains of the cut line on all pages, less what the overlap shows twice.
        lengths = sum(shapely.LineString(p).length for s in found for p in lines(s, "cut") if len(p) >= 2)
        samples = 14.0 * len(found)  # the sample of the line kind in each strip
        assert area.boundary.length <= lengths - samples <= area.boundary.length + 8 * 24.0
        assert all(s.scale == 1.0 for s in found)
    words = said(sheets)
    for wanted in (
        "PROFILE",
        "GAUGE",
        "glue line 1/2",
        "FOOT",
        "hold it against the right side; it bridges hollows there",
    ):
        assert wanted in words
    assert all(s.origin is None for s in sheets)


def test_holes_of_the_top_lie_where_the_plan_says() -> None:
    sheets = [s for s in pages("depth holes") if s.tile and ", top," in s.title]
    found = set()
    for sheet in sheets:
        for ring in lines(sheet, "thin"):
            if len(ring) > 12:
                middle = (ring.min(axis=0) + ring.max(axis=0)) / 2
                assert np.ptp(ring, axis=0) == pytest.approx([8.0, 8.0], abs=0.05)
                found.add(tuple(np.round(sheet.to_stack(*middle), 2) + 0.0))
    assert found == {(h.x, h.y) for h in holes("top")}
    assert {"1: 9.5", "2: 12"} <= set(said(sheets))


def test_the_underside_is_seen_from_below() -> None:
    """Laid on the underside, the map has the stack's +x on its left where FRONT points to the foot."""
    sheets = [s for s in pages("depth holes", paper="A1") if s.tile and "underside" in s.title]
    (sheet,) = sheets
    assert sheet.origin is None
    axis = next(m for m in sheet.marks if isinstance(m, Text) and m.text == "axis")
    rings = [p for p in lines(sheet, "thin") if len(p) > 12]
    centres = np.array([(p.min(axis=0) + p.max(axis=0)) / 2 for p in rings])
    cross = [p for p in lines(sheet, "centre") if len(p) == 2 and np.hypot(*(p[1] - p[0])) > 100]
    level = next(p for p in cross if p[0][1] == p[1][1])
    upright = next(p for p in cross if p[0][0] == p[1][0])
    origin = np.array([upright[0][0], level[0][1]])
    assert abs(axis.at[0] - origin[0]) < 60
    away = {tuple(np.round(c - origin, 2) + 0.0) for c in centres}
    # Left and right exchanged; then as it is, or turned by a quarter with the drawing.
    either = ({(-h.x, h.y) for h in holes("bottom")}, {(h.y, h.x) for h in holes("bottom")})
    assert any(away == turned for turned in either)
    assert {"LEFT", "FRONT"} <= set(said(sheets))


def test_the_schedule_groups_by_stop() -> None:
    words = said([s for s in pages("depth holes") if "schedule" in s.title])
    for wanted in ("Stop 1: 9.5 mm deep", "Stop 2: 12 mm deep", "-30", "90", "-60"):
        assert wanted in words
    every = " ".join(" ".join(words).split())
    assert "its point leads by 2.4 mm" in every
    assert "Left out: 7 places, too shallow." in every
    inches = said([s for s in pages("depth holes", "in") if "schedule" in s.title])
    assert "Stop 1: 3/8 in deep" in inches  # 9.5 mm is 0.3740 in


def test_the_guide_says_what_is_left_and_no_time_without_a_rate() -> None:
    words = said(pages("carving"))
    for wanted in ("1/2", "18.8", "10 to 19.1", "3.4 to 4.2", "flush", "0.40", "0.66", "1.06", "2.1"):
        assert wanted in words
    assert any("0.5 litres an hour" in w for w in words)
    untimed = said(pages("carving", rate=None))
    assert "hours" not in untimed
    assert any("No time is stated" in w for w in untimed)
