# SPDX-License-Identifier: LGPL-2.1-or-later

"""The command line from file to folder: what it writes, that its parts agree, and how it says no."""

from __future__ import annotations

import csv
import json
import os
import resource
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
import solids
from models import model_path

pytestmark = pytest.mark.freecad

CHECKOUT = Path(__file__).resolve().parent.parent
FILES = {"plan.json", "bill.csv", "drawings.pdf", "project.FCStd"}


def run(*arguments: str, **changes) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "freecad_stacklam", *arguments],
        cwd=CHECKOUT,
        capture_output=True,
        encoding="utf-8",
        timeout=120,
        **changes,
    )


def answer(*arguments: str) -> int:
    """The same in this process, which saves starting FreeCAD for every bad word."""
    from freecad_stacklam.commandline import answer as ask

    return ask(list(arguments))


@pytest.fixture(scope="module")
def example(tmp_path_factory):
    out = tmp_path_factory.mktemp("example") / "plan"
    done = run("plan", "--out", str(out))
    assert done.returncode == 0, done.stdout + done.stderr
    assert "Traceback" not in done.stdout + done.stderr
    return out


@pytest.fixture(scope="module")
def plan(example):
    return json.loads((example / "plan.json").read_text(encoding="utf-8"))


def test_the_example_is_planned_whole(example, plan):
    from planschema import check_schema

    assert {p.name for p in example.iterdir()} == FILES | {"bench.html"}
    assert check_schema(plan) == []
    assert [s["name"] for s in plan["stacks"]] == ["Pedestal", "Top"]
    for stack in plan["stacks"]:
        assert stack["containment"]["uncovered_volume"] == 0
        assert stack["containment"]["least_cover"] >= stack["allowance"]
    (joint,) = plan["joints"]
    assert joint["least_cover"]["distance"] >= 10.0
    kinds = {s["kind"] for s in plan["sheets"]}
    assert {"template", "bill"} <= kinds


def test_the_example_is_glued_with_clamps_that_press_it(example, plan):
    """Nine lines of the pedestal and one of the top, seams of boards, the joint; no check says stop, and none of a run
    of layers cautions: pressure, reach, clock and clamps hold."""
    lines = [line for s in plan["glue_up"] if s["kind"] == "layers" for line in s["glue_lines"]]
    assert sorted(lines) == sorted([*range(1, 10), 1])
    assert {s["kind"] for s in plan["glue_up"]} == {"edges", "layers", "joint"}
    assert [s["limits_broken"] for s in plan["glue_up"] if s["kind"] == "layers"] == [[]] * 5
    assert {c["verdict"] for c in plan["checks"]} <= {"ok", "caution"}
    assert {c["verdict"] for c in plan["gluing"]["conditions"]} == {"go"}
    pages = [s for s in plan["sheets"] if s["kind"] == "glue-up"]
    assert len(pages) > len(plan["glue_up"])  # one at least for each, the order, the log
    bench = (example / "bench.html").read_text(encoding="utf-8")
    assert all(f"Pedestal, layers 1 to {n}" in bench for n in (2, 3, 4, 10))


