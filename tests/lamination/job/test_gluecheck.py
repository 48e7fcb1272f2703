# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on a glue-up made by hand. The strength that 95 of 100 boards have by a scatter of 28 % (FPL-GTR-190 (2010),
Table 5-6) is 1 − 1.645 × 0.28 = 0.539 of the mean, 1.645 being the normal distribution's (any table of it)."""

from __future__ import annotations

from dataclasses import replace
from statistics import NormalDist

import pytest
from pseudo import same_but_marked
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.job.gluecheck import MOST_CRUSH, glue_checks, presses_nothing
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.gluing import (
    EDGES,
    JOINT,
    LAYERS,
    BrokenLimit,
    ClampPlace,
    Clock,
    Condition,
    GlueUpPlan,
    LinePressure,
    SetUp,
)
from freecad_stacklam.lamination.words import say

PLACE = ClampPlace("bar", (0.0, 0.0), 4670.0, 40.0, 0.0, 90.0)


def line(lower: int, mean: float = 0.9, **more: object) -> LinePressure:
    one = LinePressure(lower, 2e4, mean, mean / 3, mean / 2, 1.0, MultiPolygon(), (0.7, 1.7))
    return replace(one, **more)  # type: ignore[arg-type]


def set_up(*lines: LinePressure, **more: object) -> SetUp:
    one = SetUp(
        1, 1, LAYERS, "Foot", 1, 3, ((1, 1), (2, 2), (3, 3)), (1, 2), Clock(480.0, 900.0, 60.0, 240.0), 9.0, 4e4,
        places=(PLACE,), pressures=lines,
    )  # fmt: skip
    return replace(one, **more)  # type: ignore[arg-type]


def checks(*set_ups: SetUp, units: str = "mm", **more: object) -> dict[str, Check]:
    plan = GlueUpPlan("yellow glue", (480.0, 900.0, 3600.0, 86_400.0), 20.0, set_ups, (1, 1), True)
    return {c.name: c for c in glue_checks(replace(plan, **more), units)}  # type: ignore[arg-type]


def test_a_glue_up_that_holds_is_ok_throughout() -> None:
    found = checks(set_up(line(1), line(2, 1.2, crush=0.3)))
    assert {c.verdict for c in found.values()} == {"ok"}
    assert len(found) == 3


def test_the_weakest_line_stands_for_its_stack() -> None:
    one = checks(set_up(line(1), line(2, 0.42)), set_up(line(3, 0.5), first=3))[
        "Foot: pressure at its weakest glue line"
    ]
    assert (one.verdict, one.figure, one.limit, one.unit) == ("caution", 0.42, 0.7, "MPa")
    assert "Line 2 of Foot gets 0.42 MPa on average and about 0.14 MPa" in one.says


@pytest.mark.parametrize(
    ("name", "what", "more"),
    [
        ("clamps", "pressure at its weakest glue line", {"mean": 0.42}),
        ("reach", "reach of the pads", {"reached": 0.5}),
        ("crushing", "crushing across the grain", {"crush": 1.2}),
    ],
)
def test_what_a_broken_limit_says_is_not_said_again(name: str, what: str, more: dict[str, float]) -> None:
    worst = line(1, **more)
    broken = set_up(worst, limits=(BrokenLimit(name, 2.0, 1.0, "", "Mend it."),))
    assert f"Foot: {what}" in checks(set_up(worst))
    found = checks(broken)
    assert f"Foot: set-up 1, {name}" in found and f"Foot: {what}" not in found
    better = {key: value * (0.9 if key == "crush" else 1.1) for key, value in more.items()}
    other = checks(broken, set_up(line(2, **better), first=3))[f"Foot: {what}"]  # another set-up says nothing yet
    assert other.verdict == "caution" and "ine 2 of Foot" in other.says


def test_too_much_pressure_says_how_far_to_tighten() -> None:
    """1.7 of 3.4 MPa is half of the force."""
    one = checks(set_up(line(1, 3.4), line(2, 1.5)))["Foot: pressure at its most pressed glue line"]
    assert one.verdict == "caution"
    assert "50 %" in one.says


def test_no_less_force_is_advised_where_another_line_under_the_same_clamps_would_lack_it() -> None:
    """Half of 0.9 MPa is less than the 0.7 that are wanted; in a set-up of its own that line does not matter."""
    name = "Foot: pressure at its most pressed glue line"
    one = checks(set_up(line(1, 3.4), line(2)))[name]
    assert "glue fewer layers at once" in one.says and "%" not in one.says
    assert "50 %" in checks(set_up(line(1, 3.4)), set_up(line(2), number=2))[name].says


@pytest.mark.parametrize(("crush", "verdict"), [(0.3, "ok"), (0.53, "ok"), (0.55, "caution"), (1.2, "caution")])
def test_crushing_counts_with_the_scatter_of_wood(crush: float, verdict: str) -> None:
    assert pytest.approx(1 - NormalDist().inv_cdf(0.95) * 0.28, abs=1e-4) == MOST_CRUSH
    assert checks(set_up(line(1, crush=crush)))["Foot: crushing across the grain"].verdict == verdict


