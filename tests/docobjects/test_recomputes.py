# SPDX-License-Identifier: LGPL-2.1-or-later

"""Only what changed is made again: opening a saved project plans nothing, a change of one stack plans that one alone.

The judge is the count: of the objects that FreeCAD tells it recomputed, and of the calls that plan and place.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.freecad

#: Function → the file that calls it.
WORK = {
    "plan_stack": "docobjects.forms.plancache",
    "place_joint": "docobjects.reading.steps",
    "hollow_stack": "docobjects.reading.steps",
    "pin_stack": "docobjects.reading.steps",
    "plan_boards": "docobjects.reading.wood",
    "depth_map": "docobjects.reading.guide",
    "layer_shape": "docobjects.layer",
}


class Recomputed:
    """Counts the objects that FreeCAD recomputes, by their names."""

    def __init__(self) -> None:
        self.names: Counter[str] = Counter()

    def slotRecomputedObject(self, obj: Any) -> None:
        self.names[obj.Name] += 1


@pytest.fixture
def recomputed() -> Iterator[Counter[str]]:
    import FreeCAD

    watcher = Recomputed()
    FreeCAD.addDocumentObserver(watcher)
    yield watcher.names
    FreeCAD.removeDocumentObserver(watcher)


@pytest.fixture
def calls(monkeypatch: pytest.MonkeyPatch) -> Counter[str]:
    """How often the computation was asked, and for which stack or joint."""
    from importlib import import_module

    counted: Counter[str] = Counter()

    def counting(name: str, work: Any) -> Any:
        def asked(*given: Any, **named: Any) -> Any:
            of = named.get("name", getattr(given[0], "name", ""))
            counted[f"{name} {of}".strip()] += 1
            return work(*given, **named)

        return asked

    for name, place in WORK.items():
        module = import_module(f"freecad_stacklam.{place}")
        monkeypatch.setattr(module, name, counting(name, getattr(module, name)))
    return counted


@pytest.fixture
def bench(document: Any) -> Any:
    """A post that is hollow and pinned, under a top that is pinned, joined, cut from a rack, with a carving guide."""
    from freecad_stacklam.docobjects.making.boards import keep_cutting
    from freecad_stacklam.docobjects.making.project import fill_document
    from freecad_stacklam.docobjects.reading.insides import finished_stacks
    from freecad_stacklam.docobjects.reading.wood import boards_for, key_of, wood_settings
    from freecad_stacklam.lamination.settings.board import Board
    from freecad_stacklam.lamination.settings.carving import CarvingSettings
    from freecad_stacklam.lamination.settings.hollow import HollowSettings
    from freecad_stacklam.lamination.settings.job import Settings
    from freecad_stacklam.lamination.settings.joint import JointSettings
    from freecad_stacklam.lamination.settings.pins import PinSettings
    from freecad_stacklam.lamination.settings.stack import StackSettings

    forms = []
    for name, (x, y, z), low in (("Post", (200, 180, 160), 0), ("Top", (300, 260, 80), 160)):
        form = document.addObject("Part::Box", name)
        form.Length, form.Width, form.Height = x, y, z
        form.Placement.Base = (-x / 2 + 3, -y / 2 + 5, low)
        forms.append(form)
    document.recompute()
    pins = PinSettings(8.0, 10.0, 6.0)
    settings = Settings(
        title="Bench",
        stacks=(
            StackSettings(form="Post", stock=(40.0,), hollow=HollowSettings(wall=25.0, caps=1), pins=pins),
            StackSettings(form="Top", stock=(40.0,), pins=pins),
        ),
        joints=(JointSettings("Neck", (0.0, 0.0, 160.0), embed=(("Post", 30.0), ("Top", 25.0))),),
        boards=(Board("Oak", 200.0, 2400.0, 44.0, "white oak", 40.0, count=9),),
        carving=CarvingSettings(depth_holes=(("Top", "top"),)),
    )
    fill_document(document, forms, settings)
    stacks, wood = finished_stacks(document), wood_settings(document)
    keep_cutting(document, boards_for(document, stacks, wood), key_of(stacks, wood))
    document.recompute()
    assert not [(o.Name, o.State, o.getStatusString()) for o in document.Objects if o.State != ["Up-to-date"]]
    return document


def forget() -> None:
    """Nothing is known any more of what this process planned."""
    from freecad_stacklam.docobjects.forms import plancache

    plancache.clear()


def test_opening_a_saved_project_makes_nothing_again(
    bench: Any, tmp_path: Path, calls: Counter[str], recomputed: Counter[str]
) -> None:
    import FreeCAD

    path = str(tmp_path / "bench.FCStd")
    bench.saveAs(path)
    FreeCAD.closeDocument(bench.Name)
    forget()
    calls.clear()
    recomputed.clear()
    opened = FreeCAD.openDocument(path)
    try:
        assert all(o.State == ["Up-to-date"] for o in opened.Objects)
        opened.recompute()
        assert (calls, recomputed) == ({}, {})
        # What is asked then is made: once.
        from freecad_stacklam.docobjects.reading.whole import plan_of

        plan = plan_of(opened)
        assert calls["plan_stack Post"] == calls["plan_stack Top"] == calls["place_joint Neck"] == 1
        assert calls["hollow_stack Post"] == calls["pin_stack Post"] == calls["pin_stack Top"] == 1
        calls.clear()
        assert plan_of(opened) is plan
        assert calls == {}
    finally:
        FreeCAD.closeDocument(opened.Name)


def test_nothing_is_made_twice_and_the_plan_is_the_one_that_is_shown(bench: Any, calls: Counter[str]) -> None:
    from freecad_stacklam.docobjects.reading.whole import plan_of

    plan = plan_of(bench)
    assert calls == {}, "recomputing the objects planned all of it"
    assert plan_of(bench) is plan
    bench.recompute()
    assert plan_of(bench) is plan
    bench.getObject("Job").Title = "Another"
    assert plan_of(bench).title == "Another"
    assert calls == {}


def test_one_stack_s_option_plans_that_stack_and_what_hangs_on_it(
    bench: Any, calls: Counter[str], recomputed: Counter[str]
) -> None:
    from freecad_stacklam.docobjects.base.family import stacks_in
    from freecad_stacklam.docobjects.reading.whole import plan_of

    before = plan_of(bench)
    post, _ = stacks_in(bench)
    calls.clear()
    recomputed.clear()
    post.Allowance = post.Allowance.Value + 2
    bench.recompute()
    assert "Stack001" not in recomputed, "the top's stack stands as it stood"
    assert recomputed["Stack"] == 1
    once = {"plan_stack Post", "place_joint Neck", "hollow_stack Post", "pin_stack Post"}
    assert {name: calls[name] for name in once} == dict.fromkeys(once, 1)
    # The joint cuts the top as it did, so its pins and layers are as they were.
    assert not {name for name in calls if name.endswith("Top")} - {"depth_map Top"}
    assert calls["layer_shape"] == post.LayerCount
    after = plan_of(bench)
    assert after.stacks[1] == before.stacks[1]
    assert after.stacks[0].layers[0].blank_area > before.stacks[0].layers[0].blank_area
    # And back again: all of it is still known.
    calls.clear()
    post.Allowance = post.Allowance.Value - 2
    bench.recompute()
    assert calls == {}
    assert plan_of(bench).stacks == before.stacks


def test_what_is_no_part_of_the_wood_plans_nothing(bench: Any, calls: Counter[str], recomputed: Counter[str]) -> None:
    recomputed.clear()
    box = bench.addObject("Part::Box", "Beside")
    bench.recompute()
    box.Length = 20
    bench.recompute()
    assert calls == {}
    assert set(recomputed) == {"Beside"}


def test_a_change_without_a_recompute_of_ours_is_followed_all_the_same(bench: Any) -> None:
    from freecad_stacklam.docobjects.base.family import cutting_in
    from freecad_stacklam.docobjects.spreadsheets.rack import rack_in

    cutting = cutting_in(bench)
    assert cutting is not None
    before = cutting.ShownFor
    rack = rack_in(bench)
    cells = (f"{column}{row}" for row in range(1, 12) for column in "ABCDEFGH")
    cell = next(c for c in cells if "2400" in rack.getContents(c))
    rack.set(cell, rack.getContents(cell).replace("2400", "2300"))
    bench.recompute()
    assert cutting.ShownFor != before


def test_the_drawing_book_is_kept_until_the_plan_or_what_is_asked_of_it_changes(
    bench: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    from freecad_stacklam import keptbook
    from freecad_stacklam.benchsheets.drawing.lettering import Units
    from freecad_stacklam.docobjects.base.family import stacks_in
    from freecad_stacklam.docobjects.reading.whole import plan_of, settings_of

    made: list[Any] = []
    draw = keptbook.drawing_book
    monkeypatch.setattr(keptbook, "drawing_book", lambda *given: made.append(given) or draw(*given))

    def book(units: str = "mm", without: tuple[str, ...] = ("template", "layer"), **changed: Any) -> Any:
        from dataclasses import replace

        settings = replace(settings_of(bench), **changed)
        return keptbook.book_for(plan_of(bench), settings, Units(units), without, "2026-03-01")

    first = book()
    bench.recompute()
    assert book() is first
    assert len(made) == 1
    bench.getObject("Job").Paper = "A3"  # it changes the book, and not the plan
    plan = plan_of(bench)
    assert book() is not first
    bench.getObject("Job").Paper = "A4"
    assert (book() is first, plan_of(bench) is plan) == (True, True)
    for asked in ({"units": "in"}, {"title": "Another"}, {"author": "Somebody"}, {"without": ("layer",)}):
        assert book(**asked) is not first, asked
    assert len(made) == 6
    stacks_in(bench)[0].Allowance = 9
    bench.recompute()
    changed = book()
    assert changed != first
    assert book() is changed
    assert len(made) == 7
