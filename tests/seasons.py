# SPDX-License-Identifier: LGPL-2.1-or-later

"""A post with a top over a year, for tests of its seasons and of their sheets."""

from __future__ import annotations

from functools import cache

import numpy as np
import solids
from jobs import plan_job

from freecad_stacklam.data import climate_table, species_table
from freecad_stacklam.lamination.climate.year import plan_year
from freecad_stacklam.lamination.findings.seasons import SeasonFindings
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.job.assembly import Form
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.usage.climate import ClimateSettings, climate_of


@cache
def post_and_top(units: str = "mm") -> tuple[Plan, dict[str, Mesh]]:
    """A round post of six layers with pins, a round top of two, a wedged tenon through it."""
    lift = np.eye(4)
    lift[2, 3] = 270.0
    meshes = {"Post": solids.cylinder(60, 270), "Top": solids.moved(solids.cylinder(150, 54), lift)}
    pins = PinSettings(diameter=8.0, depth=12.0, margin=8.0)
    stacks = (StackSettings(form="Post", stock=(45.0,), pins=pins), StackSettings(form="Top", stock=(27.0,)))
    joint = JointSettings(
        name="Post to top", through=(0.0, 0.0, 270.0), section="square", size=(40.0,),
        embed=(("Post", 75.0), ("Top", None)), ends="wedged",
    )  # fmt: skip
    forms = [Form(name, mesh) for name, mesh in meshes.items()]
    settings = Settings(title="Post and top", units=units, stacks=stacks, joints=(joint,))
    return plan_job(forms, settings, species_table()), meshes


@cache
def seasons(**changed: object) -> SeasonFindings:
    """A coarse year of it."""
    plan, meshes = post_and_top()
    settings = ClimateSettings(fineness="coarse", **changed)  # type: ignore[arg-type]
    return plan_year(plan, meshes, climate_of(settings, climate_table()), species_table(), lambda *_: True)
