# SPDX-License-Identifier: LGPL-2.1-or-later

"""Saves the small project of which every release keeps a copy here; run it once for each release, then never again.

    PYTHONPATH=.:/usr/lib/freecad-python3/lib:/usr/share/freecad/Ext \\
        .venv/bin/python tests/docobjects/saved/make_saved.py

Run it with the oldest FreeCAD that is supported, so that every other one opens the file.
"""

from __future__ import annotations

from pathlib import Path

import FreeCAD

from freecad_stacklam import __version__
from freecad_stacklam.docobjects.making.project import fill_document
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.stack import StackSettings

document = FreeCAD.newDocument("Saved")
foot, top = document.addObject("Part::Box", "Foot"), document.addObject("Part::Box", "Top")
foot.Length, foot.Width, foot.Height = 100, 80, 90
foot.Placement.Base = FreeCAD.Vector(-50, -40, 0)
top.Length, top.Width, top.Height = 200, 160, 40
top.Placement.Base = FreeCAD.Vector(-100, -80, 90)
document.recompute()
stacks = (
    StackSettings(form="Foot", stock=(15.0,), allowance=3.0),
    StackSettings(form="Top", stock=(20.0,), allowance=3.0),
)
joint = JointSettings("Foot to top", (0.0, 0.0, 90.0), size=(30.0,), embed=(("Foot", 45.0), ("Top", 20.0)))
fill_document(document, [foot, top], Settings(title=f"Saved by {__version__}", stacks=stacks, joints=(joint,)))
document.Label = f"Saved by {__version__}"
document.License, document.LicenseURL = "LGPL-2.1-or-later", ""
path = Path(__file__).with_name(f"release_{__version__.replace('.', '_')}.FCStd")
if path.exists():
    raise SystemExit(f"{path.name} is there already: a released file is never written again.")
document.saveAs(str(path))