def test_the_bill_agrees_with_the_plan_to_whole_millimetres(example, plan):
    with (example / "bill.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    blanks = {r["name"]: r for r in rows if r["item"] == "blank"}
    for stack in plan["stacks"]:
        total = 0.0
        for layer in stack["layers"]:
            row = blanks[f"{stack['name']} {layer['number']}"]
            assert float(row["volume mm3"]) == pytest.approx(layer["blank_volume"], abs=0.51)
            assert float(row["area mm2"]) == pytest.approx(layer["blank_area"], abs=0.51)
            assert layer["blank_volume"] == pytest.approx(
                layer["blank_area"] * (layer["top"] - layer["bottom"]), rel=1e-6
            )
            total += layer["blank_volume"]
        (row,) = [r for r in rows if r["item"] == "total" and r["name"].startswith(f"{stack['name']}:")]
        assert float(row["volume mm3"]) == pytest.approx(total, abs=0.51)
        (row,) = [r for r in rows if r["item"] == "form" and r["name"] == stack["name"]]
        assert float(row["volume mm3"]) == pytest.approx(stack["form"]["volume"], abs=0.51)
    assert [r["name"] for r in plan["bill"]] == [r["name"] for r in rows]


def test_polygons_of_the_plan_are_its_areas(plan):
    import shapely

    for stack in plan["stacks"]:
        for layer in stack["layers"]:
            area = sum(shapely.Polygon(b["outer"], b["holes"]).area for b in layer["blank"])
            # arcs are sampled to 0.01 mm, so a polygon may be smaller by that much all round
            around = sum(shapely.Polygon(b["outer"]).length for b in layer["blank"])
            assert abs(area - layer["blank_area"]) <= 0.01 * around
            finished = shapely.MultiPolygon([shapely.Polygon(b["outer"], b["holes"]) for b in layer["finished_bottom"]])
            blank = shapely.MultiPolygon([shapely.Polygon(b["outer"], b["holes"]) for b in layer["blank"]])
            assert blank.contains(finished)


def test_the_pages_are_those_of_the_index(example, plan):
    from pypdf import PdfReader

    reader = PdfReader(example / "drawings.pdf")
    assert len(reader.pages) == len(plan["sheets"])
    for page, sheet in zip(reader.pages, plan["sheets"]):
        # PDF units are 1/72 in (ISO 32000); Qt rounds a page to whole units.
        assert float(page.mediabox.width) / 72 * 25.4 == pytest.approx(sheet["paper"][0], abs=0.2)
        assert float(page.mediabox.height) / 72 * 25.4 == pytest.approx(sheet["paper"][1], abs=0.2)


def test_the_project_opens_and_recomputes_to_the_same_plan(example, plan):
    import FreeCAD

    from freecad_stacklam.docobjects.reading.whole import plan_of

    document = FreeCAD.openDocument(str(example / "project.FCStd"))
    try:
        document.recompute()
        again = plan_of(document)
        assert [s.name for s in again.stacks] == [s["name"] for s in plan["stacks"]]
        for stack, before in zip(again.stacks, plan["stacks"]):
            assert [x.blank_area for x in stack.layers] == pytest.approx(
                [x["blank_area"] for x in before["layers"]], rel=1e-6
            )
        assert any(o.isDerivedFrom("Spreadsheet::Sheet") for o in document.Objects)
    finally:
        FreeCAD.closeDocument(document.Name)


def test_boards_of_the_example_are_planned_drawn_and_billed(example, plan):
    from collections import Counter

    boards = plan["boards"]
    wanted = Counter(s["id"] for s in boards["staves"] for _ in range(s["copies"]))
    assert Counter(p["stave"] for b in boards["plan"] for p in b["pieces"]) == wanted
    assert {(s["stack"], s["layer"]) for s in boards["staves"]} == {
        (s["name"], n["number"]) for s in plan["stacks"] for n in s["layers"]
    }
    assert 0 < boards["yield"] < 1
    # Boards on hand count half of their cost in what is minimised, so the bounds may lie below the cost alone.
    assert boards["bound"]["area"] <= boards["objective"]["value"] <= boards["cost"]
    assert any(s["kind"] == "boards" for s in plan["sheets"])
    with (example / "bill.csv").open(encoding="utf-8", newline="") as file:
        rows = [r for r in csv.DictReader(file) if r["item"] in ("board on hand", "board to buy")]
    assert sum(int(r["count"]) for r in rows) == len(boards["plan"])
    assert sum(float(r["cost"]) for r in rows) == pytest.approx(boards["cost"], abs=0.005 * len(rows))
    assert all(int(r["count"]) * float(r["cost each"]) == pytest.approx(float(r["cost"]), abs=0.005) for r in rows)


def test_the_project_keeps_the_boards_of_the_plan(example, plan):
    import FreeCAD

    from freecad_stacklam.docobjects.base.family import cutting_in
    from freecad_stacklam.docobjects.reading.whole import plan_of, settings_of
    from freecad_stacklam.lamination.job.planjson import as_dict

    document = FreeCAD.openDocument(str(example / "project.FCStd"))
    try:
        assert as_dict(plan_of(document), settings_of(document))["boards"] == plan["boards"]
        kept = cutting_in(document)
        assert len(kept.Boards) == len(plan["boards"]["plan"])
        assert Path(kept.Picture).read_bytes()[:4] == b"\x89PNG"  # ISO/IEC 15948
        document.recompute()
        assert kept.KeptFor == kept.ShownFor != ""
    finally:
        FreeCAD.closeDocument(document.Name)


def test_of_several_thicknesses_the_least_wood_is_laid(tmp_path):
    # 117 mm in boards of 45 and 27: 45 + 45 + 27 is the one sum that wastes nothing.
    form = tmp_path / "block.stl"
    box = solids.box(200, 120, 117)
    write_stl(form, (box.vertices, box.triangles))
    assert answer("plan", str(form), "--stock", "45mm,27mm", "--out", str(tmp_path / "plan")) == 0
    (stack,) = json.loads((tmp_path / "plan" / "plan.json").read_text(encoding="utf-8"))["stacks"]
    assert sorted(round(n["top"] - n["bottom"], 3) for n in stack["layers"]) == [27.0, 45.0, 45.0]


def test_woods_of_a_file_are_those_of_the_table_whatever_their_capitals(tmp_path):
    """An own wood of gravity 0.65, written in other capitals where it is used: 1.12 × 650 kg/m³ (GTR-282 Eq. 4-14), and
    it moves by its own shrinkage."""
    (tmp_path / "s.toml").write_text(
        '[[species]]\nname = "Pear"\nspecific_gravity = 0.65\nshrink_radial = 4.5\nshrink_tangential = 9.0\n'
        '[[species]]\nname = "white oak"\nspecific_gravity = 0.7\n[[stack]]\nspecies = "pear"\n',
        encoding="utf-8",
    )
    box_project(tmp_path / "box.FCStd")
    done = run(
        "plan", str(tmp_path / "box.FCStd"), "--settings", str(tmp_path / "s.toml"), "--out", str(tmp_path / "out")
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert "note: white oak is taken as your own row says" in done.stdout
    facts = json.loads((tmp_path / "out" / "plan.json").read_text(encoding="utf-8"))
    for stack in facts["stacks"]:
        assert stack["species"] == "Pear"
        assert stack["movement"] is not None
        (form,) = [r for r in facts["bill"] if r["item"] == "form" and r["name"] == stack["name"]]
        assert form["mass"] == pytest.approx(form["volume"] * 728e-9, rel=1e-6)


def test_a_rack_without_a_fitting_board_is_a_stop_with_the_stave(tmp_path, capfd):
    """The rest is planned and written; a knot outside its board is a slip in the file, and nothing is."""
    form = tmp_path / "block.stl"
    box = solids.box(200, 120, 90)
    write_stl(form, (box.vertices, box.triangles))
    for board, says in (
        ("thickness = '30mm'\nwidth = '200mm'\nlength = '2m'", "stop: block 1 needs 45 mm"),
        ("thickness = '48mm'\nwidth = '200mm'\nlength = '200mm'", "stop: block 1"),
    ):
        (tmp_path / "job.toml").write_text(f"[[stack]]\nstock = '45mm'\n[[board]]\n{board}\n")
        out = tmp_path / "stopped"
        assert answer("plan", str(form), "--settings", str(tmp_path / "job.toml"), "--out", str(out)) == 1
        assert says in capfd.readouterr().out
        assert (out / "drawings.pdf").is_file() and (out / "project.FCStd").is_file()
    for board, says in (
        ("thickness = '48mm'\nwidth = '200mm'\nlength = '2m'\nknots = [['1990mm', '0mm', '40mm', '40mm']]", "knot"),
        ("thickness = '48mm'\nwidth = '-1mm'\nlength = '2m'", "line 5"),
        ("thickness = '1e-9mm'\nwidth = '200mm'\nlength = '2m'", "line 4"),
        ("thickness = '0.0000001mm'\nwidth = '200mm'\nlength = '2m'", "line 4"),
        (
            "thickness = '48mm'\nwidth = '200mm'\nlength = '2m'\nspecies = 'oakum'",
            "line 3: there is no species “oakum”",
        ),
    ):
        (tmp_path / "job.toml").write_text(f"[[stack]]\nstock = '45mm'\n[[board]]\n{board}\n")
        refused(tmp_path, capfd, says, str(form), "--settings", str(tmp_path / "job.toml"))


def test_flags_win_and_inches_are_read(tmp_path):
    # occt-misc's table, drawn in cm: read as it is, a small one of 100 × 100 × 60 mm.
    done = answer(
        "plan", str(model_path("MODERN_Table_1.brep")), "--stock", "3/4in", "--allowance", "1/16in", "--axis", "x",
        "--paper", "Letter", "--units", "in", "--species", "black walnut", "--out", str(tmp_path / "plan"),
    )  # fmt: skip
    assert done == 0
    plan = json.loads((tmp_path / "plan" / "plan.json").read_text(encoding="utf-8"))
    (stack,) = plan["stacks"]
    assert stack["allowance"] == pytest.approx(25.4 / 16)
    assert [x["top"] - x["bottom"] for x in stack["layers"]] == pytest.approx([19.05] * 6)
    assert np.array(stack["frame"]).reshape(4, 4)[:3, 2] == pytest.approx([1, 0, 0])
    assert stack["species"] == "black walnut"
    assert plan["sheets"][-1]["paper"] in ([215.9, 279.4], [279.4, 215.9])


def test_a_carving_guide_joins_the_drawings_and_goes_out_as_dxf_and_svg(tmp_path, capfd):
    import ezdxf
    import FreeCAD
    import shapely

    settings = tmp_path / "job.toml"
    settings.write_text(
        "[[stack]]\nstock = ['20mm']\nallowance = '3mm'\n"
        "[carving]\ndepth_holes = 'top'\nbit = '3mm'\npitch = '12mm'\nleast_depth = '3mm'\nleave = '1mm'\n"
        "templates = ['0deg']\nrate = 0.5\n",
        encoding="utf-8",
    )
    out = tmp_path / "plan"
    form = tmp_path / "ball.FCStd"
    document = FreeCAD.newDocument("ball")
    document.addObject("Part::Sphere", "Ball").Radius = 55
    document.recompute()
    document.saveAs(str(form))
    FreeCAD.closeDocument(document.Name)
    flags = ["--settings", str(settings), "--both-units", "--fraction", "64", "--dxf", "--svg", "--out", str(out)]
    (out / "dxf").mkdir(parents=True)
    (out / "dxf" / "mine.dxf").write_text("kept")
    assert answer("plan", str(form), *flags) == 0
    assert "depth holes" in capfd.readouterr().out
    assert {p.name for p in out.iterdir()} == FILES | {"dxf", "svg"}
    plan = json.loads((out / "plan.json").read_text(encoding="utf-8"))
    guide = plan["carving"]
    holes = [h for h in guide["depth_holes"] if h["face"] == "top"]
    assert len(holes) == len(guide["depth_holes"]) > 4
    for hole in holes:
        # The ball's centre is 55 mm over the floor; the bit's tip stays 1 mm or more outside it.
        tip = np.array([hole["x"], hole["y"], hole["surface"] - hole["depth"] - 55.0])
        assert np.linalg.norm(tip) >= 56.0
    assert guide["hours"] == pytest.approx(sum(r["volume"] for r in guide["removed_volume"]) / 1e6 / 0.5)
    kinds = {s["kind"] for s in plan["sheets"]}
    assert {"depth holes", "carving", "offsets", "section"} <= kinds
    # Read by another library: the layers' areas are those of the plan, and the section is the ball's circle.
    drawn = sorted(p.name for p in (out / "dxf").iterdir())
    assert "mine.dxf" in drawn
    for layer in plan["stacks"][0]["layers"]:
        file = ezdxf.readfile(out / "dxf" / f"Ball_{layer['number']:02d}.dxf")
        assert not file.audit().errors
        area = 0.0
        for line in file.modelspace().query("LWPOLYLINE[layer=='CUT LINE']"):
            points = [(p[0], p[1]) for p in ezdxf.path.make_path(line).flattening(0.001)]
            area += shapely.Polygon(points).area
        assert area == pytest.approx(layer["blank_area"], rel=1e-3)
    section = ezdxf.readfile(out / "dxf" / "Ball_section_01_template.dxf")
    (circle,) = section.modelspace().query("LWPOLYLINE")
    assert shapely.Polygon([p[:2] for p in circle.get_points()]).area == pytest.approx(np.pi * 55**2, rel=2e-3)
    assert len(list((out / "svg").iterdir())) == len(plan["sheets"])
    # The saved project holds the guide, and plans the same again.
    document = FreeCAD.openDocument(str(out / "project.FCStd"))
    try:
        document.recompute()
        assert document.Carving.HoleCount == len(holes)
    finally:
        FreeCAD.closeDocument(document.Name)


def test_settings_file_with_an_awkward_title(tmp_path):
    title = '=cmd|"/C calc"!A1 / : * ? "quoted"\\nnext'
    settings = tmp_path / "job.toml"
    settings.write_text(f"title = '''{title}'''\n[[stack]]\nstock = [\"20mm\"]\n", encoding="utf-8")
    out = tmp_path / "plan"
    assert answer("plan", str(model_path("MODERN_Table_1.brep")), "--settings", str(settings), "--out", str(out)) == 0
    assert {p.name for p in out.iterdir()} == FILES
    for line in (out / "bill.csv").read_text(encoding="utf-8").splitlines():
        for cell in next(csv.reader([line])):
            assert not cell.startswith(("=", "+", "@")), cell


def test_a_form_named_like_a_formula_cannot_run(tmp_path):
    import FreeCAD

    document = FreeCAD.newDocument("named")
    form = document.addObject("Part::Box", "Box")
    form.Length, form.Width, form.Height = 100, 80, 60
    form.Label = '=HYPERLINK("x")'
    document.recompute()
    document.saveAs(str(tmp_path / "named.FCStd"))
    FreeCAD.closeDocument(document.Name)
    out = tmp_path / "plan"
    assert answer("plan", str(tmp_path / "named.FCStd"), "--stock", "20mm", "--out", str(out)) == 0
    cells = [c for row in csv.reader((out / "bill.csv").open(encoding="utf-8", newline="")) for c in row]
    assert any("HYPERLINK" in c for c in cells)
    assert not any(c.startswith("=") for c in cells)


def write_stl(path: Path, mesh) -> None:
    import trimesh

    trimesh.Trimesh(mesh[0], mesh[1], process=False).export(path)


def bad_meshes():
    box = solids.box(100, 80, 60)
    vertices, triangles = box.vertices, box.triangles
    torn = vertices.copy()
    torn[3] = np.nan
    crossed = vertices.copy()
    crossed[int(np.argmax(vertices.sum(axis=1)))] = [60, 40, -20]
    return {
        "open": (vertices, triangles[1:], "not closed"),
        "inside-out": (vertices, triangles[:, ::-1], "inside out"),
        "crossed": (crossed, triangles, "crosses itself"),
        "nan": (torn, triangles, ""),
    }


@pytest.mark.parametrize("kind", ["open", "inside-out", "crossed", "nan"])
def test_bad_mesh_gets_a_sentence_and_leaves_nothing(kind, tmp_path, capfd):
    vertices, triangles, says = bad_meshes()[kind]
    write_stl(tmp_path / "form.stl", (vertices, triangles))
    refused(tmp_path, capfd, says, str(tmp_path / "form.stl"))


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["--stock", "0mm"], "more than 0"),
        (["--stock", "44,5"], "one size or two"),
        (["--stock", "25,4mm"], "one size or two"),
        (["--stock", ""], "--stock is given but empty"),
        (["--settings", " "], "--settings is given but empty"),
        (["--stock=-45mm"], "more than 0"),
        (["--stock", "700mm"], "thicker"),
        (["--stock", "0.05mm"], "more than 400"),
        (["--stock", "thick"], "thick"),
        (["--axis", "0,0,0"], "no length"),
        (["--axis", "up"], "no axis"),
        (["--allowance=-1mm"], "allowance"),
        (["--paper", "napkin"], "napkin"),
        (["--species", "unobtainium"], "unobtainium"),
        (["--settings", "no-such.toml"], "no settings file"),
        (["--units", "furlongs"], "units"),
    ],
)
def test_bad_value_gets_a_sentence_and_leaves_nothing(arguments, says, tmp_path, capfd):
    refused(tmp_path, capfd, says, str(model_path("MODERN_Table_1.brep")), *arguments)


