# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a joint takes out of each layer, against manifold3d, and how its tenon moves, against the Wood Handbook."""

from __future__ import annotations

import judges
import pytest
from joined import joint, planned, post_and_top

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.joints.mortise import cut_layers, movements, relief_for
from freecad_stacklam.lamination.plan.outline import area_polygon, polygon_of


def test_movement_of_a_tenon_along_the_grain():
    # Handbook FPL-GTR-190 (2010), Table 13-5: white oak, tangential 0.00365 per %. 60 mm, 4 %: 0.88 mm.
    table = species_table()
    oak = table["white oak"]
    printed = next(p for p in oak.printed if "2010" in p.edition)
    assert 60 * printed.tangential * 4 == pytest.approx(0.88, abs=0.005)
    # ours takes C from shrinkage by Eq. 13-2 of FPL-GTR-282 (2021), which prints 0.00376 for the species
    along, across = movements(60.0, 60.0, oak, oak, 4.0)
    assert along == pytest.approx(60 * 0.00376 * 4, abs=0.002)
    assert along == pytest.approx(0.88, rel=0.04)
    # 2010: a radial tenon face in a tangential layer, 60·(0.00365 − 0.00180)·4 = 0.444 mm
    assert 60 * (printed.tangential - printed.radial) * 4 == pytest.approx(0.444, abs=1e-3)
    assert across == pytest.approx(0.444, rel=0.05)
    assert movements(60.0, 60.0, None, oak, 4.0) == (None, None)


@pytest.mark.parametrize(
    ("along", "clearance", "relief"), [(0.6, 0.1, 0.2), (0.2, 0.1, 0.0), (0.9, 0.1, 0.4), (None, 0.1, 0.0)]
)
def test_relief_takes_up_the_movement_and_is_rounded_up(along, clearance, relief):
    assert relief_for(along, clearance) == pytest.approx(relief)


@pytest.mark.parametrize("grain", [0.0, 90.0])
def test_relief_is_cut_on_the_end_grain_walls_only(grain):
    pieces = post_and_top()
    stacks = planned(pieces[1], grain=grain)
    found = joint((stacks, pieces[1]), species_table(), size=(60.0,))
    relief = found.members[0].relief
    assert relief == pytest.approx(0.4)  # 0.902 / 2 − 0.1, rounded up
    (cut,) = cut_layers(stacks["Top"], found).layers[0].cuts
    low_x, low_y, high_x, high_y = polygon_of(cut.outline).bounds
    sizes = (high_x - low_x, high_y - low_y)
    assert sizes == pytest.approx((60.8, 60.0) if grain == 0 else (60.0, 60.8))
    assert joint((stacks, pieces[1]), species_table(), size=(60.0,), relief=0.0).members[0].relief == 0.0


def test_mortises_take_their_volume_out_of_the_blanks():
    pieces = post_and_top()
    stacks, _ = pieces
    found = joint(pieces, size=(44.0,))
    for name in ("Post", "Top"):
        for layer in cut_layers(stacks[name], found).layers:
            if not layer.cuts:
                continue
            blank = judges.extruded(area_polygon(layer.blank), layer.bottom, layer.top)
            tools = [judges.extruded(polygon_of(c.outline), c.start, c.end) for c in layer.cuts]
            taken = blank.volume() - (blank - tools[0]).volume()  # manifold3d
            assert taken == pytest.approx(44.0**2 * (layer.cuts[0].end - layer.cuts[0].start), rel=1e-9)
