# SPDX-License-Identifier: LGPL-2.1-or-later

"""Go, wait or no before glue is opened. Limits: FPL-GTR-282 (2021), Ch. 13 (5 points in one laminated member; Table
13-2, 6 to 10 % indoors) and Table 4-2; the rest is common practice, no source, as the sentences say."""

from __future__ import annotations

from dataclasses import replace

import pytest
from plans import pedestal, plant_stand, top

from freecad_stacklam.data import glue_table, species_table
from freecad_stacklam.lamination.gluing.conditions import conditions_of, layer_moisture, waiting_of, water_of
from freecad_stacklam.lamination.plan.boards import BoardCut, BoardPiece, BoardsPlan, Stave
from freecad_stacklam.lamination.plan.gluing import Condition
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom

GLUE = glue_table()["yellow glue"]
SQUARE = ((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0))


def boards_with(*moistures: float | None, stack: str = "Pedestal") -> BoardsPlan:
    """Layer n of a stack from a board of the n-th moisture."""
    staves = tuple(
        Stave(f"{stack} {n} a", stack, n, SQUARE, 100.0, 100.0, 45.0, 0.0, "white oak")
        for n in range(1, len(moistures) + 1)
    )
    cuts = tuple(
        BoardCut(f"B{s.layer}", 100.0, 100.0, 48.0, "white oak", None, True,
                 (BoardPiece(s.id, 1, 0.0, 0.0, 100.0, 100.0),), moisture=m)
        for s, m in zip(staves, moistures)
    )  # fmt: skip
    return BoardsPlan(staves, cuts)


def named(found: tuple[Condition, ...], name: str) -> Condition:
    return next(c for c in found if c.name == name)


def asked(room: GluingRoom, boards: BoardsPlan | None = None, units: str = "mm") -> tuple[Condition, ...]:
    return conditions_of(plant_stand().stacks, boards, GLUE, room, units)


@pytest.mark.parametrize(("temperature", "verdict"), [(20.0, "go"), (10.0, "go"), (9.9, "no"), (4.0, "no")])
def test_a_cold_room_says_no(temperature: float, verdict: str) -> None:
    found = named(asked(GluingRoom(temperature=temperature)), "temperature")
    assert (found.verdict, found.figure, found.limit) == (verdict, temperature, 10.0)


def test_temperatures_follow_the_units() -> None:
    """19 °C are 66.2 °F."""
    room = GluingRoom(temperature=19.0)
    assert "66 °F" in named(asked(room, units="in"), "temperature").says
    assert "19 °C" in named(asked(room), "temperature").says


@pytest.mark.parametrize(
    ("temperature", "humidity", "printed", "verdict"),
    [((70 - 32) / 1.8, 50, 9.2, "go"), ((70 - 32) / 1.8, 80, 16.0, "wait"), ((70 - 32) / 1.8, 20, 4.5, "wait")],
)
def test_the_air_keeps_wood_at_the_printed_moisture(
    temperature: float, humidity: float, printed: float, verdict: str
) -> None:
    """Table 4-2 at 70 °F, and 6 to 10 % of Table 13-2."""
    found = named(asked(GluingRoom(temperature=temperature, humidity=humidity)), "moisture of the room")
    assert found.figure == pytest.approx(printed, abs=0.06)
    assert found.verdict == verdict
    assert ("dry the air" in found.says, "moisten" in found.says) == (humidity == 80, humidity == 20)


def test_what_is_not_known_is_said() -> None:
    found = asked(GluingRoom())
    for name in ("moisture of the room", "Pedestal: moisture of its layers", "Top: moisture of its layers", "planed"):
        assert named(found, name).verdict == "wait"
        assert named(found, name).figure is None
    assert "not given" in named(found, "moisture of the room").says
    assert not any(c.name.endswith("layers and room") for c in found)


@pytest.mark.parametrize(
    ("moistures", "verdict", "apart"),
    [((8.0,) * 10, "go", 0.0), ((8.0,) * 9 + (10.0,), "go", 2.0), ((8.0,) * 9 + (10.5,), "wait", 2.5),
     ((8.0,) * 9 + (13.5,), "no", 5.5), ((8.0,) * 9 + (None,), "wait", 0.0)],
)  # fmt: skip
def test_layers_lie_within_two_points(moistures: tuple[float | None, ...], verdict: str, apart: float) -> None:
    found = named(asked(GluingRoom(), boards_with(*moistures)), "Pedestal: moisture of its layers")
    assert found.verdict == verdict
    assert found.figure == pytest.approx(apart)
    assert ("Not measured: layer 10" in found.says) == (None in moistures)
    assert ("layer 10 10.5 %" in found.says) == (10.5 in moistures)


