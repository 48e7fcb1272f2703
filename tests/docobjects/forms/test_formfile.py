# SPDX-License-Identifier: LGPL-2.1-or-later

"""Forms out of files: every kind, whole and cut off, under its own name and under another's."""

from __future__ import annotations

import hashlib
import zipfile
from math import pi
from pathlib import Path

import models
import numpy as np
import pytest

from freecad_stacklam.lamination.refusal import Refusal

pytestmark = pytest.mark.freecad


def read(path, document):
    from freecad_stacklam.docobjects.forms.formfile import forms_in

    return forms_in(path, document)


def volume(obj):
    from onesolid import solid_of

    from freecad_stacklam.docobjects.forms.form import mesh_arrays
    from freecad_stacklam.lamination.form.mesh import signed_volume

    return signed_volume(*mesh_arrays(solid_of(obj)[1]))


def refused(path, document, says):
    """The file is refused in one sentence on one line, and the project is as it was."""
    import FreeCAD

    before, open_before = len(document.Objects), set(FreeCAD.listDocuments())
    with pytest.raises(Refusal, match=says) as refusal:
        read(path, document)
    assert "\n" not in str(refusal.value) and str(refusal.value).endswith(".")
    assert len(document.Objects) == before
    assert set(FreeCAD.listDocuments()) == open_before


@pytest.fixture(scope="module")
def ball_files(tmp_path_factory):
    """A ball of radius 150 in every kind that FreeCAD writes on all versions, and in both forms of STL and PLY."""
    import FreeCAD
    import Mesh
    import Part
    import trimesh

    folder = tmp_path_factory.mktemp("balls")
    ball = Part.makeSphere(150)
    ball.exportBrep(str(folder / "ball.brep"))
    ball.exportBrep(str(folder / "BALL.BRP"))
    ball.exportStep(str(folder / "ball.step"))
    ball.exportStep(str(folder / "ball.stp"))
    mesh = Mesh.Mesh(ball.tessellate(1.0))
    mesh.write(str(folder / "ball.obj"))
    mesh.write(str(folder / "ball.stl"))
    mesh.write(str(folder / "binary.ply"))
    mesh.write(str(folder / "ascii.ast"))
    (folder / "ascii.ast").rename(folder / "ascii.stl")
    points, corners = mesh.Topology
    other = trimesh.Trimesh([tuple(p) for p in points], corners, process=False)
    other.export(folder / "ascii.ply", encoding="ascii")
    write_3mf(folder / "ball.3mf", np.array([tuple(p) for p in points]), corners)
    document = FreeCAD.newDocument("Ball")
    document.addObject("Part::Feature", "Ball").Shape = ball
    document.saveAs(str(folder / "ball.FCStd"))
    FreeCAD.closeDocument(document.Name)
    return folder


WHOLE = [
    "ball.brep",
    "BALL.BRP",
    "ball.step",
    "ball.stp",
    "ball.obj",
    "ball.stl",
    "ascii.stl",
    "binary.ply",
    "ascii.ply",
    "ball.3mf",
    "ball.FCStd",
]


def write_3mf(path, points, corners, unit="millimeter", transform="", name="Ball"):
    """A 3MF file as its core specification 1.3 describes it: content types, one object, one build item."""
    vertices = "".join(f'<vertex x="{float(x)!r}" y="{float(y)!r}" z="{float(z)!r}"/>' for x, y, z in points)
    triangles = "".join(f'<triangle v1="{a}" v2="{b}" v3="{c}"/>' for a, b, c in corners)
    core = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
    placed = f' transform="{transform}"' if transform else ""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(
            "[Content_Types].xml",
            '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="model" '
            'ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>',
        )
        archive.writestr(
            "3D/3dmodel.model",
            f'<?xml version="1.0" encoding="UTF-8"?><model unit="{unit}" xmlns="{core}"><resources>'
            f'<object id="1" type="model" name="{name}"><mesh><vertices>{vertices}</vertices><triangles>{triangles}'
            f'</triangles></mesh></object></resources><build><item objectid="1"{placed}/></build></model>',
        )


