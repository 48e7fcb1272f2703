# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on the year: each is made to fail once. Limits are common practice but where a source is named."""

from __future__ import annotations

from dataclasses import replace

import pytest
from seasons import seasons

from freecad_stacklam.lamination.climate.checks import season_checks
from freecad_stacklam.lamination.findings.seasons import MONTHS, SeasonFindings
from freecad_stacklam.lamination.plan.checks import Check


def checks(findings: SeasonFindings, units: str = "mm") -> dict[str, Check]:
    return {one.name: one for one in season_checks(findings, units)}


def test_every_check_has_a_sentence_and_a_source_and_never_says_stop() -> None:
    found = season_checks(seasons(), "mm")
    assert {one.verdict for one in found} <= {"ok", "caution"}
    assert all(one.source and one.says.endswith(".") for one in found)
    assert len({one.name for one in found}) == len(found)
    assert not any(" mm" in one.says for one in season_checks(seasons(), "in"))


def test_a_room_beyond_the_handbooks_six_to_ten_per_cent_is_a_caution() -> None:
    # FPL-GTR-282 (2021), Table 13-2, which is for wood when it is built in: a month may lie a little beyond.
    assert checks(seasons())["The room's air"].verdict == "ok"
    damp = seasons(months=((20.0, 75.0),) * 12)
    assert checks(damp)["The room's air"].verdict == "caution"
    even = seasons(months=((20.0, 45.0),) * 12)
    assert checks(even)["The room's air"].verdict == "ok"
    assert "any month" in checks(even)["Month to glue"].says


def test_a_room_that_is_the_same_all_year_names_no_month() -> None:
    even = checks(seasons(months=((20.0, 45.0),) * 12, glue_in="March"))
    months = [m for m in MONTHS if m != "March"]
    assert "all year" in even["The room's air"].says
    assert not any(m in one.says for m in months for one in even.values())
    damp = checks(seasons(months=((20.0, 75.0),) * 12))["The room's air"]
    assert "all year" in damp.says and "that month" not in damp.says
    usual = checks(seasons())["The room's air"].says
    assert sum(usual.count(m) for m in MONTHS) == 2


def test_wood_glued_too_wet_is_a_caution() -> None:
    wet = checks(seasons(moisture=14.0))
    assert wet["Moisture when glued"].verdict == "caution"
    assert checks(seasons())["Moisture when glued"].verdict == "ok"
    assert wet["Post: dowels over the year"].figure > checks(seasons())["Post: dowels over the year"].figure


def test_a_tenon_with_too_little_room_wants_relief() -> None:
    found = seasons()
    tight = replace(found, joints=tuple(replace(j, relief=0.0, clearance=0.05) for j in found.joints))
    one = checks(tight)["Post to top: squeeze in Post"]
    assert one.verdict == "caution"
    assert "more relief" in one.says
    assert checks(found)["Post to top: squeeze in Post"].verdict == "ok"


def test_wedges_that_the_tenon_shrinks_from_are_a_caution() -> None:
    found = seasons()
    loose = replace(found, joints=tuple(replace(j, spread=min(j.spread, 0.1)) for j in found.joints))
    assert checks(loose)["Post to top: wedge in Top"].verdict == "caution"
    assert checks(found)["Post to top: wedge in Top"].verdict == "ok"


def test_dowels_that_fill_their_holes_and_layers_far_apart_are_cautions() -> None:
    found = seasons()
    full = replace(found, pins=tuple(replace(p, room=0.0) for p in found.pins))
    assert checks(full)["Post: dowels over the year"].verdict == "caution"
    assert checks(found)["Post: dowels over the year"].verdict == "ok"
    first = found.layers[0]
    wetter = replace(first, moisture=replace(first.moisture, mean=tuple(m + 3 for m in first.moisture.mean)))
    apart = checks(replace(found, layers=(wetter, *found.layers[1:])))["Post: neighbouring layers"]
    assert apart.verdict == "caution"
    assert apart.figure == pytest.approx(3.0, abs=0.5)


def test_a_month_far_from_the_best_is_a_caution() -> None:
    assert checks(seasons(glue_in="September"))["Month to glue"].verdict == "caution"
