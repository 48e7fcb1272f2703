# SPDX-License-Identifier: LGPL-2.1-or-later

"""Everything that eight plans print, as files: two copies of the program are alike when the folders are.

    python tests/digests.py OUT [NAME …]     # with FreeCAD on the path, as tools/test.sh sets it
    diff -r OUT EARLIER

Each plan leaves plan.json, bill.csv, every sheet as SVG (all its marks, exact to 0.0001 mm) and the DXF files;
digests.txt has a SHA-256 for each. The cutting plan is the quick one, because a search bounded by time differs from
run to run.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import sys
from collections.abc import Callable
from pathlib import Path

sys.path[:0] = [str(Path(__file__).resolve().parents[1]), str(Path(__file__).resolve().parent)]

Case = tuple[list[str], str]
RACK = """
[[board]]
name = "Oak A"
species = "white oak"
thickness = "28mm"
width = "180mm"
length = "2400mm"
count = 4
cost = 30
knots = [["400mm", "20mm", "60mm", "40mm"]]
[[board]]
name = "Oak B"
species = "white oak"
thickness = "28mm"
width = "140mm"
length = "3000mm"
for_sale = true
cost = 42
"""


def stand(folder: Path) -> Case:
    """The bundled example with its rack."""
    return [], ""


def wedged(folder: Path) -> Case:
    """The bundled example, wedged, pinned and hollow."""
    from freecad_stacklam.data import example_form, wedged_settings

    return [str(example_form()), "--settings", str(wedged_settings())], ""


def ball(folder: Path) -> Case:
    """A ball in inches on Letter, with the carving guide."""
    import solids

    return (
        [_stl(folder, solids.ball(150.0, 4)), "--units", "in", "--paper", "Letter"],
        """
title = "Ball"
units = "in"
[[stack]]
stock = ["1in"]
allowance = "1/8in"
pins = {diameter = "3/8in", depth = "3/8in", margin = "1/4in"}
[carving]
azimuth_step = "30deg"
station = "2in"
depth_holes = "top"
pitch = "1-1/2in"
bit = "5/16in"
templates = ["0deg", "45deg"]
rate = 1.5
""",
    )


def torus(folder: Path) -> Case:
    """A ring of two thicknesses on narrow boards."""
    import solids

    return (
        [_stl(folder, solids.torus(130.0, 45.0))],
        f"""
title = "Ring"
[[stack]]
stock = ["25mm", "19mm"]
choose = "least wood"
glue_line_worth = "0.2 l"
copies = 2
[shop]
kerf = "2.5mm"
planing = "10mm"
stagger = "30mm"
max_stave = "120mm"
band_saw = {{blade = "3/4in"}}
{RACK}""",
    )


def tilted(folder: Path) -> Case:
    """Two boxes joined along a tilted axis, one of them hollow, full size on a roll."""
    import FreeCAD

    path = folder / "boxes.FCStd"
    document = FreeCAD.newDocument("boxes")
    for name, size, z in (("Foot", (260, 240, 240), 0), ("Seat", (420, 380, 90), 240)):
        made = document.addObject("Part::Box", name)
        made.Length, made.Width, made.Height = size
        made.Placement.Base = FreeCAD.Vector(-size[0] / 2, -size[1] / 2, z)
    document.recompute()
    document.saveAs(str(path))
    FreeCAD.closeDocument(document.Name)
    return (
        [str(path), "--both-units"],
        """
title = "Bench"
paper_full = "roll 610mm"
author = "Shop"
date = 2026-03-01
[[stack]]
form = "Foot"
stock = ["40mm"]
hollow = {wall = "35mm", caps = 1, vent = "10mm"}
[[stack]]
form = "Seat"
stock = ["30mm"]
grain = "90deg"
pins = {diameter = "8mm", depth = "10mm"}
[[joint]]
name = "Foot to seat"
through = ["0mm", "0mm", "240mm"]
axis = [0.1, 0, 1]
section = "rectangle"
size = ["50mm", "30mm"]
turn = "15deg"
embed = {Foot = "90mm", Seat = "through"}
ends = "proud"
proud = "6mm"
[carving]
depth_holes = {Seat = "top"}
point = "brad point"
point_length = "2mm"
planes = [{name = "Skew", point = ["0mm", "0mm", "100mm"], normal = [1, 1, 0]}]
level_templates = true
""",
    )


def chair(folder: Path) -> Case:
    """A chair of four solids that somebody else modelled, ten times as large (its figures are centimetres)."""
    import Part

    shape = Part.Shape()
    shape.read("/usr/share/opencascade/data/occ/MODERN_Chair_1.brep")
    path = folder / "chair.brep"
    shape.scaled(10.0).exportBrep(str(path))
    return [str(path), "--stock", "27mm", "--allowance", "2mm"], ""


def crank(folder: Path) -> Case:
    """A crank arm along y, of measured thicknesses, with staves."""
    import Part

    shape = Part.Shape()
    shape.read("/usr/share/opencascade/data/occ/CrankArm.brep")
    path = folder / "crank.brep"
    shape.Solids[0].scaled(3.0).exportBrep(str(path))
    return (
        [str(path), "--axis", "y"],
        f"""
