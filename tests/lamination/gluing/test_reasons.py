# SPDX-License-Identifier: LGPL-2.1-or-later

"""Why a set-up is one of its own, and why two sub-stacks are joined: each reason where it alone is so."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from gluepiles import PEDESTAL, YELLOW, clamps, pile_with

from freecad_stacklam.lamination.gluing.limits import Shop, terms_of
from freecad_stacklam.lamination.gluing.pile import MORTISE, Channel, Pile
from freecad_stacklam.lamination.gluing.programme import Run
from freecad_stacklam.lamination.gluing.reasons import why_of
from freecad_stacklam.lamination.gluing.rounds import scheduled
from freecad_stacklam.lamination.gluing.stages import stages_of
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.settings.glue import Glue
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.presses import PressSettings

BARE = GluingRoom(caul_thickness=0.0)


def whys(pile: Pile, presses: Sequence[PressSettings], glue: Glue = YELLOW, room: GluingRoom = BARE) -> list[str]:
    planned = stages_of(pile, glue, room, presses, ((1.2, 2.0),) * len(pile.lines))
    return [told(stage.why) for stage in planned.stages]


def test_one_set_up_needs_no_reason() -> None:
    assert whys(pile_with(PEDESTAL), [clamps(24)]) == ["All lines at once: no limit asks for more."]
    assert whys(pile_with(PEDESTAL), [clamps(12)]) == [
        "All lines at once: in more set-ups the clamps would be no more; what they reach is not weighed here."
    ]


def test_the_clock() -> None:
    first, last = whys(pile_with(PEDESTAL), [clamps(24)], replace(YELLOW, assembly_time=600.0))
    assert first == "Apart from the set-up of layers 1 to 10: together they would take 14 min 45 s of 10 min."
    assert last == "The last: it holds the whole stack."


def test_crushing() -> None:
    first, _ = whys(pile_with(PEDESTAL, crush=4.8), [clamps(24)])
    assert first == "Apart from the set-up of layers 1 to 10: together the smallest line would be crushed."


def test_the_presses_of_a_high_join() -> None:
    pile = pile_with(PEDESTAL, channels=(Channel(MORTISE, "bore", 1, 10, True, True),))
    first, _ = whys(pile, [clamps(24, opening=300.0), clamps(1, 20_000.0, 600.0, "rod")])
    assert (
        first == "Apart from the set-up of layers 1 to 10: together they would want 4 clamps, and 1 open wide enough."
    )


def joined_by(presses: Sequence[PressSettings], room: GluingRoom = BARE, **made: object) -> str:
    """Why layers 1 and 2, and 3 and 4 are each glued and then joined, by a clock of one line (53 + 120 s)."""
    pile = pile_with([20_000.0] * 3, **made)  # type: ignore[arg-type]
    shop = Shop(replace(YELLOW, assembly_time=180.0), room, tuple(presses), ((1.2, 2.0),) * 3)
    terms = terms_of(pile, shop)
    runs = (Run(0, 1, (0,)), Run(2, 3, (2,)), Run(0, 3, (1,)))
    rounds = scheduled(terms, shop, runs)
    sets = [terms.sets[terms.ways[int(terms.usable[:, r.a, r.b].argmax())].of] for r in runs]
    return told(why_of(pile, shop, terms, runs, rounds, sets, 2)).removeprefix("The last: it holds the whole stack. ")


def test_why_two_sub_stacks_are_joined() -> None:
    # 24 kN want 6 clamps: twelve serve two runs at once, eleven do not.
    assert joined_by([clamps(12)]) == (
        "Its sub-stacks are made apart and then joined because the clamps serve them side by side, in one wait."
    )
    assert "the fewest layers again" in joined_by([clamps(11)])
    tall = joined_by([clamps(6, opening=100.0), clamps(6, opening=200.0), clamps(1, opening=50.0)])
    assert "other presses hold the join, which stands 180 mm high" in tall
    # The pile of three layers weighs 6 kg, of two 4 kg; no more than 5 kg can be turned on the planer.
    faced = joined_by([clamps(11)], replace(BARE, lift=5.0, reface=300.0), masses=[2.0] * 4)
    assert "each can still be re-faced and turned, and a growing pile could not" in faced
