# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Shop object: how boards are sawn and staves are made in this shop. A document needs no more than one."""

from __future__ import annotations

from freecad_stacklam.docobjects.base.properties import Property
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.rowproperties import properties_of
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.words import mark


class Shop(Proxy):
    """Saw and staves. The name of this class is written in users' files and never changes."""

    KIND = "shop"
    PROPERTIES = (
        Property("StringList", "Given", "Shop", mark("Keys that were given, as in a settings file"), hidden=True),
        Property("String", "Rest", "Shop", mark("Band saw and bits, as JSON"), hidden=True),
        *properties_of(ShopSettings),
    )  # fmt: skip
