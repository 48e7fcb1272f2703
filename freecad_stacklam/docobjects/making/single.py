# SPDX-License-Identifier: LGPL-2.1-or-later

"""Objects of which a document has one."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from freecad_stacklam.docobjects.base.protocols import Document

Single = TypeVar("Single")


def the_one(
    document: Document,
    find: Callable[[Document], Single | None],
    proxy: Callable[[Single], object],
    label: str = "",
    solid: bool = False,
) -> Single:
    """What `find` finds in the document; made with this proxy where there is none, and called `label`, or as its class.

    solid: it has a shape. Part of the caller's undo step if one is open.
    """
    there = find(document)
    if there is not None:
        return there
    name = getattr(proxy, "__name__", "")
    made: Single = document.addObject("Part::FeaturePython" if solid else "App::FeaturePython", name)
    proxy(made)
    made.Label = label or name  # type: ignore[attr-defined]  # every object of a document has one
    return made