@pytest.mark.parametrize(
    ("name", "says"),
    [("Top.brep", "not valid"), ("hammer.brep", "no solid"), ("terrain.brep", "no solid"), ("wing.brep", "no solid")],
)
def test_shapes_that_are_no_solids_are_refused(name, says, tmp_path, capfd):
    # occt-misc ships one invalid shape and several without a solid.
    refused(tmp_path, capfd, says, str(model_path(name)))


def test_the_form_that_cannot_be_sliced_is_named(tmp_path, capfd):
    parts = ""
    for number, name in enumerate(("sound", "torn")):
        box = solids.box(100, 80, 60)
        parts += f"o {name}\n" + "".join(f"v {x + 300 * number} {y} {z}\n" for x, y, z in box.vertices)
        faces = box.triangles[number:] + 1 + number * len(box.vertices)
        parts += "".join(f"f {a} {b} {c}\n" for a, b, c in faces)
    (tmp_path / "two.obj").write_text(parts)
    refused(tmp_path, capfd, "“torn”: the mesh is not closed", str(tmp_path / "two.obj"))


def test_missing_file_is_refused(tmp_path, capfd):
    refused(tmp_path, capfd, "chair.step", str(tmp_path / "chair.step"))


def refused(tmp_path: Path, capfd, says: str, *arguments: str) -> None:
    """Exit status 2, one line on standard error with the words in it, no folder left."""
    capfd.readouterr()
    assert answer("plan", *arguments, "--out", str(tmp_path / "plan")) == 2
    printed = capfd.readouterr()
    lines = [line for line in printed.err.splitlines() if line.strip() and not line.startswith("QStandardPaths")]
    assert len(lines) == 1, printed.err
    assert says.lower() in lines[0].lower()
    assert "Traceback" not in printed.err + printed.out
    assert not (tmp_path / "plan").exists()


