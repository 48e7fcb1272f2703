# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the maker chooses for a whole job: the records that settings file, panels and document objects all fill.

Lengths mm, angles degrees. A record refuses impossible values when it is made, with a sentence that says what to do.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from freecad_stacklam.lamination.settings.carving import CarvingSettings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.stack import StackSettings


@dataclass(frozen=True)
class Settings:
    """A whole job."""

    title: str = "Stacked form"
    units: str = "mm"
    paper: str = "A4"
    paper_full: str = ""
    date: str = ""
    author: str = ""
    stacks: tuple[StackSettings, ...] = ()
    joints: tuple[JointSettings, ...] = ()
    shop: Mapping[str, Any] = field(default_factory=dict)
    boards: tuple[Mapping[str, Any], ...] = ()
    carving: CarvingSettings | None = None