@pytest.mark.parametrize("name", WHOLE)
def test_a_ball_comes_through_every_kind_of_file(name, ball_files, document):
    import FreeCAD

    objects = read(ball_files / name, document)
    assert len(objects) == 1
    assert objects[0].Document is document
    # A mesh of 1 mm deflection loses at most 1 mm (twice that, to be sure) of the surface all round.
    assert volume(objects[0]) == pytest.approx(4 / 3 * pi * 150**3, rel=6 / 150)
    assert FreeCAD.ActiveDocument is document
    assert list(FreeCAD.listDocuments()) == [document.Name]


@pytest.mark.parametrize("share", [0.0, 0.01, 0.3, 0.6, 0.95])
@pytest.mark.parametrize("name", WHOLE)
def test_a_cut_off_file_is_refused(name, share, ball_files, document, tmp_path):
    data = (ball_files / name).read_bytes()
    path = tmp_path / name
    data = data[: int(len(data) * share)]
    path.write_bytes(data)
    if name == "ball.obj" and share >= 0.6:
        # Nothing in an OBJ file says where it ends: cut between lines, the mesh is open, and the gate says where.
        path.write_bytes(data.rpartition(b"\n")[0])
        (mesh,) = read(path, document)
        assert not mesh.Mesh.isSolid()
    else:
        refused(path, document, "cut off or damaged|is empty|is not a (STL mesh|OBJ mesh|BREP file)")


@pytest.mark.parametrize("damage", ["an unknown kind of thing", "a lost stretch", "an odd character"])
def test_a_damaged_step_file_is_refused_and_the_process_lives(damage, document, tmp_path):
    """Source: Debian package occt-misc, screw.step; the first two end the process that reads them on OCC 7.6."""
    data = models.model_path("screw.step").read_bytes()
    place = data.index(b"= LINE", len(data) // 3) + 2
    path = tmp_path / "damaged.step"
    path.write_bytes(
        {
            "an unknown kind of thing": data[:place] + b"XX" + data[place:],
            "a lost stretch": data[:place] + data[place + 200 :],
            "an odd character": data[:place] + b"?" + data[place:],
        }[damage]
    )
    try:
        objects = read(path, document)
    except Refusal as refusal:
        assert "damaged" in str(refusal) or "holds no solid" in str(refusal)
        assert document.Objects == []
    else:
        # A newer kernel reads around the damage; what it then hands over must be a sound solid all the same.
        assert all(o.Shape.isValid() and o.Shape.Solids for o in objects)


@pytest.mark.parametrize("name", WHOLE)
def test_a_file_under_anothers_name_is_refused(name, ball_files, document, tmp_path):
    data = (ball_files / name).read_bytes()
    for kind in {".FCStd", ".step", ".brep", ".stl", ".obj", ".ply", ".3mf"} - {Path(name).suffix}:
        same = {".brep": ".BRP", ".step": ".stp"}.get(kind)
        if Path(name).suffix == same:
            continue
        path = tmp_path / f"model{kind}"
        path.write_bytes(data)
        refused(path, document, "is not a|cut off or damaged")


@pytest.mark.parametrize("kind", ["FCStd", "step", "brep", "stl", "obj", "ply", "3mf"])
def test_a_picture_or_a_letter_is_refused(kind, document, tmp_path):
    path = tmp_path / f"picture.{kind}"
    path.write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 8)
    refused(path, document, "not a .* but a PNG picture")
    path.write_bytes(b"Dear maker,\nplease find the drawing attached.\n" * 20)
    refused(path, document, "is not a")


def test_missing_unknown_and_unreadable_files_are_refused(document, tmp_path, monkeypatch):
    refused(tmp_path / "gone.stl", document, "There is no file")
    (tmp_path / "folder.stl").mkdir()
    refused(tmp_path / "folder.stl", document, "is not a file")
    (tmp_path / "form.dwg").write_bytes(b"x")
    refused(tmp_path / "form.dwg", document, "not a kind of file that holds a form: give one of .fcstd")

    def locked(self):
        raise PermissionError(13, "Permission denied")

    (tmp_path / "locked.stl").write_bytes(b"x")
    monkeypatch.setattr(Path, "read_bytes", locked)  # the tests may run as root, who may read everything
    refused(tmp_path / "locked.stl", document, "cannot be read \\(Permission denied\\)")