def test_status_and_one_line_from_a_process_of_its_own(tmp_path):
    done = run("plan", "--stock", "0mm", "--out", str(tmp_path / "plan"))
    assert done.returncode == 2
    assert "\n“Stock thickness” of stack “Pedestal” cannot be 0 mm: give more than 0 mm.\n" in f"\n{done.stderr}"
    assert "Traceback" not in done.stderr
    assert run("plan").returncode == 2


def test_folder_that_is_a_file_is_refused(tmp_path):
    (tmp_path / "plan").write_text("kept")
    done = run("plan", "--out", str(tmp_path / "plan"))
    assert done.returncode == 2
    assert "cannot be written" in done.stderr
    assert (tmp_path / "plan").read_text() == "kept"


def test_full_disk_is_refused_and_the_last_plan_is_kept(tmp_path):
    out = tmp_path / "plan"
    out.mkdir()
    before = '{"schema":1,"title":"the plan before"}'
    (out / "plan.json").write_text(before)
    box_project(tmp_path / "box.FCStd")
    # A file-size limit stops writing as a full disk does, and needs no rights.
    done = run(
        "plan", str(tmp_path / "box.FCStd"), "--out", str(out),
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (10_000, 10_000)),
    )  # fmt: skip
    assert done.returncode == 2, done.stdout
    assert "Traceback" not in done.stderr
    assert [p.name for p in out.iterdir()] == ["plan.json"]
    assert (out / "plan.json").read_text() == before


