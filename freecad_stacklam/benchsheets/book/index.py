# SPDX-License-Identifier: LGPL-2.1-or-later

"""The index of a book that plan.json carries."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from freecad_stacklam.benchsheets.drawing.sheet import Sheet


def sheet_index(sheets: Iterable[Sheet]) -> list[dict[str, Any]]:
    """The `sheets` of plan.json: what is on each page and where the page lies on its layer.

    `origin` is the stack-frame point at the page's lower left corner and `turn` the degrees from the stack's x to the
    page's x; both None on pages that show no layer in plan. On a mirrored page both are those of a frame whose x runs
    the other way.
    """
    return [
        {
            "page": sheet.page,
            "kind": sheet.kind,
            "stack": sheet.stack or None,
            "layer": sheet.layer,
            "tile": sheet.tile or None,
            "paper": [round(side, 4) for side in sheet.paper],
            "scale": sheet.scale,
            "origin": None if sheet.origin is None else [round(value, 6) for value in sheet.origin],
            "turn": None if sheet.origin is None else sheet.turn,
            "mirrored": sheet.mirrored,
            "title": sheet.title,
        }
        for sheet in sheets
    ]
