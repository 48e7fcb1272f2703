# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Shop object: how boards are sawn and staves are made in this shop. A document needs no more than one."""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import Any

from freecad_stacklam.docobjects.base.properties import Property
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.views import kind_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.rows import Record, rows_of
from freecad_stacklam.lamination.settings.shop import FIRST_CUTS, BandSaw, Bit, ShopSettings

_FIRST = ShopSettings()
#: A key of the settings file's [shop] → the property that holds it.
KEYS = {row.name: row.property for row in rows_of(ShopSettings) if row.property}


class Shop(Proxy):
    """Saw and staves. The name of this class is written in users' files and never changes."""

    KIND = "shop"
    PROPERTIES = (
        Property("Length", "Kerf", "Saw", "Wood that the saw turns into dust", _FIRST.kerf),
        Property("Length", "EndTrim", "Saw", "Lost at each end of a board to checks and grit", _FIRST.end_trim),
        Property(
            "Enumeration", "FirstCut", "Saw", "crosscut or rip the boards first, or whichever costs less (better)",
            list(FIRST_CUTS),
        ),
        Property("Length", "Planing", "Saw", "Most that may be planed off a board's thickness", _FIRST.planing),
        Property("Length", "Jointing", "Staves", "Added to the width for every edge that is glued", _FIRST.jointing),
        Property("Length", "StaveTrim", "Staves", "Added at each end of a stave", _FIRST.stave_trim),
        Property("Length", "Stagger", "Staves", "Least distance of a seam from one in the layer below", _FIRST.stagger),
        Property("Length", "MinStave", "Staves", "A stave is at least this wide", _FIRST.min_stave),
        Property("Length", "MaxStave", "Staves", "A stave is at most this wide, without a rack", _FIRST.max_stave),
        Property(
            "Length", "SeamMargin", "Staves", "Least distance of a seam from joints and outline extremes",
            _FIRST.seam_margin,
        ),
        Property(
            "Integer", "SpareStaves", "Staves", "How many of the largest staves of each stock are cut once more",
            _FIRST.spare_staves,
        ),
        Property("Float", "GlueSpread", "Glue", "Glue on one face, g/m²", _FIRST.glue_spread),
        Property("StringList", "Given", "Shop", "Keys that were given, as in a settings file", hidden=True),
        Property("String", "Rest", "Shop", "Band saw and bits, as JSON", hidden=True),
    )  # fmt: skip


def shop_in(document: Any) -> Any:
    """The document's shop, or None."""
    return next((o for o in document.Objects if kind_of(o) == "shop"), None)


def settings_of_shop(shop: Any) -> ShopSettings:
    """What the maker chose; the first values without a shop. Raises Refusal when a value cannot be."""
    if shop is None:
        return _FIRST
    values = {key: getattr(shop, name) for key, name in KEYS.items()}
    values = {key: getattr(value, "Value", value) for key, value in values.items()}
    return ShopSettings(**values, **_rest(shop), given=tuple(shop.Given))


def _rest(shop: Any) -> dict[str, Any]:
    """Band saw and bits. What other rooms may once have kept there is left alone: nothing ever read it."""
    if not shop.Rest:
        return {}
    try:
        read = json.loads(shop.Rest)
    except ValueError:
        raise Refusal(
            f"The further settings of “{shop.Label}” cannot be read: empty its hidden property Rest."
        ) from None
    rest: dict[str, Any] = {}
    if "band_saw" in read:
        rest["band_saw"] = BandSaw(**_known(BandSaw, read["band_saw"]))
    if "bits" in read:
        rest["bits"] = tuple(Bit(**_known(Bit, bit)) for bit in read["bits"])
    return rest


def _known(record: type[Record], facts: dict[str, Any]) -> dict[str, Any]:
    names = [row.name for row in rows_of(record)]
    return {name: value for name, value in facts.items() if name in names}


def make_shop(document: Any, settings: ShopSettings) -> Any:
    """The document's shop with these settings; made if there is none. Part of the caller's undo step if one is open."""
    shop = shop_in(document)
    if shop is None:
        shop = document.addObject("App::FeaturePython", "Shop")
        Shop(shop)
        shop.Label = "Shop"
    for key, name in KEYS.items():
        setattr(shop, name, getattr(settings, key))
    shop.Given = [name for name in settings.given if name in KEYS]
    rest: dict[str, Any] = {}
    if settings.band_saw is not None:
        rest["band_saw"] = asdict(settings.band_saw)
    if settings.bits:
        rest["bits"] = [asdict(bit) for bit in settings.bits]
    shop.Rest = json.dumps(rest) if rest else ""
    return shop