def test_read_only_folder_is_refused(tmp_path, capfd):
    # The proc file system takes no new folders, not even from root; a folder without write permission stops others.
    places = ["/proc/plan"]
    if os.geteuid() != 0:
        tmp_path.chmod(0o500)
        places.append(str(tmp_path / "plan"))
    for place in places:
        assert answer("plan", "--out", place) == 2
        assert "cannot be written" in capfd.readouterr().err
    tmp_path.chmod(0o700)


def test_empty_words_plan_nothing(tmp_path, capfd, monkeypatch):
    monkeypatch.chdir(tmp_path)
    for words in (["plan", "", "--out", "plan"], ["plan", "--out", ""]):
        assert answer(*words) == 2
        assert "is given but empty" in capfd.readouterr().err
    assert list(tmp_path.iterdir()) == []


def box_project(path: Path) -> None:
    import FreeCAD

    document = FreeCAD.newDocument("box")
    form = document.addObject("Part::Box", "Box")
    form.Length, form.Width, form.Height = 100, 80, 60
    document.recompute()
    document.saveAs(str(path))
    FreeCAD.closeDocument(document.Name)


def test_a_form_is_never_replaced_by_its_plan(tmp_path, capfd):
    import hashlib

    import FreeCAD

    from freecad_stacklam.outfolder import digests

    form = tmp_path / "project.FCStd"
    box_project(form)
    before = form.read_bytes()
    assert answer("plan", str(form), "--out", str(tmp_path)) == 2
    assert "given to plan from" in capfd.readouterr().err
    assert [p.name for p in tmp_path.iterdir()] == [form.name]
    assert form.read_bytes() == before
    # Its plan elsewhere is planned again in its place; a project that was worked on is kept.
    out = tmp_path / "plan"
    for _ in range(2):
        assert answer("plan", str(form), "--stock", "20mm", "--out", str(out)) == 0
    files = json.loads((out / "plan.json").read_text(encoding="utf-8"))["files"]
    assert files == {n: d for n, d in digests(out).items() if n != "plan.json"}
    assert files["bill.csv"] == hashlib.sha256((out / "bill.csv").read_bytes()).hexdigest()
    document = FreeCAD.openDocument(str(out / "project.FCStd"))
    document.addObject("Part::Box", "Mine")
    document.save()
    FreeCAD.closeDocument(document.Name)
    assert answer("plan", str(form), "--stock", "20mm", "--out", str(out)) == 2
    assert "project.FCStd” was written by an earlier release, or saved in FreeCAD since" in capfd.readouterr().err


