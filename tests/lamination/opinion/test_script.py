# SPDX-License-Identifier: LGPL-2.1-or-later

"""The mesher's script as text; that it is understood is for the slow test of test_second."""

from __future__ import annotations

import re

import numpy as np
import solids

from freecad_stacklam.lamination.opinion.script import Job, Prism, script_of, stl_of

SQUARE = np.array([[0, 0, 5], [10, 0, 5], [10, 10, 5], [0, 10, 5]], dtype=float)


def test_solids_are_joined_and_divided() -> None:
    void, tenon = Prism(SQUARE, np.array([0, 0, 7.5])), Prism(SQUARE + 20, np.array([1.0, 2.0, 3.0]))
    text = script_of(Job(12.0, (1.0, 2.0, 3.0), ("a.brep", "b.brep"), "", (void,), (tenon,), (SQUARE * 3,)))
    assert text.count("ShapeFromFile") == 2 and "BooleanDifference" in text
    assert "Volume{parts()}; Surface{planes()}; Delete;" in text
    assert "Extrude {0, 0, 7.5}" in text and "Extrude {1, 2, 3}" in text
    numbers = [int(n) for n in re.findall(r"^Point\((\d+)\)", text, re.M)]
    assert len(numbers) == len(set(numbers)) == 12
    assert "Field[1].VIn = 6;" in text and "Field[1].XCenter = 1;" in text and "MeshSizeMax = 12;" in text
    assert text.index("Mesh.ElementOrder = 2;") < text.index("Mesh 3;") < text.index('Save "mesh.msh";')


def test_one_plain_solid_is_left_whole() -> None:
    text = script_of(Job(12.0, (0, 0, 0), ("a.brep",)))
    assert "Boolean" not in text


def test_facets_are_read_as_one_closed_surface() -> None:
    box = solids.box(30, 20, 10)
    text = stl_of(box.vertices, box.triangles)
    assert text.count("facet normal") == len(box.triangles) and text.count("vertex") == 3 * len(box.triangles)
    script = script_of(Job(5.0, (0, 0, 0), facets="form.stl"))
    assert 'Merge "form.stl";' in script and "Volume(1) = {1};" in script and "OpenCASCADE" not in script