def test_lines_that_nothing_presses_are_told_once_by_their_limit() -> None:
    found = checks(set_up(line(1, 0.0, reached=0.0), places=()), set_up(line(2, 1.0)))
    assert found["Foot: pressure at its weakest glue line"].figure == 1.0
    assert found["Foot: reach of the pads"].verdict == "ok"
    assert not [name for name in checks(set_up(line(1, 0.0), places=())) if "pressure" in name]


def test_what_pads_do_not_reach() -> None:
    one = checks(set_up(line(1, reached=0.78), line(2)))["Foot: reach of the pads"]
    assert (one.verdict, one.figure, one.limit) == ("caution", pytest.approx(78), pytest.approx(95))
    assert "78 % of line 1" in one.says


@pytest.mark.parametrize(
    ("name", "places", "kind", "verdict"),
    [
        ("clock", (), LAYERS, "caution"), ("lift", (PLACE,), LAYERS, "caution"),
        ("clamps", (PLACE,), LAYERS, "caution"),
        ("clamps", (), EDGES, "stop"), ("opening", (), LAYERS, "stop"), ("throat", (), JOINT, "caution"),
        ("order", (PLACE,), JOINT, "stop"), ("crushing", (PLACE,), LAYERS, "caution"),
    ],
)  # fmt: skip
def test_stop_only_where_nothing_presses_or_nothing_enters(
    name: str, places: tuple[ClampPlace, ...], kind: str, verdict: str
) -> None:
    limit = BrokenLimit(name, 16.0, 12.0, "", "4 more would do.")
    made = set_up(
        line(1, 0.9 if places else 0.0), places=places, kind=kind, limits=(limit,), joint="J" * (kind == JOINT)
    )
    one = checks(made)[f"Foot: set-up 1, {name}"]
    assert (one.verdict, one.figure, one.limit) == (verdict, 16.0, 12.0)
    assert one.says.endswith("4 more would do.")
    assert one.source


def test_a_bag_presses_without_pads() -> None:
    assert not presses_nothing(set_up(line(1, 0.08), places=()))
    assert presses_nothing(set_up(line(1, 0.0), places=()))
    assert presses_nothing(set_up(places=()))


def test_conditions_become_verdicts_and_what_is_not_known_is_one() -> None:
    conditions = (
        Condition("temperature", "no", 4.0, 10.0, "°C", "Too cold."),
        Condition("moisture of the room", "wait", None, None, "%", "Not given."),
        Condition("planed", "wait", None, 86_400.0, "s", "Not given."),
        Condition("Foot: layers and room", "go", 1.0, 2.0, "points", "Well."),
        Condition("iron", "go", None, None, "", "Keep it off."),
    )
    found = checks(set_up(line(1)), conditions=conditions)
    assert found["glue-up: temperature"].verdict == "caution"
    assert found["glue-up: Foot: layers and room"].verdict == "ok"
    unknown = found["glue-up: what is not known"]
    assert (unknown.verdict, unknown.figure) == ("caution", 2.0)
    assert "moisture of the room; planed" in unknown.says
    assert not any("iron" in name for name in found)


def test_the_days_before_carving() -> None:
    one = checks(set_up(line(1)), water=(("Foot", 1, 0.15, 7.0), ("Foot", 2, 0.29, 7.0)))[
        "glue-up: days before carving"
    ]
    assert (one.verdict, one.figure) == ("ok", 7.0)
    assert "0.29 points of moisture, most in layer 2 of Foot: wait 7 days" in one.says
    dry = checks(set_up(line(1)), water=(("Foot", 1, 0.0, 3.0),))["glue-up: days before carving"]
    assert "after 3 days" in dry.says


def test_pressures_follow_the_units() -> None:
    """0.42 MPa are 60.9 psi (NIST SP 811, B.8)."""
    one = checks(set_up(line(1, 0.42)), units="in")["Foot: pressure at its weakest glue line"]
    assert "61 psi" in one.says
    assert "MPa" not in one.says


def test_a_glue_up_is_said_whole_in_any_language() -> None:
    low = line(1, mean=0.2, crush=0.9)
    starved = line(2, mean=3.0)
    broken = BrokenLimit("clock", 600.0, 300.0, "s", "It takes too long.")
    plans = [
        GlueUpPlan(
            "hide glue", (480.0, 900.0, 3600.0, 86_400.0), 20.0, (replace(set_up(low, starved), limits=limits),),
            (1, 1), True, water=(("Foot", 2, 1.4, 3.0),),
        )
        for limits in ((), (broken,))
    ]  # fmt: skip
    for plan in plans:

        def checks(plan: GlueUpPlan = plan) -> tuple[Check, ...]:
            waits = (
                Condition("temperature", "no", 4.0, 10.0, "°C", say("The room is cold.")),
                Condition("planed", "wait", None, 86400.0, "s", say("When is not given.")),
            )
            return glue_checks(replace(plan, conditions=waits))

        assert len(same_but_marked(checks)) > 4