def test_prices_typed_into_the_bill_are_never_lost(tmp_path, capfd):
    """The maker fills in a price and plans again with other stock: the bill stands as it was, and so does all else."""
    form, out = tmp_path / "box.FCStd", tmp_path / "plan"
    box_project(form)
    assert answer("plan", str(form), "--stock", "20mm", "--out", str(out)) == 0
    assert answer("plan", str(form), "--stock", "30mm", "--out", str(out)) == 0
    bill = out / "bill.csv"
    bill.write_text(bill.read_text(encoding="utf-8").replace(",,", ",14.20,", 1), encoding="utf-8")
    before = {p.name: p.read_bytes() for p in out.iterdir()}
    assert answer("plan", str(form), "--stock", "20mm", "--out", str(out)) == 2
    assert "bill.csv” was changed since it was planned" in capfd.readouterr().err
    assert {p.name: p.read_bytes() for p in out.iterdir()} == before
    bill.rename(out / "bill with prices.csv")
    assert answer("plan", str(form), "--stock", "20mm", "--out", str(out)) == 0
    assert b"14.20" in (out / "bill with prices.csv").read_bytes()


def test_old_layers_go_and_the_makers_files_stay(tmp_path):
    form, out = tmp_path / "box.FCStd", tmp_path / "plan"
    box_project(form)
    assert answer("plan", str(form), "--stock", "10mm", "--dxf", "--svg", "--out", str(out)) == 0
    (out / "dxf" / "mine.dxf").write_text("kept")
    assert len(list((out / "dxf").iterdir())) == 7
    assert answer("plan", str(form), "--stock", "30mm", "--dxf", "--out", str(out)) == 0
    assert {p.name for p in (out / "dxf").iterdir()} == {"Box_01.dxf", "Box_02.dxf", "mine.dxf"}
    assert not (out / "svg").exists()


