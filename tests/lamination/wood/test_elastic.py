# SPDX-License-Identifier: LGPL-2.1-or-later

"""Stiffness against the Wood Handbook's chapter 5 (Tables 5-1 and 5-2; editions beside the values in species.toml),
and against what must hold for any elastic body."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.wood.elastic import Elastic, elastic_of, is_a_body

TABLE = species_table()
KNOWN = sorted(name for name, species in TABLE.items() if species.elastic is not None)


def found(name: str, moisture: float = 12.0) -> Elastic:
    elastic = elastic_of(TABLE[name], moisture)
    assert elastic is not None
    return elastic


def test_white_oak() -> None:
    """12.3 GPa × 1.10 = 13 530 MPa; × 0.163 = 2205, × 0.072 = 974 (arithmetic); no rolling shear modulus is printed."""
    oak = found("white oak")
    assert (oak.along, oak.radial, oak.tangential) == (
        pytest.approx(13530), pytest.approx(2205.4, abs=0.05), pytest.approx(974.2, abs=0.05),
    )  # fmt: skip
    assert oak.shear_rt == pytest.approx(270.6)
    assert any("Rolling shear modulus is taken as 0.02" in line for line in oak.assumed)
    assert any("from memory" in line for line in oak.assumed)


@pytest.mark.parametrize(
    ("name", "ratios"),
    [
        ("sugar maple", (0.132, 0.065)),  # GTR-190 Table 5-1
        ("yellow-poplar", (0.092, 0.043, 0.075, 0.069)),  # GTR-190 Table 5-1, a copy of the table
        ("Douglas-fir, coast", (0.068, 0.050, 0.064, 0.078, 0.007)),  # GTR-282 (2021) Table 5-1, a copy of the table
    ],
)
def test_ratios_that_were_seen_printed(name: str, ratios: tuple[float, ...]) -> None:
    elastic = found(name)
    held = (elastic.radial, elastic.tangential, elastic.shear_lr, elastic.shear_lt, elastic.shear_rt)
    assert [value / elastic.along for value in held[: len(ratios)]] == pytest.approx(list(ratios))


@pytest.mark.parametrize("name", KNOWN)
def test_every_wood_is_a_body_and_its_small_ratios_follow(name: str) -> None:
    """The compliance is symmetric and positive definite; a body's six Poisson's ratios obey n_ij/E_i = n_ji/E_j
    (any textbook of elasticity), and inversion gives the identity."""
    elastic = found(name)
    assert is_a_body(elastic)
    compliance, stiffness = elastic.compliance(), elastic.stiffness()
    assert np.array_equal(compliance, compliance.T)
    assert compliance @ stiffness == pytest.approx(np.eye(6), abs=1e-9)
    small = -compliance[0, 1] * elastic.radial  # strain in L of wood pulled along R
    assert small / elastic.radial == pytest.approx(elastic.poisson_lr / elastic.along)
    # Chapter 5: the small ratios are below a tenth.
    assert 0 < small < 0.11


@pytest.mark.parametrize("name", KNOWN)
def test_ratios_are_in_the_order_of_wood(name: str) -> None:
    """Chapter 5: radial over tangential is 1.3 to 2.5, both below a fifth of that along the grain."""
    elastic = found(name)
    assert 1.3 < elastic.radial / elastic.tangential < 2.6
    assert elastic.radial < 0.2 * elastic.along
    assert elastic.shear_rt < elastic.shear_lt < 0.12 * elastic.along


def test_stiffness_of_an_even_material() -> None:
    """E 200 000, n 0.3, G = E/(2(1 + n)): the first entry is E(1 − n)/((1 + n)(1 − 2n)) = 269 230.77."""
    shear = 200_000 / 2.6
    steel = Elastic(*[200_000.0] * 3, *[shear] * 3, *[0.3] * 3, assumed=())
    assert steel.stiffness()[0, 0] == pytest.approx(269230.769, abs=0.001)
    assert steel.stiffness()[3, 3] == pytest.approx(shear)
    assert not is_a_body(replace(steel, poisson_lr=0.51, poisson_lt=0.51, poisson_rt=0.51))
    assert not is_a_body(replace(steel, shear_lr=-1.0))


def test_drier_wood_is_stiffer() -> None:
    """Eq. 5-3 by hand for white oak at 8 %: 12.3·(12.3/8.6)^(4/13) = 13.7316 GPa, × 1100 = 15 104.8 MPa."""
    oak = found("white oak", 8.0)
    assert oak.along == pytest.approx(15104.8, abs=0.05)
    assert oak.radial / oak.along == pytest.approx(0.163)
    walnut = found("black walnut", 8.0)
    assert walnut.along == pytest.approx(12760)
    assert any("the green value is not in the table" in line for line in walnut.assumed)


def test_what_is_not_known_stays_so() -> None:
    assert elastic_of(TABLE["American beech"]) is None
    assert elastic_of(TABLE["teak"]) is None


def test_ratios_of_no_body_are_refused() -> None:
    oak = TABLE["white oak"]
    assert oak.elastic is not None
    with pytest.raises(Refusal, match="Poisson's ratios are too large"):
        elastic_of(replace(oak, elastic=replace(oak.elastic, poisson_rt=1.6)))


def test_what_a_table_lacks_is_assumed_and_said() -> None:
    oak = TABLE["white oak"]
    assert oak.elastic is not None
    bare = elastic_of(replace(oak, elastic=replace(oak.elastic, shear_lt=None, poisson_lt=None, source="own tests")))
    assert bare is not None
    assert bare.shear_lt == pytest.approx(0.07 * bare.along)
    assert "Shear modulus LT is not in the table and taken as 0.07." in bare.assumed
    assert "Poisson's ratio LT is not in the table and taken as 0.45." in bare.assumed
    assert not any("memory" in line for line in bare.assumed)
