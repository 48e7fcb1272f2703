# SPDX-License-Identifier: LGPL-2.1-or-later

"""Moisture against the printed Table 4-2 of the Wood Handbook, FPL-GTR-282 (2021), the same in FPL-GTR-190, and against
geotech-references 1.4.1, in which others digitised Eq. 4-5; water that glue adds against the arithmetic by hand."""

from __future__ import annotations

import pytest
from geotech_references.wood_handbook import moisture_relations as judge
from hypothesis import given
from hypothesis import strategies as st

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.wood.moisture import days_to_wait, equilibrium_moisture, water_added

HUMIDITIES = (20, 30, 40, 50, 60, 65, 70, 80, 90)
#: Printed in Table 4-2: °C (40, 70, 80 °F), % at these humidities.
PRINTED = {
    40: (4.6, 6.3, 7.9, 9.5, 11.3, 12.3, 13.5, 16.5, 21.0),
    70: (4.5, 6.2, 7.7, 9.2, 11.0, 12.0, 13.1, 16.0, 20.5),
    80: (4.4, 6.1, 7.6, 9.1, 10.8, 11.7, 12.9, 15.7, 20.2),
}
CELLS = [(f, h, m) for f, row in PRINTED.items() for h, m in zip(HUMIDITIES, row)]


@pytest.mark.parametrize(("fahrenheit", "humidity", "printed"), CELLS)
def test_the_printed_table(fahrenheit: float, humidity: float, printed: float) -> None:
    """Table 4-2 is computed from degrees Fahrenheit and rounded to a tenth."""
    assert equilibrium_moisture((fahrenheit - 32) / 1.8, humidity) == pytest.approx(printed, abs=0.06)


@pytest.mark.parametrize(("humidity", "wanted"), [(35, 6.963), (50, 9.271), (65, 11.996)])
def test_a_room_of_twenty_degrees(humidity: float, wanted: float) -> None:
    """Worked out by hand from Eq. 4-5: together with the 27 printed cells, 30."""
    assert len(CELLS) == 27
    assert equilibrium_moisture(20.0, humidity) == pytest.approx(wanted, abs=5.1e-4)


@given(st.floats(-1, 60), st.floats(0, 98))
def test_it_is_the_judges(temperature: float, humidity: float) -> None:
    """geotech-references, Eq. 4-5."""
    theirs = judge.equilibrium_moisture_content(temperature, humidity / 100)["emc_pct"]
    assert equilibrium_moisture(temperature, humidity) == pytest.approx(theirs, rel=1e-6, abs=1e-9)


@given(st.floats(0, 50), st.floats(1, 97))
def test_damper_air_keeps_wood_damper(temperature: float, humidity: float) -> None:
    assert equilibrium_moisture(temperature, humidity + 1) > equilibrium_moisture(temperature, humidity)


@pytest.mark.parametrize(("temperature", "humidity"), [(20, 100), (20, -1), (20, float("nan")), (-30, 50), (200, 50)])
def test_air_that_cannot_be(temperature: float, humidity: float) -> None:
    with pytest.raises(Refusal):
        equilibrium_moisture(temperature, humidity)


@pytest.mark.parametrize(("thickness", "wanted"), [(45, 0.294), (27, 0.490), (19, 0.697)])
def test_water_that_glue_adds(thickness: float, wanted: float) -> None:
    """By hand: 180 g/m² of which half is water are 90 g; a square metre of 45 mm at 680 kg/m³ is 30.6 kg: 0.294 %."""
    assert water_added(180, 0.5, 680, thickness) == pytest.approx(wanted, abs=5e-4)


def test_wood_without_mass_is_refused() -> None:
    for density, thickness in ((0, 20), (680, 0)):
        with pytest.raises(Refusal):
            water_added(180, 0.5, density, thickness)


def test_days_before_carving() -> None:
    """A glue with water waits a week, one without only for its cure (rule of thumb; see SETTLING)."""
    assert days_to_wait(0.29, 86_400) == 7.0
    assert days_to_wait(0.0, 3 * 86_400) == 3.0
    assert days_to_wait(0.29, 9 * 86_400) == 9.0