title = "Crank"
[[stack]]
stock = ["25mm"]
thicknesses = ["24.6mm", "24.8mm"]
fill_holes = true
species = "black walnut"
{RACK.replace("white oak", "black walnut")}""",
    )


def block(folder: Path) -> Case:
    """A folded solid from a mesh, with depth holes from both faces."""
    import gmsh

    form = Path(gmsh.__file__).parent / "share" / "doc" / "gmsh" / "tutorials" / "t13_data.stl"
    if not form.exists():
        form = next(Path(sys.prefix).rglob("t13_data.stl"))
    return (
        [str(form), "--stock", "8mm,5mm", "--allowance", "1.5mm"],
        """
title = "Block"
[carving]
depth_holes = "both"
pitch = "12mm"
bit = "4mm"
least_depth = "2mm"
cover = "2mm"
leave_over = "0.5mm"
landing = "1mm"
""",
    )


CASES: dict[str, Callable[[Path], Case]] = {
    f.__name__: f for f in (stand, wedged, ball, torus, tilted, chair, crank, block)
}


def _stl(folder: Path, mesh: object) -> str:
    import trimesh

    path = folder / "form.stl"
    trimesh.Trimesh(mesh.vertices, mesh.triangles, process=False).export(path)  # type: ignore[attr-defined]
    return str(path)


def write(out: Path, name: str) -> None:
    """Plan one case into out/name; what it prints goes to out/name/said.txt. The inputs lie in out/inputs."""
    import contextlib
    import io

    from freecad_stacklam import batch, commandline

    batch.PATIENCE = 0.0
    batch.today = str  # no date on the pages, or every day would differ
    inputs = out / "inputs" / name
    inputs.mkdir(parents=True, exist_ok=True)
    arguments, settings = CASES[name](inputs)
    if settings:
        (inputs / "settings.toml").write_text(settings, encoding="utf-8")
        arguments += ["--settings", str(inputs / "settings.toml")]
    said = io.StringIO()
    with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
        status = commandline.answer(["plan", *arguments, "--svg", "--dxf", "--out", str(out / name)])
    text = said.getvalue().replace(str(out), "OUT")
    (out / name).mkdir(exist_ok=True)
    (out / name / "said.txt").write_text(f"{text}status {status}\n", encoding="utf-8")
    plan = out / name / "plan.json"
    if plan.is_file():
        facts = json.loads(plan.read_text(encoding="utf-8"))
        del facts["files"]  # digests of files that tell the time
        plan.write_text(json.dumps(facts, indent=1, ensure_ascii=False), encoding="utf-8")
    for path in (out / name).glob("dxf/*.dxf"):
        # What stands around the entities tells the time, and differs at every run.
        text = path.read_text(encoding="utf-8")
        path.write_text(text[text.index("ENTITIES") : text.index("OBJECTS")], encoding="utf-8")
    for file in ("project.FCStd", "drawings.pdf"):
        (out / name / file).unlink(missing_ok=True)
    print(f"{name}: status {status}", flush=True)


def main() -> None:
    """Plan every case that was asked for, and write the digests of all files."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("out", type=Path)
    parser.add_argument("names", nargs="*", choices=[*CASES, []], help="cases; none: all")
    asked = parser.parse_args()
    asked.out.mkdir(parents=True, exist_ok=True)
    for name in asked.names or CASES:
        write(asked.out.resolve(), name)
    files = sorted(p for p in asked.out.rglob("*") if p.is_file() and "inputs" not in p.parts)
    lines = [f"{hashlib.sha256(p.read_bytes()).hexdigest()}  {p.relative_to(asked.out)}\n" for p in files]
    (asked.out / "digests.txt").write_text("".join(x for x in lines if "digests.txt" not in x), encoding="utf-8")


if __name__ == "__main__":
    main()
