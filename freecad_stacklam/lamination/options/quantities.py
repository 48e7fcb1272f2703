# SPDX-License-Identifier: LGPL-2.1-or-later

"""What options of the glue-up hold: times, temperatures, pressures, forces, masses, percents, each with its unit."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from freecad_stacklam.lamination.options.kinds import Kind, number, plain, shown
from freecad_stacklam.lamination.quantities import (
    parse_force,
    parse_mass,
    parse_percent,
    parse_pressure,
    parse_temperature,
    parse_time,
)
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say


def _quantity(
    says: str, parse: Callable[[str], float], unit: str, written: str, least: float, most: float, worth: float = 1.0
) -> Kind:
    """A figure with its unit, kept in `unit` and written in `written`, which is `worth` of it."""
    within = number(least, most, unit=unit)

    def read(value: Any, _: str) -> float:
        if not isinstance(value, str):
            raise Refusal(
                say(
                    'a {says} with its unit is needed, as in "{plain} {written}", not {value}.',
                    says=say(says),
                    plain=plain(least or 1.0),
                    written=written,
                    value=shown(value),
                )
            )
        found = parse(value)
        fault = within.fault(found)
        if fault:
            raise Refusal(say("{value} is impossible here: {fault}.", value=shown(value), fault=fault))
        return found

    def write(value: float) -> str:
        return f"{plain(round(value / worth, 9))} {written}"

    return Kind(says, read, write, within.fault, "Float", unit, least, most)


def duration(least: float = 0.0, most: float = 2_592_000.0) -> Kind:
    """A time, s."""
    return _quantity("time", parse_time, "s", "s", least, most)


def temperature(least: float = -40.0, most: float = 120.0) -> Kind:
    """A temperature, °C."""
    return _quantity("temperature", parse_temperature, "°C", "°C", least, most)


def pressure(least: float = 0.0, most: float = 100.0) -> Kind:
    """A pressure, MPa."""
    return _quantity("pressure", parse_pressure, "MPa", "MPa", least, most)


def force(least: float = 1.0, most: float = 1e6) -> Kind:
    """A force, N."""
    return _quantity("force", parse_force, "N", "N", least, most)


def mass(least: float = 0.1, most: float = 10_000.0) -> Kind:
    """A mass, kg."""
    return _quantity("weight", parse_mass, "kg", "kg", least, most)


def percent(least: float = 0.0, most: float = 100.0) -> Kind:
    """A share or a moisture, %."""
    within = number(least, most, unit="%")

    def read(value: Any, _: str) -> float:
        if isinstance(value, bool) or not isinstance(value, (int, float, str)):
            raise Refusal(say('percent are needed, as in "45 %", not {value}.', value=shown(value)))
        found = parse_percent(value)
        fault = within.fault(found)
        if fault:
            raise Refusal(say("{value} is impossible here: {fault}.", value=shown(value), fault=fault))
        return found

    return Kind("percent", read, lambda value: f"{plain(value)} %", within.fault, "Float", "%", least, most)
