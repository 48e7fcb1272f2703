# SPDX-License-Identifier: LGPL-2.1-or-later

"""Tells the document objects where their looks come from. Light, because FreeCAD loads it at every start."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from typing import Any

from freecad_stacklam import objectkinds

#: Kind of object → its view provider in viewproviders.py.
VIEWS = {
    "stack": "StackView",
    "layer": "LayerView",
    "joint": "JointView",
    "pins": "PinsView",
    "hollow": "HollowView",
    "job": "JobView",
    "shop": "ShopView",
    "cutting": "CuttingView",
    "carving": "CarvingView",
    "glue lines": "GlueLinesView",
    "glue-up": "GlueUpView",
    "set-up": "GlueSetView",
    "piece": "PieceView",
}


def _factory(name: str) -> Callable[[Any], Any]:
    """What gives a view object its provider. The providers are loaded when the first is wanted."""

    def give(view: Any) -> Any:
        return getattr(import_module("freecad_stacklam.workbench.viewproviders"), name)(view)

    return give


def register() -> None:
    """Give every kind of object its view provider, and those in open documents theirs."""
    for kind, name in VIEWS.items():
        objectkinds.register(kind, _factory(name))