@pytest.mark.parametrize(("moisture", "verdict"), [(9.0, "go"), (11.0, "go"), (11.5, "wait"), (7.2, "wait")])
def test_layers_lie_within_two_points_of_the_room(moisture: float, verdict: str) -> None:
    """20 °C and 50 % keep wood at 9.27 % (Eq. 4-5 by hand)."""
    found = asked(GluingRoom(temperature=20.0, humidity=50.0), boards_with(*[moisture] * 10))
    one = named(found, "Pedestal: layers and room")
    assert one.verdict == verdict
    assert one.figure == pytest.approx(abs(moisture - 9.271), abs=1e-3)
    assert ("points over" in one.says) == (moisture > 9.271)


def test_a_frozen_room_is_no_fault_of_the_plan() -> None:
    found = asked(GluingRoom(temperature=-15.0, humidity=50.0))
    assert named(found, "temperature").verdict == "no"
    assert named(found, "moisture of the room").figure is None
    assert "-15 °C" in named(found, "moisture of the room").says


def test_moisture_comes_by_way_of_the_staves() -> None:
    boards = boards_with(8.0, None, 9.5)
    assert layer_moisture(boards) == {("Pedestal", 1): (8.0,), ("Pedestal", 3): (9.5,)}
    assert layer_moisture(None) == {}


@pytest.mark.parametrize(("ago", "verdict"), [(3600.0, "go"), (86_400.0, "go"), (2 * 86_400.0, "wait")])
def test_faces_are_glued_within_a_day_of_planing(ago: float, verdict: str) -> None:
    assert named(asked(GluingRoom(planed=ago)), "planed").verdict == verdict


def test_iron_is_kept_off_tannin_and_off_glue_that_minds_it() -> None:
    assert "white oak and yellow glue" in named(asked(GluingRoom()), "iron").says
    maple = replace(pedestal(), layers=tuple(replace(layer, species="sugar maple") for layer in pedestal().layers))
    found = conditions_of([maple], None, glue_table()["epoxy"], GluingRoom())
    assert not [c for c in found if c.name == "iron"]


def test_water_in_layers_of_the_example() -> None:
    """By hand: 180 g/m², half of it water, on oak of 680 kg/m³ oven-dry: 0.294 points in 45 mm, 0.490 in 27 mm; the
    outermost layers have one line and get half."""
    rows = water_of([pedestal(), top()], GLUE, GluingRoom(), species_table())
    points = {(stack, layer): value for stack, layer, value, _ in rows}
    assert points["Pedestal", 5] == pytest.approx(0.294, abs=5e-4)
    assert points["Pedestal", 1] == points["Pedestal", 10] == pytest.approx(0.147, abs=5e-4)
    assert points["Top", 1] == pytest.approx(0.245, abs=5e-4)
    assert {days for *_, days in rows} == {7.0}


def test_glue_without_water_waits_for_its_cure() -> None:
    rows = water_of([pedestal()], glue_table()["epoxy"], GluingRoom(), species_table())
    assert {(points, days) for _, _, points, days in rows} == {(0.0, 3.0)}  # the table's epoxy cures in 72 h
    cold = water_of([pedestal()], glue_table()["epoxy"], GluingRoom(temperature=10.0), species_table())
    assert {days for *_, days in cold} == {6.0}  # and in twice that for 10 °C less (common practice, no source)


def test_unknown_wood_and_single_layers_have_no_row() -> None:
    plan = pedestal()
    odd = replace(plan, layers=(replace(plan.layers[0], species="driftwood"), *plan.layers[1:]))
    assert [row[1] for row in water_of([odd], GLUE, GluingRoom(), species_table())] == list(range(2, 11))
    assert water_of([replace(plan, layers=plan.layers[:1])], GLUE, GluingRoom(), species_table()) == ()


def test_the_days_before_carving_are_told_once() -> None:
    """The longest wait and the wettest layer; glue without water waits for its cure alone."""
    assert waiting_of(()) is None
    days, says = waiting_of((("Foot", 1, 0.147, 7.0), ("Foot", 2, 0.294, 7.0), ("Seat", 1, 0.1, 1.0))) or (0.0, "")
    assert days == 7.0
    assert says.startswith("The glue adds up to 0.29 points of moisture, most in layer 2 of Foot: wait 7 days from ")
    days, says = waiting_of((("Foot", 1, 0.0, 25 / 24),)) or (0.0, "")
    assert (days, says) == (
        25 / 24, "The glue adds no water: its lines may be carved once it has cured, after 1.04 days."
    )  # fmt: skip
