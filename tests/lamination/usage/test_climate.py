# SPDX-License-Identifier: LGPL-2.1-or-later

"""Climates as a maker gives them: names, twelve pairs, and what cannot be."""

from __future__ import annotations

import pytest

from freecad_stacklam.data import climate_table
from freecad_stacklam.lamination.options.rows import rows_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.usage.climate import CLIMATE, ClimateSettings, climate_of, month_lines

EVEN = ((20.0, 45.0),) * 12


def test_three_invented_climates_come_with_the_package_and_can_be() -> None:
    table = climate_table()
    assert len(table) == 3
    for name, climate in table.items():
        assert climate.says
        assert climate_of(ClimateSettings(months=name.upper()), table).months == climate.months
    assert ClimateSettings().months in table


def test_pairs_are_read_in_either_scale_and_come_back_as_they_were() -> None:
    given = [["68 °F", "45 %"], [20, 45], "20 °C, 45 %", *[["20 °C", 45]] * 9]
    months = CLIMATE.read(given, "")
    assert [v for pair in months for v in pair] == pytest.approx([20.0, 45.0] * 12)  # 68 °F = 20 °C exactly
    assert CLIMATE.read(CLIMATE.write(months), "") == months
    assert CLIMATE.read(month_lines(EVEN), "") == EVEN
    assert CLIMATE.read(month_lines("dry summers"), "") == "dry summers"


@pytest.mark.parametrize(
    ("months", "says"),
    [
        (EVEN[:11], "11 months"),
        (((61.0, 45.0), *EVEN[1:]), "January has 61 °C"),
        ((*EVEN[:2], (-41.0, 45.0), *EVEN[3:]), "March has -41 °C"),
        ((*EVEN[:11], (20.0, 101.0)), "December has a humidity of 101 %"),
        (((20.0, -1.0), *EVEN[1:]), "humidity of -1 %"),
        (((float("nan"), 40.0), *EVEN[1:]), "no number"),
        (((20.0, float("nan")), *EVEN[1:]), "nan %"),
        (((20.0,), *EVEN[1:]), "no pair"),
        ("  ", "name a bundled climate"),
        (12, "twelve pairs"),
    ],
)
def test_impossible_climates_are_refused_with_a_sentence(months: object, says: str) -> None:
    with pytest.raises(Refusal, match=says):
        ClimateSettings(months=months)  # type: ignore[arg-type]


@pytest.mark.parametrize("value", [3, [[20, 45]] * 13, [["warm", "45 %"]] * 12, [[20, 45, 3]] * 12, [None] * 12])
def test_what_a_file_cannot_mean_is_refused(value: object) -> None:
    with pytest.raises(Refusal):
        CLIMATE.read(value, "")


def test_the_coldest_and_the_wettest_room_can_be_given() -> None:
    ClimateSettings(months=((-40.0, 0.0), (60.0, 100.0), *EVEN[2:]))


def test_a_name_that_is_not_there_is_refused_with_near_ones() -> None:
    with pytest.raises(Refusal, match="did you mean heated winters"):
        climate_of(ClimateSettings(months="heatd winter"), climate_table())
    with pytest.raises(Refusal, match="take one of"):
        climate_of(ClimateSettings(months="moon"), climate_table())


def test_a_moisture_beyond_fibre_saturation_is_refused() -> None:
    with pytest.raises(Refusal, match="Moisture when glued"):
        ClimateSettings(moisture=31.0)


def test_what_is_from_memory_says_so() -> None:
    tips = {row.name: row.tip for row in rows_of(ClimateSettings)}
    assert all("from memory" in tips[name] for name in ("across", "ratio", "surface"))
