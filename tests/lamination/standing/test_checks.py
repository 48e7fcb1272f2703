# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is said of furniture that stands and of furniture built to fail each check."""

from __future__ import annotations

import re
from collections.abc import Mapping

import numpy as np
import pytest
from furniture import EVEN, four_legs, legs_round, standing
from solids import ball, box, moved, torus

from freecad_stacklam.lamination.findings.standing import StandingFindings
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.standing.checks import standing_checks, towards, whichever
from freecad_stacklam.lamination.usage.use import UseSettings


def said(meshes: Mapping[str, Mesh], use: UseSettings = EVEN, units: str = "mm", **more: float) -> dict[str, Check]:
    return {c.name.split(": ", 1)[-1]: c for c in standing_checks(standing(meshes, use, **more), units)}


def test_a_good_stool_is_told_its_figures() -> None:
    found = said(four_legs())
    assert {c.verdict for c in found.values()} == {"ok"}
    assert found["what it stands on"].figure == pytest.approx(150.0)
    assert found["tipping, sitting on the edge"].limit == 1.3
    assert "not a compliance test" in found["tipping, sitting on the edge"].source
    assert "EN 1022:2018" in found["tipping, sitting on the edge"].source


def test_a_narrow_stool_is_told_how_much_wider() -> None:
    check = said(four_legs(110.0))["tipping, sitting on the edge"]
    assert check.verdict == "caution"
    found = re.search(r"stand out ([\d.]+) mm further", check.says)
    assert found is not None
    # It holds with what is said: legs out by as much.
    better = said(four_legs(110.0 + float(found[1])))["tipping, sitting on the edge"]
    assert better.verdict == "ok"
    assert better.figure == pytest.approx(1.3, abs=0.02)
    assert "in" in said(four_legs(110.0), units="in")["tipping, sitting on the edge"].says
    assert "mm" not in said(four_legs(110.0), units="in")["tipping, sitting on the edge"].says


def test_a_ball_is_told_to_be_flattened() -> None:
    (check,) = standing_checks(standing({"Ball": ball(150.0)}))
    assert check.verdict == "caution"
    # 10° from a centre 150 high: 2 · 150 · tan 10° = 52.9 mm.
    assert "in a point" in check.says
    assert "52.9 mm across" in check.says


def test_two_rounded_feet_are_a_line() -> None:
    balls = {f"Ball {i}": Mesh(b.vertices + [x, 0, 0], b.triangles, b.twins, b.volume)
             for i, (b, x) in enumerate([(ball(50, 4), -60.0), (ball(50, 4), 60.0)])}  # fmt: skip
    balls["Bar"] = box(160, 30, 30, (-80, -15, 60))
    (check,) = standing_checks(standing(balls))
    assert "along a line" in check.says


def test_a_leaning_post_falls_and_is_told_where() -> None:
    post = moved(box(60, 60, 500), np.array([[1, 0, 0.4], [0, 1, 0], [0, 0, 1.0]]))
    (check,) = standing_checks(standing({"Post": post}))
    assert check.verdict == "caution"
    assert "falls over by itself towards RIGHT" in check.says
    assert check.figure == pytest.approx(-70.0, abs=0.1)


def test_a_slim_post_tips_when_empty_and_no_foot_mends_a_knock() -> None:
    found = said({"Post": box(50, 50, 300)}, UseSettings("stand", short_foot=0.0))
    assert found["tips when empty"].verdict == "caution"  # atan(25 / 150) = 9.46°
    assert found["tips when empty"].figure == pytest.approx(9.46, abs=0.01)
    assert "no foot mends that" in found["tipping, a knock at the top"].says


def test_a_push_wants_no_foot_wider_than_a_maker_would_give_it() -> None:
    # 50 N at 0.5 m, 1.3 times: 32.5 N·m. 190 mm square of some 760 kg/m³ weighs 135 N, so its edge should lie 241 mm
    # out and the foot stand out by 146 mm, more than a quarter of the height; 200 mm square (149 N) wants 118 mm, less.
    use = UseSettings("stand", short_foot=0.0)
    assert "no foot mends that" in said({"Post": box(190, 190, 500)}, use)["tipping, a knock at the top"].says
    assert "let its foot stand out" in said({"Post": box(200, 200, 500)}, use)["tipping, a knock at the top"].says


def test_a_short_foot_is_told_with_its_scribe_line() -> None:
    check = said(four_legs(130.0, short=2.0))["level"]
    assert check.verdict == "caution"
    assert check.figure == pytest.approx(2.0)
    assert "foot 1 by 2 mm off the floor" in check.says
    assert "scribe all feet at 2 mm" in check.says


def test_rocking_and_leaning_are_told_apart() -> None:
    assert "never rocks" in said(legs_round(3), short_foot=1.0)["level"].says
    assert "sway by 1.5 mm" in said(four_legs(), short_foot=1.0)["level"].says  # 450 · 1 / 300


def test_round_pieces_have_no_worst_side() -> None:
    assert "whichever way" in said({"Ring": torus()})["tips when empty"].says
    assert whichever((1.0, 1.01), 40.0) == "whichever way"
    assert whichever((1.0, 2.0), 0.0) == "towards RIGHT"


def test_directions_in_words() -> None:
    assert [towards(d) for d in (0.0, 92.0, 180.0, 265.0)] == [
        "towards RIGHT", "towards the back", "towards the left", "towards FRONT",
    ]  # fmt: skip
    assert towards(305.0) == "between FRONT and RIGHT, 305° round from RIGHT"


def test_what_could_not_be_checked_is_told() -> None:
    (check,) = standing_checks(StandingFindings((), 0.0, 0.0, 1.3, 10.0, ("Stool: no floor.",)))
    assert (check.verdict, check.says) == ("caution", "Stool: no floor.")


def test_a_weight_low_down_is_told_where_no_foot_mends_it() -> None:
    # 190 · 190 · 500 mm³ of 762 kg/m³ are 13.75 kg, 12.8 N·m about an edge 95 mm off; 1.3 · 50 N · 0.5 m = 32.5 N·m are
    # wanted, so 19.7 N·m lack: 21.1 kg at 95 mm, up to 22.
    check = said({"Post": box(190, 190, 500)}, UseSettings("stand", short_foot=0.0))["tipping, a knock at the top"]
    assert "tips Post over at once" in check.says and "put 22.0 kg low down in it" in check.says
    inch = said({"Post": box(190, 190, 500)}, UseSettings("stand", short_foot=0.0), "in")["tipping, a knock at the top"]
    assert "lb low down" in inch.says and "kg" not in inch.says
