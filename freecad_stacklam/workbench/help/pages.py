# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which help page belongs to which command, panel or window. The pages are Markdown, readable on their own."""

from __future__ import annotations

from pathlib import Path

FOLDER = Path(__file__).resolve().parents[3] / "docs" / "help"
CONTENTS = "contents"

#: Name of a command, or objectName of a panel or a window → page.
PAGES = {
    "StackLam_SliceForm": "slice-form",
    "StackLam_AddJoint": "mortise-and-tenon",
    "StackLam_SetPins": "set-pins",
    "StackLam_HollowLayers": "hollow-the-layers",
    "StackLam_BoardRack": "board-rack",
    "StackLam_CutBoards": "cut-the-boards",
    "StackLam_PlanGlueUp": "plan-the-glue-up",
    "StackLam_CarvingGuide": "carving-guide",
    "StackLam_FinishedPiece": "finished-piece",
    "StackLam_CheckStack": "check-the-stacks",
    "StackLam_LayerDrawings": "layer-drawings",
    "StackLam_Bill": "bill-of-wood",
    "StackLam_Example": "example",
    "StackLam_FirstPiece": "first-piece",
    "StackLam_Help": CONTENTS,
    "StackLamChecks": "check-the-stacks",
    "StackLam_StartPage": "preferences",
    "StackLam_ShopPage": "preferences",
}


def page_of(name: str) -> str:
    """The page of a command, panel or window; "" for what is none of ours."""
    if name in PAGES:
        return PAGES[name]
    return CONTENTS if name.startswith("StackLam_") else ""


def path_of(page: str) -> Path:
    """Where a page lies."""
    return FOLDER / f"{page}.md"
