# SPDX-License-Identifier: LGPL-2.1-or-later

"""The printed book, judged from outside: pypdf reads the pages, poppler rasterises them, shapely holds the outlines."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import numpy as np
import pypdf
import pytest
import shapely
from plans import plant_stand
from raster import Raster, rasters
from sheetsof import template_sheets

from freecad_stacklam.benchsheets.book.index import sheet_index
from freecad_stacklam.benchsheets.book.whole import drawing_book
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Polyline, Sheet, Text
from freecad_stacklam.lamination.plan.layers import LayerPlan
from freecad_stacklam.lamination.plan.outline import area_polygon
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal

pytestmark = pytest.mark.freecad

#: The cut line must be found this near to the plan's outline, mm.
NEAR = 0.1
#: Half of the cut line, which is 0.7 mm wide (the widest of a group of ISO 128, from memory).
HALF_WIDE = 0.35


def write(sheets: tuple[Sheet, ...], path: Path) -> Path:
    from freecad_stacklam.sheetwriters.pdf import write_pdf

    write_pdf(sheets, path)
    return path


def of_layer(sheets: tuple[Sheet, ...], stack: str, number: int) -> tuple[Sheet, ...]:
    return tuple(s for s in sheets if s.stack == stack and s.layer == number and s.kind == "template")


def layer(plan: Plan, stack: str, number: int) -> LayerPlan:
    return next(s for s in plan.stacks if s.name == stack).layers[number - 1]


def page_points(entry: dict, points: np.ndarray) -> np.ndarray:
    """Stack points on the page, from what the index says and nothing else."""
    turn = np.radians(entry["turn"])
    to_page = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    return (points - np.array(entry["origin"])) @ to_page * entry["scale"]


def stack_points(entry: dict, points: np.ndarray) -> np.ndarray:
    turn = np.radians(entry["turn"])
    to_stack = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    return points / entry["scale"] @ to_stack + np.array(entry["origin"])


CASES = [
    ("A4", "Pedestal", 1),
    ("A4", "Pedestal", 9),
    ("Letter", "Top", 2),
    ("roll 610mm", "Top", 1),
    ("A3", "Pedestal", 2),
]


@pytest.mark.parametrize(("paper", "stack", "number"), CASES)
def test_cut_line_is_where_the_plan_says(tmp_path: Path, paper: str, stack: str, number: int) -> None:
    plan = plant_stand()
    sheets = of_layer(template_sheets(plan, paper_named(paper), "mm"), stack, number)
    everything = rasters(write(sheets, tmp_path / "all.pdf"), 1, len(sheets))
    bare = tuple(
        replace(s, marks=tuple(m for m in s.marks if isinstance(m, Polyline) and m.pen == "cut" and len(m.points) > 2))
        for s in sheets
    )
    only_cut = rasters(write(bare, tmp_path / "cut.pdf"), 1, len(sheets))
    boundary = shapely.boundary(area_polygon(layer(plan, stack, number).blank))
    spots = shapely.get_coordinates(shapely.segmentize(boundary, 2.0))
    seen = np.zeros(len(spots), dtype=bool)
    worst = 0.0
    shapely.prepare(boundary)
    for entry, page, cut in zip(sheet_index(sheets), everything, only_cut, strict=True):
        on_page = page_points(entry, spots)
        width, height = entry["paper"]
        inside = ((on_page > [18.8, 47.8]) & (on_page < [width - 10.8, height - 10.8])).all(axis=1)
        # From the outline to the ink: the middle of the dark line, measured square to the outline.
        off = _middles(cut, on_page)
        seen |= inside & np.isfinite(off)
        assert np.isfinite(off[inside]).all(), "part of the cut line is missing on this page"
        worst = max(worst, float(np.abs(off[inside]).max(initial=0.0)))
        assert (page.at(on_page[inside]) > 0.5).all(), "the cut line is interrupted or covered"
        # From the ink to the outline.
        dark = shapely.points(stack_points(entry, cut.dark()))
        assert shapely.distance(boundary, dark).max(initial=0.0) < HALF_WIDE + NEAR
    assert seen.all(), f"{(~seen).sum()} of {len(seen)} points of the outline are on no page"
    assert worst < NEAR
    print(f"{paper} {stack} {number}: cut line off by {worst:.3f} mm at most")


def _middles(page: Raster, points: np.ndarray) -> np.ndarray:
    """Offset of the dark line's middle along the normal at each point of a closed chain; nan where there is no ink."""
    tangent = np.roll(points, -1, axis=0) - np.roll(points, 1, axis=0)
    normal = np.column_stack([-tangent[:, 1], tangent[:, 0]]) / np.maximum(np.hypot(*tangent.T), 1e-9)[:, None]
    way = np.linspace(-0.7, 0.7, 57)
    ink = page.at(points[:, None, :] + normal[:, None, :] * way[None, :, None])
    total = ink.sum(axis=1)
    with np.errstate(invalid="ignore", divide="ignore"):
        return np.where(total > 4.0, (ink * way).sum(axis=1) / total, np.nan)


