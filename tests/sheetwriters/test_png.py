# SPDX-License-Identifier: LGPL-2.1-or-later

"""Pictures of sheets for previews."""

from __future__ import annotations

import struct
from pathlib import Path

import pytest
from plans import plant_stand
from sheetsof import template_sheets

from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import FilledRegion, Sheet
from freecad_stacklam.lamination.refusal import Refusal

pytestmark = pytest.mark.freecad


def test_a_picture_has_the_size_of_its_page(tmp_path: Path) -> None:
    from freecad_stacklam.sheetwriters.png import sheet_image

    sheet = template_sheets(plant_stand(), paper_named("A4 portrait"))[0]
    assert sheet_image(sheet, 100).save(str(tmp_path / "page.png"), "PNG")
    data = (tmp_path / "page.png").read_bytes()
    # Portable Network Graphics, ISO/IEC 15948: width and height stand in the first chunk.
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    assert struct.unpack(">II", data[16:24]) == (round(210 / 25.4 * 100), round(297 / 25.4 * 100))
    with pytest.raises(Refusal, match="fewer dots"):
        sheet_image(sheet, 1e6)


def test_ink_is_where_the_sheet_says() -> None:
    from freecad_stacklam.sheetwriters.png import sheet_image

    patch = FilledRegion((((10, 20), (30, 20), (30, 40), (10, 40)), ((15, 25), (25, 25), (25, 35), (15, 35))))
    image = sheet_image(Sheet("template", "patch", (100.0, 80.0), (patch,)), 254)  # ten dots per mm
    dark = [
        image.pixelColor(x * 10, (80 - y) * 10).lightness() < 128 for x, y in ((12, 30), (20, 22), (20, 30), (50, 50))
    ]
    assert dark == [True, True, False, False]
