# SPDX-License-Identifier: LGPL-2.1-or-later

"""A folder of files for other programs: every sheet as SVG; layers, section templates and gauges as DXF."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from freecad_stacklam.benchsheets.drawing.lettering import AnyUnits, units_of
from freecad_stacklam.benchsheets.drawing.sheet import Sheet
from freecad_stacklam.lamination.names import file_name, file_names
from freecad_stacklam.lamination.plan.outline import loops_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.sheetwriters.dxf import stack_file_names, write_layer_dxfs, write_loops_dxf
from freecad_stacklam.sheetwriters.svg import write_svg


def write_svgs(sheets: Sequence[Sheet], folder: str | Path) -> tuple[Path, ...]:
    """Every sheet as "012 layer.svg", by its page; their paths. Raises Refusal."""
    target, written = made_folder(folder), []
    for sheet in sheets:
        path = target / f"{sheet.page:03d} {file_name(sheet.kind)}.svg"
        write_svg(sheet, path)
        written.append(path)
    return tuple(written)


def write_dxfs(plan: Plan, folder: str | Path, units: AnyUnits = "mm") -> tuple[Path, ...]:
    """One file for every layer, and for every section template and gauge; their paths. Raises Refusal."""
    target, unit, stacks = made_folder(folder), units_of(units).first, stack_file_names(plan)
    written = list(write_layer_dxfs(plan, target, unit))
    for number, template in enumerate(plan.carving.templates if plan.carving else (), 1):
        parts = [("template", template.form), *((f"gauge {g.side}", g.area) for g in template.gauges)]
        names = file_names([name for name, _ in parts])
        for name, (_, area) in zip(names, parts):
            if not area.is_empty:
                path = target / f"{stacks[template.stack]}_section_{number:02d}_{name}.dxf"
                write_loops_dxf(loops_of(area), path, "template", unit)
                written.append(path)
    return tuple(written)


def made_folder(folder: str | Path) -> Path:
    """The folder, made if it is not there. Raises Refusal when it cannot be."""
    target = Path(folder)
    try:
        target.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise Refusal(f"The folder {target} cannot be made ({error.strerror}): choose another.") from error
    return target
