# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue-up, its set-ups and the sheet of clamps as objects: kept in the file, following their stacks.

The set-ups come from a planner that is no more than arithmetic (glueplans.py): what is tried here is that objects,
settings and plan agree, whatever the plan is.
"""

from __future__ import annotations

from dataclasses import fields, replace
from pathlib import Path
from typing import Any

import glueplans
import pytest

from freecad_stacklam.lamination.settings.glue import GlueSettings
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.presses import PressSettings

pytestmark = pytest.mark.freecad

OWNED = (
    PressSettings("Bar clamp", count=8, force=3020.0, opening=600.0, throat=90.0),
    PressSettings("Bag", kind="vacuum", pad=300.0, air=0.08),
)


@pytest.fixture(autouse=True)
def planned(monkeypatch: pytest.MonkeyPatch) -> list[Any]:
    """The stand-in takes the planner's place; what it was asked."""
    from freecad_stacklam.docobjects.reading import gluing

    asked: list[Any] = []

    def plan(*told: Any) -> Any:
        asked.append(told)
        return glueplans.plan_glue_up(*told)

    gluing._made.clear()
    monkeypatch.setattr(gluing, "planner", lambda: plan)
    return asked


@pytest.fixture
def block(document: Any) -> Any:
    """A block of 160 × 120 × 290 mm in ten layers of 30 mm."""
    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    box = document.addObject("Part::Box", "Block")
    box.Length, box.Width, box.Height = 160, 120, 290
    document.recompute()
    made = make_stack(document, box, StackSettings(stock=(30.0,), allowance=4.0))
    document.recompute()
    return made


def glued(
    document: Any,
    glue: GlueSettings | None = None,
    room: GluingRoom | None = None,
    presses: tuple[PressSettings, ...] = OWNED,
) -> Any:
    from freecad_stacklam.docobjects.making.glueups import put_glue_up

    document.openTransaction("Glue-up")
    made = put_glue_up(document, glue or GlueSettings(), room or GluingRoom(), presses)
    document.recompute()
    document.commitTransaction()
    return made


def set_ups(document: Any) -> list[Any]:
    return [o for o in document.Objects if o.Name.startswith("GlueSet")]


def all_well(document: Any) -> bool:
    return all(o.State == ["Up-to-date"] for o in document.Objects)


def test_a_child_for_each_set_up_with_its_layers(document: Any, block: Any, planned: list[Any]) -> None:
    glue_up = glued(document)
    # Nine lines, three at a time.
    assert (glue_up.SetUpCount, glue_up.Rounds, glue_up.Verdict) == (3, "3 waits for the glue", "ok")
    ones = glue_up.SetUps
    assert [o.Name for o in ones] == [o.Name for o in set_ups(document)]
    assert [(o.First, o.Last, list(o.Lines)) for o in ones] == [
        (1, 4, [1, 2, 3]),
        (1, 7, [4, 5, 6]),
        (1, 10, [7, 8, 9]),
    ]
    assert [[n.Number for n in o.Layers] for o in ones] == [list(range(1, n + 1)) for n in (4, 7, 10)]
    assert ones[0].Joins == "Block, layers 1 to 4"
    assert ones[1].Joins == "Block, sub-stack 1 to 4 with layers 5 to 7"
    # Beside its name in the tree stands what it lays together, unless the maker wrote something there.
    assert [o.Label2 for o in ones] == [o.Joins for o in ones]
    assert list(ones[0].Clamps) == ["4 × Bar clamp"]
    assert ones[0].Time == "contact after 4 min 30 s of 8 min, pressure after 6 min of 15 min"
    # Four clamps of 3.02 kN over the overlap of two equal blanks.
    mean = 4 * 3020.0 / block.Layers[0].BlankArea.Value
    assert ones[0].Pressures[0].startswith(f"line 1: {mean:.2f} MPa, wanted 0.70 MPa to 1.70 MPa; ")
    assert glue_up.GlueMass == pytest.approx(sum(o.GlueMass for o in ones), abs=0.01)
    assert all_well(document)
    # Planned once, although every set-up shows the plan.
    assert len(planned) == 1


def test_the_plan_is_that_of_the_settings(document: Any, block: Any, planned: list[Any]) -> None:
    from freecad_stacklam.docobjects.reading.whole import plan_of, settings_of

    glued(document, GlueSettings("epoxy"), GluingRoom(helpers=1))
    ((plan, settings, _, glues),) = planned
    whole = plan_of(document)
    assert settings == replace(settings_of(document), carving=None)
    assert plan.stacks == tuple(replace(s, movement=None) for s in whole.stacks)
    assert (plan.joints, plan.units) == (whole.joints, whole.units)
    assert "epoxy" in glues


