# SPDX-License-Identifier: LGPL-2.1-or-later

"""The shop of a document, and its cutting plan: made, kept, and brought up to date."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path
from typing import Any

from freecad_stacklam.docobjects.base.family import cutting_in, shop_in
from freecad_stacklam.docobjects.base.properties import set_result
from freecad_stacklam.docobjects.base.protocols import CuttingObject, Document, ShopObject
from freecad_stacklam.docobjects.base.rowproperties import fill
from freecad_stacklam.docobjects.cutting import Cutting
from freecad_stacklam.docobjects.making.single import the_one
from freecad_stacklam.docobjects.reading.insides import finished_stacks
from freecad_stacklam.docobjects.reading.wood import key_of, wood_settings
from freecad_stacklam.docobjects.shop import Shop
from freecad_stacklam.lamination.boards.keptplan import plan_text
from freecad_stacklam.lamination.options.rows import rows_of
from freecad_stacklam.lamination.plan.boards import BoardsPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.shop import ShopSettings


def make_shop(document: Document, settings: ShopSettings) -> ShopObject:
    """The document's shop with these settings; made if there is none. Part of the caller's undo step if one is open."""
    shop = the_one(document, shop_in, Shop)
    fill(shop, settings)
    shop.Given = [row.name for row in rows_of(ShopSettings) if row.property and row.name in settings.given]
    rest: dict[str, Any] = {}
    if settings.band_saw is not None:
        rest["band_saw"] = asdict(settings.band_saw)
    if settings.bits:
        rest["bits"] = [asdict(bit) for bit in settings.bits]
    shop.Rest = json.dumps(rest) if rest else ""
    return shop


def keep_cutting(document: Document, plan: BoardsPlan, key: str, picture: str | Path = "") -> CuttingObject:
    """Keep a plan in the document; the object is made if there is none. Part of the caller's undo step if one is open.

    key: key_of what the plan was made for. picture: a file with the boards drawn, copied into the document. Raises
    Refusal.
    """
    cutting = the_one(document, cutting_in, Cutting, "Cutting plan")
    set_result(cutting, "Kept", plan_text(plan))
    set_result(cutting, "KeptFor", key)
    if picture:
        cutting.Picture = str(picture)
    cutting.recompute()
    cutting.purgeTouched()
    return cutting


def match_cutting(document: Document) -> None:
    """Bring the cutting plan up to date when anything that it depends on has changed."""
    cutting = cutting_in(document)
    if cutting is None:
        return
    try:
        key = key_of(finished_stacks(document), wood_settings(document))
    except Refusal:
        key = ""  # what is wrong is said by the object itself
    if key != cutting.ShownFor or "Invalid" in cutting.State:
        cutting.recompute()
        if "Invalid" not in cutting.State:
            cutting.purgeTouched()