@pytest.mark.parametrize("name", ["hammer.brep", "terrain.brep", "wing.brep"])
def test_a_file_without_a_solid_is_refused(name, document):
    """Source: Debian package occt-misc; none of the three holds a solid."""
    refused(models.model_path(name), document, "holds no solid")


def test_a_file_with_an_invalid_solid_is_refused(document):
    """Source: Debian package occt-misc, Top.brep, which BRepCheck finds invalid."""
    refused(models.model_path("Top.brep"), document, "is not valid")


@pytest.mark.parametrize(
    ("name", "labels"),
    [
        ("MODERN_Chair_1.brep", ["MODERN_Chair_1 1", "MODERN_Chair_1 2", "MODERN_Chair_1 3", "MODERN_Chair_1 4"]),
        ("MODERN_Table_1.brep", ["MODERN_Table_1"]),
        ("screw.step", ["the product name"]),
        ("t13_data", ["t13_data"]),
        ("nut", ["nut"]),
    ],
)
def test_labels_come_from_the_file(name, labels, document):
    assert [o.Label for o in read(models.model_path(name), document)] == labels


def test_a_step_assembly_keeps_its_parts_and_their_places(document):
    """Source: PyPI gmsh, as1-tu-203.stp: 18 solids of 764 519 mm³. gmsh's figures; Part's plain reader is the judge of
    where they lie."""
    import Part

    path = models.model_path("as1-tu-203.stp")
    objects = read(path, document)
    assert len(objects) == 18
    labels = [o.Label for o in objects]
    assert len(set(labels)) == 18
    assert {"rod", "plate", "l-bracket"} <= set(labels)
    assert sum(o.Shape.Volume for o in objects) == pytest.approx(764_519, rel=1e-5)
    plain = Part.Shape()
    plain.read(str(path))
    there = sorted(tuple(s.CenterOfMass) for s in plain.Solids)
    here = sorted(tuple(o.Shape.CenterOfMass) for o in objects)
    assert np.array(here) == pytest.approx(np.array(there), abs=1e-6)


def test_of_a_document_only_finished_shapes_are_taken(document, tmp_path):
    """Bodies by their tips, features that others were built from not at all, the file itself untouched."""
    import FreeCAD
    from onesolid import solid_of

    from freecad_stacklam.docobjects.forms.form import mesh_arrays
    from freecad_stacklam.docobjects.forms.formfile import find_partdesign

    find_partdesign()
    made = FreeCAD.newDocument("Made")
    base, tool = made.addObject("Part::Box", "Base"), made.addObject("Part::Cylinder", "Tool")
    cut = made.addObject("Part::Cut", "Cut")
    cut.Base, cut.Tool, cut.Label = base, tool, "Block"
    body = made.addObject("PartDesign::Body", "Body")
    body.Label = "Seat"
    for kind in ("AdditiveBox", "AdditiveSphere"):
        body.addObject(made.addObject(f"PartDesign::{kind}", kind))
    part = made.addObject("App::Part", "Unit")
    part.Placement.Base = (0, 0, 500)
    part.addObject(body)
    made.addObject("Part::Box", "Switched off").Visibility = False
    made.addObject("Part::Plane", "Sheet")
    made.recompute()
    path = tmp_path / "made.FCStd"
    made.saveAs(str(path))
    FreeCAD.closeDocument(made.Name)
    before = hashlib.sha256(path.read_bytes()).hexdigest()
    objects = read(path, document)
    assert sorted(o.Label for o in objects) == ["Block", "Seat"]
    seat = next(o for o in objects if o.Label == "Seat")
    assert mesh_arrays(solid_of(seat)[1])[0].max(axis=0)[2] == pytest.approx(510.0)
    assert hashlib.sha256(path.read_bytes()).hexdigest() == before
    assert [p.name for p in tmp_path.iterdir()] == ["made.FCStd"]


def test_a_document_that_is_open_already_stays_open(document, ball_files):
    import FreeCAD

    mine = FreeCAD.openDocument(str(ball_files / "ball.FCStd"), hidden=True)
    try:
        assert len(read(ball_files / "ball.FCStd", document)) == 1
        assert mine.Name in FreeCAD.listDocuments()
    finally:
        FreeCAD.closeDocument(mine.Name)


