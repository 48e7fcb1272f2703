# SPDX-License-Identifier: LGPL-2.1-or-later

"""A whole document: filled from settings, planned, saved by one process and opened by another, and its bill sheet."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.freecad

SAVED = Path(__file__).parent / "saved"


def example_settings() -> Any:
    """Figures of the bundled example's settings file."""
    from freecad_stacklam.lamination.settings.job import Settings
    from freecad_stacklam.lamination.settings.joint import JointSettings
    from freecad_stacklam.lamination.settings.stack import StackSettings

    return Settings(
        title="Plant stand",
        units="mm",
        author="The bench",
        date="2026-11-25",
        stacks=(
            StackSettings(form="Pedestal", stock=(45.0,), allowance=4.0),
            StackSettings(form="Top", stock=(27.0,), allowance=3.0, grain=90.0),
        ),
        joints=(JointSettings("Pedestal to top", (0.0, 0.0, 450.0), embed=(("Pedestal", 75.0), ("Top", 25.0))),),
    )


@pytest.fixture
def stand(document: Any) -> Any:
    from freecad_stacklam.data import example_form
    from freecad_stacklam.docobjects.forms.formfile import forms_in
    from freecad_stacklam.docobjects.making.project import fill_document

    fill_document(document, forms_in(example_form(), document), example_settings())
    return document


def test_the_document_s_plan_is_the_plan_of_the_same_forms_without_a_document(stand: Any) -> None:
    from jobs import plan_job

    from freecad_stacklam.data import species_table
    from freecad_stacklam.docobjects.base.family import stacks_in
    from freecad_stacklam.docobjects.reading.stacks import form_of_stack
    from freecad_stacklam.docobjects.reading.whole import plan_of

    plan = plan_of(stand)
    assert plan.proven
    forms = [form_of_stack(stack) for stack in stacks_in(stand)]
    assert plan == plan_job(forms, example_settings(), species_table())
    assert [len(s.layers) for s in plan.stacks] == [10, 2]
    assert (plan.title, plan.author, plan.date) == ("Plant stand", "The bench", "2026-11-25")


def test_settings_survive_the_way_into_objects_and_back(stand: Any) -> None:
    from freecad_stacklam.docobjects.reading.whole import settings_of

    assert settings_of(stand) == example_settings()


def test_layers_on_the_screen_are_the_layers_of_the_plan(stand: Any) -> None:
    # FreeCAD's own volumes against the plan's: blank minus the mortises, as its booleans see them.
    from freecad_stacklam.docobjects.base.family import stacks_in
    from freecad_stacklam.docobjects.reading.whole import plan_of
    from freecad_stacklam.lamination.plan.outline import area

    for stack, planned in zip(stacks_in(stand), plan_of(stand).stacks):
        assert [layer.Number for layer in stack.Layers] == [layer.number for layer in planned.layers]
        for drawn, layer in zip(stack.Layers, planned.layers):
            cuts = sum(area(cut.outline) * (cut.end - cut.start) for cut in layer.cuts)
            assert drawn.Shape.isValid()
            assert drawn.Shape.Volume == pytest.approx(layer.blank_volume - cuts, rel=1e-8)
        assert stack.Form.Shape.cut([drawn.Shape for drawn in stack.Layers]).Volume == pytest.approx(
            sum(area(c.outline) * (min(c.end, planned.form.height) - c.start) for x in planned.layers for c in x.cuts),
            rel=0.05,
        )


def test_a_form_that_no_stack_names_and_a_joint_without_a_stack_are_refused(document: Any) -> None:
    from freecad_stacklam.docobjects.making.project import fill_document
    from freecad_stacklam.docobjects.reading.whole import plan_of
    from freecad_stacklam.lamination.refusal import Refusal
    from freecad_stacklam.lamination.settings.job import Settings
    from freecad_stacklam.lamination.settings.joint import JointSettings
    from freecad_stacklam.lamination.settings.stack import StackSettings

    box = document.addObject("Part::Box", "Seat")
    box.Length = box.Width = box.Height = 100
    document.recompute()
    with pytest.raises(Refusal, match="no stack in this document"):
        plan_of(document)
    with pytest.raises(Refusal, match="no form “Leg”"):
        fill_document(document, [box], Settings(stacks=(StackSettings(form="Leg"),)))
    assert [o.Name for o in document.Objects] == ["Seat"]
    wrong = JointSettings("To nowhere", embed=(("Seat", 20.0), ("Leg", 20.0)))
    with pytest.raises(Refusal, match="“Leg”"):
        fill_document(document, [box], Settings(joints=(wrong,)))


def test_two_pieces_of_one_name_are_refused(document: Any) -> None:
    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.docobjects.reading.whole import plan_of
    from freecad_stacklam.lamination.refusal import Refusal
    from freecad_stacklam.lamination.settings.stack import StackSettings

    box = document.addObject("Part::Box", "Seat")
    box.Length = box.Width = box.Height = 100
    document.recompute()
    one = make_stack(document, box, StackSettings(stock=(25.0,)))
    other = make_stack(document, box, StackSettings(stock=(50.0,)))
    assert (one.Piece, other.Piece) == ("Seat", "Seat 2")
    assert len(plan_of(document).stacks) == 2
    other.Piece = "Seat"
    with pytest.raises(Refusal, match="Two stacks are called “Seat”"):
        plan_of(document)


# --- files of earlier releases --------------------------------------------------------------------------------------


