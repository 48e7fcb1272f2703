# SPDX-License-Identifier: LGPL-2.1-or-later

"""Tells the document objects where their looks come from. Light, because FreeCAD loads it at every start."""

from __future__ import annotations

from typing import Any

from freecad_stacklam.docobjects.base import views


def _stack(view: Any) -> Any:
    from freecad_stacklam.workbench.viewproviders import StackView

    return StackView(view)


def _layer(view: Any) -> Any:
    from freecad_stacklam.workbench.viewproviders import LayerView

    return LayerView(view)


def _joint(view: Any) -> Any:
    from freecad_stacklam.workbench.viewproviders import JointView

    return JointView(view)


def _pins(view: Any) -> Any:
    from freecad_stacklam.workbench.viewproviders import PinsView

    return PinsView(view)


def _hollow(view: Any) -> Any:
    from freecad_stacklam.workbench.viewproviders import HollowView

    return HollowView(view)


def _job(view: Any) -> Any:
    from freecad_stacklam.workbench.viewproviders import JobView

    return JobView(view)


def _shop(view: Any) -> Any:
    from freecad_stacklam.workbench.viewproviders import ShopView

    return ShopView(view)


def _cutting(view: Any) -> Any:
    from freecad_stacklam.workbench.viewproviders import CuttingView

    return CuttingView(view)


def _carving(view: Any) -> Any:
    from freecad_stacklam.workbench.viewproviders import CarvingView

    return CarvingView(view)


def _glue_lines(view: Any) -> Any:
    from freecad_stacklam.workbench.viewproviders import GlueLinesView

    return GlueLinesView(view)


def register() -> None:
    """Called once, when FreeCAD starts."""
    views.register("stack", _stack)
    views.register("layer", _layer)
    views.register("joint", _joint)
    views.register("pins", _pins)
    views.register("hollow", _hollow)
    views.register("job", _job)
    views.register("shop", _shop)
    views.register("cutting", _cutting)
    views.register("carving", _carving)
    views.register("glue lines", _glue_lines)