def test_the_example_is_two_forms(document, checkout):
    objects = read(checkout / "freecad_stacklam" / "data" / "plant_stand.FCStd", document)
    assert [o.Label for o in objects] == ["Pedestal", "Top"]
    for obj in objects:
        assert volume(obj) == pytest.approx(obj.Shape.Volume, rel=2e-3)


def test_the_example_covers_its_tenon(document, checkout):
    """A 40 mm square mortise, 75 mm into the pedestal and 25 into the top with 2 mm of end room, keeps at least 12 mm
    of wood in the neck and 10 under the dish (common practice, no source)."""
    import FreeCAD
    import Part

    pedestal, top = read(checkout / "freecad_stacklam" / "data" / "plant_stand.FCStd", document)
    for obj, low, high, cover in ((pedestal, 373, 450, 12.0), (top, 450, 477, 10.0)):
        mortise = Part.makeBox(40, 40, high - low, FreeCAD.Vector(-20, -20, low))
        sculpted = [face for face in obj.Shape.Faces if not isinstance(face.Surface, Part.Plane)]
        assert sculpted and min(mortise.distToShape(face)[0] for face in sculpted) >= cover


@pytest.mark.parametrize("name", ["shell.brep", "inside out.brep"])
def test_a_closed_shell_is_a_solid(name, document, tmp_path):
    """100 × 80 × 60; an open shell is still none."""
    import Part

    shell = Part.makeBox(100, 80, 60).Shells[0]
    if name == "inside out.brep":
        shell.reverse()
    shell.exportBrep(str(tmp_path / name))
    (obj,) = read(tmp_path / name, document)
    assert obj.Shape.ShapeType == "Solid"
    assert obj.Shape.isValid()
    assert volume(obj) == pytest.approx(480_000)
    Part.Shell(shell.Faces[1:]).exportBrep(str(tmp_path / "open.brep"))
    refused(tmp_path / "open.brep", document, "no solid")


@pytest.mark.parametrize("name", ["ball.stl", "ball.brep"])
def test_a_form_in_metres_asks_for_its_unit(name, document, tmp_path):
    """A ball of 0.3 m in figures of metres: 0.3 mm large as they stand."""
    import Part
    import trimesh

    from freecad_stacklam.docobjects.forms.formfile import forms_in, unit_note

    ball, path = Part.makeSphere(0.15), tmp_path / name
    if name.endswith("brep"):
        ball.exportBrep(str(path))
    else:
        trimesh.creation.icosphere(4, radius=0.15).export(path)
    refused(path, document, "0.3 mm large.*--form-unit m")
    (obj,) = forms_in(path, document, "m")
    assert volume(obj) == pytest.approx(4 / 3 * pi * 150**3, rel=6 / 150)
    assert unit_note(path, "m") == ""
    Part.makeSphere(5).exportStep(str(tmp_path / "ball.step"))
    with pytest.raises(Refusal, match="says its unit itself"):
        forms_in(tmp_path / "ball.step", document, "m")


def test_objects_of_an_obj_file_become_forms_of_their_own(document, tmp_path):
    """Two cubes of 10 mm, faces of four corners, one counted from the end: the OBJ format's own rules."""
    quads = [(1, 3, 4, 2), (5, 6, 8, 7), (1, 2, 6, 5), (2, 4, 8, 6), (4, 3, 7, 8), (3, 1, 5, 7)]
    text = ""
    for name, shift in (("left block", 0), ("right block", 50)):
        text += f"o {name}\n"
        text += "".join(f"v {x + shift} {y} {z}\n" for z in (0, 10) for y in (0, 10) for x in (0, 10))
        text += "".join("f " + " ".join(f"{k - 9}//" for k in quad) + "\n" for quad in quads)
    (tmp_path / "two.obj").write_text(text, encoding="utf-8")
    objects = read(tmp_path / "two.obj", document)
    assert [o.Label for o in objects] == ["left block", "right block"]
    assert [volume(o) for o in objects] == pytest.approx([1000.0, 1000.0])
    assert all(o.Mesh.isSolid() for o in objects)


