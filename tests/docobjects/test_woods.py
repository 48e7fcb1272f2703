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


def joined(document: Any, woods: list[str]) -> tuple[Any, Any, Any]:
    """A job with these woods of its own, a stack of a block, and a joint of it with another."""
    import FreeCAD

    from freecad_stacklam import api

    job = api.job(document)
    job.Woods = woods
    blocks = []
    for name, height in (("Foot", 0), ("Top", 90)):
        form = document.addObject("Part::Box", name)
        form.Length, form.Width, form.Height = 100, 80, 90
        form.Placement.Base = FreeCAD.Vector(0, 0, height)
        blocks.append(form)
    document.recompute()
    stacks = [api.slice_form(form, stock=["30 mm"], species="white ash") for form in blocks]
    joint = api.add_joint(stacks, through=[50, 40, 90], size=["30 mm"], embed={"Foot": "40 mm", "Top": "40 mm"})
    document.recompute()
    return job, stacks[0], joint


def test_woods_are_chosen_from_the_table_and_the_own_ones_as_they_are_now(document: Any) -> None:
    from freecad_stacklam.data import species_table
    from freecad_stacklam.docobjects.reading.joints import settings_of_joint

    job, stack, joint = joined(document, [])
    table = sorted(species_table())
    assert stack.getTypeIdOfProperty("Species") == joint.getTypeIdOfProperty("Species") == "App::PropertyEnumeration"
    assert (stack.Species, stack.getEnumerationsOfProperty("Species")) == ("white ash", table)
    assert (joint.Species, joint.getEnumerationsOfProperty("Species")) == (
        "as the first stack",
        ["as the first stack", *table],
    )
    assert settings_of_joint(joint).species == ""
    job.Woods = ['{name = "pear", specific_gravity = 0.65}']
    for one in (stack, joint):
        assert "pear" in one.getEnumerationsOfProperty("Species")
    stack.Species = joint.Species = "pear"
    document.recompute()
    assert {layer.Species for layer in stack.Layers} == {"pear"}
    assert settings_of_joint(joint).species == "pear"
    job.Woods = []  # what was chosen stays, and is refused where the wood is needed
    assert (stack.Species, joint.Species) == ("pear", "pear")
    joint.Species = "as the first stack"
    stack.Species = "white ash"
    job.Woods = ["no wood at all"]
    document.recompute()
    assert {o.Name for o in document.Objects if "Invalid" in o.State} == {job.Name, joint.Name}  # it needs its woods


def test_a_wood_that_no_table_has_goes_into_the_list_by_the_settings(document: Any) -> None:
    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    form = document.addObject("Part::Box", "Block")
    form.Length, form.Width, form.Height = 200, 100, 90
    document.recompute()
    stack = make_stack(document, form, StackSettings(species="bog yew"))
    assert stack.Species == "bog yew" and "bog yew" in stack.getEnumerationsOfProperty("Species")


@pytest.mark.parametrize("held", ["", "walnut", "bog yew"])
def test_a_wood_written_as_a_text_by_an_earlier_release_is_kept(document: Any, held: str) -> None:
    _, stack, joint = joined(document, [])
    for one, text in ((stack, held or "white oak"), (joint, held)):
        one.removeProperty("Species")
        one.addProperty("App::PropertyString", "Species", "Boards", "")
        one.Species, one.SchemaVersion = text, 2
        one.Proxy.onDocumentRestored(one)
        assert one.getTypeIdOfProperty("Species") == "App::PropertyEnumeration"
        assert "walnut" in [w.removeprefix("black ") for w in one.getEnumerationsOfProperty("Species")]
    assert (stack.Species, joint.Species) == (held or "white oak", held or "as the first stack")
    assert stack.SchemaVersion == joint.SchemaVersion == 3
