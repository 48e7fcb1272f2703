# SPDX-License-Identifier: LGPL-2.1-or-later

"""No option is accepted that nothing reads: each is changed, and the plan, the bill or the sheets change with it.

The judge is the plan itself, as plan.json and the book of sheets tell it: an option whose other value leaves both as
they were would be an empty promise. A refusal counts too, for then the option was read.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import fields, replace
from functools import cache
from typing import Any

import numpy as np
import pytest
import solids

from freecad_stacklam.benchsheets.book.whole import drawing_book
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Text
from freecad_stacklam.data import climate_table, glue_table, species_table
from freecad_stacklam.lamination.findings.whole import PieceFindings
from freecad_stacklam.lamination.form.mesh import Mesh, gate
from freecad_stacklam.lamination.gluing.glueup import plan_glue_up
from freecad_stacklam.lamination.job.assembly import Form, Steps, assemble, matched
from freecad_stacklam.lamination.job.piece import (
    DEEP,
    OPINION,
    PARTS,
    check_quickly,
    check_slowly,
    pending_of,
    with_slow,
)
from freecad_stacklam.lamination.job.planjson import as_dict, dumps
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.options.rows import NEEDED, Record, Row, rows_of
from freecad_stacklam.lamination.plan.gluing import GlueUpPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.board import Board, Knot
from freecad_stacklam.lamination.settings.carving import CarvingSettings, PickedPlane
from freecad_stacklam.lamination.settings.glue import GlueSettings
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.presses import PressSettings
from freecad_stacklam.lamination.settings.shop import BandSaw, Bit, ShopSettings
from freecad_stacklam.lamination.settings.stack import StackSettings, TabSettings
from freecad_stacklam.lamination.usage.budget import BudgetSettings
from freecad_stacklam.lamination.usage.climate import FINENESS, ClimateSettings
from freecad_stacklam.lamination.usage.finish import FinishSettings
from freecad_stacklam.lamination.usage.rates import RateSettings
from freecad_stacklam.lamination.usage.use import LoadSettings, UseSettings
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.languages import language_spoken


def egg(profile: list[tuple[float, float]]) -> Mesh:
    """A turned profile drawn out to one side, so that no way of laying a layer but the right one fits."""
    turned = solids.revolved(np.array(profile, dtype=float), 16)
    x, y, z = turned.vertices.T
    return gate(np.column_stack([np.where(x > 0, 1.12, 1.0) * x, np.where(y > 0, 0.86, 0.8) * y, z]), turned.triangles)


FORMS = (
    Form("Foot", egg([(0, 0), (120, 0), (80, 100), (90, 200), (0, 200)])),
    Form("Top", egg([(0, 200), (180, 200), (150, 245), (0, 260)])),
)
#: A form with a hole through it: what a band saw's blade and `fill_holes` are about.
RING = (Form("Ring", solids.torus(90.0, 30.0)),)

BASE = Settings(
    title="Stand",
    stacks=(
        StackSettings(
            form="Foot", stock=(40.0,), hollow=HollowSettings(wall=25.0, caps=1), pins=PinSettings(8.0, 12.0, 6.0)
        ),
        StackSettings(form="Top", stock=(30.0,)),
    ),
    joints=(JointSettings("Foot to top", embed=(("Foot", 60.0), ("Top", None)), through=(0.0, 0.0, 200.0)),),
    shop=ShopSettings(band_saw=BandSaw(12.7), bits=(Bit(35.0),)),
    boards=(
        Board("Oak", 150.0, 2400.0, 45.0, "white oak", 40.0, count=6),
        Board("Yard", 140.0, 3000.0, 34.0, "white oak", 30.0, count=0, for_sale=True),
    ),
    carving=CarvingSettings(depth_holes=(("Top", "top"),), planes=(PickedPlane("Skew", (0, 0, 100), (1, 0, 1)),)),
)
#: The same with a glue-up, of fewer layers and without staves: each set-up is pressed.
GLUED = replace(
    BASE,
    stacks=(
        StackSettings(form="Foot", stock=(70.0,), pins=PinSettings(8.0, 12.0, 6.0)),
        StackSettings(form="Top", stock=(30.0,)),
    ),
    boards=(), carving=None, glue=GlueSettings(), room=GluingRoom(humidity=45.0),
    presses=(PressSettings("Bar", count=12, opening=700.0, throat=90.0), PressSettings("Screw", count=4, force=3000.0)),
)  # fmt: skip
#: The same with a waste tab.
TABBED = replace(
    BASE, stacks=(replace(BASE.stacks[0], tabs=(TabSettings((2, 3), direction=30.0),)), BASE.stacks[1]), boards=()
)
#: The same with all that is asked of the finished piece.
USED = replace(
    GLUED, glue=None, room=None, presses=(),
    use=UseSettings("stand", deep="none", loads=(LoadSettings("A pot", 200.0, 10.0, inset=20.0),)),
    climate=ClimateSettings(fineness="coarse"),
    finish=FinishSettings(litre_price=30.0, sheet_price=1.0),
    rates=RateSettings(
        hour_price=40.0, layer_hours=0.5, sawing_rate=6.0, set_up_hours=1.0, joint_hours=2.0, sanding_rate=0.5,
        coating_rate=2.0, other_hours=3.0,
    ),
    budget=BudgetSettings(),
)  # fmt: skip
Change = Callable[[Settings], Settings]


def kept(function: Callable[..., Any]) -> Callable[..., Any]:
    """The function, asked once for each set of arguments: records and values by what they say, all else by itself."""
    answers: dict[Any, Any] = {}
    alive: list[Any] = []  # so that no id is given twice

    def key(asked: Any) -> Any:
        if asked is None or isinstance(asked, (Record, str, float, int)):
            return asked
        if isinstance(asked, Mapping):
            return tuple((name, key(value)) for name, value in asked.items())
        if isinstance(asked, (tuple, list)):
            return tuple(map(key, asked))
        alive.append(asked)
        return id(asked)

    def answer(*asked: Any) -> Any:
        found = key(asked)
        if found not in answers:
            answers[found] = function(*asked)
        return answers[found]

    return answer


#: Joints, voids and pins are found once for all plans that ask the same of them.
ONCE = Steps(*(kept(getattr(Steps(), step.name)) for step in fields(Steps)))


@cache
def sliced(form: Form, chosen: StackSettings) -> StackPlan:
    return plan_stack(form.mesh, chosen, name=form.name)


def glued(plan: Plan, settings: Settings) -> GlueUpPlan:
    return plan_glue_up(plan, settings, species_table(), glue_table())


@pytest.fixture(autouse=True)
def few_cells(monkeypatch: pytest.MonkeyPatch) -> None:
    """A year in a twentieth of the cells: an option that is read is felt in these too."""
    for name, cells in (("coarse", 800), ("usual", 1600)):
        monkeypatch.setitem(FINENESS, name, cells)


#: What was found of each part of the finished piece, by the layers and joints and by that part's own options. A part
#: that read another's options would not be found anew for them, so they would be told as unread: this can make a test
#: fail, never pass.
FOUND: dict[Any, Any] = {}
#: So that no id is given twice.
ALIVE: list[Plan] = []


def part_found(
    part: str, plan: Plan, meshes: Mapping[str, Mesh], settings: Settings, table: Mapping[str, Species]
) -> PieceFindings:
    """The weight, and what one table of the settings asks of the finished piece."""
    own = getattr(settings, part)
    key = (part, own, *((s.name, id(s.layers)) for s in plan.stacks), *map(id, plan.joints), tuple(table.items()))
    if key not in FOUND:
        ALIVE.append(plan)
        alone = replace(settings, **{name: None for name in PARTS if name != part})
        FOUND[key] = check_quickly(plan, meshes, alone, table)
        if part == "climate" and own is not None:
            slow = check_slowly(plan, meshes, alone, table, climate_table(), lambda *_: True)
            assert slow is not None
            FOUND[key] = with_slow(FOUND[key], slow)
    return FOUND[key]


def looked(plan: Plan, meshes: Mapping[str, Mesh], settings: Settings, table: Mapping[str, Species]) -> PieceFindings:
    """With the year, which is quick where the wood is divided coarsely, and deep check and opinion left pending."""
    parts = {part: part_found(part, plan, meshes, settings, table) for part in PARTS}
    return replace(
        parts["use"],
        finish=parts["finish"].finish,
        budgets=parts["budget"].budgets,
        seasons=parts["climate"].seasons,
        pending=tuple(what for what in pending_of(settings) if what in (DEEP, OPINION)),
        left_out=tuple(dict.fromkeys(left for found in parts.values() for left in found.left_out)),
    )


def told(settings: Settings, sheets: bool = False) -> str:
    """What a plan says: plan.json without the echo of the settings, and where wanted which sheets there are."""
    with language_spoken(settings.language):
        return _told_in_its_language(settings, sheets)


def _told_in_its_language(settings: Settings, sheets: bool) -> str:
    made = RING if settings.stacks[0].form == "Ring" else FORMS
    stacks = [sliced(form, chosen) for form, chosen in matched(made, settings)]
    plan = assemble(
        stacks, made, settings.joints, settings, species_table(), plan_glue=glued, steps=replace(ONCE, look=looked)
    )
    facts = as_dict(plan, settings)
    del facts["settings"]
    if not sheets:
        return dumps(facts)
    full = paper_named(settings.paper_full) if settings.paper_full else None
    without = ("template",) if full is None else ()
    book = drawing_book(plan, paper_named(settings.paper), settings.units, full, without=without)
    words = [mark.text for sheet in book for mark in sheet.marks if isinstance(mark, Text)]
    return dumps(facts) + repr([(sheet.kind, sheet.title, sheet.paper) for sheet in book]) + repr(words)


told_once = cache(told)


# --- where a record stands in the job, and what else must be so that an option can be felt ---------------------------


def _stack(**changes: Any) -> Change:
    return lambda s: replace(s, stacks=(replace(s.stacks[0], **changes), *s.stacks[1:]))


def _hollow(**changes: Any) -> Change:
    return lambda s: _stack(hollow=replace(s.stacks[0].hollow, **changes))(s)  # type: ignore[type-var]


def _pins(**changes: Any) -> Change:
    return lambda s: _stack(pins=replace(s.stacks[0].pins, **changes))(s)  # type: ignore[type-var]


def _tab(**changes: Any) -> Change:
    return lambda s: _stack(tabs=(replace(s.stacks[0].tabs[0], **changes),))(s)


def _joint(**changes: Any) -> Change:
    return lambda s: replace(s, joints=(replace(s.joints[0], **changes),))


def _shop(**changes: Any) -> Change:
    return lambda s: replace(s, shop=replace(s.shop, **changes))


def _saw(**changes: Any) -> Change:
    return lambda s: _shop(band_saw=replace(s.shop.band_saw, **changes))(s)  # type: ignore[type-var]


def _bit(**changes: Any) -> Change:
    return lambda s: _shop(bits=(replace(s.shop.bits[0], **changes),))(s)


def _board(**changes: Any) -> Change:
    return lambda s: replace(s, boards=(replace(s.boards[0], **changes), *s.boards[1:]))


def _carving(**changes: Any) -> Change:
    return lambda s: replace(s, carving=replace(s.carving, **changes))  # type: ignore[type-var]


def _plane(**changes: Any) -> Change:
    return lambda s: _carving(planes=(replace(PickedPlane("Skew", (0, 0, 100), (1, 0, 1)), **changes),))(s)


def _glue(**changes: Any) -> Change:
    return lambda s: replace(s, glue=replace(s.glue, **changes))  # type: ignore[type-var]


def _room(**changes: Any) -> Change:
    return lambda s: replace(s, room=replace(s.room, **changes))  # type: ignore[type-var]


def _press(**changes: Any) -> Change:
    return lambda s: replace(s, presses=(replace(s.presses[0], **changes), *s.presses[1:]))


def _of(name: str) -> Callable[..., Change]:
    """Changes to the table of this name."""
    return lambda **changes: lambda s: replace(s, **{name: replace(getattr(s, name), **changes)})


def _load(**changes: Any) -> Change:
    return lambda s: _of("use")(loads=(replace(s.use.loads[0], **changes),))(s)  # type: ignore[union-attr]


def _job(**changes: Any) -> Change:
    return lambda s: replace(s, **changes)


PLACES: dict[type[Record], Callable[..., Change]] = {
    Settings: _job, StackSettings: _stack, HollowSettings: _hollow, PinSettings: _pins, JointSettings: _joint,
    ShopSettings: _shop, BandSaw: _saw, Bit: _bit, Board: _board, CarvingSettings: _carving, PickedPlane: _plane,
    GlueSettings: _glue, GluingRoom: _room, PressSettings: _press, TabSettings: _tab,
    UseSettings: _of("use"), LoadSettings: _load, ClimateSettings: _of("climate"), FinishSettings: _of("finish"),
    RateSettings: _of("rates"), BudgetSettings: _of("budget"),
}  # fmt: skip

RINGED = _job(stacks=(StackSettings(form="Ring", stock=(20.0,)),), joints=(), carving=None, boards=())
TWO_STOCKS = _stack(stock=(40.0, 27.0), pick="least wood")
NO_RACK = _job(boards=())
#: (record, field) → the value to try, where the kind of the option does not suggest one.
VALUES: dict[tuple[type[Record], str], Any] = {
    (Settings, "language"): "de", (Settings, "station_step"): 30.0, (Settings, "compass_within"): 6.0,
    (Settings, "paper"): "A3", (Settings, "paper_full"): "roll 610mm", (Settings, "date"): "2026-03-01",
    (Settings, "author"): "The shop", (StackSettings, "form"): "Nowhere", (StackSettings, "stock"): (30.0,),
    (StackSettings, "thicknesses"): (40.3,), (StackSettings, "axis"): (1.0, 0.0, 0.0),
    (StackSettings, "species"): "black walnut", (StackSettings, "pick"): "fewest layers",
    (StackSettings, "glue_line_worth"): 3e6, (StackSettings, "forced"): (100.0,), (StackSettings, "least_wood"): 0.9,
    (StackSettings, "forbidden"): ((60.0, 85.0),), (PinSettings, "skip"): (2,), (PinSettings, "share"): 0.0001,
    (JointSettings, "name"): "Other", (JointSettings, "through"): (5.0, 0.0, 200.0),
    (JointSettings, "axis"): (0.0, 0.1, 1.0), (JointSettings, "size"): (36.0,), (JointSettings, "turn"): 30.0,
    (JointSettings, "embed"): (("Foot", 50.0), ("Top", None)), (JointSettings, "relief"): 0.7,
    (JointSettings, "chisel_reach"): 30.0, (ShopSettings, "drill_stroke"): 50.0,
    (JointSettings, "species"): "hard maple",
    (JointSettings, "section"): "round", (Board, "cost"): 55.0,
    (BandSaw, "radius"): 200.0, (BandSaw, "blade"): 25.4, (BandSaw, "smallest_part"): 900.0,
    (BandSaw, "height"): 30.0, (BandSaw, "throat"): 300.0,
    (Bit, "diameter"): 20.0, (Bit, "kind"): "spade", (Bit, "angle"): 135.0, (Bit, "point"): 7.0, (Bit, "length"): 55.0,
    (Board, "name"): "Wide", (Board, "species"): "black walnut", (Board, "per"): "m3", (Board, "thickness"): 44.0,
    (Board, "length"): 2000.0,
    (Board, "knots"): (Knot(300.0, 20.0, 200.0, 100.0),), (Board, "count"): 1, (Board, "for_sale"): True,
    (Board, "grade"): "No. 2 common", (CarvingSettings, "azimuths"): (10.0, 20.0),
    (CarvingSettings, "station"): 40.0, (CarvingSettings, "stations_along"): 30.0,
    (CarvingSettings, "templates"): (45.0,), (CarvingSettings, "gauges"): ("above",),
    (CarvingSettings, "depth_holes"): (("Top", "both"),), (CarvingSettings, "point"): "rim",
    (CarvingSettings, "angle"): 135.0, (CarvingSettings, "point_length"): 9.0, (CarvingSettings, "bit_length"): 9.0,
    (CarvingSettings, "stop_step"): 3.0, (CarvingSettings, "hole_pattern"): "contours",
    (CarvingSettings, "rate"): 1.5, (CarvingSettings, "cover"): 40.0,
    (CarvingSettings, "least_depth"): 15.0, (PickedPlane, "name"): "Other", (PickedPlane, "point"): (0, 0, 90),
    (PickedPlane, "normal"): (0.0, 1.0, 1.0), (ShopSettings, "max_stave"): 100.0, (ShopSettings, "min_stave"): 90.0,
    (ShopSettings, "end_trim_air"): 70.0, (ShopSettings, "least_planing"): 5.0, (Board, "surface"): "surfaced",
    (Board, "dried"): "air", (Board, "cut"): "flat",
    (Board, "moisture"): 8.5, (ShopSettings, "stagger"): 60.0, (ShopSettings, "planing"): 3.5,
    (ShopSettings, "first_cut"): "rip", (ShopSettings, "jointer_width"): 100.0, (ShopSettings, "planer_width"): 100.0,
    (ShopSettings, "seam_worth"): 0.0,
    (ShopSettings, "seam_margin"): 60.0, (HollowSettings, "least"): 9e9, (PinSettings, "diameter"): 9.0,
    (PinSettings, "margin"): 7.0, (PinSettings, "loose"): 0.5, (PinSettings, "dowel_room"): 4.0,
    (PinSettings, "at"): ((2.0, 79.0, 0.0), (2.0, -69.0, 5.0)), (HollowSettings, "web"): 6.0,
    (HollowSettings, "wall"): 26.0,
    (HollowSettings, "caps"): 0, (HollowSettings, "way_in"): "bored hole", (HollowSettings, "way_in_bit"): 16.0,
    (HollowSettings, "cut_worth"): 9e9,
    (HollowSettings, "vent"): 10.0, (HollowSettings, "margin"): 30.0, (HollowSettings, "turn"): 30.0,
    (TabSettings, "layers"): (2,), (TabSettings, "direction"): 60.0,
    (PressSettings, "name"): "Other", (GlueSettings, "kind"): "epoxy", (GlueSettings, "open_time"): 60.0,
    (GlueSettings, "assembly_time"): 600.0,
    (GlueSettings, "least_pressure"): 0.5, (GlueSettings, "most_pressure"): 4.0, (GlueSettings, "spread"): 250.0,
    (GlueSettings, "faces"): 2, (GlueSettings, "water"): 0.3, (GlueSettings, "least_temperature"): 25.0,
    (GlueSettings, "clamp_time"): 7200.0, (GlueSettings, "cure_time"): 172_800.0, (GlueSettings, "gap"): 0.01,
    (GlueSettings, "loss"): 0.3, (GlueSettings, "price"): 20.0, (GluingRoom, "temperature"): 28.0,
    (GluingRoom, "humidity"): 80.0, (GluingRoom, "lift"): 2.0, (GluingRoom, "reface"): 100.0,
    (GluingRoom, "planed"): 200_000.0, (GluingRoom, "caul_thickness"): 18.0, (PressSettings, "kind"): "go-bar",
    (PressSettings, "opening"): 150.0, (PressSettings, "throat"): 40.0, (PressSettings, "air"): 0.05,
    (LoadSettings, "name"): "Another", (LoadSettings, "at"): (0.0, 60.0, 250.0), (LoadSettings, "direction"): 90.0,
    (UseSettings, "least_ratio"): 9.0, (UseSettings, "deep"): "scan", (ClimateSettings, "months"): "damp all year",
    (ClimateSettings, "moisture"): 12.0, (ClimateSettings, "across"): 8.0, (ClimateSettings, "fineness"): "usual",
    (FinishSettings, "later_coats"): 0.8, (FinishSettings, "give_or_take"): 0.4, (ClimateSettings, "surface"): 9.0,
    (FinishSettings, "grits"): (80, 120), (RateSettings, "layer_hours"): 1.0, (RateSettings, "sawing_rate"): 3.0,
    (RateSettings, "hour_price"): 50.0, (FinishSettings, "litre_price"): 40.0, (FinishSettings, "sheet_price"): 2.0,
    (RateSettings, "set_up_hours"): 2.0, (RateSettings, "joint_hours"): 3.0, (RateSettings, "sanding_rate"): 0.7,
    (RateSettings, "coating_rate"): 3.0, (RateSettings, "other_hours"): 4.0, (FinishSettings, "finish"): "wax",
    (CarvingSettings, "landing"): 12.0, (CarvingSettings, "leave"): 6.0, (CarvingSettings, "pitch"): 45.0,
}  # fmt: skip
#: (record, field) → what else must be so that the option can be felt at all.
CONTEXT: dict[tuple[type[Record], str], Change] = {
    (RateSettings, "set_up_hours"): _job(presses=(PressSettings("Bar", count=12, opening=700.0, throat=90.0),)),
    (StackSettings, "fill_holes"): RINGED, (StackSettings, "glue_line_worth"): TWO_STOCKS,
    (StackSettings, "pick"): _stack(stock=(40.0, 27.0)), (BandSaw, "radius"): RINGED, (BandSaw, "blade"): RINGED,
    (Bit, "angle"): _bit(kind="twist"), (JointSettings, "proud"): _joint(ends="proud"),
    (ShopSettings, "stagger"): _shop(seam_worth=0.0), (ShopSettings, "max_stave"): NO_RACK,
    (ShopSettings, "end_trim_air"): _board(dried="air"),
    (CarvingSettings, "stations_along"): _carving(station=40.0),
    (HollowSettings, "way_in_bit"): _hollow(way_in="bored hole"),
    (CarvingSettings, "point_length"): _carving(point="rim", point_length=2.0),
    (CarvingSettings, "point"): _carving(point="brad point", point_length=4.0),
    (Board, "grade"): _board(count=0, for_sale=True), (StackSettings, "thicknesses"): NO_RACK,
    (StackSettings, "forced"): NO_RACK, (StackSettings, "forbidden"): NO_RACK,
    (PressSettings, "air"): _job(presses=(PressSettings("Bag", "vacuum"),)),
    (GluingRoom, "reface"): lambda s: replace(
        _stack(stock=(30.0,))(s), glue=GlueSettings(assembly_time=300.0, open_time=200.0)
    ),
    (PinSettings, "waste"): _stack(allowance=30.0),
    (JointSettings, "chisel_reach"): _joint(before_glue_up=False),
}  # fmt: skip
USE_RECORDS = (UseSettings, LoadSettings, ClimateSettings, FinishSettings, RateSettings, BudgetSettings)
GLUE_RECORDS = (GlueSettings, GluingRoom, PressSettings)
#: (record, field) → what is said where the value tried cannot be planned; only what reads an option can refuse it so.
REFUSED: dict[tuple[type[Record], str], str] = {
    (StackSettings, "form"): "no form “Nowhere”", (StackSettings, "axis"): "runs across the layers of Foot",
    (StackSettings, "species"): "needs 40 mm black walnut", (ShopSettings, "planing"): "more than the 3.5 mm allowed",
    (ShopSettings, "least_planing"): "5 mm are asked to make it flat",
    (Board, "species"): "the thickest board is 34 mm", (HollowSettings, "least"): r"smaller than 9e\+07 cm²",
}  # fmt: skip


def rows() -> Iterator[tuple[type[Record], Row]]:
    for record in PLACES:
        for row in rows_of(record):
            if row.record is None:
                yield record, row


def other(record: type[Record], row: Row) -> Any:
    """Another value of an option than its first."""
    if (record, row.name) in VALUES:
        return VALUES[record, row.name]
    first = row.first
    if row.kind is not None and row.kind.choices and isinstance(first, str):
        return next(c for c in row.kind.choices if c != first)
    if isinstance(first, bool):
        return not first
    if isinstance(first, int):
        return first + 1
    if isinstance(first, float):
        return first * 1.5 + 1.0
    if isinstance(first, str) and first:
        return f"{first} two"
    assert first is NEEDED, f"say in VALUES what {record.__name__}.{row.name} may be besides {first!r}"
    return 170.0


@pytest.mark.parametrize(("record", "row"), [pytest.param(r, row, id=f"{r.__name__}.{row.name}") for r, row in rows()])
def test_no_option_is_accepted_that_nothing_reads(record: type[Record], row: Row) -> None:
    context = CONTEXT.get((record, row.name))
    start = BASE if record in (CarvingSettings, PickedPlane) else replace(BASE, carving=None)
    start = GLUED if record in GLUE_RECORDS else USED if record in USE_RECORDS else start
    start = replace(TABBED, carving=None) if record is TabSettings else start
    before = start if context is None else context(start)
    change = PLACES[record](**{row.name: other(record, row)})
    assert change(before) != before
    says = REFUSED.get((record, row.name))
    if says is None:
        assert told(change(before), record is Settings) != told_once(before, record is Settings)
        return
    # Stacks and joints are refused; what cannot be planned of the rest is left out, with the same sentence as a stop.
    try:
        facts = told(change(before))
    except Refusal as refusal:
        facts = str(refusal)
    assert re.search(says, facts), facts[-2000:]
    assert not re.search(says, told_once(before))


def test_the_base_is_a_plan_that_uses_every_room() -> None:
    """Else an option could pass because its room is not in use."""
    facts = told_once(BASE)
    for word in ('"kind":"hollow"', '"kind":"pin"', '"kind":"mortise"', '"stave"', '"depth_holes":[{', '"offsets":[{'):
        assert word in facts, word