@pytest.mark.parametrize(("unit", "mm"), [("inch", 25.4), ("centimeter", 10.0), ("micron", 0.001)])
def test_3mf_units_and_transforms_are_heeded(unit, mm, document, tmp_path):
    """3MF Core Specification 1.3: unit of the model; 4 × 3 transform of row vectors (here a mirror and a move)."""
    corner = np.array([[0, 0, 0], [4, 0, 0], [0, 4, 0], [0, 0, 4]])
    faces = [(0, 2, 1), (0, 1, 3), (1, 2, 3), (0, 3, 2)]
    path = tmp_path / "corner.3mf"
    write_3mf(path, corner, faces, unit, "-1 0 0 0 1 0 0 0 1 10 20 30", "Corner")
    (obj,) = read(path, document)
    assert obj.Label == "Corner"
    assert volume(obj) == pytest.approx(64 / 6 * mm**3, rel=1e-5)
    points = np.array([tuple(p) for p in obj.Mesh.Topology[0]])
    assert points.min(axis=0) == pytest.approx(np.array([6, 20, 30]) * mm, rel=1e-5)


def test_3mf_nonsense_is_refused(document, tmp_path):
    corner = np.array([[0, 0, 0], [4, 0, 0], [0, 4, 0], [0, 0, 4]])
    for unit, faces in (("furlong", [(0, 2, 1)]), ("inch", [(0, 2, 9)])):
        write_3mf(tmp_path / "odd.3mf", corner, faces, unit)
        refused(tmp_path / "odd.3mf", document, "not a 3MF file that can be understood")


def test_meshes_say_that_their_unit_was_taken_for_granted():
    from freecad_stacklam.docobjects.forms.formfile import unit_note

    assert "taken to be in mm" in unit_note("/some/where/Seat.STL")
    assert unit_note("seat.step") == unit_note("seat.FCStd") == unit_note("seat.3mf") == ""


def test_the_readers_print_nothing(capfd, document):
    read(models.model_path("screw.step"), document)
    with pytest.raises(Refusal):
        read(models.model_path("hammer.brep"), document)
    assert capfd.readouterr() == ("", "")


def test_a_step_shape_without_a_name_takes_the_files(tmp_path, document):
    """The STEP writer names a bare shape after itself; on the sheets that would be a program's name."""
    import Part

    Part.makeBox(100, 80, 60).exportStep(str(tmp_path / "garden stool.step"))
    assert [obj.Label for obj in read(tmp_path / "garden stool.step", document)] == ["garden stool"]


def test_names_out_of_a_file_print_and_end(document, tmp_path):
    """A label of 30 000 letters, and one with signs that turn about or clear what a terminal shows."""
    cube = "".join(f"v {x} {y} {z}\n" for z in (0, 10) for y in (0, 10) for x in (0, 10))
    faces = "".join(f"f {a} {b} {c} {d}\n" for a, b, c, d in
                    [(1, 3, 4, 2), (5, 6, 8, 7), (1, 2, 6, 5), (2, 4, 8, 6), (4, 3, 7, 8), (3, 1, 5, 7)])  # fmt: skip
    names = ["x" * 30_000, "x" * 29_000, "a\x1b[2J\u202eb"]
    (tmp_path / "named.obj").write_text(cube + "".join(f"o {name}\n{faces}" for name in names), encoding="utf-8")
    labels = [obj.Label for obj in read(tmp_path / "named.obj", document)]
    assert labels == ["x" * 120, "x" * 120 + " 2", "a[2Jb"]


def test_a_document_is_read_inside_freecads_own_programs(monkeypatch):
    """There the module FreeCAD is built in, and no file (seen in freecadcmd 0.20)."""
    import FreeCAD

    from freecad_stacklam.data import example_form
    from freecad_stacklam.docobjects.forms.formfile import forms_in

    monkeypatch.delattr(FreeCAD, "__file__")
    document = FreeCAD.newDocument("inside")
    try:
        assert [o.Label for o in forms_in(example_form(), document)] == ["Pedestal", "Top"]
    finally:
        FreeCAD.closeDocument("inside")
