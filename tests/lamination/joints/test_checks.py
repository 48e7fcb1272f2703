# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on joints, with figures set by hand; their limits are common practice, no source."""

from __future__ import annotations

from dataclasses import replace

import pytest
from joined import joint, post_and_top

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.joints.checks import joint_checks
from freecad_stacklam.lamination.plan.joints import JointMember, JointPlan, Tenon


def test_verdicts_on_proportion_and_movement():
    pieces = post_and_top()
    from freecad_stacklam.lamination.joints.checks import joint_checks

    found = joint(pieces, species_table(), size=(60.0,))
    post, top = found.members
    assert post.share == pytest.approx(60 / 160, rel=1e-3)
    assert top.share == pytest.approx(60 / 300, rel=1e-3)
    verdicts = {c.name: c for c in joint_checks(found)}
    # a third for the tenon, a third for each wall: common practice, no source
    assert verdicts["j: width in Post"].verdict == "caution"
    assert verdicts["j: width in Top"].verdict == "ok"
    movement = verdicts["j: movement in Post"]
    assert movement.verdict == "ok"
    assert movement.limit == pytest.approx(2 * (0.1 + 0.4))
    bare = joint(pieces, species_table(), size=(60.0,), relief=0.0)
    assert {c.name: c.verdict for c in joint_checks(bare)}["j: movement in Post"] == "caution"


def worked(cover: float = 12.0, embed: float = 75.0, share: float = 0.3, along: float | None = 0.9) -> JointPlan:
    members = (
        JointMember("Post", 225.0, 300.0, False, embed, 0.4, along, None, None, share),
        JointMember("Top", 0.0, 50.0, True, 50.0, 0.4, along, None, None, share),
    )
    tenon = Tenon(125.0, "square", (39.8,), "white oak")
    return JointPlan(
        "leg", "square", (40.0,), (0, 0, 300), (0, 0, 1), 0.1, 2.0, members, tenon, cover, (1, 2, 3), swing=4
    )


def test_a_hole_deeper_than_the_stroke_takes_two_goes():
    """A post bored 62 mm deep in the glued stack, through 15 mm of waste, by a rim bit whose point leads by 4: 81; and
    the top, 50 mm and its waste to 90, from both faces: 45."""
    made = joint(post_and_top(), embed=(("Post", 60.0), ("Top", None)), before_glue_up=False)
    post, top = made.drilling
    assert (post.fed, top.fed) == (pytest.approx(62 + 15 + 4), pytest.approx(90 / 2))
    stroked = replace(made, drilling=tuple(replace(row, stroke=60.0) for row in made.drilling))
    verdicts = {c.name: c for c in joint_checks(stroked, units="in")}
    assert verdicts["j: stroke of the drill in Post"].verdict == "caution"
    assert "two goes" in verdicts["j: stroke of the drill in Post"].says
    assert " mm" not in verdicts["j: stroke of the drill in Post"].says
    assert verdicts["j: stroke of the drill in Top"].verdict == "ok"
    assert not any("stroke" in c.name for c in joint_checks(made))


def test_room_and_movement_never_contradict_the_verdict():
    """0.5461 mm is 0.0215 in: up 0.022, and a room of 0.5486, 0.0216 in, goes down to 0.021 and yet holds it."""
    plan = replace(worked(along=0.5461), clearance=0.2743, members=tuple(
        replace(m, relief=0.0) for m in worked(along=0.5461).members
    ))  # fmt: skip
    (found,) = (c for c in joint_checks(plan, units="in") if c.name == "leg: movement in Post")
    assert found.verdict == "ok" and "moves 0.022 in" in found.says and "has room for as much" in found.says


def test_a_tenon_that_has_no_room_is_told_how_much_comes_off_each_wall():
    """It moves 0.9, half of it to each side; the clearance gives 0.1 of that: 0.35, up to 0.4 where tenths are kept."""
    tight = replace(worked(), members=tuple(replace(m, relief=0.0) for m in worked().members))
    for section, wanted in (("square", "of relief on each of its two end-grain walls"), ("round", "rasp ")):
        says = next(c.says for c in joint_checks(replace(tight, section=section)) if c.name == "leg: movement in Post")
        assert wanted in says and "0.35 mm" in says
    assert "relief on" not in says  # a round mortise has no walls to set back


