# SPDX-License-Identifier: LGPL-2.1-or-later

"""A document's own units: where they begin, and that what its objects say is written in them."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

pytestmark = pytest.mark.freecad


@pytest.fixture
def drum(document: Any) -> Any:
    found = document.addObject("Part::Cylinder", "Drum")
    found.Radius, found.Height = 100, 101.6
    document.recompute()
    return found


def made(document: Any, drum: Any) -> Any:
    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    return make_stack(document, drum, StackSettings(stock=(25.4,), allowance=3.0))


def test_the_first_stack_decides_and_the_title_stays_the_document_s(document: Any, drum: Any) -> None:
    from freecad_stacklam.docobjects.base.units import units_in
    from freecad_stacklam.docobjects.making.project import begin_job
    from freecad_stacklam.docobjects.reading.whole import settings_of

    begin_job(document, "mm", "A4")
    assert units_in(document) == "mm"
    assert [o.Name for o in document.Objects] == ["Drum"]  # millimetres need no object
    begin_job(document, "in", "Letter")
    assert (units_in(document), document.Job.Paper) == ("in", "Letter")
    document.Label = "Stool"
    assert settings_of(document).title == "Stool"
    begin_job(document, "in", "A4")
    assert document.Job.Paper == "Letter"


def test_a_document_with_stacks_in_it_keeps_its_millimetres(document: Any, drum: Any) -> None:
    from freecad_stacklam.docobjects.base.units import units_in
    from freecad_stacklam.docobjects.making.project import begin_job

    made(document, drum)
    begin_job(document, "in", "Letter")
    assert units_in(document) == "mm"


def test_pins_and_glue_lines_speak_the_document_s_inches(document: Any, drum: Any) -> None:
    from freecad_stacklam.docobjects.making.gluelines import make_glue_lines
    from freecad_stacklam.docobjects.making.insides import make_pins
    from freecad_stacklam.docobjects.making.project import begin_job
    from freecad_stacklam.lamination.settings.pins import PinSettings

    begin_job(document, "in", "Letter")
    stack = made(document, drum)
    pins, lines = make_pins(stack, PinSettings()), make_glue_lines(stack)
    document.recompute()
    # 101.6 mm are four layers of 25.4 mm = 1 in; round a circle of radius 100 mm: 628.3 mm = 24.737 in, 24-3/4 in.
    assert list(lines.Lines) == [f"layers {n} and {n + 1}: {n} in high, 24-3/4 in long" for n in (1, 2, 3)]
    assert len(pins.Misfits) == 3
    assert not [text for text in (*pins.Misfits, *pins.Notes) if " mm" in text]


def test_a_stack_without_a_least_wood_marks_nothing(document: Any, drum: Any) -> None:
    from freecad_stacklam.docobjects.reading.stacks import shown_plan
    from freecad_stacklam.docobjects.stack import _wood_left

    plan, _ = shown_plan(made(document, drum))
    assert _wood_left(plan)["CoverVerdict"] == "ok"
    unmeasured = replace(plan, containment=replace(plan.containment, least_wood=None))
    found = _wood_left(unmeasured)
    assert (found["WoodLeft"], found["CoverVerdict"], found["ThinRims"]) == (0.0, "", [])
