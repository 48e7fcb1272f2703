# SPDX-License-Identifier: LGPL-2.1-or-later

"""Heights of the glue lines, counted with exact fractions by Python's own `fractions`."""

from __future__ import annotations

from fractions import Fraction
from itertools import accumulate
from math import ceil

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.layers.thickness import layer_planes
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import MOST_LAYERS

tenths = st.integers(50, 900)


@given(st.integers(900, 20_000), tenths)
@settings(max_examples=60, deadline=None)
def test_as_many_layers_as_reach_the_top(height: int, stock: int) -> None:
    """N = ⌈H / t⌉ in tenths of a millimetre; the last layer may stand over the form by less than its thickness."""
    planes = layer_planes(height / 10, stock / 10)
    count = ceil(Fraction(height, stock))
    assert len(planes) == count + 1
    assert planes[0] == 0.0
    assert planes[-1] == pytest.approx(float(Fraction(count * stock, 10)), abs=1e-9)
    assert -1e-9 <= planes[-1] - height / 10 < stock / 10
    assert [b - a for a, b in zip(planes, planes[1:])] == pytest.approx([stock / 10] * count, abs=1e-9)


def test_many_thin_layers_do_not_add_up_their_rounding() -> None:
    """400 layers of 0.1 mm end at 40 mm exactly; added one by one they end some 1e-13 mm off (IEEE 754)."""
    planes = layer_planes(40.0, 0.1)
    assert len(planes) == 401
    assert planes[-1] == 40.0
    # (Python 3.12 and later sum floats with a correction, so they are added here one by one.)
    assert list(accumulate([0.1] * 400))[-1] != 40.0


@given(st.lists(tenths, min_size=1, max_size=6), tenths, st.integers(900, 8000))
@settings(max_examples=40, deadline=None)
def test_measured_boards_go_below_and_the_rest_is_stock(planed: list[int], stock: int, height: int) -> None:
    planes = layer_planes(height / 10, stock / 10, [t / 10 for t in planed])
    total, wanted = Fraction(0), [Fraction(0)]
    for t in planed:
        if total >= Fraction(height, 10):
            break
        total += Fraction(t, 10)
        wanted.append(total)
    while total < Fraction(height, 10):
        total += Fraction(stock, 10)
        wanted.append(total)
    assert planes == pytest.approx([float(p) for p in wanted], abs=1e-9)


def test_a_hair_more_than_the_boards_reach_is_rounding() -> None:
    """0.0009 mm over ten boards is the rounding of a CAD kernel, 0.0011 mm is wood."""
    assert len(layer_planes(450.0009, 45.0)) == 11
    assert len(layer_planes(450.0011, 45.0)) == 12
    assert len(layer_planes(45.0, 45.0)) == 2


@pytest.mark.parametrize("stock", [0.6, 0.5, 0.1])
def test_veneers_are_laid_as_long_as_they_are_not_too_many(stock: float) -> None:
    """Layers are counted, not the trade's thicknesses judged: 400 · 0.6 mm = 240 mm."""
    planes = layer_planes(400 * stock, stock)
    assert (len(planes), planes[-1]) == (401, pytest.approx(400 * stock))
    with pytest.raises(Refusal, match="more than 400 are not planned"):
        layer_planes(400 * stock + 0.01, stock)


@pytest.mark.parametrize(
    ("height", "stock", "planed", "says"),
    [
        (450.0, 0.0, (), "Stock of 0 mm cannot be laid"),
        (450.0, -45.0, (), "Stock of -45 mm cannot be laid"),
        (450.0, float("nan"), (), "cannot be laid"),
        (450.0, 45.0, (44.6, 0.0), "Stock of 0 mm cannot be laid"),
        (40.0, 45.0, (), r"thicker \(45 mm\) than the form is high \(40 mm"),
        (450.0, 0.4, (), "1125 layers in a form 450 mm high; more than 400 are not planned: .* glue thin stock up"),
        (250.0, 0.6, (), f"more than {MOST_LAYERS} are not planned"),
        (450.0, 45.0, (0.6,) * 401, "401 thicknesses are given as planed; more than 400 layers are not planned"),
    ],
)
def test_impossible_boards_are_refused(height: float, stock: float, planed: tuple[float, ...], says: str) -> None:
    with pytest.raises(Refusal, match=says):
        layer_planes(height, stock, planed)
