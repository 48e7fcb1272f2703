# SPDX-License-Identifier: LGPL-2.1-or-later

"""All that is known of a pile's set-ups before the clamps have places."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest
from gluepiles import PEDESTAL, YELLOW, clamps, pile_with, random_job

from freecad_stacklam.lamination.gluing.pile import HOLLOW, MORTISE, Channel, Pile
from freecad_stacklam.lamination.gluing.stages import Stages, glue_grams, stages_of
from freecad_stacklam.lamination.refusal import Refusal, told
from freecad_stacklam.lamination.settings.glue import Glue
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.presses import PressSettings

BARE = GluingRoom(caul_thickness=0.0)
TEN = replace(YELLOW, assembly_time=600.0)
JOINT = Channel(MORTISE, "Pedestal to top", 9, 10, False, True)
#: kg; as white oak of the pedestal's blanks would weigh.
MASSES = [4.2, 2.9, 1.9, 1.3, 0.8, 0.6, 0.5, 0.5, 0.6, 0.7]


def planned(
    pile: Pile | None = None,
    presses: Sequence[PressSettings] = (clamps(24),),
    glue: Glue = YELLOW,
    room: GluingRoom = BARE,
    reach: float | None = None,
) -> Stages:
    pile = pile or pile_with(PEDESTAL, masses=MASSES, channels=(JOINT,))
    return stages_of(pile, glue, room, presses, ((1.2, 1.8),) * len(pile.lines), reach, 0.15)


def test_the_stand_in_one_set_up() -> None:
    plan = planned()
    assert plan.held and plan.proven
    (stage,) = plan.stages
    assert stage.lines == tuple(range(1, 10))
    assert stage.presses == (("clamp", 16),)
    assert stage.force == 16 * 4670.0
    assert stage.clock.to_pressure == pytest.approx(884.9, abs=0.05)  # 9 · 55 − 10 + 79.9 + 320
    assert stage.area == sum(PEDESTAL) == 199_655.0
    assert stage.glue == pytest.approx(41.33, abs=0.01)  # 0.199655 m² · 180 g/m² · 1.15
    assert stage.opening == stage.burden.height == 450.0
    assert stage.burden.mass == pytest.approx(14.0)
    assert plan.rounds == (1, 1)


def test_the_stand_in_two_set_ups() -> None:
    plan = planned(glue=TEN)
    first, second = plan.stages
    assert [s.number for s in plan.stages] == [1, 2]
    assert [s.round for s in plan.stages] == [1, 2]
    assert second.after == (1,)
    assert len(first.lines) + len(second.lines) == 9
    assert {len(first.lines), len(second.lines)} == {4, 5}  # as even as nine lines can be
    assert (first.first, first.last) in second.joins
    assert all(s.clock.held for s in plan.stages)
    assert plan.rounds == (2, 2)
    assert "Waits for the glue: 2, proven." in plan.notes


def test_twelve_clamps_are_refused_with_what_would_do() -> None:
    plan = planned(presses=[clamps(12)])
    (limit,) = plan.stages[0].limits
    assert not plan.held
    assert (limit.name, limit.needed, limit.there) == ("clamps", 16.0, 12.0)
    assert "4 more clamps" in limit.says
    assert "0.93 MPa" in told(limit.says)
    assert plan.stages[0].presses == (("clamp", 12),)


def test_a_stack_higher_than_every_press_has_an_order_and_its_fault() -> None:
    plan = planned(presses=[clamps(24, opening=300.0)])
    assert [limit.name for stage in plan.stages for limit in stage.limits] == ["opening"]


def test_a_press_for_the_join_makes_it_hold() -> None:
    pile = pile_with(PEDESTAL, channels=(Channel(MORTISE, "bore", 1, 10, True, True),))
    plan = planned(pile, [clamps(24, opening=300.0), clamps(1, 20_000.0, 600.0, "rod")])
    assert plan.held
    assert len(plan.stages) == 2
    assert plan.stages[0].presses == (("clamp 300", 16),)  # no rod where clamps do
    assert plan.stages[1].presses == (("rod 600", 1),)


def test_no_clamps_and_glue_too_quick_for_a_line() -> None:
    assert [limit.name for limit in planned(presses=[]).stages[0].limits] == ["clamps"]
    quick = planned(glue=replace(YELLOW, open_time=40.0, assembly_time=60.0), presses=[clamps(24)])
    names = {limit.name for stage in quick.stages for limit in stage.limits}
    assert names == {"clock", "open time"}
    assert all(len(stage.lines) == 1 for stage in quick.stages)


def test_what_must_be_worked_before() -> None:
    void = Channel(HOLLOW, "", 4, 5, False, False)
    pile = pile_with(PEDESTAL, masses=MASSES, channels=(JOINT, void))
    said = [told(text) for text in planned(pile).stages[0].before]
    assert "Wipe the glue out of the mortise of Pedestal to top while it is wet: 45 mm deep at the most." in said
    assert "The void in layers 4 to 5 closes: finish its walls, and bore its vent, before." in said
    assert "Bore for the pins of lines 1 to 9 and try them dry." in said
    closed = pile_with([5e3] * 3, channels=(Channel(MORTISE, "rail", 2, 3, False, False),))
    assert any("closes at both ends" in text for text in planned(closed).stages[0].before)


def test_what_comes_out_may_be_too_heavy_or_too_wide() -> None:
    pile = pile_with(PEDESTAL, masses=[3.0] * 10, widths=[300.0] * 10)
    plan = planned(pile, glue=TEN, room=replace(BARE, reface=250.0))
    first, last = plan.stages
    assert any("no more than 250 mm can be re-faced" in told(text) for text in first.cautions)
    assert any("weighs 30.0 kg, more than the 16.4 kg" in told(text) for text in last.cautions)
    assert any("36.2 lb" in told(text, "in") for text in last.cautions)


def test_the_smallest_line_gets_the_force_of_the_largest() -> None:
    # 16 · 4,670 N / 11,259 mm² = 6.64 MPa = 963 psi on line 7, where 1.8 MPa is the most.
    (said,) = [text for text in planned().stages[0].starving if "starved" in text]
    assert told(said).startswith("Line 7 gets 6.64 MPa from the same clamps, more than the 1.80 MPa")
    assert "963 psi" in told(said, "in")


def test_what_is_noted_where_no_order_holds() -> None:
    # 450 mm, cut by a clock of five lines into parts that clamps of 200 mm do not all hold.
    plan = planned(pile_with([40_000.0] * 9), [clamps(24, opening=100.0)], replace(YELLOW, assembly_time=480.0))
    assert any("breaks the fewest" in note for note in plan.notes)
    assert any(limit.name == "opening" for stage in plan.stages for limit in stage.limits)
    high = planned(pile_with([20_000.0] * 120, thickness=2.0))
    assert any("was not sought" in note for note in high.notes)


def test_an_order_with_fewer_waits_is_told() -> None:
    # One line at a time; clamps for any number at once: a growing pile waits eight times, a tree of joins four.
    pile = pile_with([20_000.0] * 8, thickness=10.0)
    plan = planned(pile, [clamps(99)], replace(YELLOW, assembly_time=180.0))
    assert len(plan.stages) == 8
    least, taken = plan.rounds
    assert least == 4  # ⌈log2 9⌉
    assert taken == 4 or any("can be glued with 4 waits" in note for note in plan.notes)


def assert_can_be_done(plan: Stages, layers: int) -> None:
    """Every line is closed once; every part is made before it is joined, in an earlier round."""
    assert sorted(line for stage in plan.stages for line in stage.lines) == list(range(1, layers))
    made: set[tuple[int, int]] = {(k, k) for k in range(1, layers + 1)}
    for stage in plan.stages:
        assert set(stage.joins) <= made
        made.add((stage.first, stage.last))
        assert all(plan.stages[n - 1].round < stage.round for n in stage.after)
    assert plan.rounds[0] <= plan.rounds[1] == max((stage.round for stage in plan.stages), default=0)


def test_every_line_is_closed_once_and_every_part_is_made_before() -> None:
    assert_can_be_done(planned(glue=replace(YELLOW, assembly_time=450.0)), 10)


@pytest.mark.parametrize("seed", range(20))
def test_random_piles_can_be_done_and_tell_what_they_break(seed: int) -> None:
    layers = 8 + seed
    pile, shop = random_job(seed, layers)
    plan = stages_of(pile, shop.glue, shop.room, shop.presses, shop.wanted, shop.reach, 0.1, {"yellow glue": YELLOW})
    assert_can_be_done(plan, layers)
    for stage in plan.stages:
        # What the record holds and what is told of it agree.
        names = {limit.name for limit in stage.limits}
        assert stage.clock.held == (not names & {"clock", "open time"})
        assert all(told(limit.says, units) for limit in stage.limits for units in ("mm", "in"))
        assert all(limit.needed > limit.there for limit in stage.limits)


def test_glue_goes_by_faces_and_loss() -> None:
    assert glue_grams(replace(YELLOW, faces=2), 1e6, 0.15) == pytest.approx(414.0)  # 1 m² · 180 · 2 · 1.15


def test_one_layer_is_no_set_up() -> None:
    assert planned(pile_with([])).stages == ()


def test_a_pressure_is_wanted_for_each_line() -> None:
    with pytest.raises(Refusal, match="9 glue lines and 1 pressures"):
        stages_of(pile_with(PEDESTAL), YELLOW, BARE, [clamps(24)], [(1.2, 1.8)])
