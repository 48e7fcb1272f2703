# SPDX-License-Identifier: LGPL-2.1-or-later

"""Woods of the maker's own in a document: from settings into the job, into the plan, and through a saved file."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.freecad


def test_an_own_wood_goes_into_the_plan_and_through_a_file(document: Any, tmp_path: Path) -> None:
    """A box of 200 × 100 × 90 mm of pear, gravity 0.65: 1.12 × 0.65 × 1.8 l = 1.3104 kg (GTR-282 Eq. 4-14)."""
    import FreeCAD

    from freecad_stacklam.docobjects.base.units import job_in
    from freecad_stacklam.docobjects.base.woods import wood_names_in, woods_in
    from freecad_stacklam.docobjects.making.project import fill_document
    from freecad_stacklam.docobjects.reading.whole import plan_of, settings_of
    from freecad_stacklam.lamination.settings.file import read_settings

    form = document.addObject("Part::Box", "Block")
    form.Length, form.Width, form.Height = 200, 100, 90
    document.recompute()
    settings = read_settings(
        'title = "Pear"\n[[species]]\nname = "pear"\nspecific_gravity = 0.65\n[[stack]]\nspecies = "pear"\n'
    )
    fill_document(document, [form], settings)
    job = job_in(document)
    assert list(job.Woods) == ['{name = "pear", specific_gravity = 0.65}']  # type: ignore[union-attr]
    assert "pear" in wood_names_in(document)
    assert woods_in(document) is woods_in(document)
    assert settings_of(document).species == settings.species
    (finished,) = [row for row in plan_of(document).bill if row.item == "finished"]
    assert finished.mass == pytest.approx(1.3104)

    job.Woods = ['{name = "pear", specific_gravity = 0.60}']  # type: ignore[union-attr]
    document.recompute()
    (finished,) = [row for row in plan_of(document).bill if row.item == "finished"]
    assert finished.mass == pytest.approx(1.2096)

    path = tmp_path / "pear.FCStd"
    document.saveAs(str(path))
    FreeCAD.closeDocument(document.Name)
    opened = FreeCAD.openDocument(str(path))
    try:
        assert woods_in(opened)["pear"].specific_gravity == 0.60
    finally:
        FreeCAD.closeDocument(opened.Name)


def test_a_line_that_is_no_wood_is_the_job_s_error(document: Any) -> None:
    from freecad_stacklam.docobjects.base.woods import wood_names_in
    from freecad_stacklam.docobjects.making.project import make_job
    from freecad_stacklam.lamination.settings.job import Settings

    job = make_job(document, Settings(title="Pear"))
    job.Woods = ["pear, rather light"]
    document.recompute()
    assert "Invalid" in job.State
    assert "white oak" in wood_names_in(document)
    job.Woods = []
    document.recompute()
    assert "Invalid" not in job.State