@pytest.mark.parametrize("path", sorted(SAVED.glob("release_*.FCStd")), ids=lambda p: p.stem)
def test_files_of_every_release_open_and_recompute(path: Path, tmp_path: Path) -> None:
    """Each holds a box of 100 × 80 × 90 (six layers of 15 mm) and, on it, one of 200 × 160 × 40 (two of 20 mm), joined
    by a 30 mm square tenon, 45 mm into the lower and 20 mm into the upper."""
    import shutil

    import FreeCAD

    from freecad_stacklam.docobjects.base.family import joints_in, stacks_in
    from freecad_stacklam.docobjects.base.migration import CURRENT
    from freecad_stacklam.docobjects.forms import plancache
    from freecad_stacklam.docobjects.making.project import refresh
    from freecad_stacklam.docobjects.reading.whole import plan_of

    plancache.clear()
    copy = tmp_path / path.name
    shutil.copy(path, copy)
    document = FreeCAD.openDocument(str(copy))
    try:
        refresh(document)
        assert [o.Name for o in document.Objects if o.State != ["Up-to-date"]] == []
        foot, top = stacks_in(document)
        (joint,) = joints_in(document)
        assert ([len(s.Layers) for s in (foot, top)], foot.SchemaVersion) == ([6, 2], CURRENT)
        assert joint.TenonLength.Value == pytest.approx(65.0)
        # A box grown by 3 mm and the guard, its corners rounded: (l + 2r)(w + 2r) − (4 − π) r², and the fit outside.
        r = 3.2
        least = (100 + 2 * r) * (80 + 2 * r) - 0.8584074 * r**2
        assert least - 0.1 < foot.Layers[0].BlankArea.Value < least + 0.3 * 2 * (100 + 80 + 4 * r)
        # 47 mm down from the joint: three layers of 15 mm, and 2 mm of the next.
        taken = [layer.BlankVolume.Value - layer.Shape.Volume for layer in foot.Layers]
        assert taken == pytest.approx([0, 0, 900 * 2, 900 * 15, 900 * 15, 900 * 15], abs=0.01)
        plan = plan_of(document)
        assert (plan.proven, plan.title) == (True, path.stem.replace("release_", "Saved by ").replace("_", "."))
    finally:
        FreeCAD.closeDocument(document.Name)


def test_an_older_object_is_taken_to_today_step_by_step(document: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    from freecad_stacklam.docobjects.base import migration

    thing = document.addObject("App::FeaturePython", "Thing")
    thing.addProperty("App::PropertyInteger", "SchemaVersion", "StackLam", "")
    thing.SchemaVersion = 1
    thing.addProperty("App::PropertyLength", "Thick", "Boards", "")
    thing.Thick = 44

    def step_2_to_3(obj: Any) -> None:
        obj.addProperty("App::PropertyLength", "Stock", "Boards", "")
        obj.Stock = obj.Thick
        obj.removeProperty("Thick")

    monkeypatch.setattr(migration, "CURRENT", 4)
    monkeypatch.setitem(migration.STEPS, ("Thing", 2), step_2_to_3)
    migration.migrate(thing, "Thing")
    assert (thing.SchemaVersion, thing.Stock.Value, "Thick" in thing.PropertiesList) == (4, 44.0, False)
    migration.migrate(thing, "Thing")
    assert thing.Stock.Value == 44.0


def test_a_property_that_a_release_adds_gets_its_first_value(stand: Any) -> None:
    from freecad_stacklam.docobjects.base.family import stacks_in

    stack = stacks_in(stand)[0]
    stack.removeProperty("Allowance")
    stack.Proxy.onDocumentRestored(stack)
    assert stack.Allowance.Value == 3.0


# --- the bill sheet -------------------------------------------------------------------------------------------------


def test_bill_sheet_holds_the_plan_s_figures_and_is_rewritten_in_place(stand: Any) -> None:
    from freecad_stacklam.docobjects.reading.whole import plan_of
    from freecad_stacklam.docobjects.spreadsheets.billsheet import write_bill

    own = stand.addObject("Spreadsheet::Sheet", "Bill")
    own.set("A1", "mine")
    plan = plan_of(stand)
    sheet = write_bill(stand, plan.bill)
    assert write_bill(stand, plan.bill[:3]).Name == sheet.Name
    assert sheet.getContents("A5") == ""
    write_bill(stand, plan.bill)
    stand.recompute()
    assert own.get("A1") == "mine"
    assert sheet.get("I1") == "volume mm3"
    for number, row in enumerate(plan.bill, 2):
        assert sheet.get(f"B{number}") == row.name
        if row.volume is not None:
            assert float(sheet.get(f"I{number}")) == pytest.approx(row.volume, abs=0.51)  # whole mm³
    write_bill(stand, plan.bill, "in")
    # 1 in³ = 16 387.064 mm³ exactly (international inch of 25.4 mm, 1959).
    assert sheet.get("I1") == "volume in3"
    assert float(sheet.get("I2")) == pytest.approx(plan.bill[0].volume / 16387.064, abs=0.051)  # to 0.1 in³


@pytest.mark.parametrize("name", ["=1+1", "+1", "-1", "@SUM(A1)", "'=1+1", "two\nlines", "plain"])
def test_names_are_never_computed_by_a_spreadsheet(document: Any, name: str) -> None:
    from freecad_stacklam.docobjects.spreadsheets.billsheet import write_bill
    from freecad_stacklam.lamination.plan.bill import BillRow

    row = BillRow("blank", name, "white oak", 1, volume=5.0)
    sheet = write_bill(document, [row, replace(row, species=name)])
    document.recompute()
    for cell in ("B2", "C3"):
        shown = sheet.get(cell)
        assert isinstance(shown, str)
        assert shown[:1] not in tuple("=+-@"), "an export of the sheet would be computed"
        assert " ".join(name.split()) in shown
    assert sheet.get("I2") == 5.0
