# SPDX-License-Identifier: LGPL-2.1-or-later

"""A solid meshed in a process of its own is meshed as it would be here once its document was opened again; what that
process cannot do is done here."""

from __future__ import annotations

import sys
from pathlib import Path
from threading import Thread

import numpy as np
import pytest

from freecad_stacklam.lamination.refusal import Refusal

pytestmark = pytest.mark.freecad


def in_a_thread(work):
    """What `work` gives in a thread that is not the first, or the Refusal it raises."""
    told = []

    def run():
        try:
            told.append(work())
        except Refusal as refusal:
            told.append(refusal)

    thread = Thread(target=run)
    thread.start()
    thread.join()
    return told[0]


def barrel():
    """A turned and moved body with one curved face: a spline from Ø100 to Ø160 and back, 200 mm high."""
    import FreeCAD
    import Part

    curve = Part.BSplineCurve()
    curve.interpolate([FreeCAD.Vector(x, 0, z) for x, z in ((50, 0), (75, 60), (80, 100), (72, 150), (50, 200))])
    edges = [curve.toShape()]
    for a, b in (((50, 200), (0, 200)), ((0, 200), (0, 0)), ((0, 0), (50, 0))):
        edges.append(Part.makeLine(FreeCAD.Vector(a[0], 0, a[1]), FreeCAD.Vector(b[0], 0, b[1])))
    face = Part.Face(Part.Wire(edges))
    solid = face.revolve(FreeCAD.Vector(), FreeCAD.Vector(0, 0, 1), 360)
    solid = solid if solid.ShapeType == "Solid" else solid.Solids[0]
    solid.Placement = FreeCAD.Placement(FreeCAD.Vector(12.3, -4.5, 6.7), FreeCAD.Rotation(FreeCAD.Vector(1, 2, 3), 31))
    return solid


def test_another_process_meshes_to_the_last_bit_as_this_one(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    import Part

    from freecad_stacklam.docobjects.forms import form, meshaside

    solid = barrel()
    monkeypatch.setattr(meshaside, "python", [sys.executable])
    form.clear_cache()
    made = in_a_thread(lambda: meshaside._made_aside(solid, "barrel"))
    assert made is not None, "the other process did not run"
    (vertices, triangles), exact = made
    kept = form.mesh_arrays(solid)
    assert kept[0] is vertices and kept[1] is triangles, "it would be meshed here once more"
    form.clear_cache()
    # As a file gives it back: the kernel changes what it has just revolved by a little when it is written.
    again = Part.Shape()
    solid.exportBinary(str(tmp_path / "solid.bin"))
    again.importBinary(str(tmp_path / "solid.bin"))
    here = form.mesh_arrays(again)
    assert np.array_equal(vertices, here[0]) and np.array_equal(triangles, here[1])
    assert np.array_equal(exact, form.exact_points(again))
    assert len(exact) > 100


def test_it_is_meshed_here_where_no_other_process_can(monkeypatch: pytest.MonkeyPatch) -> None:
    import Part

    from freecad_stacklam.docobjects.forms import form, meshaside

    def never(*_):
        raise AssertionError("another process was asked")

    solid, plain = barrel(), Part.makeBox(10, 20, 30)
    monkeypatch.setattr(meshaside, "python", ["/no/such/python"])
    form.clear_cache()
    (vertices, _), exact = in_a_thread(lambda: meshaside.mesh_and_points(solid, "barrel"))
    assert len(vertices) > 100 and len(exact) > 100
    # Plain faces, and whatever is asked for in the first thread, are not sent away.
    monkeypatch.setattr(meshaside, "_made_aside", never)
    (vertices, _), _ = in_a_thread(lambda: meshaside.mesh_and_points(plain, "box"))
    assert sorted(np.ptp(vertices, axis=0)) == [10, 20, 30]
    meshaside.mesh_and_points(solid, "barrel")


def test_a_process_that_falls_over_refuses_the_solid(monkeypatch: pytest.MonkeyPatch) -> None:
    from freecad_stacklam.docobjects.forms import meshaside

    solid = barrel()
    monkeypatch.setattr(meshaside, "python", [sys.executable])
    monkeypatch.setattr(meshaside, "_THERE", "import os; os.abort()")
    told = in_a_thread(lambda: meshaside.mesh_and_points(solid, "barrel"))
    assert isinstance(told, Refusal) and told.sentence.startswith("“barrel” makes FreeCAD's kernel fail")
    monkeypatch.setattr(meshaside, "_THERE", "import time; time.sleep(30)")
    monkeypatch.setattr(meshaside, "LONGEST", 0.5)
    told = in_a_thread(lambda: meshaside.mesh_and_points(solid, "barrel"))
    assert isinstance(told, Refusal) and "more than 0.5 s to mesh" in told.sentence


@pytest.mark.parametrize("what", ["no folder", "cut off"])
def test_what_the_other_process_cannot_bring_back_is_meshed_here(
    what: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    import tempfile

    from freecad_stacklam.docobjects.forms import form, meshaside

    solid = barrel()
    form.clear_cache()
    if what == "no folder":
        monkeypatch.setattr(meshaside, "python", [sys.executable])
        monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "nowhere"))
    else:
        write = "import pathlib, sys; pathlib.Path(sys.argv[-2], 'mesh.npz').write_bytes(b'PK')"
        monkeypatch.setattr(meshaside, "python", [sys.executable, "-c", write])
    (_, triangles), _ = in_a_thread(lambda: meshaside.mesh_and_points(solid, "Barrel"))
    assert len(triangles) > 100