@pytest.mark.parametrize(("paper", "units"), [("A4", "mm"), ("Letter", "in"), ("roll 610mm", "mm")])
def test_check_scales_measure_true_on_every_kind_of_page(tmp_path: Path, paper: str, units: str) -> None:
    sheets = drawing_book(plant_stand(units), paper_named(paper), units, cautions=(("Sanding", ("Wear a mask.",)),))
    kinds: dict[str, Sheet] = {}
    for sheet in sheets:
        kinds.setdefault(sheet.kind, sheet)
    assert set(kinds) == {"contents", "overview", "bill", "layer", "template", "joint", "cautions"}
    chosen = tuple(kinds.values())
    for page in rasters(write(chosen, tmp_path / "kinds.pdf"), 1, len(chosen)):
        for corner, side in ((11.0, 100.0), (14.8, 101.6)):  # margins' corner + where the squares stand
            level = corner + 1.8
            across = page.lines_across((5.0, level), (corner + side + 1.0, level))
            up = page.lines_across((level, 5.0), (level, corner + side + 1.0))
            for found in (across, up):
                start = min(found, key=lambda v, c=corner: abs(v - (c - 5.0)))
                assert found[-1] - start == pytest.approx(side, abs=0.1)


def test_neighbours_carry_the_same_crosses(tmp_path: Path) -> None:
    sheets = of_layer(template_sheets(plant_stand(), paper_named("A4")), "Top", 2)
    pages = rasters(write(sheets, tmp_path / "top.pdf"), 1, len(sheets))
    found: dict[tuple[int, int], list[np.ndarray]] = {}
    for sheet, entry, page in zip(sheets, sheet_index(sheets), pages, strict=True):
        fine = [np.asarray(m.points) for m in sheet.marks if isinstance(m, Polyline) and m.pen == "fine"]
        arms = [p for p in fine if len(p) == 2 and np.hypot(*(p[1] - p[0])) == pytest.approx(10.0)]
        level, upright = [p for p in arms if p[0][1] == p[1][1]], [p for p in arms if p[0][0] == p[1][0]]
        assert len(level) == len(upright) >= 4
        for x, y in (p.mean(axis=0) for p in level):
            dx = page.lines_across((x - 1.0, y + 3.0), (x + 1.0, y + 3.0))
            dy = page.lines_across((x - 3.0, y - 1.0), (x - 3.0, y + 1.0))
            if len(dx) != 1 or len(dy) != 1:
                continue  # a line of the drawing runs through this arm
            measured = np.array([x - 1.0 + dx[0], y - 1.0 + dy[0]])
            assert measured == pytest.approx([x, y], abs=0.06)
            place = stack_points(entry, measured[None])[0]
            found.setdefault(tuple(np.round(place / 2).astype(int)), []).append(place)
    pairs = [places for places in found.values() if len(places) > 1]
    assert len(pairs) >= 8
    for places in pairs:
        assert np.ptp(np.array(places), axis=0).max() < 0.1


# ISO 216 sizes in mm, US Letter in inches; a page in PDF is rounded to whole points of 1/72 in.
@pytest.mark.parametrize(
    ("name", "width", "height"),
    [("A4 portrait", 210, 297), ("A3 portrait", 297, 420), ("A2 portrait", 420, 594), ("A1 portrait", 594, 841),
     ("A0 portrait", 841, 1189), ("Letter portrait", 8.5 * 25.4, 11 * 25.4), ("B landscape", 17 * 25.4, 11 * 25.4),
     ("E portrait", 34 * 25.4, 44 * 25.4)],
)  # fmt: skip
def test_page_sizes(tmp_path: Path, name: str, width: float, height: float) -> None:
    sheets = template_sheets(plant_stand(), paper_named(name))[:1]
    box = pypdf.PdfReader(str(write(sheets, tmp_path / "size.pdf"))).pages[0].mediabox
    assert float(box.width) * 25.4 / 72 == pytest.approx(width, abs=0.18)
    assert float(box.height) * 25.4 / 72 == pytest.approx(height, abs=0.18)


