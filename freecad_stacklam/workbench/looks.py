"""Tells the document objects where their looks come from. Light, because FreeCAD loads it at every start."""

from __future__ import annotations

from typing import Any

from freecad_stacklam.docobjects import views


def _stack(view: Any) -> Any:
    from freecad_stacklam.workbench.viewproviders import StackView

    return StackView(view)


def _layer(view: Any) -> Any:
    from freecad_stacklam.workbench.viewproviders import LayerView

    return LayerView(view)


def _joint(view: Any) -> Any:
    from freecad_stacklam.workbench.viewproviders import JointView

    return JointView(view)


def _job(view: Any) -> Any:
    from freecad_stacklam.workbench.viewproviders import JobView

    return JobView(view)


def register() -> None:
    """Called once, when FreeCAD starts."""
    views.register("stack", _stack)
    views.register("layer", _layer)
    views.register("joint", _joint)
    views.register("job", _job)
