# SPDX-License-Identifier: LGPL-2.1-or-later

"""The solids that another program is given, and, slow, the bundled example reckoned by the real ones."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.freecad


def test_a_solid_is_handed_on_where_it_stands_and_a_mesh_is_not(document: Any, tmp_path: Path) -> None:
    import Mesh
    import Part
    from FreeCAD import Placement, Rotation, Vector

    from freecad_stacklam.docobjects.forms.plancache import solid_text

    box = document.addObject("Part::Box", "Block")
    box.Placement = Placement(Vector(100, 0, 50), Rotation(Vector(0, 0, 1), 90))
    document.recompute()
    text = solid_text(box)
    assert text is not None
    shape = Part.Shape()
    (tmp_path / "form.brep").write_text(text)
    shape.read(str(tmp_path / "form.brep"))
    assert shape.isValid() and shape.Volume == pytest.approx(1000.0)
    assert shape.BoundBox.XMin == pytest.approx(90.0) and shape.BoundBox.ZMin == pytest.approx(50.0)
    facets = document.addObject("Mesh::Feature", "Facets")
    facets.Mesh = Mesh.Mesh(box.Shape.tessellate(0.1))
    assert solid_text(facets) is None


@pytest.mark.slow
def test_the_example_by_the_real_programs(document: Any) -> None:
    """The bundled plant stand: the worst neck across the grain, ours and theirs side by side; no outside figure.

    A neck, for at the worst place of all, the inner corner under the top, both figures follow the mesh."""
    from freecad_stacklam.data import example_form, example_settings, species_table
    from freecad_stacklam.docobjects.forms.formfile import forms_in
    from freecad_stacklam.docobjects.making.project import fill_document
    from freecad_stacklam.docobjects.reading.pieces import asked_piece, outside_programs
    from freecad_stacklam.lamination.opinion.second import second_opinion
    from freecad_stacklam.lamination.settings.file import read_settings
    from freecad_stacklam.lamination.stress.deep import check_deep
    from freecad_stacklam.lamination.usage.use import UseSettings

    settings = replace(read_settings(example_settings().read_text()), use=UseSettings("stand"))
    fill_document(document, forms_in(example_form(), document), settings)
    programs = outside_programs(document)
    if programs.lacking():
        pytest.skip(programs.lacking())
    settings, plan, meshes = asked_piece(document)
    table = species_table()
    found = check_deep(plan, meshes, settings.use, table, lambda *_: True)
    neck = next(spot for spot in found.spots if spot.kind == "across the grain" and spot.stack == "Pedestal")
    told = second_opinion(
        plan, meshes, settings.use, table, replace(found, spots=(neck,), other_rings=None), programs, lambda *_: True
    )
    print(told)
    assert told.refused == "" and told.balance < 1e-5 and told.kind == told.our_kind
    assert abs(told.difference) < 0.15


def test_a_refused_opinion_is_asked_for_again_once_its_programs_are_there() -> None:
    from freecad_stacklam.docobjects.reading.piece import _wanting
    from freecad_stacklam.lamination.findings.deep import DeepFindings
    from freecad_stacklam.lamination.findings.opinion import SecondOpinion
    from freecad_stacklam.lamination.job.piece import Slow

    class Found:
        def __init__(self, missing: str) -> None:
            self.missing = missing

        def lacking(self) -> str:
            return self.missing

    there: Any = Found("")
    refused = Slow(deep=DeepFindings(second_opinion=SecondOpinion(refused="No solver is installed: install one.")))
    assert _wanting(refused, there)
    gone: Any = Found("No solver is installed: install one.")
    assert not _wanting(refused, gone)
    assert not _wanting(Slow(deep=DeepFindings(second_opinion=SecondOpinion(index=0.1))), there)
    assert not _wanting(Slow(deep=DeepFindings()), there)
    assert _wanting(None, None)
