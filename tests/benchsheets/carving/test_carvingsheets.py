# SPDX-License-Identifier: LGPL-2.1-or-later

"""Offsets, section templates, depth holes and the carving guide: hand-made records, read back from the pages."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from math import sqrt

import numpy as np
import pytest
import shapely
from plans import plant_stand
from shapely import MultiPolygon

from freecad_stacklam.benchsheets.book.whole import KINDS, drawing_book
from freecad_stacklam.benchsheets.carving.depthsheets import STOP_MARKS
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


@cache
def carved(units: str = "mm", rate: float | None = 0.5) -> Plan:
    offsets = tuple(ball_row(h, a) for h in (90.0, 135.0, 225.0) for a in range(0, 360, 15))
    steps = (CarvingStep("Pedestal", 1, 45.0, 18.8, (10.0, 19.1), (3.4, 4.2), (), ()),
             CarvingStep("Pedestal", 2, 90.0, 0.0, None, None, (), ()))  # fmt: skip
    removed = (Removed("Pedestal", 1, 3.29e6, 2.89e6, 0.8 if rate else None),
               Removed("Pedestal", 2, 2.69e6, 2.03e6, 1.3 if rate else None))  # fmt: skip
    guide = CarvingPlan(offsets, (profile(),), (depth_map("top"), depth_map("bottom")), steps, removed, rate)
    return replace(plant_stand(units), carving=guide)


@cache
def carved_book(units: str, paper: str, rate: float | None) -> tuple[Sheet, ...]:
    return drawing_book(carved(units, rate), paper_named(paper), units)


def pages(kind: str, units: str = "mm", paper: str = "A4", rate: float | None = 0.5) -> list[Sheet]:
    return [s for s in carved_book(units, paper, rate) if s.kind == kind]


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


def cells(sheets: list[Sheet], row: str, title: str = "Finished surface, from the axis") -> list[str]:
    """The figures of a direction's row under a table's title, from left to right, over all its parts."""
    found: list[str] = []
    for sheet in sheets:
        words = [m for m in sheet.marks if isinstance(m, Text)]
        for head in (m for m in words if m.text.startswith(title)):
            under = [m for m in words if m.at[1] < head.at[1] and m.text == row and m.align == "left"]
            if under:
                level = max(m.at[1] for m in under)
                found += [m.text for m in sorted(words, key=lambda m: m.at[0]) if m.at[1] == level and m.text != row]
    return found


def offset_pages(plan: Plan, units: str = "mm", paper: str = "A4") -> list[Sheet]:
    others = [kind for kind in KINDS if kind != "offsets"]
    return [s for s in drawing_book(plan, paper_named(paper), units, without=others) if s.kind == "offsets"]


def test_offsets_of_a_ball_as_they_are_read() -> None:
    sheets = pages("offsets")
    assert cells(sheets, "height") == ["90", "135", "225"]
    assert cells(sheets, "glue line") == ["2/3", "3/4", "5/6"]
    for row in ("0°", "15°", "345°"):
        # sqrt(200² − 135²) = 147.56; sqrt(200² − 90²) = 178.61; edges at most 12.7 mm further out.
        assert cells(sheets, row) == ["147.6", "178.6", "200"]
        assert cells(sheets, row, "To carve off") == ["12.7", "12.7", "12.7"]
    inches = pages("offsets", "in", "Letter")
    # 147.56 mm is 5.8095 in = 5-25.9/32; 178.61 is 7.0318 = 7-1.02/32; 200 mm is 7.8740 in = 7-28/32; 12.7 mm is 1/2.
    assert cells(inches, "345°") == ["5-13/16", "7-1/32", "7-7/8"]
    assert cells(inches, "0°", "To carve off") == ["1/2", "1/2", "1/2"]


def test_a_step_on_the_glue_line_shows_both_radii() -> None:
    plan = carved()
    assert plan.carving is not None
    row = replace(plan.carving.offsets[0], radius_below=120.0, radius_above=110.5, inner=(40.0, 25.0))
    other = replace(plan.carving.offsets[30], at=row.at, direction=row.direction)
    sheets = offset_pages(replace(plan, carving=replace(plan.carving, offsets=(row, other))))
    assert cells(sheets, "0°") == ["120/110.5", "178.6"]
    # Every further crossing has its own row, under the columns that have one.
    words = said(sheets)
    assert words.count("  further in") == 2
    assert {"40", "25"} <= set(words)


def test_islands_have_a_table_of_their_own_with_their_middles() -> None:
    plan = carved()
    assert plan.carving is not None
    row = plan.carving.offsets[0]
    legs = tuple(
        replace(row, piece=n, about="own centre", centre=(x, -12.0), radius_below=30.0 + n, radius_above=30.0 + n,
                edge_below=None, edge_above=None, note="the blank of the layer below runs on into another piece")
        for n, x in ((1, 80.0), (2, -80.5))
    )  # fmt: skip
    sheets = offset_pages(replace(plan, carving=replace(plan.carving, offsets=(row, *legs))))
    title = "Finished surface, from each piece's own middle"
    assert cells(sheets, "0°", title) == ["31", "32"]
    assert cells(sheets, "middle at x", title) == ["80", "-80.5"]
    assert cells(sheets, "piece", title) == ["1", "2"]
    assert cells(sheets, "0°", "To carve off, along the ray from each") == ["*", "*"]
    assert cells(sheets, "0°") == ["147.6"]
    assert any(w.startswith("• A star") for w in said(sheets))


def test_many_glue_lines_go_on_with_the_directions_repeated() -> None:
    plan = carved()
    assert plan.carving is not None
    many = tuple(replace(ball_row(225.0, a), height=float(h), below=h, above=h + 1) for h in range(30) for a in (0, 90))
    sheets = offset_pages(replace(plan, carving=replace(plan.carving, offsets=many)))
    assert cells(sheets, "height") == [str(h) for h in range(30)]
    assert cells(sheets, "90°") == ["200"] * 30
    parts = sum(m.startswith("Finished surface") for m in said(sheets))
    assert parts >= 3
    assert said(sheets).count("90°") == 2 * parts
    # A table that a page can hold is never parted.
    assert not [
        w for s in (sheets, pages("offsets"), pages("offsets", "in", "Letter")) for w in said(s) if "(cont" in w
    ]


@pytest.mark.parametrize("along", [0.0, 30.0, 150.0, 200.0])
def test_stations_tell_left_from_right(along: float) -> None:
    plan = carved()
    assert plan.carving is not None
    c, s = np.cos(np.radians(along)), np.sin(np.radians(along))
    row = replace(plan.carving.offsets[0], kind="station")
    rows = tuple(
        replace(row, at=at, centre=(at * c, at * s), direction=(along + turn) % 360, radius_below=r, radius_above=r)
        for at, turn, r in ((-40.0, 90, 61.0), (-40.0, -90, 62.0), (40.0, -90, 64.0))
    )
    sheets = offset_pages(replace(plan, carving=replace(plan.carving, offsets=rows)))
    title = "Finished surface, from the centre line"
    assert [cells(sheets, k, title) for k in ("-40 left", "-40 right", "40 right")] == [["61"], ["62"], ["64"]]


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
        "PATTERN",
        "GAUGE",
        "glue line 1/2",
        "FLOOR",
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


def test_every_stop_has_its_own_mark_in_its_holes() -> None:
    (sheet,) = [s for s in pages("depth holes", paper="A1") if s.tile and ", top," in s.title]
    # The hole of stop 2 has a triangle in its circle, those of stop 1 have none.
    triangles = [p for p in lines(sheet, "thin") if len(p) == 4]
    assert [tuple(np.round(sheet.to_stack(*p[:3].mean(axis=0)), 2) + 0.0) for p in triangles] == [(-30.0, 0.0)]
    assert "marks: 1 plain, 2 triangle" in said([sheet])
    assert len({name for name, _, _ in STOP_MARKS}) == len({(n, a) for _, n, a in STOP_MARKS}) == 6


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
    for wanted in ("Stop 1 (plain): 9.5 mm deep", "Stop 2 (triangle): 12 mm deep", "-30", "90", "-60"):
        assert wanted in words
    every = " ".join(" ".join(words).split())
    assert "its point leads by 2.4 mm" in every
    assert "Left out: 7 places, too shallow." in every
    inches = said([s for s in pages("depth holes", "in") if "schedule" in s.title])
    assert "Stop 1 (plain): 11/32 in deep" in inches  # 9.5 mm is 0.3740 in: 3/8 in would be deeper than is allowed
    every = " ".join(" ".join(inches).split())
    # 2 mm are 2.5 of 1/32 in, a point of 2.4 mm is 3.02 of them; the bit is asked for by the name it is sold under.
    assert "Every hole stops 1/16 in or more above" in every and "8 mm wide; its point leads by 1/8 in" in every
    (strip,) = {t for t in said([s for s in pages("depth holes", "in") if s.tile]) if t.startswith("bit twist")}
    assert strip == "bit twist 118° 8 mm, Ø 8 mm; leaves 1/16 in"


def test_the_guide_says_what_is_left_and_no_time_without_a_rate() -> None:
    words = said(pages("carving"))
    for wanted in ("1/2", "18.8", "10 to 19.1", "3.4 to 4.2", "flush", "0.40", "0.66", "1.06", "2.1"):
        assert wanted in words
    assert any("0.5 litres an hour" in w for w in words)
    untimed = said(pages("carving", rate=None))
    assert "hours" not in untimed
    assert any("No time is stated" in w for w in untimed)


def test_the_rate_of_a_plan_in_inches_is_in_cubic_inches() -> None:
    """1 litre is 61.02 in³: half of it an hour is 31."""
    words = " ".join(said(pages("carving", "in")))
    assert "31 in³ an hour" in words and "litres" not in words
    untimed = " ".join(said(pages("carving", "in", rate=None)))
    assert "how many in³ (61 are a litre)" in " ".join(untimed.split())


def test_kinds_that_are_left_out_take_their_sheets_and_no_others() -> None:
    plan = carved()
    whole = drawing_book(plan, paper_named("A3"))
    kinds = {"carving", "depth holes", "offsets", "section"}
    assert {s.kind for s in whole} >= kinds
    for some in (sorted(kinds)[::2], sorted(kinds)[1::2], sorted(kinds)[:3]):
        rest = drawing_book(plan, paper_named("A3"), without=some)
        told = [[(s.kind, s.title, s.tile) for s in book if s.kind != "contents"] for book in (whole, rest)]
        assert told[1] == [sheet for sheet in told[0] if sheet[0] not in some], some