def test_water_in_the_glue_is_a_note(document: Any, block: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    from freecad_stacklam.docobjects.reading import gluing

    def plan(*told: Any) -> Any:
        water = (("Block", 1, 0.147, 1.0), ("Block", 2, 0.294, 2.0))
        return replace(glueplans.plan_glue_up(*told), water=water)

    monkeypatch.setattr(gluing, "planner", lambda: plan)
    assert list(glued(document).Notes) == [
        "The glue adds up to 0.29 points of moisture, most in layer 2 of Block: wait 2 days from gluing before its "
        "lines are planed or carved flush, or they sink later."
    ]


def test_settings_survive_the_way_into_objects_and_back(document: Any, block: Any) -> None:
    from settingstext import write_settings

    from freecad_stacklam.docobjects.reading.whole import settings_of
    from freecad_stacklam.lamination.settings.file import read_settings

    glue = GlueSettings(
        "white glue", open_time=450.0, assembly_time=900.0, least_pressure=0.0, most_pressure=1.2, spread=175.0,
        faces=2, water=0.0, least_temperature=0.0, clamp_time=3000.0, cure_time=80_000.0, gap=0.1, loss=0.2, price=12.5,
    )  # fmt: skip
    room = GluingRoom(
        temperature=17.5, humidity=45.0, helpers=2, lift=30.0, start=8.0, spread=380.0, place=25.0, pin=12.0,
        clamp=15.0, caul=0.0, caul_thickness=18.0, reface=400.0, planed=0.0,
    )  # fmt: skip
    # Every option is asked otherwise than it is at first.
    for asked in (glue, room):
        assert all(getattr(asked, f.name) != f.default for f in fields(asked))
    glued(document, glue, room)
    kept = settings_of(document)
    assert (kept.glue, kept.room, kept.presses) == (glue, room, OWNED)
    back = read_settings(write_settings(kept))
    assert (back.glue, back.room, back.presses) == (glue, room, OWNED)
    # And at their first values.
    glued(document)
    kept = settings_of(document)
    assert (kept.glue, kept.room) == (GlueSettings(), GluingRoom())


def test_a_batch_project_holds_the_glue_up(document: Any) -> None:
    from freecad_stacklam.docobjects.making.project import fill_document
    from freecad_stacklam.docobjects.reading.whole import settings_of
    from freecad_stacklam.lamination.settings.job import Settings
    from freecad_stacklam.lamination.settings.stack import StackSettings

    box = document.addObject("Part::Box", "Seat")
    box.Length = box.Width = box.Height = 100
    document.recompute()
    asked = Settings(
        title="Seat", units="in", stacks=(StackSettings(form="Seat", stock=(25.4,)),),
        glue=GlueSettings("epoxy"), room=GluingRoom(helpers=1), presses=OWNED,
    )  # fmt: skip
    fill_document(document, [box], asked)
    kept = settings_of(document)
    assert (kept.glue, kept.room) == (asked.glue, asked.room)
    # The sheet is in inches and lbf: 24 in = 609.6 mm is no round number of inches, 600 mm is told to nine places.
    sheet = document.getObject("Clamps")
    assert [sheet.get(f"{c}1") for c in "ABCDEFGH"] == [
        "name", "kind", "count", "force lbf", "opening in", "throat in", "pad in", "air psi",
    ]  # fmt: skip
    for one, two in zip(kept.presses, OWNED, strict=True):
        assert (one.name, one.kind, one.count) == (two.name, two.kind, two.count)
        assert (one.force, one.opening or 0, one.throat or 0, one.air) == pytest.approx(
            (two.force, two.opening or 0, two.throat or 0, two.air), rel=1e-6
        )
    assert len(set_ups(document)) == document.GlueUp.SetUpCount == 1
    assert all_well(document)


def test_a_job_without_clamps_keeps_its_glue_and_plans_nothing(document: Any, block: Any) -> None:
    from freecad_stacklam.docobjects.reading.whole import settings_of

    glue_up = glued(document, GlueSettings("epoxy"), presses=())
    assert (glue_up.Verdict, glue_up.SetUpCount, set_ups(document)) == ("not planned", 0, [])
    assert glue_up.Notes[0].startswith("There are no clamps")
    assert document.getObject("Clamps") is None
    assert settings_of(document).glue == GlueSettings("epoxy")
    assert all_well(document)


def test_a_deleted_sheet_takes_its_set_ups_along(document: Any, block: Any) -> None:
    glue_up = glued(document)
    document.removeObject("Clamps")
    document.recompute()
    assert (glue_up.Verdict, glue_up.Clamps, set_ups(document)) == ("not planned", None, [])
    glued(document, GlueSettings("epoxy"))
    assert (glue_up.Verdict, len(set_ups(document))) == ("ok", 3)
    assert all_well(document)


def test_boards_are_cut_before_their_staves_are_glued(
    document: Any, planned: list[Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A batch plans its glue-up once: for the cutting plan that is kept."""
    from functools import partial

    from freecad_stacklam import batch
    from freecad_stacklam.data import example_form, example_rack, example_settings
    from freecad_stacklam.docobjects.forms.formfile import forms_in
    from freecad_stacklam.docobjects.making.project import fill_document
    from freecad_stacklam.docobjects.reading import wood
    from freecad_stacklam.lamination.boards.rack import read_rack
    from freecad_stacklam.lamination.settings.file import read_settings

    monkeypatch.setattr(wood, "LOOK_LONGER", 2)
    settings = read_settings(example_settings().read_text(encoding="utf-8"))
    rack = read_rack(example_rack().read_text(encoding="utf-8"))
    settings = replace(settings, presses=OWNED, boards=rack.boards)
    forms = forms_in(example_form(), document)
    fill_document(document, forms, settings, partial(batch._plan_boards, settings=settings))
    document.recompute()
    assert len(planned) == 1
    assert planned[0][0].boards.method == document.Cutting.Method
    assert all_well(document)


def test_set_ups_follow_stacks_clamps_and_glue(document: Any, block: Any, planned: list[Any]) -> None:
    glue_up = glued(document)
    glue_up.SetUps[0].Label2 = "mine"
    block.Stock = 60
    document.recompute()
    # Five layers of 60 mm, four lines.
    assert [o.Label2 for o in glue_up.SetUps] == ["mine", "Block, sub-stack 1 to 4 with layer 5"]
    assert [o.Last for o in glue_up.SetUps] == [4, 5]
    assert len(set_ups(document)) == 2
    assert [n.Number for n in glue_up.SetUps[1].Layers] == [1, 2, 3, 4, 5]
    sheet = document.Clamps
    sheet.set("E2", "200 mm")
    document.recompute()
    assert (glue_up.Verdict, glue_up.SetUps[0].Verdict) == ("stop", "stop")
    assert list(glue_up.SetUps[0].Limits) == ["The run is 240 mm high, and the clamps open 200 mm: take others."]
    count = len(planned)
    document.recompute()
    glue_up.Label = "Another"
    document.recompute()
    assert len(planned) == count, "planned anew although nothing changed"
    glue_up.OpenTime = 200.0
    document.recompute()
    assert any("stays open 200 s" in line for line in glue_up.SetUps[0].Limits)
    sheet.set("E2", "24 in")
    glue_up.OpenTime = 0.0
    document.recompute()
    assert glue_up.Verdict == "ok"
    glue_up.Suppressed = True
    document.recompute()
    assert (glue_up.Verdict, set_ups(document)) == ("suppressed", [])
    glue_up.Suppressed = False
    document.recompute()
    assert len(set_ups(document)) == 2
    assert all_well(document)


def test_a_price_alone_plans_nothing_anew(document: Any, block: Any, planned: list[Any]) -> None:
    made = glued(document)
    count = len(planned)
    made.Price = 12.5
    document.recompute()
    assert len(planned) == count and made.SetUpCount > 0
    made.Spread = 200.0
    document.recompute()
    assert len(planned) == count + 1


def test_a_joint_is_a_set_up_of_all_its_layers(document: Any) -> None:
    from freecad_stacklam.data import example_form, example_settings
    from freecad_stacklam.docobjects.forms.formfile import forms_in
    from freecad_stacklam.docobjects.making.project import fill_document
    from freecad_stacklam.lamination.settings.file import read_settings

    settings = read_settings(example_settings().read_text(encoding="utf-8"))
    fill_document(document, forms_in(example_form(), document), replace(settings, presses=OWNED))
    last = document.GlueUp.SetUps[-1]
    (joint,) = [o for o in document.Objects if o.Name.startswith("Joint")]
    assert (last.Kind, last.Joint.Name) == ("joint", joint.Name)
    assert len(last.Layers) == sum(o.Name.startswith("Layer") for o in document.Objects)
    assert all_well(document)
    # Without the joint there is nothing to glue there.
    document.removeObject(joint.Name)
    document.recompute()
    assert all(o.Kind == "layers" for o in document.GlueUp.SetUps)
    assert all_well(document)


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        (lambda o: setattr(o, "Kind", "hot glue"), "There is no glue “hot glue” in the table"),
        (lambda o: setattr(o, "Temperature", -50.0), "“Temperature” of the room cannot be -50"),
        (lambda o: setattr(o, "Temperature", 5.0), "too cold"),
        (lambda o: setattr(o, "LeastPressure", 2.0) or setattr(o, "MostPressure", 1.0), "cannot want at least"),
        (lambda o: o.Clamps.set("C2", "two"), "Clamps, cell C2: “two” is no number"),
        (lambda o: o.Clamps.set("D2", "40 kg"), "Clamps, cell D2: "),
        (lambda o: o.Clamps.set("A3", "Bar clamp"), "Clamps, cell A3: the clamp “Bar clamp” stands twice"),
        (lambda o: o.Clamps.set("E1", "reach"), "Clamps, cell E1: there is no column “reach”"),
        (lambda o: o.Clamps.set("J2", "mine"), "Clamps, cell J2: this column has no name"),
        (lambda o: o.Clamps.clear("A1:H1"), "cell A1"),
    ],
)
def test_bad_values_are_the_object_s_error_in_one_sentence(
    document: Any, block: Any, change: Any, sentence: str
) -> None:
    glue_up = glued(document)
    document.openTransaction("bad")
    change(glue_up)
    document.recompute()
    document.commitTransaction()
    assert "Invalid" in glue_up.State
    assert sentence in str(glue_up.getStatusString())
    # The set-ups stay as they were, and nothing else is taken along.
    assert len(set_ups(document)) == 3
    assert all(o.State == ["Up-to-date"] for o in document.Objects if o.Name.startswith(("Layer", "Stack", "Block")))
    document.undo()
    document.recompute()
    assert glue_up.SetUpCount == len(set_ups(document)) == 3
    assert all_well(document)


def test_a_bad_guide_does_not_concern_the_glue_up(document: Any, block: Any) -> None:
    from freecad_stacklam.docobjects.making.carving import make_carving
    from freecad_stacklam.lamination.settings.carving import CarvingSettings

    glue_up = glued(document)
    carving = make_carving(document, CarvingSettings())
    carving.Bit = 0
    document.recompute()
    block.Stock = 60
    document.recompute()
    assert "Invalid" in carving.State
    assert (glue_up.State, glue_up.SetUpCount) == (["Up-to-date"], 2)


def test_cells_of_the_sheet_are_read_as_a_maker_types_them(document: Any, block: Any) -> None:
    from freecad_stacklam.docobjects.spreadsheets.clamps import presses_in

    glued(document)
    sheet = document.Clamps
    for cell, text in {
        "C2": "=2*3",
        "D2": "1050 lbf",
        "E2": "1-1/2in",
        "F2": "=3 in + 1 in",
        "D3": "=2 * 2.5 kN",
    }.items():
        sheet.set(cell, text)
    document.recompute()
    bar, bag = presses_in(document)
    # 1 lbf = 4.4482216152605 N (NIST SP 811, 2008, appendix B.8).
    assert bar.count == 6
    assert (bar.force, bar.opening, bar.throat) == pytest.approx((1050 * 4.4482216152605, 38.1, 101.6))
    assert bag.force == pytest.approx(5000.0)


def test_one_undo_step_and_back(document: Any, block: Any) -> None:
    before, steps = [o.Name for o in document.Objects], document.UndoCount
    glued(document)
    assert document.UndoCount == steps + 1
    after = [o.Name for o in document.Objects]
    assert len(after) == len(before) + 5
    document.undo()
    document.recompute()
    assert [o.Name for o in document.Objects] == before
    document.redo()
    document.recompute()
    assert sorted(o.Name for o in document.Objects) == sorted(after)
    assert [[n.Number for n in o.Layers][-1] for o in document.GlueUp.SetUps] == [4, 7, 10]
    document.openTransaction("thicker")
    block.Stock = 60
    document.recompute()
    document.commitTransaction()
    assert len(set_ups(document)) == 2
    document.undo()
    document.recompute()
    assert [[n.Number for n in o.Layers][-1] for o in document.GlueUp.SetUps] == [4, 7, 10]
    assert all_well(document)


def test_without_the_glue_up_its_set_ups_go(document: Any, block: Any) -> None:
    glue_up = glued(document)
    document.removeObject(glue_up.Name)
    document.recompute()
    assert set_ups(document) == []
    assert document.getObject("Clamps") is not None
    assert all_well(document)


def test_a_saved_file_opens_without_planning_and_recomputes_the_same(
    document: Any, block: Any, planned: list[Any], tmp_path: Path
) -> None:
    import FreeCAD

    from freecad_stacklam.docobjects.making.project import refresh
    from freecad_stacklam.docobjects.reading import gluing

    glue_up = glued(document, room=GluingRoom(planed=0.0))
    told = {o.Name: {p: str(getattr(o, p)) for p in o.PropertiesList if o.getGroupOfProperty(p) == "Plan"}
            for o in (glue_up, *glue_up.SetUps)}  # fmt: skip
    document.saveAs(str(tmp_path / "glued.FCStd"))
    FreeCAD.closeDocument(document.Name)
    gluing._made.clear()
    planned.clear()
    again = FreeCAD.openDocument(str(tmp_path / "glued.FCStd"))
    try:
        assert planned == []
        assert all(o.State == ["Up-to-date"] for o in again.Objects)
        found = again.GlueUp
        for one in (found, *found.SetUps):
            now = {p: str(getattr(one, p)) for p in told[one.Name]}
            assert {k: v for k, v in now.items() if "object" not in v} == {
                k: v for k, v in told[one.Name].items() if "object" not in v
            }
        assert [[n.Number for n in o.Layers][-1] for o in found.SetUps] == [4, 7, 10]
        refresh(again)
        assert planned == [], "planned anew although nothing is another"
        found.touch()
        again.recompute()
        assert len(planned) == 1
        assert found.ShownFor == told["GlueUp"]["ShownFor"]
        assert [str(o.Time) for o in found.SetUps] == [told[o.Name]["Time"] for o in found.SetUps]
        assert all_well(again)
    finally:
        FreeCAD.closeDocument(again.Name)


def test_layers_stand_apart_until_they_are_glued(document: Any) -> None:
    """Plain arithmetic on the bundled stand: nine open lines of 45 mm layers, a tenon of 75 + 25 mm, a top of 27 mm
    layers over it."""
    from freecad_stacklam.data import example_form, example_settings
    from freecad_stacklam.docobjects.forms.formfile import forms_in
    from freecad_stacklam.docobjects.making.project import fill_document
    from freecad_stacklam.docobjects.reading.exploded import GAPE, ROOM, exploded
    from freecad_stacklam.docobjects.reading.whole import plan_of
    from freecad_stacklam.lamination.settings.file import read_settings

    settings = read_settings(example_settings().read_text(encoding="utf-8"))
    fill_document(document, forms_in(example_form(), document), replace(settings, presses=OWNED))
    plan = plan_of(document)
    glued_up = glueplans.plan_glue_up(plan, replace(settings, presses=OWNED), {}, glue_kinds())

    def rises(step: int) -> tuple[list[float], list[float], float]:
        found = exploded(plan.stacks, plan.joints, glued_up, step)
        assert all(abs(v[0]) + abs(v[1]) < 1e-9 for v in (*found.layers.values(), *found.tenons.values()))
        pedestal = [float(found.layers["Pedestal", n][2]) for n in range(1, 11)]
        top = [float(found.layers["Top", n][2]) for n in (1, 2)]
        return pedestal, top, float(found.tenons[plan.joints[0].name][2])

    one, two = 45.0 * GAPE, 27.0 * GAPE
    lower, upper = (m.embed for m in plan.joints[0].members)
    assert (lower, upper) == (75.0, 25.0)
    pedestal, top, tenon = rises(0)
    assert pedestal == pytest.approx([k * one for k in range(10)])
    assert tenon == pytest.approx(9 * one + lower + ROOM / 2)
    assert top == pytest.approx([9 * one + 100 + ROOM, 9 * one + 100 + ROOM + two])
    pedestal, top, tenon = rises(3)  # the pedestal is whole
    assert pedestal == [0.0] * 10
    assert top == pytest.approx([100 + ROOM, 100 + ROOM + two])
    assert rises(4)[1] == pytest.approx([100 + ROOM] * 2)
    assert rises(5) == ([0.0] * 10, [0.0, 0.0], 0.0)


def glue_kinds() -> Any:
    from freecad_stacklam.data import glue_table

    return glue_table()
