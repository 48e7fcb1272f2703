# SPDX-License-Identifier: LGPL-2.1-or-later

"""How long a job takes from file to folder, and its parts, in seconds of processor time. Run by hand:

    python tests/benchmarks/bench_job.py

with a Python that finds FreeCAD (DEVELOPERS.md). Each figure is the least of RUNS, because other work on the machine
slows a processor down too, and stands beside what was asked for, or beside FreeCAD's own way.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import tempfile
from dataclasses import replace
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
sys.path.insert(0, str(Path(__file__).resolve().parents[1]))
sys.path.insert(0, str(Path(__file__).resolve().parent))

from forms import armchair, lobed, write_stl

from freecad_stacklam.data import example_form
from freecad_stacklam.lamination.form.mesh import gate
from freecad_stacklam.lamination.layers.stack import plan_stack, preview
from freecad_stacklam.lamination.settings.stack import StackSettings

#: The price of square allowance, which is told where too little wood is left, is left out.
CHOSEN = StackSettings(stock=(30.0,), least_wood=0.0)
#: What the allowance is changed of.
ALLOWED = StackSettings(stock=(29.0,))
#: How often each is timed.
RUNS = 3


def row(what: str, seconds: float, beside: str) -> None:
    print(f"  {what:<58} {seconds:8.2f} s   {beside}", flush=True)


def timed(work, runs: int = RUNS) -> tuple[float, object]:
    least = float("inf")
    for _ in range(runs):
        start = process_time()
        found = work()
        least = min(least, process_time() - start)
    return least, found


def of_children() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def command_line(form: Path, folder: Path, *flags: str) -> float:
    """Seconds of processor time that the program takes, with what it starts."""
    program = [sys.executable, "-m", "freecad_stacklam", "plan", str(form), "--out", str(folder), *flags]
    root = Path(__file__).resolve().parents[2]
    least = float("inf")
    for _ in range(RUNS):
        before = of_children()
        done = subprocess.run(program, cwd=root, capture_output=True, text=True)
        least = min(least, of_children() - before)
        if not (folder / "plan.json").is_file():
            raise SystemExit(done.stdout + done.stderr)
    return least


def fused(shape, planes) -> float:
    """FreeCAD's own way to the pieces between the planes: the general fuse of the solid and faces across it."""
    import FreeCAD
    import Part

    box = shape.BoundBox
    size = 2 * (abs(box.XMin) + abs(box.XMax) + abs(box.YMin) + abs(box.YMax))
    middle = FreeCAD.Vector(-size / 2, -size / 2, 0)
    faces = [Part.makePlane(size, size, middle + FreeCAD.Vector(0, 0, z)) for z in planes[1:-1]]
    return timed(lambda: shape.copy().generalFuse(faces), 1)[0]


def solids_timed() -> dict[str, object]:
    """The example's forms and the armchair, as Part solids."""
    import FreeCAD

    document = FreeCAD.openDocument(str(example_form()), hidden=True)
    found = {o.Label: o.Shape.Solids[0] for o in document.Objects if getattr(o, "Shape", None) and o.Shape.Solids}
    found = {name: solid.copy() for name, solid in found.items()}
    FreeCAD.closeDocument(document.Name)
    return {**found, "armchair": armchair()}


def main() -> None:
    import freecad_stacklam.find_freecad  # noqa: F401, I001
    import FreeCAD

    from freecad_stacklam.docobjects.forms.form import clear_cache, exact_points, mesh_arrays

    print(f"FreeCAD {'.'.join(FreeCAD.Version()[:3])}, Python {sys.version.split()[0]}")
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        write_stl(lobed(2000, 499), place / "lobed.stl")
        took = command_line(place / "lobed.stl", place / "lobed", "--stock", "22.5")
        peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1e3
        row("command line, STL of 2 000 000 triangles, 20 layers", took, f"(asked: 15; {peak:.0f} MB, asked: 800)")
        armchair().exportStep(str(place / "armchair.step"))
        took = command_line(place / "armchair.step", place / "armchair", "--stock", "30")
        row("command line, armchair as STEP, 31 layers", took, "(asked: 6, of one with half the triangles)")
    for name, solid in solids_timed().items():
        clear_cache()
        meshing, mesh = timed(lambda solid=solid: gate(*mesh_arrays(solid)), 1)
        exact = exact_points(solid)
        planning, plan = timed(lambda mesh=mesh, exact=exact: plan_stack(mesh, CHOSEN, name="form", exact_points=exact))
        low = float(mesh.vertices[:, 2].min())
        theirs = fused(solid, [low + layer.bottom for layer in plan.layers] + [low + plan.height])
        row(f"{name}: mesh of {len(mesh.triangles)} triangles, {len(plan.layers)} layers", meshing, "")
        row("  planned and proven", planning, "(asked: 1.5)")
        row("  FreeCAD's general fuse at the same planes", theirs, f"({theirs / (meshing + planning):.1f} times ours)")
        stocks = iter((29.0, 28.5, 28.0))
        looking, _ = timed(lambda mesh=mesh, stocks=stocks: preview(mesh, StackSettings(stock=(next(stocks),))))
        row("  figures after another stock was chosen", looking, "(asked: 0.1)")
        more = iter((5.0, 6.0, 7.0))
        looking, _ = timed(lambda mesh=mesh, more=more: preview(mesh, replace(ALLOWED, allowance=next(more))))
        row("  figures after another allowance was chosen", looking, "(asked: 0.1)")
    mesh = lobed(240, 49)
    few, many = (
        timed(lambda n=n: plan_stack(mesh, StackSettings(stock=(450 / n,)), name="pedestal"))[0] for n in (24, 384)
    )
    row("lobed pedestal of 24 000 triangles, 24 layers", few, "")
    row("the same, 384 layers", many, f"({many / few:.1f} times; asked: 10)")


if __name__ == "__main__":
    main()
