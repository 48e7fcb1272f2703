# SPDX-License-Identifier: LGPL-2.1-or-later

"""Scripts: what the api makes is what a settings file makes, and it refuses with the option's name."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.freecad

SETTINGS = """
title = "Bench end"
[[stack]]
form = "Foot"
stock = ["40 mm"]
allowance = "4 mm"
species = "walnut"
[stack.pins]
diameter = "8 mm"
[[stack]]
form = "Seat"
stock = ["30 mm"]
[[joint]]
name = "Foot to seat"
through = ["100 mm", "100 mm", "0 mm"]
size = "36 mm"
embed = {Foot = "55 mm", Seat = "30 mm"}
[[board]]
for_sale = true
thickness = "40 mm"
width = "230 mm"
length = "2400 mm"
species = "walnut"
[[board]]
for_sale = true
thickness = "30 mm"
width = "230 mm"
length = "2400 mm"
species = "white oak"
[carving]
pitch = "60 mm"
[glue]
kind = "PVA, long open time"
[[clamp]]
name = "Bar clamp"
kind = "clamp"
count = 12
opening = "600 mm"
throat = "80 mm"
force = "3 kN"
pad = "40 mm"
[use]
kind = "stool"
deep = "none"
"""


def forms_in(document: Any) -> list[Any]:
    made = []
    for name, high, level in (("Foot", 160.0, 0.0), ("Seat", 60.0, 160.0)):
        form = document.addObject("Part::Box", name)
        form.Length, form.Width, form.Height = 200, 200, high
        form.Placement.Base.z = level
        made.append(form)
    document.recompute()
    return made


def facts(document: Any) -> Any:
    import json

    from freecad_stacklam.docobjects.reading.whole import plan_of, settings_of
    from freecad_stacklam.lamination.job.planjson import as_dict, dumps

    return json.loads(dumps(as_dict(plan_of(document), settings_of(document))))


@pytest.fixture
def another() -> Iterator[Any]:
    import FreeCAD

    found = FreeCAD.newDocument("Other")
    name = found.Name
    yield found
    FreeCAD.closeDocument(name)


def test_step_by_step_makes_what_the_settings_file_makes(document: Any, another: Any) -> None:
    import FreeCAD

    from freecad_stacklam import api

    api.make_all(another, forms_in(another), SETTINGS)
    foot_form, seat_form = forms_in(document)
    api.job(document, title="Bench end")
    api.rack(document, [
        {"for_sale": True, "thickness": "40 mm", "width": 230, "length": "2.4 m", "species": "walnut"},
        {"for_sale": True, "thickness": "30 mm", "width": "230mm", "length": "2400 mm", "species": "white oak"},
    ])  # fmt: skip
    foot = api.slice_form(foot_form, stock=[FreeCAD.Units.Quantity("40 mm")], allowance=4, species="walnut")
    seat = api.slice_form(seat_form, stock=["30 mm"])
    api.add_joint([foot, seat], name="Foot to seat", through=FreeCAD.Vector(100, 100, 0), size="36 mm",
                  embed={"Foot": "55 mm", "Seat": 30})  # fmt: skip
    api.set_pins(foot, diameter="8 mm")
    api.carving_guide(document, pitch="60 mm")
    api.plan_glue_up(document, glue={"kind": "PVA, long open time"}, clamp=[{
        "name": "Bar clamp", "kind": "clamp", "count": 12, "opening": "600 mm", "throat": "80 mm", "force": "3 kN",
        "pad": "40 mm",
    }])  # fmt: skip
    api.finished_piece(document, use={"kind": "stool", "deep": "none"})
    one, other = facts(document), facts(another)
    assert one == other
    assert api.checks(document) == api.plan(document).checks


def test_what_was_made_is_changed_and_written(document: Any, tmp_path: Path) -> None:
    from freecad_stacklam import api

    foot_form, seat_form = forms_in(document)
    foot, seat = api.slice_form(foot_form, piece="Leg"), api.slice_form(seat_form, stock=["20 mm"])
    assert [s.Piece for s in (foot, seat)] == ["Leg", "Seat"]
    # 160 mm in boards of 32 mm: five layers.
    assert api.change_layers(foot, stock=["32 mm"]).LayerCount == 5
    joint = api.add_joint([foot, seat], through=(100, 100, 0), size="30 mm", ends="proud")
    assert joint.Label == "Leg to Seat"
    assert api.change_joint(joint, through=(100, 100, 0), size="30 mm").Ends == "flush"
    api.follow(joint, foot_form, "Face6")
    assert joint.Anchor[0].Name == foot_form.Name
    assert api.follow(joint).Anchor is None
    pins = api.set_pins(foot)
    assert float(api.change_pins(pins, diameter="6 mm").Diameter) == 6.0
    hollow = api.hollow_layers(seat, wall="15 mm", caps=1)
    assert float(api.change_hollow(hollow, wall="18 mm", caps=1).Wall) == 18.0
    lines = api.draw_glue_lines(foot)
    assert lines.Stack.Name == foot.Name
    api.remove_glue_lines(foot)
    assert not [o for o in document.Objects if o.Name == "GlueLines"]
    api.bill(document, tmp_path / "bill.csv")
    assert "Leg" in (tmp_path / "bill.csv").read_text(encoding="utf-8")
    pages = api.drawings(document, tmp_path / "all.pdf", paper="Letter", units="in")
    few = api.drawings(document, tmp_path / "few.pdf", kinds=("layer",))
    assert (tmp_path / "few.pdf").read_bytes()[:5] == b"%PDF-"
    assert 1 < few < pages


def test_boards_are_cut_quickly_or_longer(document: Any) -> None:
    from freecad_stacklam import api

    api.slice_form(forms_in(document)[0])
    board = {"for_sale": True, "thickness": "45 mm", "width": "150 mm", "length": "2 m", "species": "white oak"}
    api.rack(document, [board])
    quick = api.cut_boards(document)
    kept = quick.Kept
    assert kept
    longer = api.cut_boards_longer(document)
    assert longer.Name == quick.Name
    assert api.plan(document).boards is not None
    assert longer.Picture


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda api, form: api.slice_form(form, stok=["40 mm"]), "stok: there is no such key; did you mean “stock”?"),
        (lambda api, form: api.slice_form(form, stock=["40 parsec"]), "stock: "),
        (
            lambda api, form: api.slice_form(form, allowance="-3 mm"),
            "allowance: “-3 mm” is impossible here",
        ),
        (lambda api, form: api.finished_piece(form.Document, weather={}), "weather: there is no such table here"),
        (lambda api, form: api.rack(form.Document, [{"widht": 3}]), "widht: there is no such key"),
        (lambda api, form: api.drawings(form.Document, "/x.pdf", kinds=("poem",)), "no sheets of the kind “poem”"),
        (lambda api, form: api.plan(form.Document), "There is no stack in this document"),
    ],
)
def test_what_cannot_be_is_refused_by_its_name(document: Any, call: Any, says: str) -> None:
    from freecad_stacklam import api

    form = forms_in(document)[0]
    before = len(document.Objects)
    with pytest.raises(api.Refusal) as refused:
        call(api, form)
    assert says in str(refused.value)
    assert len(document.Objects) == before


def test_a_joint_names_only_what_it_joins(document: Any) -> None:
    from freecad_stacklam import api

    foot, seat = (api.slice_form(form) for form in forms_in(document))
    with pytest.raises(api.Refusal, match="“Lid” is none of the stacks that are joined: they are Foot, Seat"):
        api.add_joint([foot, seat], embed={"Foot": "40 mm", "Lid": "20 mm"})


def test_every_option_can_be_written_as_a_name() -> None:
    """Options are keywords of Python's too (Python language reference, 2.3)."""
    import keyword

    from freecad_stacklam.lamination.options.rows import rows_of
    from freecad_stacklam.lamination.settings.job import Settings

    def keys(record: Any) -> list[str]:
        found = []
        for row in rows_of(record):
            found += [row.key, *(keys(row.record) if row.record else [])]
        return found

    names = keys(Settings)
    assert len(names) > 100
    assert [name for name in names if not name.isidentifier() or keyword.iskeyword(name)] == []


def test_a_step_asked_of_nonsense_is_refused() -> None:
    from freecad_stacklam import api

    for step in (
        api.plan,
        api.checks,
        api.cut_boards,
        api.look_deeper,
        api.set_pins,
        api.draw_glue_lines,
        api.follow,
        api.add_joint,
        api.slice_form,
    ):
        for nonsense in (None, 5, "x", [], float("nan"), object(), type):
            with pytest.raises(api.Refusal, match="is asked of a"):
                step(nonsense)  # type: ignore[arg-type]
