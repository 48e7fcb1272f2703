# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a joint takes out of each layer, against manifold3d, and how its tenon moves, against the Wood Handbook."""

from __future__ import annotations

from dataclasses import replace

import judges
import numpy as np
import pytest
import solids
from hypothesis import given, settings
from hypothesis import strategies as st
from joined import joint, planned, post_and_top

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.joints.axis import section_outline
from freecad_stacklam.lamination.joints.mortise import (
    cut_layers,
    grain_side,
    mortise_span,
    movements,
    relief_for,
    through_waste,
)
from freecad_stacklam.lamination.plan.jointaxis import joint_axis
from freecad_stacklam.lamination.plan.outline import area_polygon, polygon_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.stack import TabSettings
from freecad_stacklam.lamination.wood.species import movement_coefficient


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


def test_movement_across_by_how_the_layers_are_sawn():
    """White oak, FPL-GTR-282 (2021): C 0.00376 tangential, 0.00194 radial. In their width flat-sawn layers move by the
    first, quarter-sawn ones by the second; either face of the tenon may meet them. Teak moves less than the layers
    either way."""
    table = species_table()
    oak, teak = table["white oak"], table["teak"]
    most = 60 * (0.00376 - 0.00194) * 4
    for cut in ("", "flat", "quarter"):
        assert movements(60.0, 60.0, oak, oak, 4.0, cut)[1] == pytest.approx(most, abs=0.005)
    least = movement_coefficient(teak.shrink_radial)
    flat, quarter = (movements(60.0, 60.0, teak, oak, 4.0, cut)[1] for cut in ("flat", "quarter"))
    assert flat == pytest.approx(60 * (0.00376 - least) * 4, abs=0.005)
    assert quarter == pytest.approx(60 * (0.00194 - least) * 4, abs=0.005) and quarter < flat
    assert movements(60.0, 60.0, teak, oak, 4.0)[1] == flat


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


def test_a_mortise_runs_through_the_waste_to_the_open_face_of_its_layer():
    """A post of 300 mm in seven layers of 45 mm: 15 mm of waste stand over it. The mortise, 77 mm deep, opens upwards
    and starts where it was asked, in layer 5 by 2 mm. The through mortise of the top, 50 mm in two layers of 45, takes
    in 40 mm of waste."""
    stacks, _ = pieces = post_and_top(60.0)
    found = joint(pieces, size=(40.0,), embed=(("Post", 75.0), ("Top", None)))
    cuts = [(layer.number, c.start, c.end) for layer in cut_layers(stacks["Post"], found).layers for c in layer.cuts]
    assert cuts == [(5, pytest.approx(223), 225), (6, 225, 270), (7, 270, 315)]
    assert through_waste(stacks["Post"], found, found.members[0]) == pytest.approx((223, 315))
    assert through_waste(stacks["Top"], found, found.members[1]) == pytest.approx((0, 90))
    # asked again, the joint's own cuts are made anew; a joint elsewhere changes nothing
    again = cut_layers(cut_layers(stacks["Post"], found), found)
    assert again == cut_layers(stacks["Post"], found)
    assert cut_layers(replace(stacks["Post"], name="Other"), found).layers == stacks["Post"].layers


def test_a_shallow_bite_into_one_more_layer_is_left_out():
    """Ending 0.005 mm under a glue line a saw cannot show it; 0.02 mm it is told."""
    stacks, _ = pieces = post_and_top(60.0)
    for more, layers in ((0.005, [6, 7]), (0.02, [5, 6, 7])):
        found = joint(pieces, size=(40.0,), embed=(("Post", 75.0 + more), ("Top", None)), end_room=0.0)
        cut = cut_layers(stacks["Post"], found)
        assert [n.number for n in cut.layers if n.cuts] == layers


