# SPDX-License-Identifier: LGPL-2.1-or-later

"""Kinds of options that hold a quantity: read, held to their bounds, written back."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from freecad_stacklam.lamination.options.kinds import Kind
from freecad_stacklam.lamination.options.quantities import duration, force, mass, percent, pressure, temperature
from freecad_stacklam.lamination.refusal import Refusal

KINDS = [duration(1.0, 86_400.0), temperature(), pressure(0.0, 20.0), force(), mass(), percent()]


@pytest.mark.parametrize("kind", KINDS, ids=lambda k: k.says)
@given(share=st.floats(0.0, 1.0))
def test_what_is_written_is_read_again(kind: Kind, share: float) -> None:
    assert kind.least is not None and kind.most is not None
    value = round(kind.least + share * (kind.most - kind.least), 6)
    assert kind.read(kind.write(value), "") == pytest.approx(value, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("kind", KINDS, ids=lambda k: k.says)
@pytest.mark.parametrize("value", [True, None, [], {}, "many", "1e400 s", float("nan")])
def test_what_is_no_quantity_is_refused_with_an_example(kind: Kind, value: object) -> None:
    with pytest.raises(Refusal):
        kind.read(value, "mm")


@pytest.mark.parametrize(("kind", "text"), list(zip(KINDS, ["0 s", "500 °C", "90 MPa", "0.1 N", "0 g", "101 %"])))
def test_beyond_the_bounds_is_refused(kind: Kind, text: str) -> None:
    with pytest.raises(Refusal, match="impossible here: give"):
        kind.read(text, "mm")


def test_a_bare_number_is_percent_and_nothing_else() -> None:
    assert percent().read(45, "mm") == 45.0
    with pytest.raises(Refusal, match="with its unit"):
        force().read(45, "mm")
