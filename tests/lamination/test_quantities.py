# SPDX-License-Identifier: LGPL-2.1-or-later

"""Times, pressures, forces, masses and temperatures, read and written.

The factors are those of NIST SP 811 (2008), appendix B.8, through examples of a magazine's clamp test: 27 in²
at 450 psi need 12 150 lbf, 25 in² at 150 psi 3 750 lbf.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from freecad_stacklam.lamination import quantities as q
from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.refusal import Refusal


@pytest.mark.parametrize(("square_inches", "psi", "pounds"), [(27.0, 450.0, 12_150.0), (25.0, 150.0, 3_750.0)])
def test_pressure_times_area_is_force_in_both_units(square_inches: float, psi: float, pounds: float) -> None:
    newtons = q.parse_pressure(f"{psi:g} psi") * square_inches * INCH**2
    assert newtons == pytest.approx(q.parse_force(f"{pounds:g} lbf"), rel=1e-9)


@pytest.mark.parametrize(
    ("parse", "text", "found"),
    [
        (q.parse_time, "10 min", 600.0), (q.parse_time, "45s", 45.0), (q.parse_time, "1,5 h", 5400.0),
        (q.parse_time, "2 d", 172_800.0), (q.parse_pressure, "7 bar", 0.7), (q.parse_pressure, "0.7 N/mm²", 0.7),
        (q.parse_pressure, "850 kPa", 0.85), (q.parse_force, "4.67 kN", 4670.0), (q.parse_mass, "50 lb", 22.679_618_5),
        (q.parse_temperature, "66 °F", 18.888_889), (q.parse_temperature, "-40 F", -40.0),
        (q.parse_temperature, "19°C", 19.0), (q.parse_percent, "45 %", 45.0), (q.parse_percent, 8, 8.0),
    ],
)  # fmt: skip
def test_texts_with_units(parse: object, text: object, found: float) -> None:
    assert parse(text) == pytest.approx(found)  # type: ignore[operator]


@pytest.mark.parametrize("parse", [q.parse_time, q.parse_pressure, q.parse_force, q.parse_mass, q.parse_temperature])
@pytest.mark.parametrize("text", ["", "10", "ten", "5 parsec", "1.250.000 N", "--3 N", "5 min min"])
def test_a_text_without_a_known_unit_is_refused(parse: object, text: str) -> None:
    with pytest.raises(Refusal, match="write"):
        parse(text)  # type: ignore[operator]


@pytest.mark.parametrize(
    ("seconds", "text"),
    [(45.4, "45 s"), (480, "8 min"), (750, "12 min 30 s"), (3599.6, "1 h"), (4800, "1 h 20 min"), (86_400, "24 h")],
)
def test_times_as_a_clock_is_read(seconds: float, text: str) -> None:
    assert q.format_time(seconds) == text


def test_figures_in_the_makers_units() -> None:
    assert (q.format_pressure(0.93), q.format_pressure(0.93, "in")) == ("0.93 MPa", "135 psi")
    assert (q.format_force(4670.0), q.format_force(4670.0, "in"), q.format_force(340.0)) == (
        "4.67 kN", "1050 lbf", "340 N",
    )  # fmt: skip
    assert (q.format_temperature(19.0), q.format_temperature(19.0, "in")) == ("19 °C", "66 °F")


@given(st.floats(0.01, 50_000.0))
def test_glue_to_pour_is_never_less_than_needed(grams: float) -> None:
    assert float(q.format_grams(grams).removesuffix(" g")) >= grams - 1e-6
    assert float(q.format_grams(grams, "in").removesuffix(" oz")) * 28.349_523_125 >= grams - 1e-5


def test_glue_is_told_so_finely_that_it_adds_up() -> None:
    assert [q.format_grams(g) for g in (4.86, 12.36, 99.91, 100.2)] == ["4.9 g", "12.4 g", "100.0 g", "101 g"]
    assert q.format_grams(82.4, "in") == "3.0 oz"  # 2.907


def test_a_refusal_tells_pressure_force_and_temperature_in_either_unit() -> None:
    refusal = Refusal(f"{q.both_pressures(0.7)}, {q.both_forces(4670)}, {q.both_temperatures(20)}")
    assert (refusal.told("mm"), refusal.told("in")) == ("0.70 MPa, 4.67 kN, 20 °C", "102 psi, 1050 lbf, 68 °F")


def test_a_moment_is_told_in_pound_feet_beside_inches() -> None:
    # NIST SP 811 (2008), appendix B.8: 1 lbf·ft is 1.355 818 N·m.
    assert (q.moment_in(1.355_818, "in"), q.moment_unit("in")) == (pytest.approx(1.0, rel=1e-6), "lbf·ft")
    assert (q.moment_in(12.2, "mm"), q.moment_unit("mm")) == (12.2, "N·m")
