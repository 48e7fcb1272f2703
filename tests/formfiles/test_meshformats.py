# SPDX-License-Identifier: LGPL-2.1-or-later

"""Mesh files as other programs write them: faces of many corners, every type of figure, and files made to harm.

Volumes by arithmetic; trimesh judges whether a mesh is closed.
"""

from __future__ import annotations

import random
import struct
import zipfile
from pathlib import Path

import numpy as np
import pytest
import trimesh

from freecad_stacklam.formfiles import meshfiles
from freecad_stacklam.formfiles.facets import triangles_of
from freecad_stacklam.formfiles.meshfiles import meshes_in_3mf
from freecad_stacklam.formfiles.objfile import meshes_in_obj
from freecad_stacklam.formfiles.plyfile import mesh_in_ply
from freecad_stacklam.formfiles.wholefile import refuse_unless_whole
from freecad_stacklam.lamination.refusal import Refusal

#: An L of 40 × 40 less 20 × 20, as one face of six corners, and the same 10 higher: 1200 mm² × 10 mm.
L = [(0, 0), (40, 0), (40, 20), (20, 20), (20, 40), (0, 40)]
SIDES = [(k, (k + 1) % 6, (k + 1) % 6 + 6, k + 6) for k in range(6)]
FACES = [tuple(range(5, -1, -1)), tuple(range(6, 12)), *SIDES]
POINTS = [(x, y, z) for z in (0, 10) for x, y in L]


def judged(corners: np.ndarray, volume: float) -> None:
    mesh = trimesh.Trimesh(corners.reshape(-1, 3), np.arange(len(corners) * 3).reshape(-1, 3), process=True)
    assert mesh.is_watertight
    assert mesh.is_winding_consistent
    assert mesh.volume == pytest.approx(volume)
    # No triangle of a flat face lies over another: their areas are the face's.
    assert mesh.area == pytest.approx(2 * 1200 + 160 * 10)


@pytest.mark.parametrize("turned", range(6))
def test_concave_faces_of_an_obj_are_cut_and_not_fanned(turned: int) -> None:
    text = "# made by hand\n" + "".join(f"  v {x} {y} {z} 1.0\n" for x, y, z in POINTS)
    for face in FACES:
        face = face[turned % len(face) :] + face[: turned % len(face)]
        words = [f"{k + 1}/1/1" for k in face]
        text += "\tf " + " ".join(words[:2]) + " \\\n   " + " ".join(words[2:]) + "   # a face\n"
    ((name, corners),) = meshes_in_obj(text)
    assert name == ""
    judged(corners, 12_000.0)


def test_a_face_with_a_hole_tied_in_by_a_bridge() -> None:
    # A square of 10 with a square hole of 4, run round as one outline there and back: 100 - 16.
    outer, hole = [(0, 0), (10, 0), (10, 10), (0, 10)], [(3, 3), (3, 7), (7, 7), (7, 3)]
    points = np.array([(x, y, 5.0) for x, y in outer + hole])
    cut = triangles_of(points, [0, 4, 5, 6, 7, 4, 0, 1, 2, 3])
    areas = [np.cross(points[b] - points[a], points[c] - points[a])[2] / 2 for a, b, c in cut]
    assert min(areas) > 0
    assert sum(areas) == pytest.approx(84.0)


def test_random_outlines_are_filled_and_keep_their_edges() -> None:
    chance = random.Random(7)
    for _ in range(300):
        count = chance.randint(4, 14)
        turns = sorted(chance.uniform(0, 2 * np.pi) for _ in range(count))
        flat = np.array([chance.uniform(0.2, 1) * np.array([np.cos(t), np.sin(t)]) for t in turns])
        turn, _ = np.linalg.qr(np.random.default_rng(count).normal(size=(3, 3)))
        points = np.column_stack([flat, np.zeros(count)]) @ turn + 100.0
        cut = triangles_of(points, range(count))
        edges = [(t[k], t[(k + 1) % 3]) for t in cut for k in range(3)]
        lone = {e for e in edges if e[::-1] not in edges}
        assert lone == {(k, (k + 1) % count) for k in range(count)}
        vector = sum(np.cross(points[b] - points[a], points[c] - points[a]) for a, b, c in cut)
        wanted = np.cross(points - points[0], np.roll(points - points[0], -1, axis=0)).sum(axis=0)
        assert vector == pytest.approx(wanted)


