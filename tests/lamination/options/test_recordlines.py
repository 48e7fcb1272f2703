# SPDX-License-Identifier: LGPL-2.1-or-later

"""The lines are inline tables of TOML 1.0: the standard library's reader must read them."""

from __future__ import annotations

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from freecad_stacklam.lamination.options.recordlines import record_from, record_line
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.usage.use import LoadSettings

names = st.text(st.characters(codec="utf-8", categories=("L", "N", "P", "Zs")), min_size=1, max_size=40)
#: Forces are written to a billionth.
forces = st.floats(1.0, 1e5).map(lambda n: round(n, 9))


@given(names.filter(str.strip), forces, forces, st.none() | st.tuples(*[st.floats(-5000, 5000)] * 3))
def test_a_record_comes_back_as_it_was(name: str, push: float, down: float, at: tuple[float, ...] | None) -> None:
    load = LoadSettings(name, down=down, push=push, at=at, lasting=True)  # type: ignore[arg-type]
    line = record_line(load)
    assert tomllib.loads(f"it = {line}")["it"]["name"] == name
    assert "\n" not in line
    assert record_from(line, LoadSettings) == load


def test_first_values_are_not_written() -> None:
    assert record_line(LoadSettings("two children", down=500.0)) == '{name = "two children", down = "500 N"}'


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("two children, 500 N", 'is no load: write its options in braces, as in {name = "…"}'),
        ('{name = "x", weight = "5 kg"}', "a load has no “weight”; it has name, down"),
        ('{name = "x", down = "5 kg"}', "down: "),
        ('{down = "5 N"}', "this load has no name: add one"),
        ('{name = "x"}', "presses nowhere"),
        ('{name = "x", down = "5 N"}\nevil = 1', None),
    ],
)
def test_what_is_no_line_is_refused_with_it(line: str, says: str | None) -> None:
    if says is None:
        assert record_from(line, LoadSettings).name == "x"  # what follows the line is not read
        return
    with pytest.raises(Refusal) as caught:
        record_from(line, LoadSettings)
    assert says in caught.value.sentence
