# SPDX-License-Identifier: LGPL-2.1-or-later

"""The whole glue-up of a job: every line glued once, parts before what they are part of, no clamp in two places.

These rules are common practice, no source; the counting is done here from the records alone.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
import solids
from blocks import block, joint_of
from piles import clamps, legs, pile
from plans import worked_stand
from pseudo import Pseudo, plain, unsaid

from freecad_stacklam.data import glue_table, species_table
from freecad_stacklam.lamination.gluing.glueup import _presses_better, plan_glue_up, waits_at_least, wanted
from freecad_stacklam.lamination.job.assembly import Form, assemble
from freecad_stacklam.lamination.joining.edges import edge_set_ups
from freecad_stacklam.lamination.joining.means import Means
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.gluing import EDGES, JOINT, LAYERS, GlueUpPlan, SetUp
from freecad_stacklam.lamination.plan.insides import HollowPlan, WayIn
from freecad_stacklam.lamination.plan.joints import Boring
from freecad_stacklam.lamination.plan.layers import Cut, StackPlan
from freecad_stacklam.lamination.plan.outline import Loop, rectangle
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.pressing.press import Attempt, told_of, try_run
from freecad_stacklam.lamination.pressing.wanted import wanted_pressure
from freecad_stacklam.lamination.pressing.work import wood_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.file import read_settings
from freecad_stacklam.lamination.settings.glue import GlueSettings, glue_of
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.presses import PressSettings
from freecad_stacklam.lamination.settings.stack import StackSettings, TabSettings
from freecad_stacklam.lamination.words import speaking

SHOP = Settings(presses=(PressSettings("Pipe", count=8, opening=600.0, throat=60.0),), room=GluingRoom(humidity=45.0))


def post(name: str = "Post", layers: int = 5) -> StackPlan:
    return block(name, 120.0, 100.0, tuple(40.0 * (i + 1) for i in range(layers)), 0.0)


def glued(*stacks: StackPlan, settings: Settings = SHOP, units: str = "mm", joint: bool = False) -> GlueUpPlan:
    joints = (joint_of(stacks[0], stacks[1]),) if joint else ()
    plan = Plan("Stand", units, stacks, joints)
    return plan_glue_up(plan, settings, species_table(), glue_table())


def before(one: SetUp, other: SetUp) -> bool:
    """Whether a set-up's run is one of another's parts."""
    return other.kind == one.kind == LAYERS and one.stack == other.stack and (one.first, one.last) in other.joins


@pytest.mark.parametrize("layers", [2, 3, 7])
def test_every_line_is_glued_once_and_parts_come_before_what_they_are_part_of(layers: int) -> None:
    made = glued(post(layers=layers), post("Leg", 3))
    for stack, count in (("Post", layers), ("Leg", 3)):
        lines = [line for s in made.set_ups if s.stack == stack for line in s.lines]
        assert sorted(lines) == list(range(1, count))
    assert [s.number for s in made.set_ups] == list(range(1, len(made.set_ups) + 1))
    assert [s.round for s in made.set_ups] == sorted(s.round for s in made.set_ups)
    for one in made.set_ups:
        for other in made.set_ups:
            assert not before(one, other) or one.round < other.round


def test_panels_cure_in_the_rounds_that_were_made_for_them() -> None:
    """They are laid into rounds where it is known which clamps press each as well as all would, and nowhere again."""
    stand, table = worked_stand(), species_table()
    clamps = (PressSettings("Pipe", count=5, opening=900.0), PressSettings("Bar", count=5, force=3000.0, opening=900.0))
    made = plan_glue_up(stand, replace(SHOP, presses=clamps), table, glue_table())
    glue = glue_of(GlueSettings(), glue_table())

    def wants(*species: str) -> tuple[float, float]:
        return wanted_pressure(glue, species, table)

    means = Means(glue, GlueSettings().loss, GluingRoom(humidity=45.0), clamps, wants, table)
    assert stand.boards is not None
    panels = edge_set_ups(stand.boards.staves, stand.stacks, means)
    assert panels
    rounds = {(s.stack, s.first, s.staves): s.round for s in made.set_ups if s.kind == EDGES}
    assert rounds == {(s.stack, s.first, s.staves): s.round for s in panels}
    # What is glued of a panel waits for it.
    for one in made.set_ups:
        if one.kind == LAYERS:
            mine = [
                n for (stack, layer, _), n in rounds.items() if stack == one.stack and one.first <= layer <= one.last
            ]
            assert one.round > max(mine, default=0)


def test_no_clamp_is_in_two_places_in_one_round() -> None:
    made = glued(post("A", 2), post("B", 2), post("C", 2))
    for number in {s.round for s in made.set_ups}:
        used = Counter(p.press for s in made.set_ups if s.round == number for p in s.places)
        assert all(count <= 8 for count in used.values()), used
    assert made.rounds[1] == max(s.round for s in made.set_ups) >= made.rounds[0] >= 1


def test_stacks_that_the_clamps_serve_at_once_cure_side_by_side() -> None:
    many = replace(SHOP, presses=(replace(SHOP.presses[0], count=40),))
    assert glued(post("A", 2), post("B", 2), settings=many).rounds == (1, 1)


def test_a_joint_comes_when_its_stacks_are_cured() -> None:
    made = glued(
        post(), replace(post("Seat", 2), frame=(1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 200.0, 0, 0, 0, 1)), joint=True
    )
    (joint,) = (s for s in made.set_ups if s.kind == JOINT)
    assert joint is made.set_ups[-1]
    assert all(s.round < joint.round for s in made.set_ups if s is not joint)


def test_force_over_area_is_the_pressure_of_each_line() -> None:
    """8 clamps of 4.67 kN on 120 × 100 mm, as far as they are used: p = ΣF / A."""
    for one in glued(post(layers=3)).set_ups:
        force = sum(p.force for p in one.places)
        for line in one.pressures:
            assert line.area == pytest.approx(12_000.0, rel=0.001)
            assert line.mean == pytest.approx(force / line.area, rel=0.01)
        assert one.glue == pytest.approx(one.area / 1e6 * 180 * 1.15)


def test_warmth_halves_the_times_of_the_glue_and_cold_lengthens_its_cure() -> None:
    """Times about halve for 10 °C warmer (common practice, no source)."""
    warm = glued(post(layers=2), settings=replace(SHOP, room=GluingRoom(temperature=30.0)))
    cold = glued(post(layers=2), settings=replace(SHOP, room=GluingRoom(temperature=10.0)))
    assert warm.times == pytest.approx((240.0, 450.0, 3600.0, 86_400.0))
    assert cold.times == pytest.approx((960.0, 1800.0, 7200.0, 172_800.0))


def test_a_chisels_reach_is_told_beside_what_the_pads_miss() -> None:
    """A mortise through three layers of 40 mm, chiselled after they are glued: the middle of its 120 mm is 40 mm and
    more from either end, and the chisel reaches 30 mm. One weak clamp leaves the lines short besides."""
    stack = post(layers=3)
    hole = rectangle(30.0, 30.0)
    cut = tuple(
        replace(layer, cuts=(Cut("mortise", hole, layer.bottom, layer.top, "Tenon"),)) for layer in stack.layers
    )
    bored = Boring("Post", None, 25.0, 120.0, True, ((0.0, 0.0),), 2.0, "top", "after glue-up")
    joint = replace(joint_of(stack, stack), name="Tenon", drilling=(bored,), members=())
    settings = Settings(
        presses=(PressSettings("Weak", force=500.0),), joints=(JointSettings("Tenon", chisel_reach=30.0),)
    )
    plan = Plan("Stand", "mm", (replace(stack, layers=cut),), (joint,))
    made = plan_glue_up(plan, settings, species_table(), glue_table())
    names = {b.name for s in made.set_ups for b in s.limits}
    assert "chisel" in names and names & {"clamps", "pressure"}


def test_what_pads_hold_by_themselves_breaks_no_limit_that_was_counted_with_cauls() -> None:
    """Two layers of 40 mm between jaws that open 90 mm: bare they fit, with cauls of 36 mm, 152 mm, they do not."""
    low = replace(SHOP, presses=(replace(SHOP.presses[0], count=24, opening=90.0),))
    (one,) = glued(post(layers=2), settings=low).set_ups
    assert one.opening == 80.0 and one.cauls == () and one.held


def test_tabs_that_the_helps_speak_of_are_kept() -> None:
    """A flared pile: a small top over a wide foot, clamps that reach in 60 mm."""
    foot, top = block("Post", 400.0, 400.0, (40.0,), 0.0), block("Post", 150.0, 150.0, (40.0, 80.0), 0.0)
    flared = replace(foot, layers=(*foot.layers, top.layers[1]))
    without = replace(SHOP, room=GluingRoom(caul_thickness=0.0), glue=GlueSettings(least_pressure=0.01))
    (one,) = glued(flared, settings=without).set_ups
    assert bool(one.tabs) == any("of waste" in says for says in one.helps)


def test_a_joint_waits_for_its_own_stacks_alone() -> None:
    """A pile that waits three times and goes into no joint, and two plates that wait once each and once for theirs:
    three waits, for they cure side by side; five where one of the plates waits four times."""
    made = glued(
        post(layers=2), replace(post("Seat", 2), frame=(1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 80.0, 0, 0, 0, 1)), joint=True
    )
    joints = [s for s in made.set_ups if s.kind == JOINT]
    assert waits_at_least({"Tall": 3, "Post": 1, "Seat": 1}, joints) == 3
    assert waits_at_least({"Tall": 3, "Post": 1, "Seat": 4}, joints) == 5
    assert waits_at_least({}, []) == 0


def test_sentences_are_told_in_the_makers_units() -> None:
    made = glued(post(layers=4), units="in", settings=replace(SHOP, presses=(replace(SHOP.presses[0], count=2),)))
    texts = [t for s in made.set_ups for t in (s.why, *s.helps, *s.cautions, *(b.says for b in s.limits))]
    said = " ".join([*texts, *made.notes])
    assert "psi" in said and "MPa" not in said and "\ue000" not in said


def test_no_clamps_and_no_such_glue_are_refused_with_what_to_do() -> None:
    with pytest.raises(Refusal, match="list those that the shop owns"):
        glued(post(), settings=Settings())
    with pytest.raises(Refusal, match="did you mean epoxy"):
        glued(post(), settings=replace(SHOP, glue=GlueSettings(kind="epoxi")))


def test_a_stack_whose_layers_meet_nowhere_is_left_out_and_the_others_are_planned() -> None:
    low, high = block("Bad", 60.0, 60.0, (30.0,), 0.0), block("Bad", 60.0, 60.0, (30.0, 60.0), 0.0)
    shifted = replace(high.layers[1], blank=block("Far", 1.0, 1.0, (30.0,), 0.0).layers[0].blank)
    bad = replace(low, layers=(low.layers[0], replace(shifted, blank=_moved(shifted.blank, 500.0))))
    made = glued(bad, post())
    assert [s.stack for s in made.set_ups if s.kind == LAYERS] == ["Post"] * len(made.set_ups)
    (left,) = made.left_out
    assert left.what == "glue-up of Bad" and "meet nowhere" in left.says


def test_layers_that_meet_on_less_than_a_square_millimetre_meet_nowhere() -> None:
    """120 × 100 mm, and the upper one moved by all but 0.005 mm of its 120: they meet on 0.5 mm², and no pad is ever
    told what reaches it."""
    bad = post("Bad", 2)
    bad = replace(bad, layers=(bad.layers[0], replace(bad.layers[1], blank=_moved(bad.layers[1].blank, 119.995))))
    made = glued(bad, post())
    assert {s.stack for s in made.set_ups} == {"Post"}
    assert "meet nowhere, or on next to nothing" in made.left_out[0].says


def _moved(blank, by):  # type: ignore[no-untyped-def]
    return tuple(
        replace(o, outer=replace(o.outer, points=tuple((x + by, y, b) for x, y, b in o.outer.points))) for o in blank
    )


def test_a_glue_up_is_asked_for_by_naming_clamps_glue_or_room() -> None:
    assert not wanted(Settings())
    assert wanted(SHOP) and wanted(Settings(glue=GlueSettings())) and wanted(Settings(room=GluingRoom()))


def test_a_stack_higher_than_every_clamp_is_told_so_and_not_that_there_are_none() -> None:
    short = replace(SHOP, presses=(PressSettings("Short", count=8, opening=100.0, throat=60.0),))
    last = glued(post(layers=5), settings=short).set_ups[-1]
    says = " ".join(limit.says for limit in last.limits)
    assert "they stand 200 mm high, the widest clamp opens 100 mm" in says and "There are no clamps" not in says
    assert not any("starved" in said for said in last.cautions)  # nothing presses it


def test_no_time_is_counted_for_cauls_that_are_not_laid() -> None:
    for one in glued(post(layers=3)).set_ups:
        upper = sum(caul.side == "top" for caul in one.cauls)
        takes = sum(move.takes for move in one.clock.moves if move.what == "cauls")
        assert takes == pytest.approx(upper * GluingRoom().caul)


def test_layers_with_their_mortise_go_over_a_dummy_tenon() -> None:
    rows = [Boring("Post", n, 35.0, 40.0, True, ((0.0, 0.0),), 0.0, "top", "before glue-up") for n in (2, 3)]
    stacks = (post(layers=3), post("Top", 3))
    plan = Plan("Stand", "mm", stacks, (replace(joint_of(*stacks), drilling=tuple(rows)),))
    made = plan_glue_up(plan, SHOP, species_table(), glue_table())
    for one in (s for s in made.set_ups if s.kind == LAYERS):
        assert any("dummy tenon of Post to Top" in said for said in one.before) == (
            one.stack == "Post" and 2 in one.lines
        )


def test_kerfs_are_glued_before_the_layers_are() -> None:
    void = WayIn(2, "kerf", (60.0, 0.0), (20.0, 0.0), 0.0, 100.0)
    hollow = HollowPlan(30.0, 1, 1000.0, 20.0, (), (), (void,))
    made = glued(replace(post(layers=3), hollow=hollow), post("Top", 3), joint=True)
    told = {name: " ".join(t for s in made.set_ups if s.stack == name for t in s.before) for name in ("Post", "Top")}
    assert "Glue the kerf of the void in layer 2 shut a day before" in told["Post"]
    assert "kerf" not in told["Top"]


def test_kerfs_of_rings_are_glued_before_the_layers_are() -> None:
    stack = post(layers=3)
    ((one,),) = [layer.blank for layer in stack.layers[1:2]]
    clockwise = Loop(((10.0, 0.0, -1.0), (-10.0, 0.0, -1.0)))
    ring = replace(stack.layers[1], blank=(replace(one, holes=(clockwise,)),))
    made = glued(replace(stack, layers=(stack.layers[0], ring, stack.layers[2])), post("Top", 3), joint=True)
    told = {name: " ".join(t for s in made.set_ups if s.stack == name for t in s.before) for name in ("Post", "Top")}
    assert "sawed into the ring of layer 2, glue its kerf shut a day before" in told["Post"]
    assert "kerf" not in told["Top"]


def test_a_stack_of_too_many_layers_is_left_out_with_a_sentence_and_in_no_time() -> None:
    thin = block("Thin", 120.0, 100.0, tuple(2.0 * (i + 1) for i in range(101)), 0.0)
    (left,) = glued(thin).left_out
    assert left.what == "glue-up of Thin" and "101 layers" in left.says and "at most 100" in left.says


# --- weighed by what the pads reach -----------------------------------------------------------------------------------


def low_bench(clamps_owned: int = 14) -> GlueUpPlan:
    """Two feet of two layers under a plank of two: from the feet no pad reaches the middle of the plank."""
    bench = pile([legs(260.0, 90.0)] * 2 + [[rectangle(500.0, 300.0)]] * 2, 32.0)
    settings = Settings(presses=(clamps(clamps_owned, 4000.0, opening=800.0, throat=90.0),))
    return glued(replace(bench, name="Bench"), settings=settings)


def test_layers_are_glued_apart_where_the_clamps_reach_little_of_a_line_together() -> None:
    """All at once 29 % of the line in the plank are reached. By the rule of 45°, feet of 90 mm under a layer of 32 mm
    reach two squares of 154 mm of its 500 by 300: 0.32."""
    made = low_bench()
    pressed = {p.lower: p for s in made.set_ups for p in s.pressures}
    assert min(p.reached for p in pressed.values()) > 0.9
    # 14 clamps of 4 kN on 150,000 mm²; the feet are not starved by them.
    assert pressed[3].mean == pytest.approx(14 * 4000 / 150_000, rel=0.02)
    assert pressed[1].mean < pressed[1].wanted[1]
    plank = next(s for s in made.set_ups if 3 in s.lines)
    assert (plank.first, plank.last) == (3, 4)
    assert "the clamps would reach only 29 % of line 3" in plank.why
    said = " ".join(made.notes)
    assert "Bench is glued in 3 set-ups, where clock and number of clamps ask for 1" in said
    assert not made.set_ups_proven


def test_where_no_order_does_better_the_plan_says_so_with_what_would_help() -> None:
    """The line between feet and plank is pressed from the feet in every order."""
    said = [note for note in low_bench().notes if note.startswith("No order of Bench that was tried does better")]
    assert len(said) == 1 and "between layers 2 and 3" in said[0] and "use stronger clamps" in said[0]
    assert "fewer layers" not in said[0]


def test_one_set_up_stays_one_where_all_is_reached() -> None:
    made = glued(post())
    assert len(made.set_ups) == 1 and made.set_ups[0].why == "All lines at once: no limit asks for more."
    assert made.notes == ()


# --- waste tabs -----------------------------------------------------------------------------------------------------


def _stepped(radii: Sequence[float], tabs: tuple[TabSettings, ...] = (), kind: str = "epoxy") -> GlueUpPlan:
    """The glue-up of discs piled up, 30 mm each, with clamps enough and time enough."""
    profile = [(0.0, 0.0), *((r, z) for i, r in enumerate(radii) for z in (i * 30.0, (i + 1) * 30.0))]
    mesh = solids.revolved(np.array([*profile, (0.0, 30.0 * len(radii))]), 90)
    chosen = StackSettings(form="Foot", stock=(30.0,), tabs=tabs)
    settings = Settings(
        stacks=(chosen,), glue=GlueSettings(kind=kind, open_time=3600.0, assembly_time=7200.0),
        room=GluingRoom(caul_thickness=0.0), presses=(PressSettings("Bar", count=60, opening=900.0),),
    )  # fmt: skip
    stack = plan_stack(mesh, chosen, name="Foot")
    plan = assemble([stack], (Form("Foot", mesh),), (), settings, species_table())
    return plan_glue_up(plan, settings, species_table(), glue_table())


@pytest.mark.parametrize(("radii", "kind"), [((60.0, 60.0, 14.0), "yellow glue"), ((14.0, 14.0), "epoxy")])
def test_the_tabs_that_are_proposed_give_the_pads_their_seats(radii: tuple[float, ...], kind: str) -> None:
    # Posts too thin for a pad.
    before = _stepped(radii, kind=kind)
    lacking = [s for s in before.set_ups if s.limits]
    assert lacking and all(b.name == "reach" for s in lacking for b in s.limits)
    # What the sentence prints is copied into the settings file as it stands.
    (says,) = {h for s in lacking for h in s.helps if "tabs = [" in h}
    (stack,) = read_settings(f"[[stack]]\n{says[says.index('tabs = [') :]}").stacks
    assert stack.tabs
    after = _stepped(radii, stack.tabs, kind)
    assert not [b.says for s in after.set_ups for b in s.limits]
    assert all(s.places for s in after.set_ups)


def test_a_tab_that_helps_in_part_is_used_with_all_the_clamps() -> None:
    """A post of radius 50 on two of 90 reaches too little of the line below with a limit broken whatever is done; of
    two ways that break as many limits the one is kept that reaches more, as pads on the tabs do."""
    radii = (90.0, 90.0, 50.0)
    profile = [(0.0, 0.0), *((r, z) for i, r in enumerate(radii) for z in (i * 30.0, (i + 1) * 30.0)), (0.0, 90.0)]
    mesh = solids.revolved(np.array(profile), 90)

    def tried(count: int, tabs: tuple[TabSettings, ...] = ()) -> Attempt:
        stack = plan_stack(mesh, StackSettings(stock=(30.0,), tabs=tabs), name="Foot")
        clamps = (PressSettings("Bar", count=count, opening=900.0),)
        room = GluingRoom(caul_thickness=0.0)
        return try_run(wood_of(stack), 1, 3, (1, 2), clamps, room, dict.fromkeys((1, 2), (0.01, 0.2)))

    (says,) = [h for h in told_of(tried(60)).helps if "tabs = [" in h]
    (stack,) = read_settings(f"[[stack]]\n{says[says.index('tabs = [') :]}").stacks
    few, every = tried(2, stack.tabs), tried(60, stack.tabs)
    assert [b.name for b in few.limits] == [b.name for b in every.limits] == ["reach"]
    share = [min(p.reached for p in one.pressures) for one in (few, every)]
    # What the sentence promises of all seats, within what whole clamps leave of it.
    promised = int(says[says.index("for a pad each: ") :].split()[4]) / 100
    assert share[0] < 0.6 and share[1] == pytest.approx(promised, abs=0.1)
    assert _presses_better(every, few) and not _presses_better(few, every) and not _presses_better(every, every)


def test_why_and_what_comes_before_are_said_whole_in_any_language() -> None:
    """Of a stack that a short shop glues in several set-ups, and of one over a joint; what the pads say is asked in
    pressing/."""
    few = replace(SHOP, presses=(PressSettings("Pipe", count=3, opening=140.0, throat=60.0),), glue=GlueSettings())

    def told() -> list[str]:
        made = [glued(post(layers=7), settings=few), glued(post(), post("Leg", 3), joint=True)]
        sets = [s for plan in made for s in plan.set_ups]
        said = [text for s in sets for text in (s.why, *s.before)]
        return [*said, *(c.says for plan in made for c in plan.conditions), *(n for plan in made for n in plan.notes)]

    english = told()
    with speaking("en", Pseudo()):
        marked = told()
    assert list(map(plain, marked)) == english and len(english) > 15
    assert not [text for text in marked if unsaid(text)]
