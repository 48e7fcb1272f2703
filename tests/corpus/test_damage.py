# SPDX-License-Identifier: LGPL-2.1-or-later

"""Damaged input, by hypothesis: settings and racks with anything written over a part of them, mesh files with a byte
changed, meshes with a facet turned, lost, doubled or a corner moved. Each is read, or refused with a right sentence.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from meshforms import mesh_form
from trial import PROVEN, REFUSED, ill_said, planned_mesh, tried

from freecad_stacklam.data import example_rack, example_settings
from freecad_stacklam.formfiles.meshfiles import meshes_in_3mf
from freecad_stacklam.formfiles.objfile import meshes_in_obj
from freecad_stacklam.formfiles.plyfile import mesh_in_ply
from freecad_stacklam.formfiles.wholefile import refuse_unless_whole
from freecad_stacklam.lamination.boards.rack import read_rack
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.file import read_settings
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.stack import StackSettings

few = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
SETTINGS = example_settings().read_text(encoding="utf-8")
RACK = example_rack().read_text(encoding="utf-8")
#: What is written over a part: signs of the file's own language, figures of every sort, and any text.
SCRAPS = st.text(max_size=12) | st.sampled_from(
    ["", "=", "[", "]]", '"', "\n", ",", ";", "mm", "-", "1e308", "nan", "inf", "0", "-1mm", "1/0in", "9" * 400]
    + ["true", "[[stack]]", "[shop]\n", "{}", "'''", "\\u0000", "\x00", "½", "1,5", "10m", "#"]
)


def scrawled(text: str) -> st.SearchStrategy[str]:
    """The text with one to three parts of it written over."""

    def over(parts: list[tuple[int, int, str]]) -> str:
        written = text
        for at, length, scrap in sorted(parts, reverse=True):
            written = written[:at] + scrap + written[at + length :]
        return written

    return st.lists(st.tuples(st.integers(0, len(text)), st.integers(0, 40), SCRAPS), min_size=1, max_size=3).map(over)


def refused_well(refusal: Refusal) -> None:
    assert ill_said(str(refusal)) == "", str(refusal)


@few
@given(scrawled(SETTINGS) | st.text(max_size=200))
def test_settings_with_anything_written_over_them(text: str) -> None:
    try:
        read_settings(text, "mine.toml")
    except Refusal as refusal:
        refused_well(refusal)


@few
@given(scrawled(RACK) | st.text(max_size=200))
def test_a_rack_with_anything_written_over_it(text: str) -> None:
    try:
        read_rack(text, "mine.csv")
    except Refusal as refusal:
        refused_well(refusal)


CORNERS = [(x, y, z) for z in (0, 30) for x, y in ((0, 0), (40, 0), (40, 50), (0, 50))]
QUADS = [(3, 2, 1, 0), (4, 5, 6, 7), (0, 1, 5, 4), (1, 2, 6, 5), (2, 3, 7, 6), (3, 0, 4, 7)]


def obj_file() -> bytes:
    lines = [f"v {x} {y} {z}" for x, y, z in CORNERS] + ["f " + " ".join(str(k + 1) for k in q) for q in QUADS]
    return ("\n".join(lines) + "\n").encode()


def ply_file(binary: bool) -> bytes:
    kind = "binary_little_endian" if binary else "ascii"
    head = (
        f"ply\nformat {kind} 1.0\nelement vertex 8\nproperty float x\nproperty float y\nproperty float z\n"
        "element face 6\nproperty list uchar int vertex_indices\nend_header\n"
    ).encode()
    if binary:
        points = np.array(CORNERS, dtype="<f4").tobytes()
        return head + points + b"".join(b"\x04" + np.array(q, dtype="<i4").tobytes() for q in QUADS)
    lines = [f"{x} {y} {z}" for x, y, z in CORNERS] + ["4 " + " ".join(map(str, q)) for q in QUADS]
    return head + ("\n".join(lines) + "\n").encode()


FILES = {"a.obj": obj_file(), "a.ply": ply_file(False), "b.ply": ply_file(True)}


def read_bytes(name: str, data: bytes) -> list[np.ndarray]:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / name
        path.write_bytes(data)
        refuse_unless_whole(path)
        if name.endswith(".3mf"):
            return [corners for _, corners in meshes_in_3mf(path)]
    if name.endswith(".obj"):
        return [corners for _, corners in meshes_in_obj(data.decode("utf-8", errors="replace"))]
    return [mesh_in_ply(data)]


def planned_or_refused(vertices: np.ndarray, triangles: np.ndarray) -> str:
    found = tried("", "", lambda: planned_mesh(vertices, triangles, lambda box: Settings(stacks=(
        StackSettings(stock=(max(box[2] / 2.5, 0.1),), allowance=0.0, least_wood=0.0),))))  # fmt: skip
    assert found.verdict in (PROVEN, REFUSED), found
    return found.verdict


@pytest.mark.parametrize("name", list(FILES))
def test_a_byte_of_a_mesh_file_changed(name: str) -> None:
    whole = FILES[name]
    assert len(read_bytes(name, whole)) == 1

    @few
    @given(st.integers(0, len(whole) - 1), st.integers(1, 255))
    def one(at: int, change: int) -> None:
        data = whole[:at] + bytes([whole[at] ^ change]) + whole[at + 1 :]
        try:
            meshes = read_bytes(name, data)
        except Refusal as refusal:
            refused_well(refusal)
            return
        for corners in meshes:
            points = np.asarray(corners, dtype=float).reshape(-1, 3)
            if len(points):
                planned_or_refused(points, np.arange(len(points)).reshape(-1, 3))

    one()


def stl_file(binary: bool) -> bytes:
    corners = np.array(CORNERS, dtype="<f4")
    facets = [corners[list(t)] for a, b, c, d in QUADS for t in ((a, b, c), (a, c, d))]
    if binary:
        none, attributes = np.zeros(3, dtype="<f4").tobytes(), b"\0\0"
        body = b"".join(none + facet.tobytes() + attributes for facet in facets)
        return b"a block".ljust(80) + len(facets).to_bytes(4, "little") + body
    lines = ["solid block"]
    for facet in facets:
        lines += ["facet normal 0 0 0", "outer loop", *("vertex {:g} {:g} {:g}".format(*p) for p in facet)]
        lines += ["endloop", "endfacet"]
    return ("\n".join([*lines, "endsolid block"]) + "\n").encode()


@pytest.mark.freecad
@pytest.mark.parametrize("binary", [True, False])
def test_a_byte_of_an_stl_file_changed(binary: bool) -> None:
    """STL is read by FreeCAD: it lives, and what it makes of the file is planned, or refused with a right sentence."""
    import FreeCAD

    from freecad_stacklam.docobjects.forms.form import mesh_arrays
    from freecad_stacklam.docobjects.forms.formfile import forms_in

    whole, document = stl_file(binary), FreeCAD.newDocument("Damage")

    def read(data: bytes) -> str:
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "block.stl"
            path.write_bytes(data)
            try:
                forms = forms_in(path, document)
            except Refusal as refusal:
                refused_well(refusal)
                return REFUSED
        (form,) = forms
        try:
            return planned_or_refused(*mesh_arrays(form.Mesh))
        finally:
            document.removeObject(form.Name)

    @few
    @given(st.integers(0, len(whole) - 1), st.integers(1, 255))
    def one(at: int, change: int) -> None:
        read(whole[:at] + bytes([whole[at] ^ change]) + whole[at + 1 :])

    try:
        assert read(whole) == PROVEN
        one()
    finally:
        FreeCAD.closeDocument(document.Name)


BODY = mesh_form("booleans", 1)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.sampled_from(["turned", "lost", "doubled", "moved"]), st.integers(0, 10**6), st.floats(-0.5, 0.5))
def test_a_facet_of_a_mesh_damaged(how: str, which: int, far: float) -> None:
    points, faces = BODY.vertices.copy(), BODY.triangles.copy()
    which %= len(faces)
    if how == "turned":
        faces[which] = faces[which, ::-1]
    elif how == "lost":
        faces = np.delete(faces, which, axis=0)
    elif how == "doubled":
        faces = np.vstack([faces, faces[which : which + 1]])
    else:
        points[faces[which, 0]] += far * np.ptp(points, axis=0)
    verdict = planned_or_refused(points, faces)
    if how in ("turned", "lost"):
        assert verdict == REFUSED
    if how == "doubled":
        assert verdict == PROVEN  # the one that stands twice is dropped, and said
