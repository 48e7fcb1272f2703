# SPDX-License-Identifier: LGPL-2.1-or-later

"""Small section templates share pages: every outline is there, true to size, with its words, over nothing else."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
import shapely
from plans import plant_stand
from shapely.geometry import MultiPolygon

from freecad_stacklam.benchsheets.carving.sectionsheets import section_sheets
from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.lettering import text_box
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Polyline, Sheet, Text
from freecad_stacklam.lamination.plan.carving import CarvingPlan, DatumLine, Gauge, SectionTemplate


def template(kind: str, name: str, form: shapely.Polygon) -> SectionTemplate:
    x0, y0, x1, y1 = form.bounds
    gauge = shapely.box((x0 + x1) / 2, y0 - 10.0, x1 + 20.0, y1 + 10.0).difference(form)
    marks = (DatumLine("glue line 1/2", (x0 - 9.0, 20.0), (x1 + 9.0, 20.0)),) if kind == "vertical" else ()
    return SectionTemplate("Pedestal", name, kind, (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0),
                           0.0 if kind == "vertical" else None, MultiPolygon([form]),
                           (Gauge("right", MultiPolygon([gauge]), False),), marks)  # fmt: skip


#: The levels of a slim leg, a stub 60 high beside it, and a plate that is larger than a page.
LEVELS = [template("level", f"glue line {i}/{i + 1}", shapely.Point(3, 4).buffer(20.0 + i)) for i in range(1, 6)]
STUB = template("vertical", "at 0°", shapely.Polygon([(-30, 0), (30, 0), (20, 60), (-20, 60)]))
PLATE = template("level", "the plate", shapely.box(-200, -150, 200, 150))


def sheets_of(paper: str, *templates: SectionTemplate) -> list[Sheet]:
    plan = replace(plant_stand(), carving=CarvingPlan((), templates, (), (), (), None))
    return section_sheets(book_of(plan, paper_named(paper)), plan.stacks[0], plan.carving)


def said(sheets: list[Sheet]) -> list[str]:
    return [m.text for s in sheets for m in s.marks if isinstance(m, Text)]


@pytest.mark.parametrize("paper", ["A4", "Letter", "A3"])
def test_small_ones_share_pages_and_none_is_lost(paper: str) -> None:
    every = [*LEVELS, STUB]
    sheets = sheets_of(paper, *every)
    assert len(sheets) <= 3 and len(sheets) < len(every)  # of twelve outlines
    cut = [shapely.Polygon(m.points) for s in sheets for m in s.marks if isinstance(m, Polyline) and m.pen == "cut"
           and len(m.points) > 3]  # fmt: skip
    areas = sorted(p.area for p in cut)
    wanted = sorted(a for t in every for a in (t.form.area, t.gauges[0].area.area))
    assert areas == pytest.approx(wanted, rel=1e-6)
    words = said(sheets)
    for t in every:
        assert words.count(f"Pedestal, {t.name}") == 2, "the profile and its gauge"
    slim = shapely.Polygon([(-26, 0), (26, 0), (18, 200), (-18, 200)])
    assert "glue line 1/2" in said(sheets_of(paper, template("vertical", "at 0°", slim)))
    assert words.count("hold it against the right side") == len(every)


@pytest.mark.parametrize("paper", ["A4", "Letter", "A3"])
def test_they_keep_clear_of_each_other_and_of_the_strip(paper: str) -> None:
    for sheet in sheets_of(paper, *LEVELS, STUB):
        cut = [shapely.Polygon(m.points) for m in sheet.marks if isinstance(m, Polyline) and m.pen == "cut"
               and len(m.points) > 3]  # fmt: skip
        for i, one in enumerate(cut):
            assert shapely.box(10.0, 47.0, sheet.paper[0] - 10.0, sheet.paper[1] - 10.0).covers(one)
            assert all(one.distance(other) > 3.0 for other in cut[:i])
        boxes = [text_box(m, room=-0.15) for m in sheet.marks if isinstance(m, Text)]
        one, other = shapely.STRtree(boxes).query(boxes, predicate="intersects")
        assert not np.any(one < other)


def test_what_is_larger_than_a_page_is_tiled_as_ever() -> None:
    alone = sheets_of("A4", PLATE)
    both = sheets_of("A4", PLATE, *LEVELS)
    assert len(alone) > 2 and {s.title for s in alone} <= {s.title for s in both}
    (single,) = sheets_of("A4", replace(LEVELS[0], gauges=()))
    assert single.title.startswith("Pedestal, section glue line 1/2, profile"), "one alone has its page to itself"