def test_the_last_net_tells_in_one_sentence_and_a_file(tmp_path, capfd, monkeypatch):
    import re
    import tempfile

    from freecad_stacklam import batch

    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    monkeypatch.setattr(batch, "drawing_book", lambda *a, **k: 1 / 0)
    form = tmp_path / "box.FCStd"
    box_project(form)
    refused(tmp_path, capfd, "ZeroDivisionError", str(form))
    assert answer("plan", str(form), "--out", str(tmp_path / "plan")) == 2
    (named,) = re.findall(r"stacklam-fault-\w+\.txt", capfd.readouterr().err)
    assert "Traceback" in (tmp_path / named).read_text(encoding="utf-8")


@pytest.mark.parametrize("closing", ["1>&-", "2>&-", "1>&- 2>&- 0>&-", "1>/dev/full", "| true"])
def test_a_plan_does_not_hang_on_who_listens(closing, tmp_path):
    box_project(tmp_path / "box.FCStd")
    command = f"'{sys.executable}' -m freecad_stacklam plan '{tmp_path}/box.FCStd' --out '{tmp_path}/plan' {closing}"
    done = subprocess.run(
        ["bash", "-o", "pipefail", "-c", command], cwd=CHECKOUT, stderr=subprocess.PIPE, text=True, timeout=120
    )
    assert done.returncode == 0, done.stderr
    assert "Traceback" not in done.stderr
    assert {p.name for p in (tmp_path / "plan").iterdir()} == FILES