def test_an_obj_with_weights_indents_joined_lines_and_faces_of_five_corners() -> None:
    """A prism on a pentagon, in every way of writing that the format has (from memory): its volume is a height of 3 on
    a base of 12, an oblong of 4 × 2 and a gable of 4 · 2 / 2."""
    base = [(0, 0), (4, 0), (4, 2), (2, 4), (0, 2)]
    lines = [f"  v {x} {y} {z} 0.5" for z in (0, 3) for x, y in base]
    lines += ["\tf 5/1/1 4/1/1 \\", " 3//1 2 1", "f -5 -4 -3 \\  ", "-2 -1  # the top"]
    lines += [f"f {k + 1} {(k + 1) % 5 + 1} {(k + 1) % 5 + 6} {k + 6}" for k in range(5)]
    ((name, corners),) = meshes_in_obj("# a prism\r\no A pentagon\r\n" + "\r\n".join(lines) + "\r\n")
    assert (name, corners.shape) == ("A pentagon", (2 * 3 + 5 * 2, 3, 3))
    volume = np.einsum("ij,ij->", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])) / 6
    assert volume == pytest.approx(3 * 12)


@pytest.mark.parametrize("line", ["v 1 2", "v a b c", "f 1 2", "f 1 2 99", "f 1 2 -99", "f 0 1 2", "f 1 2 x"])
def test_an_obj_that_cannot_be_understood_is_refused(line: str) -> None:
    with pytest.raises(Refusal, match="OBJ file"):
        meshes_in_obj("v 0 0 0\nv 1 0 0\nv 0 1 0\n" + line + "\nf 1 2 3\n")


def ply(order: str, count: str, index: str, faces=FACES) -> bytes:
    """The L as PLY; order: "", "<" or ">"; struct's codes for a list's length and its figures."""
    names = {"B": "uchar", "H": "uint16", "i": "int", "I": "uint", "b": "int8"}
    kind = {"": "ascii", "<": "binary_little_endian", ">": "binary_big_endian"}[order]
    head = (
        f"ply\nformat {kind} 1.0\ncomment an L\nelement vertex {len(POINTS)}\nproperty double x\nproperty float y\n"
        f"property double z\nproperty uchar red\nelement face {len(faces)}\nproperty uchar kind\n"
        f"property list {names[count]} {names[index]} vertex_indices\nend_header\n"
    ).encode()
    if not order:
        lines = [f"{x} {y} {z} 7" for x, y, z in POINTS] + [f"0 {len(f)} " + " ".join(map(str, f)) for f in faces]
        return head + "\n".join(lines).encode() + b"\n"
    body = b"".join(struct.pack(f"{order}dfdB", *p, 7) for p in POINTS)
    return head + body + b"".join(struct.pack(f"{order}B{count}{len(f)}{index}", 0, len(f), *f) for f in faces)


@pytest.mark.parametrize("order", ["", "<", ">"])
@pytest.mark.parametrize(("count", "index"), [("B", "i"), ("B", "I"), ("I", "I"), ("H", "B"), ("b", "H")])
def test_ply_lists_of_every_type_and_length(order: str, count: str, index: str, tmp_path: Path) -> None:
    data = ply(order, count, index)
    (tmp_path / "l.ply").write_bytes(data)
    refuse_unless_whole(tmp_path / "l.ply")
    judged(mesh_in_ply(data), 12_000.0)