@pytest.mark.parametrize("lean", [0.0, 15.0, 35.0])
def test_the_heights_of_a_leaning_square_are_those_of_its_corners(lean):
    """A square of side s on an axis that leans by θ, cut square to it: its corners lie s / 2 · sin θ over and under its
    middle, which lies along · cos θ over the point."""
    stacks, _ = post_and_top()
    angle = np.radians(lean)
    axis = joint_axis((0, 0, 300.0), (np.sin(angle), 0, np.cos(angle)))
    low, high = mortise_span(stacks["Post"], axis, section_outline("square", (40.0,)), (-75.0, 25.0))
    assert low == pytest.approx(300 - 75 * np.cos(angle) - 20 * np.sin(angle), abs=1e-9)
    assert high == pytest.approx(300 + 25 * np.cos(angle) + 20 * np.sin(angle), abs=1e-9)


@pytest.mark.parametrize(
    ("turn", "grain", "side"), [(0, 0, 0), (0, 90, 1), (90, 0, 1), (30, 20, 0), (30, 130, 1), (0, 180, 0)]
)
def test_the_side_that_lies_along_the_grain(turn, grain, side):
    """Of two directions square to each other, the one within 45° of the grain."""
    stacks, _ = post_and_top()
    assert grain_side(joint_axis((0, 0, 0), (0, 0, 1), turn), stacks["Post"], grain) == side


@given(st.floats(0.0, 3.0), st.floats(0.0, 0.4))
@settings(max_examples=60, deadline=None)
def test_relief_gives_the_tenon_room_and_hardly_more(along, clearance):
    """Room for the movement is twice clearance and relief; a step less would be too little."""
    relief = relief_for(along, clearance)
    assert 2 * (relief + clearance) >= along - 1e-6
    assert relief == 0.0 or 2 * (relief - 0.1 + clearance) < along
    assert relief / 0.1 == pytest.approx(round(relief / 0.1), abs=1e-6)


def foot_with_leg(*tabs: TabSettings):
    """A foot of two layers of radius 150 and two of radius 60, and a leg that stands on its rim, 100 from the axis."""
    lift = np.eye(4)
    lift[:3, 3] = 100.0, 0.0, 90.0
    profile = np.array([[0, 0], [150, 0], [150, 90], [60, 90], [60, 180], [0, 180]], dtype=float)
    meshes = {"Foot": solids.revolved(profile), "Leg": solids.moved(solids.cylinder(35, 180), lift)}
    return {**planned(meshes), **planned({"Foot": meshes["Foot"]}, tabs=tabs)}, meshes


ON_RIM = {"embed": (("Foot", 60.0), ("Leg", 80.0)), "through": (100.0, 0.0, 90.0), "size": (30.0,)}


@pytest.mark.parametrize(
    ("tab", "crosses"),
    [
        # Fillets off. The pedestal's blanks end at 63.2 mm from the axis, the mortise lies from 85 to 115 mm.
        (TabSettings((3,), 0.0, 40.0, 60.0, fillet=0.0), True),
        (TabSettings((4,), 0.0, 40.0, 60.0, fillet=0.0), True),  # higher up, and in the drill's way all the same
        (TabSettings((3,), 0.0, 40.0, 20.0, fillet=0.0), False),  # ends at 83.2 mm
        (TabSettings((3,), 0.0, 40.0, 24.0, fillet=0.0), True),  # ends at 87.2 mm
        (TabSettings((3,), 90.0, 40.0, 60.0, fillet=0.0), False),
        (TabSettings((3,), 0.0, 40.0, 60.0, aside=36.0, fillet=0.0), False),  # from y 16; the mortise ends at 15
        (TabSettings((1, 2), 0.0, 40.0, 60.0), False),  # below a stopped mortise, and beside it
    ],
)
def test_a_tab_over_the_open_end_of_a_mortise_is_refused(tab, crosses):
    """By plain arithmetic of the rectangles."""
    stacks, meshes = foot_with_leg(tab)
    found = joint((stacks, meshes), **ON_RIM)
    if not crosses:
        assert any(layer.cuts for layer in cut_layers(stacks["Foot"], found).layers)
        return
    says = f"A waste tab of layer {tab.layers[0]} of Foot lies above the open end of the mortise of j"
    with pytest.raises(Refusal, match=says):
        cut_layers(stacks["Foot"], found)
