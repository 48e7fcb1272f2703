# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Shop object: how boards are sawn and staves are made in this shop. A document needs no more than one."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import fields
from typing import Any

from freecad_stacklam.docobjects.base.properties import Property
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.views import kind_of
from freecad_stacklam.lamination.boards.rack import shop_from
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.shop import ShopSettings

_FIRST = ShopSettings()
FIRST_CUTS = ("crosscut", "rip", "better")
#: A key of the settings file's [shop] → the property that holds it.
KEYS = {f.name: "".join(word.capitalize() for word in f.name.split("_")) for f in fields(ShopSettings)}


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
        Property("String", "Rest", "Shop", "Settings of the shop that other rooms use, as JSON", hidden=True),
    )  # fmt: skip


def shop_in(document: Any) -> Any:
    """The document's shop, or None."""
    return next((o for o in document.Objects if kind_of(o) == "shop"), None)


def settings_of_shop(shop: Any) -> dict[str, Any]:
    """What the maker chose, as a settings file's [shop] would say it, without what is as everywhere. Raises Refusal
    when a value cannot be."""
    if shop is None:
        return {}
    chosen: dict[str, Any] = {}
    for key, name in KEYS.items():
        value = getattr(shop, name)
        value = getattr(value, "Value", value)
        if key in shop.Given or value != getattr(_FIRST, key):
            chosen[key] = value
    shop_from(chosen)
    return {**chosen, **_rest(shop)}


def _rest(shop: Any) -> dict[str, Any]:
    if not shop.Rest:
        return {}
    try:
        read = json.loads(shop.Rest)
    except ValueError:
        raise Refusal(
            f"The further settings of “{shop.Label}” cannot be read: empty its hidden property Rest."
        ) from None
    return {key: _tuples(value) for key, value in read.items()}


def _tuples(value: Any) -> Any:
    """Lists as the settings hold them."""
    if isinstance(value, list):
        return tuple(_tuples(v) for v in value)
    return {k: _tuples(v) for k, v in value.items()} if isinstance(value, dict) else value


def make_shop(document: Any, settings: Mapping[str, Any]) -> Any:
    """The document's shop with these settings ([shop] of a settings file); made if there is none. Part of the caller's
    undo step if one is open. Raises Refusal before anything was made."""
    chosen = shop_from(settings)
    shop = shop_in(document)
    if shop is None:
        shop = document.addObject("App::FeaturePython", "Shop")
        Shop(shop)
        shop.Label = "Shop"
    for key, name in KEYS.items():
        setattr(shop, name, getattr(chosen, key))
    shop.Given = [key for key in settings if key in KEYS]
    rest = {key: value for key, value in settings.items() if key not in KEYS}
    shop.Rest = json.dumps(rest, ensure_ascii=False) if rest else ""
    return shop
