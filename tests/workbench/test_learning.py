# SPDX-License-Identifier: LGPL-2.1-or-later

"""The steps of the first piece, judged by what is seen of a document, without FreeCAD."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from freecad_stacklam.workbench.learning.course import minutes_left, place_of
from freecad_stacklam.workbench.learning.judging import SIZES, texts
from freecad_stacklam.workbench.learning.page import tutorial
from freecad_stacklam.workbench.learning.seen import CONE, CYLINDER, FILLET, Pile, Seen, Solid
from freecad_stacklam.workbench.learning.steps import STEPS

DOCS = Path(__file__).resolve().parents[2] / "docs"
PLACE = {"x": 0.0, "y": 0.0, "z": 0.0, "lean": 0.0, "Angle": 360.0}
BENCH, PART = "StackLamWorkbench", "PartWorkbench"


def cone(**sizes: float) -> Solid:
    return Solid("Cone", "Cone", CONE, PLACE | {"Radius1": 80.0, "Radius2": 50.0, "Height": 160.0} | sizes)


def cylinder(**sizes: float) -> Solid:
    return Solid("Cylinder", "Cylinder", CYLINDER, PLACE | {"Radius": 120.0, "Height": 40.0, "z": 160.0} | sizes)


FILLETED = Solid("Fillet", "Fillet", FILLET, PLACE, base="Cylinder")
FORM = (cone(), cylinder(), FILLETED)
FOOT = Pile("Stack", "Foot stack", "Cone", 40.0)
TOP = Pile("Stack001", "Top stack", "Fillet", 20.0)
JOINT = (("Stack", "Stack001"), "caution")


def seen(solids: Sequence[Solid] = FORM, piles: Sequence[Pile] = (), **more: object) -> Seen:
    return replace(Seen("Piece", workbench=BENCH, solids=tuple(solids), piles=tuple(piles)), **more)  # type: ignore[arg-type]


WHOLE = seen(piles=(FOOT, TOP), joints=(JOINT,), pins=(("Stack", "ok"),))

#: What a document holds after each step that it shows, and the step that is then on.
WAY = [
    (Seen(), "document"),
    (Seen("Piece", workbench=BENCH), "part"),
    (Seen("Piece", workbench=PART), "cone"),
    (seen([cone(Radius1=2.0, Radius2=4.0, Height=10.0)]), "foot"),
    (seen([cone()]), "cylinder"),
    (seen([cone(), cylinder(Radius=2.0, Height=10.0, z=0.0)]), "top"),
    (seen([cone(), cylinder()]), "rim"),
    (seen(workbench=PART), "bench"),
    (seen(), "slice foot"),
    (seen(piles=(FOOT,)), "slice top"),
    (seen(piles=(FOOT, TOP)), "joint"),
    (seen(piles=(FOOT, TOP), joints=(JOINT,)), "pins"),
    (WHOLE, "checks"),
    (replace(WHOLE, table="open"), "checks"),
    (replace(WHOLE, table="closed"), "save"),
    (replace(WHOLE, table="closed", saved=True), "drawings"),
    (replace(WHOLE, saved=True, drawings="there"), "read"),
]


@pytest.mark.parametrize(("document", "key"), WAY, ids=[f"{n} {key}" for n, (_, key) in enumerate(WAY)])
def test_the_step_that_is_on_is_read_from_the_document(document: Seen, key: str) -> None:
    step = STEPS[place_of(document)]
    assert step.key == key
    missing = step.check(document)
    assert missing is not None
    assert not missing.says or key == "checks", "nothing differs from what was asked"


def test_whoever_leaves_out_a_step_or_saw_it_done_goes_on() -> None:
    assert STEPS[place_of(WHOLE, {"checks", "save"})].key == "drawings"
    assert STEPS[place_of(seen(workbench=PART), {"bench"})].key == "slice foot"
    # A document that was finished and opened again: the drawings lie there, so nothing before them is asked for.
    assert STEPS[place_of(replace(WHOLE, saved=True, drawings="there", workbench="None"))].key == "read"


BIT = 25.4
IN_INCHES = [
    cone(Radius1=3 * BIT, Radius2=2 * BIT, Height=6 * BIT),
    cylinder(Radius=4.5 * BIT, Height=1.5 * BIT, z=6 * BIT),
    FILLETED,
]


def test_either_unit_will_do_and_they_are_not_mixed() -> None:
    assert STEPS[place_of(seen(IN_INCHES))].key == "slice foot"
    assert STEPS[place_of(seen(IN_INCHES, units="in"))].key == "slice foot"
    assert STEPS[place_of(seen([cone(Height=6 * BIT), *FORM[1:]]))].key == "foot"


#: What was done otherwise, the step that the guide stays at, and what its sentence says with its values put in.
OTHERWISE = [
    (seen(strange=1, solids=()), "document", "“Piece” holds other things and stays as it is"),
    (seen([Solid("Box", "Box", "Part::Box")], strange=0), "document", "“Piece” holds other things"),
    (seen([Solid("Box", "Box", "Part::Box")], followed=True, workbench=PART), "cone", "“Box” is no cone"),
    (Seen("Piece", workbench="PartDesignWorkbench"), "part", "Part Design is another workbench"),
    (seen([cone(), Solid("Box", "Box", "Part::Box")]), "cylinder", "“Box” is no cylinder"),
    (seen([cone(Height=100.0)]), "foot", "Height of “Cone” is 100 mm, not 160 mm"),
    (seen([cone(Angle=180.0)]), "foot", "“Cone” is not whole"),
    (seen([cone(lean=1.0)]), "foot", "does not stand upright"),
    (seen([cone(), cylinder(z=0.0)]), "top", "Position Z of “Cylinder” is 0 mm, not 160 mm"),
    (seen([cone(), cylinder(), replace(FILLETED, broken=True)]), "rim", "type a smaller radius"),
    (seen(piles=(replace(FOOT, stock=27.0),)), "slice foot", "is of boards of 27 mm"),
    (seen(piles=(replace(FOOT, verdict="stop"),)), "slice foot", "does not hold its form"),
    (seen(piles=(FOOT, replace(TOP, form="Cylinder"))), "slice top", "before it was rounded"),
    (seen([*FORM[1:]], piles=(replace(FOOT, form=""), TOP)), "cone", "The form of “Foot stack” was deleted"),
    (seen(piles=(FOOT, TOP), joints=((("Stack", "Stack001"), "stop"),)), "joint", "breaks out"),
    (replace(WHOLE, pins=(("Stack001", "ok"),)), "pins", "in another stack"),
    (replace(WHOLE, pins=(("Stack", "stop"),)), "pins", "do not fit"),
    (replace(WHOLE, table="closed", saved=True, drawings="old", pdf="a.pdf"), "drawings", "a.pdf is of an earlier"),
]  # fmt: skip


@pytest.mark.parametrize(("document", "key", "says"), OTHERWISE, ids=[says[:30] for _, _, says in OTHERWISE])
def test_what_was_done_otherwise_is_told_in_a_sentence(document: Seen, key: str, says: str) -> None:
    step = STEPS[place_of(document)]
    assert step.key == key
    missing = step.check(document)
    assert missing is not None
    assert says in missing.says.format(**texts("mm") | dict(missing.values))


def test_what_freecad_0_20_makes_of_inches_is_told_as_its_doing() -> None:
    """It keeps two figures in metres: 6 in became 150 mm (tried in 0.20.2)."""
    rounded = seen([replace(IN_INCHES[0], sizes=IN_INCHES[0].sizes | {"Height": 150.0})], units="in")
    missing = STEPS[place_of(rounded)].check(rounded)
    assert missing is not None
    assert "became 5-29/32 in" in missing.says.format(**missing.values)


@pytest.mark.parametrize("units", sorted(SIZES))
def test_the_sizes_make_a_piece(units: str) -> None:
    sizes = SIZES[units]
    assert sizes["high"] / sizes["foot_boards"] == 4
    assert sizes["thick"] / sizes["top_boards"] == 2
    assert 2 * sizes["round"] < sizes["thick"]
    assert sizes["tenon"] * 2**0.5 / 2 < sizes["neck"]
    assert all(line.format(**texts(units)) for step in STEPS for line in step.lines)


def test_it_takes_ten_minutes() -> None:
    assert minutes_left(0) == 10
    assert minutes_left(len(STEPS) - 1) == 1


def test_the_page_is_written_from_the_steps() -> None:
    """python3 -m freecad_stacklam.workbench.learning.page > docs/tutorial.md"""
    assert (DOCS / "tutorial.md").read_text(encoding="utf-8") == tutorial()


def test_the_page_has_its_pictures_and_they_are_small() -> None:
    names = {step.picture for step in STEPS} - {""} | {"where"}
    lying = {path.name for path in (DOCS / "pictures").glob("tutorial-*.png")}
    assert lying == {f"tutorial-{name}.png" for name in names}
    assert all((DOCS / "pictures" / name).stat().st_size < 150_000 for name in lying)