def test_a_stop_in_the_midst_of_a_plan_leaves_nothing(tmp_path):
    import signal
    import time

    process = subprocess.Popen(
        [sys.executable, "-m", "freecad_stacklam", "plan", "--out", str(tmp_path / "plan")],
        cwd=CHECKOUT, stderr=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
    )  # fmt: skip
    end = time.monotonic() + 120
    while not list(tmp_path.glob("plan/.unfinished-*")):
        assert process.poll() is None, f"the plan ended before it was stopped: {process.communicate()}"
        assert time.monotonic() < end, "no plan was begun within 120 s"
        time.sleep(0.02)
    process.send_signal(signal.SIGTERM)
    _, error = process.communicate(timeout=120)
    assert process.returncode == 128 + signal.SIGTERM, error
    assert "Stopped: nothing was written." in error
    assert list(tmp_path.iterdir()) == []


#: A stand-in for a solid that keeps the kernel busy for ever, or ends its process.
_HARD = """
import os, sys, time
from freecad_stacklam.find_freecad import make_importable
from freecad_stacklam.timelimit import is_watched
if is_watched():
    make_importable()
    from freecad_stacklam.docobjects.forms import plancache
    plancache.mesh_and_points = lambda form, label: {instead}
from freecad_stacklam.commandline import main
main(sys.argv[1:])
"""


@pytest.mark.parametrize(
    ("instead", "says"),
    [
        ("time.sleep(600)", "“Box” takes FreeCAD's kernel more than 0.5 s to mesh: simplify the solid, or give it as"),
        ("os.abort()", "“Box” makes FreeCAD's kernel fail as it is meshed (signal 6): simplify the solid, or give it"),
    ],
)
def test_a_solid_too_hard_for_the_kernel_is_refused_and_nothing_is_left(instead, says, tmp_path):
    box_project(tmp_path / "box.FCStd")
    out = tmp_path / "deep" / "plan"
    done = subprocess.run(
        [sys.executable, "-c", _HARD.format(instead=instead), "plan", str(tmp_path / "box.FCStd"), "--out", str(out)],
        cwd=CHECKOUT, capture_output=True, encoding="utf-8", timeout=120,
        env={**os.environ, "STACKLAM_MESHING_SECONDS": "0.5"},
    )  # fmt: skip
    assert done.returncode == 2, done.stdout + done.stderr
    assert says in done.stderr
    assert done.stderr.strip().splitlines()[-1].endswith("closed mesh (STL, OBJ, PLY or 3MF).")
    assert "Traceback" not in done.stderr
    assert [p.name for p in tmp_path.iterdir()] == ["box.FCStd"]