@pytest.mark.parametrize("order", ["", "<", ">"])
def test_a_ply_of_triangles_alone_and_one_cut_off(order: str) -> None:
    three = [t for face in FACES for t in triangles_of(np.array(POINTS, float), face)]
    data = ply(order, "B", "i", three)
    judged(mesh_in_ply(data), 12_000.0)
    # Cut off at the end of the last row of text, nothing is missing but that row's end.
    for end in range(len(data) - 40, len(data) - 3, 5):
        with pytest.raises(Refusal, match="PLY file"):
            mesh_in_ply(data[:end])


CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"


def three_mf(path: Path, resources: str, build: str, method: int = zipfile.ZIP_DEFLATED) -> Path:
    with zipfile.ZipFile(path, "w", method) as archive:
        head = f'<model unit="millimeter" xmlns="{CORE}">'
        archive.writestr("3D/3dmodel.model", f"{head}<resources>{resources}</resources><build>{build}</build></model>")
    return path


MESH = (
    '<object id="0"><mesh><vertices><vertex x="0" y="0" z="0"/><vertex x="1" y="0" z="0"/><vertex x="0" y="1" z="0"/>'
    '<vertex x="0" y="0" z="1"/></vertices><triangles><triangle v1="0" v2="2" v3="1"/><triangle v1="0" v2="1" v3="3"/>'
    '<triangle v1="1" v2="2" v3="3"/><triangle v1="0" v2="3" v3="2"/></triangles></mesh></object>'
)


def test_ten_thousand_million_components_are_refused_before_they_are_placed(tmp_path: Path) -> None:
    # Ten objects, each of ten of the one before: 10¹⁰ meshes out of a hundred lines.
    resources = MESH + "".join(
        f'<object id="{n}"><components>{f"""<component objectid="{n - 1}"/>""" * 10}</components></object>'
        for n in range(1, 11)
    )
    path = three_mf(tmp_path / "bomb.3mf", resources, '<item objectid="10"/>')
    with pytest.raises(Refusal, match="10000000000 meshes"):
        meshes_in_3mf(path)
    ring = '<object id="1"><components><component objectid="1"/></components></object>'
    with pytest.raises(Refusal, match="can be understood"):
        meshes_in_3mf(three_mf(tmp_path / "ring.3mf", ring, '<item objectid="1"/>'))
    assert len(meshes_in_3mf(three_mf(tmp_path / "two.3mf", resources, '<item objectid="1"/>'))) == 10


def test_archives_that_unpack_to_more_than_fits_are_not_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from freecad_stacklam.formfiles import wholefile

    path = three_mf(tmp_path / "big.3mf", MESH + " " * 100_000, '<item objectid="0"/>')
    refuse_unless_whole(path)
    monkeypatch.setattr(wholefile, "MOST_UNZIPPED", 100_000)
    monkeypatch.setattr(meshfiles, "MOST_BYTES", 100_000)
    with pytest.raises(Refusal, match=r"“big\.3mf” unpacks to more than"):
        refuse_unless_whole(path)
    with pytest.raises(Refusal, match="holds a model of more than"):
        meshes_in_3mf(path)


@pytest.mark.parametrize("kind", ["a.3mf", "a.FCStd"])
def test_a_byte_turned_over_anywhere_in_an_archive_is_no_crash(kind: str, tmp_path: Path) -> None:
    path = tmp_path / kind
    if kind == "a.3mf":
        three_mf(path, MESH * 20, '<item objectid="0"/>')
    else:
        with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
            archive.writestr("Document.xml", "<Document/>" * 200)
            archive.writestr("Box.brp", "DBRep_DrawableShape" * 300)
    data = bytearray(path.read_bytes())
    refused = 0
    for at in range(len(data)):
        turned = bytes(data[:at]) + bytes([data[at] ^ 0x5A]) + bytes(data[at + 1 :])
        path.write_bytes(turned)
        try:
            refuse_unless_whole(path)
            if kind == "a.3mf":
                meshes_in_3mf(path)
        except Refusal as refusal:
            refused += 1
            assert path.name in str(refusal)
    assert refused > len(data) * 0.5
