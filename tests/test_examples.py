# SPDX-License-Identifier: LGPL-2.1-or-later

"""The bundled examples: their files fit each other, their forms lie in their blanks, whole plans of them are proven."""

from __future__ import annotations

import json
import zipfile
from dataclasses import replace
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from freecad_stacklam.data import EXAMPLES, example_form, example_settings, species_table
from freecad_stacklam.lamination.settings.file import read_with_notes

CHECKOUT = Path(__file__).resolve().parent.parent
OTHERS = [name for name in EXAMPLES if name != "plant-stand"]
#: Layers of each stack by the figures in tools/examples: heights over the stock. A leg's height is along its lean.
LAYERS = {
    "low-seat": {"Seat": 2, "Back leg": 7, "Left leg": 7, "Right leg": 7},
    "vessel": {"Vessel": 9},
    "leaning-table": {"Base": 10, "Top": 2},
}


def settings_of(name: str) -> Any:
    path = example_settings(name)
    settings, notes = read_with_notes(path.read_text(encoding="utf-8"), path.name)
    assert notes == ()
    return settings


def labels_in(path: Path) -> list[str]:
    """The labels in a FreeCAD document: a ZIP with Document.xml (FreeCAD wiki, "File Format FCStd")."""
    with zipfile.ZipFile(path) as held:
        root = ElementTree.fromstring(held.read("Document.xml"))
    rows = root.findall("./ObjectData/Object/Properties/Property[@name='Label']/String")
    return [row.get("value", "") for row in rows]


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_settings_name_the_forms_of_the_file(name: str) -> None:
    settings, labels = settings_of(name), labels_in(example_form(name))
    assert sorted(s.form for s in settings.stacks) == sorted(labels)
    assert {stack for joint in settings.joints for stack, _ in joint.embed} <= set(labels)
    assert example_form(name).stat().st_size <= 60 * 1024


@pytest.mark.parametrize("name", OTHERS)
def test_every_layer_has_boards_on_hand_and_at_the_yard(name: str) -> None:
    settings = settings_of(name)
    for stack in settings.stacks:
        assert stack.species in species_table()
        fitting = [b for b in settings.boards if b.species == stack.species and b.thickness > max(stack.stock)]
        assert {b.for_sale for b in fitting} == {True, False}


@pytest.mark.freecad
@pytest.mark.parametrize("name", OTHERS)
def test_the_forms_lie_in_their_blanks(name: str) -> None:
    """The cheap part of a plan, of two forms at most; the whole is behind the mark slow."""
    import FreeCAD

    from freecad_stacklam.docobjects.forms.formfile import forms_in
    from freecad_stacklam.docobjects.forms.plancache import find_form, plan_for

    asked = {s.form: replace(s, pins=None, hollow=None) for s in settings_of(name).stacks}
    document = FreeCAD.newDocument("Forms")
    try:
        found = {o.Label: find_form(o) for o in forms_in(example_form(name), document)[:2]}
    finally:
        FreeCAD.closeDocument(document.Name)
    for label, form in found.items():
        stack = plan_for(form, asked[label], label)
        assert len(stack.layers) == LAYERS[name][label]
        assert stack.containment.proven and stack.containment.uncovered_volume == 0
        assert stack.containment.least_cover >= stack.allowance


@pytest.mark.freecad
@pytest.mark.parametrize("name", EXAMPLES)
def test_the_tool_builds_the_bundled_forms(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    import FreeCAD

    monkeypatch.syspath_prepend(str(CHECKOUT / "tools"))
    from make_example import forms_of

    built = forms_of(EXAMPLES[name])
    document = FreeCAD.openDocument(str(example_form(name)), True)
    try:
        kept = {o.Label: o.Shape.Volume for o in document.Objects}
    finally:
        FreeCAD.closeDocument(document.Name)
    assert {label: solid.Volume for label, solid in built.items()} == {
        k: pytest.approx(v, rel=1e-6) for k, v in kept.items()
    }


@pytest.mark.freecad
def test_an_example_that_is_not_there_is_refused_with_those_that_are(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    from freecad_stacklam.commandline import answer

    assert answer(["plan", "--example", "throne", "--out", str(tmp_path / "out")]) == 2
    assert capsys.readouterr().err == (
        "There is no example “throne”: the bundled examples are plant-stand, low-seat, vessel, leaning-table.\n"
    )
    assert answer(["plan", "my.step", "--example", "vessel", "--out", str(tmp_path / "out")]) == 2
    assert "Give either FORM or --example, not both" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


@pytest.mark.freecad
@pytest.mark.slow
@pytest.mark.parametrize("name", OTHERS)
def test_an_example_is_planned_whole(name: str, tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    from planschema import check_schema

    from freecad_stacklam.commandline import answer

    assert answer(["plan", "--example", name, "--out", str(tmp_path / "out")]) == 0, capfd.readouterr().err
    plan = json.loads((tmp_path / "out" / "plan.json").read_text(encoding="utf-8"))
    assert check_schema(plan) == []
    assert plan["proven"] is True
    assert {c["verdict"] for c in plan["checks"]} == {"ok", "caution"}
    assert {s["name"]: len(s["layers"]) for s in plan["stacks"]} == LAYERS[name]
    assert all(joint["least_cover"]["distance"] >= 20.0 for joint in plan["joints"])
    assert plan["boards"]["short"] == [] and plan["boards"]["plan"]
    assert {b["verdict"] for b in plan["gluing"]["conditions"]} == {"go"}
    lines = [line for s in plan["glue_up"] if s["kind"] == "layers" for line in s["glue_lines"]]
    assert len(lines) == sum(n - 1 for n in LAYERS[name].values())
    if name == "low-seat":  # its legs are alike, so are the joints: turned by 120°, only the grain differs
        bent = [j["moment"] for j in plan["strength"]["joints"]]
        assert len(bent) == 3 and max(bent) < 1.02 * min(bent)
        assert all(j["lever"] > 20 for j in plan["strength"]["joints"]), "legs lean on their level shoulders"
    if name == "vessel":
        assert all(layer["blank"][0]["holes"] for layer in plan["stacks"][0]["layers"][3:])
    if name == "leaning-table":
        (base, _) = plan["stacks"]
        assert base["hollow"]["volume"] > 0.5e6
    assert "Traceback" not in "".join(capfd.readouterr())
