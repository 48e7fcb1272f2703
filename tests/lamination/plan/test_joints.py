# SPDX-License-Identifier: LGPL-2.1-or-later

"""The tenon's own figures, against prisms by manifold3d."""

from __future__ import annotations

from collections.abc import Callable

import manifold3d
import pytest

from freecad_stacklam.lamination.plan.joints import Tenon


@pytest.mark.parametrize(
    ("section", "size", "make"),
    [
        ("square", (39.8,), lambda: manifold3d.Manifold.cube((39.8, 39.8, 125.0))),
        ("rectangle", (59.8, 29.8), lambda: manifold3d.Manifold.cube((59.8, 29.8, 125.0))),
        ("round", (39.8,), lambda: manifold3d.Manifold.cylinder(125.0, 19.9, circular_segments=2048)),
    ],
)
def test_a_tenon_is_a_prism_of_its_section(
    section: str, size: tuple[float, ...], make: Callable[[], manifold3d.Manifold]
) -> None:
    body, tenon = make(), Tenon(125.0, section, size, "white oak")
    assert tenon.volume == pytest.approx(body.volume(), rel=1e-5)
    assert tenon.area == pytest.approx(body.slice(60.0).area(), rel=1e-5)


def test_the_largest_round_in_a_square_is_a_quarter_pi_of_it() -> None:
    square, round_ = (Tenon(80.0, s, (40.0,), "white oak") for s in ("square", "round"))
    assert round_.volume / square.volume == pytest.approx(0.785398, abs=1e-6)
