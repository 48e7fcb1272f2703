# SPDX-License-Identifier: LGPL-2.1-or-later

"""Builds the bundled examples' forms, each as solids in a FreeCAD document.

    PYTHONPATH=/usr/lib/freecad-python3/lib:/usr/share/freecad/Ext python3 tools/make_example.py NAME [OUT.FCStd]

NAME is plant_stand, low_seat, vessel or leaning_table; their forms are in the files of tools/examples with these names,
figures first. Run it with the oldest FreeCAD that is supported, so that every other one opens the file.
"""

from __future__ import annotations

import sys
from importlib import import_module
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE))

import FreeCAD  # noqa: E402

NAMES = sorted(path.stem for path in (HERE / "examples").glob("*.py") if path.stem != "sculpted")
DATA = HERE.parent / "freecad_stacklam" / "data"


def forms_of(name: str) -> dict[str, Any]:
    """The solids of an example by their labels. Leaves the program where one is not sound."""
    forms: dict[str, Any] = import_module(f"examples.{name}").forms()
    for label, solid in forms.items():
        if not solid.isValid() or solid.ShapeType != "Solid" or solid.Volume <= 0:
            raise SystemExit(f"{label} is not a sound solid.")
    return forms


def main(name: str, out: Path) -> None:
    """Build the solids, check them and write the document."""
    document = FreeCAD.newDocument("".join(word.capitalize() for word in name.split("_")))
    document.License = "LGPL-2.1-or-later"
    document.LicenseURL = "https://spdx.org/licenses/LGPL-2.1-or-later.html"
    for label, solid in forms_of(name).items():
        form = document.addObject("Part::Feature", label.replace(" ", ""))
        form.Shape, form.Label = solid, label
    document.recompute()
    out.parent.mkdir(parents=True, exist_ok=True)
    out.unlink(missing_ok=True)  # or FreeCAD would leave a backup beside it
    document.saveAs(str(out))
    print(f"{out.name}: {out.stat().st_size / 1024:.0f} KiB")
    FreeCAD.closeDocument(document.Name)


if __name__ == "__main__":
    asked = sys.argv[1:]
    if not asked or asked[0] not in NAMES:
        raise SystemExit(f"Name one of the examples: {', '.join(NAMES)}.")
    main(asked[0], Path(asked[1]) if len(asked) > 1 else DATA / f"{asked[0]}.FCStd")
