# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue: kinds from the table, the maker's own figures over them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from freecad_stacklam.data import glue_table
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.glue import (
    USUAL,
    GlueSettings,
    at_temperature,
    glue_grams,
    glue_of,
    times_of,
    waits_of,
)

TABLE = glue_table()


def test_every_kind_of_the_table_can_be_used() -> None:
    for name in TABLE:
        glue = glue_of(GlueSettings(kind=name.upper()), TABLE)
        assert glue.open_time <= glue.assembly_time and glue.clamp_time <= glue.cure_time
        assert glue.thin == (glue.least_pressure is None) == (glue.most_pressure is None)
    assert USUAL in TABLE


def test_the_usual_glue_is_within_what_a_glue_makers_guide_says() -> None:
    """A glue maker's guide for PVA: least temperature near 4 to 13 °C, clamped 30 to
    60 min, loaded after 24 h; open 5 to 10 min, total 10 to 20 min at 20 °C (common practice, no source)."""
    glue = TABLE[USUAL]
    assert 4 <= glue.least_temperature <= 13
    assert 30 * 60 <= glue.clamp_time <= 60 * 60 and glue.cure_time == 24 * 3600
    assert 5 * 60 <= glue.open_time <= 10 * 60 and 10 * 60 <= glue.assembly_time <= 20 * 60
    assert 150 <= glue.spread <= 200


def test_times_halve_for_ten_degrees_more() -> None:
    # Common practice, no source: the usual rule of thumb.
    assert at_temperature(900.0, 20.0) == 900.0
    assert at_temperature(900.0, 30.0) == 450.0
    assert at_temperature(900.0, 10.0) == 1800.0
    # The table's yellow glue: 8 and 15 min.
    assert times_of(TABLE[USUAL], 30.0) == (240.0, 450.0)


def test_cold_lengthens_the_waits_and_warmth_is_not_counted_on() -> None:
    # The table's yellow glue: an hour in clamps, a day until it is cured (common practice, no source).
    assert waits_of(TABLE[USUAL], 30.0) == waits_of(TABLE[USUAL], 20.0) == (3600.0, 86_400.0)
    assert waits_of(TABLE[USUAL], 10.0) == (7200.0, 172_800.0)


def test_glue_goes_by_area_faces_and_loss() -> None:
    assert glue_grams(replace(TABLE[USUAL], faces=2), 1e6, 0.15) == pytest.approx(414.0)  # 1 m² · 180 · 2 · 1.15


def test_the_makers_figures_win() -> None:
    glue = glue_of(GlueSettings(open_time=300.0, spread=150.0, least_pressure=0.5), TABLE)
    assert (glue.open_time, glue.spread, glue.least_pressure) == (300.0, 150.0, 0.5)
    assert glue.assembly_time == TABLE[USUAL].assembly_time


@pytest.mark.parametrize(
    ("settings", "says"),
    [
        ({"kind": "epoxi"}, "did you mean epoxy"),
        ({"kind": "nails and hope"}, "take one of yellow glue"),
        ({"open_time": 3000.0}, "give its assembly time too"),
        ({"clamp_time": 2e6}, "give both times"),
        ({"kind": "epoxy", "least_pressure": 1.0}, "give both pressures"),
    ],
)
def test_a_glue_that_cannot_be_is_refused(settings: dict, says: str) -> None:  # type: ignore[type-arg]
    with pytest.raises(Refusal, match=says):
        glue_of(GlueSettings(**settings), TABLE)


@pytest.mark.parametrize(
    "settings",
    [
        {"open_time": 900.0, "assembly_time": 600.0}, {"least_pressure": 2.0, "most_pressure": 1.0},
        {"clamp_time": 7200.0, "cure_time": 3600.0}, {"spread": 0.0}, {"faces": 3}, {"water": 1.5},
    ],
)  # fmt: skip
def test_figures_that_contradict_are_refused(settings: dict) -> None:  # type: ignore[type-arg]
    with pytest.raises(Refusal, match="give"):
        GlueSettings(**settings)


def test_a_glue_that_bears_no_pressure_at_all_is_refused() -> None:
    """Nothing that presses would be right, and the share by which a line is over it no number."""
    with pytest.raises(Refusal, match=r"Pressure, at most.*give 0\.01"):
        GlueSettings(most_pressure=0.0)