def test_pages_of_mixed_sizes_keep_theirs(tmp_path: Path) -> None:
    sheets = drawing_book(plant_stand(), paper_named("A4"), "mm", full=paper_named("roll 610mm"))
    pages = pypdf.PdfReader(str(write(sheets, tmp_path / "mixed.pdf"))).pages
    assert len(pages) == len(sheets)
    for page, sheet in zip(pages, sheets, strict=True):
        assert float(page.mediabox.width) * 25.4 / 72 == pytest.approx(sheet.paper[0], abs=0.18)
        assert float(page.mediabox.height) * 25.4 / 72 == pytest.approx(sheet.paper[1], abs=0.18)
    assert len({sheet.paper for sheet in sheets}) > 2


def test_text_is_text(tmp_path: Path) -> None:
    plan = replace(plant_stand(), title="Blumenständer –\nÆbler", author="Žofie Ångström")
    sheets = drawing_book(plan, paper_named("A4"), "mm", cautions=(("Sanding", ("Wear a mask.",)),))
    # Qt writes its blanks so that some readers take them for tabs: any blank will do.
    pages = [
        " ".join(page.extract_text().split())
        for page in pypdf.PdfReader(str(write(sheets, tmp_path / "text.pdf"))).pages
    ]
    for number, (text, sheet) in enumerate(zip(pages, sheets, strict=True), start=1):
        assert "Blumenständer – Æbler" in text
        assert "Print at 100 % / actual size." in text
        assert "Measure the check scales before cutting." in text
        assert f"sheet {number} of {len(sheets)}" in text
        if sheet.kind == "template":
            assert "THIS FACE UP" in text
            assert "Žofie Ångström" in text


def test_a_pdf_is_whole_or_not_there(tmp_path: Path) -> None:
    sheets = template_sheets(plant_stand(), paper_named("A3"))[:1]
    with pytest.raises(Refusal, match="choose a folder"):
        write(sheets, tmp_path / "missing" / "drawings.pdf")
    broken = replace(sheets[0], marks=(*sheets[0].marks, Text((0.0, 0.0), "x", height=-1.0), object()))
    target = tmp_path / "drawings.pdf"
    target.write_bytes(b"the old one")
    with pytest.raises(TypeError, match="no mark"):
        write((broken,), target)
    assert target.read_bytes() == b"the old one"
    assert [p.name for p in tmp_path.iterdir()] == ["drawings.pdf"]
    write(sheets, target)
    assert target.read_bytes().startswith(b"%PDF")
    with pytest.raises(Refusal, match="no sheet"):
        write((), target)


def test_lines_are_vectors_and_pages_small(tmp_path: Path) -> None:
    sheets = template_sheets(plant_stand(), paper_named("A4"))
    path = write(sheets, tmp_path / "small.pdf")
    assert path.stat().st_size < 8000 * len(sheets)
    reader = pypdf.PdfReader(str(path))
    assert not any(list(page.images) for page in reader.pages)
    assert len({sheet.page for sheet in sheets}) == len(sheets)
    assert all(b.page - a.page == 1 for a, b in pairwise(sheets))


def test_something_stands_for_a_sign_that_no_font_has_and_the_page_says_so(tmp_path: Path) -> None:
    """U+E2FF is in a private-use area: no common font has it (The Unicode Standard, ch. 23.5)."""
    titled = replace(plant_stand(), title="Stand \ue2ff for Åse")
    found = []
    for plan in (titled, plant_stand()):
        write(template_sheets(plan, paper_named("A3"))[:2], tmp_path / "drawings.pdf")
        pages = pypdf.PdfReader(tmp_path / "drawings.pdf").pages
        found.append([" ".join(page.extract_text().split()) for page in pages])
    for text in found[0]:
        assert "Stand □ for Åse" in text
        assert "□ stands for U+E2FF: no font on this computer has it." in text
    assert not any("stands for" in text for text in found[1])