def verdict(plan: JointPlan, name: str, **limits: float) -> str:
    (found,) = (c for c in joint_checks(plan, **limits) if c.name == f"leg: {name}")
    return found.verdict


def test_every_limit_is_met_exactly_and_missed_by_a_hair():
    # 10 mm of wood, 1.5 times 39.8 mm of depth, a third of the width: common practice, no source
    assert [verdict(worked(cover=c), "cover") for c in (10.0, 9.999, 0.001, 0.0, -3.0)] == [
        "ok", "caution", "caution", "stop", "stop"
    ]  # fmt: skip
    assert [verdict(worked(embed=e), "depth in Post") for e in (59.7, 59.69)] == ["ok", "caution"]
    assert [verdict(worked(share=s), "width in Top") for s in (1 / 3, 0.36)] == ["ok", "caution"]
    # white oak, 60 mm, 4 points: 0.88 mm by USDA FPL-GTR-190 (2010), Table 13-5 (0.00365); two walls of 0.5 mm
    assert [verdict(worked(along=a), "movement in Post") for a in (60 * 0.00365 * 4, 1.0, 1.01)] == [
        "ok",
        "ok",
        "caution",
    ]


def test_limits_are_the_makers_to_set_and_a_through_tenon_has_no_depth():
    assert verdict(worked(), "cover", cover=15.0) == "caution"
    assert verdict(worked(), "depth in Post", embed_ratio=2.0) == "caution"
    assert verdict(worked(), "width in Post", share=0.25) == "caution"
    names = [c.name for c in joint_checks(worked(along=None))]
    glue = ["leg: cross-grain glue in Post", "leg: cross-grain glue in Top"]
    assert names == ["leg: cover", "leg: depth in Post", "leg: width in Post", glue[0], "leg: width in Top", glue[1]]


def test_what_is_said_names_the_place_and_what_to_do():
    broken = joint_checks(worked(cover=-1.0))[0]
    assert "breaks through the finished surface at (1, 2, 3): move it or make it smaller." in broken.says
    for check in joint_checks(worked(cover=5.0, embed=10.0, share=0.9, along=3.0)):
        if "cross-grain" in check.name:
            continue  # 10 mm are not long
        assert check.verdict == "caution" and ":" in check.says and check.says.endswith(".")


def test_what_a_year_does_along_and_across_the_tenon():
    """White oak, 4 points: 50 mm · 0.00376 · 4 = 0.752 mm along a through tenon (FPL-GTR-282 (2021), Table 13-5);
    across the grain 39.8 mm · (0.00376 − 0.00194) · 4 = 0.290 mm."""
    found = joint(post_and_top(), species_table())
    top = found.members[1]
    assert (top.movement_height, top.movement_across) == (
        pytest.approx(0.752, abs=2e-3),
        pytest.approx(0.290, abs=2e-3),
    )
    verdicts = {c.name: c for c in joint_checks(found)}
    flush = verdicts["j: flush end in Top"]
    assert flush.verdict == "caution" and "stands out in the dry season" in flush.says
    assert verdicts["j: movement across in Top"].verdict == "ok"
    assert verdicts["j: cross-grain glue in Post"].verdict == "ok"
    proud = {c.name for c in joint_checks(joint(post_and_top(), species_table(), ends="proud"))}
    assert "j: flush end in Top" not in proud
    wide = joint(post_and_top(), species_table(), size=(90.0,), embed=(("Post", 120.0), ("Top", None)))
    verdicts = {c.name: c for c in joint_checks(wide)}
    assert verdicts["j: movement across in Top"].verdict == "caution"
    assert verdicts["j: cross-grain glue in Post"].verdict == "caution"
    assert "in Post across the grain, over 120 mm, more than 100 mm" in verdicts["j: cross-grain glue in Post"].says
