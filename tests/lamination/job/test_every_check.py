# SPDX-License-Identifier: LGPL-2.1-or-later

"""Each check of the finished piece, with a small form or a setting built to fail it, and what it then says: what is
wrong, the figure, and what to change.

What is to be said is common practice, no source; figures that are reckoned here say how. To read all sentences aloud:
`python tests/lamination/job/test_every_check.py` with tests/ on the path.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import cache, partial

import numpy as np
import pytest
from blocks import block
from furniture import four_legs, standing
from pseudo import plain, same_but_marked
from seasons import post_and_top, seasons
from solids import ball, box, cylinder, moved
from weakforms import arch, armchair, bowl, boxes, mushroom, own, planned, tenoned

from freecad_stacklam.data import climate_table, species_table
from freecad_stacklam.lamination.carving.budget import budget_of
from freecad_stacklam.lamination.climate.year import plan_year
from freecad_stacklam.lamination.findings.deep import DeepFindings, WeakSpot
from freecad_stacklam.lamination.findings.seasons import SeasonFindings
from freecad_stacklam.lamination.findings.whole import PieceFindings
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.job.piece import DEEP
from freecad_stacklam.lamination.job.piececheck import piece_checks
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.standing.weight import weigh
from freecad_stacklam.lamination.strength.whole import plan_strength
from freecad_stacklam.lamination.stress.deep import check_deep
from freecad_stacklam.lamination.usage.budget import BudgetSettings
from freecad_stacklam.lamination.usage.climate import CLIMATE, ClimateSettings, climate_of
from freecad_stacklam.lamination.usage.use import LoadSettings, UseSettings
from freecad_stacklam.lamination.wood.species import Species

STOOL = UseSettings("stool", short_foot=0.0)
TABLE = species_table()
LESS: Mapping[str, Species] = {n: replace(s, shrink_radial=None) for n, s in TABLE.items() if n != "plum"}
SPOT = WeakSpot((30.0, 0.0, 200.0), "Post", 5, "across the grain", 0.3, 1.65, 5.5, False, "sitting down hard",
                (100.0, 0.0, 450.0), (0.0, 0.0, -1300.0), "R up")  # fmt: skip


def stands(meshes: Mapping[str, Mesh], use: UseSettings = STOOL, **more: object) -> PieceFindings:
    return PieceFindings(standing=standing(meshes, use, **more))  # type: ignore[arg-type]


def holds(form: Mesh, use: UseSettings, **how: object) -> PieceFindings:
    plan, meshes = planned({"Piece": form}, **how)  # type: ignore[arg-type]
    return PieceFindings(strength=plan_strength(plan, meshes, use, TABLE))


def joined(use: UseSettings, size: float = 36.2) -> PieceFindings:
    """Ø60 post of two stacks with a round tenon 120 mm into each, and 300 N at its top."""
    plan, meshes = tenoned()
    if size != 36.2:
        joint = JointSettings("J", through=(0.0, 0.0, 270.0), section="round", size=(size,),
                              embed=(("Low", 120.0), ("High", 120.0)))  # fmt: skip
        plan, meshes = planned(meshes, joints=[joint])
    return PieceFindings(strength=plan_strength(plan, meshes, use, TABLE))


def year(found: SeasonFindings) -> PieceFindings:
    return PieceFindings(seasons=found)


def joints(**changed: object) -> PieceFindings:
    found = seasons()
    return year(replace(found, joints=tuple(replace(j, **changed) for j in found.joints)))  # type: ignore[arg-type]


def far_layer() -> PieceFindings:
    found = seasons()
    first = found.layers[0]
    wetter = replace(first, moisture=replace(first.moisture, mean=tuple(m + 3 for m in first.moisture.mean)))
    return year(replace(found, layers=(wetter, *found.layers[1:])))


def full_pins() -> PieceFindings:
    found = seasons()
    return year(replace(found, pins=tuple(replace(p, room=0.0) for p in found.pins)))


def unmoved(table: Mapping[str, Species]) -> PieceFindings:
    plan, meshes = post_and_top()
    climate = climate_of(ClimateSettings(fineness="coarse", months=((20.0, 45.0),) * 12), climate_table())
    return year(plan_year(plan, meshes, climate, table, lambda *_: True))


def tall() -> PieceFindings:
    """Movement of a column of 2 m: as of the post's own layers, 7.4 times as high."""
    found = seasons()
    stack = found.stacks[0]
    assert stack.change is not None
    change = replace(stack.change, flat=tuple(7.4 * v for v in stack.change.flat),
                     quarter=tuple(7.4 * v for v in stack.change.quarter))  # fmt: skip
    return year(replace(found, stacks=(replace(stack, height=300.0, change=change),)))


def deep(**changed: object) -> PieceFindings:
    return PieceFindings(deep=DeepFindings(spots=(replace(SPOT, **changed),)))  # type: ignore[arg-type]


def deep_of(species: str) -> PieceFindings:
    plan, meshes = planned({"Piece": cylinder(30.0, 90.0, 24)}, species=species)
    return PieceFindings(deep=check_deep(plan, meshes, own(down=300.0), TABLE, lambda *_: True))


def weightless() -> PieceFindings:
    plan, meshes = planned({"Piece": cylinder(30.0, 90.0, 24)}, species="plum")
    return PieceFindings(weight=weigh(plan, meshes, TABLE))


def eaten() -> PieceFindings:
    made = block("Piece", 300.0, 300.0, (45.0,), 0.0)
    made = replace(made, containment=replace(made.containment, least_cover=1.0))
    return PieceFindings(budgets=(budget_of(made, BudgetSettings()),))


def leaning() -> dict[str, Mesh]:
    return {"Post": moved(box(60, 60, 500), np.array([[1, 0, 0.4], [0, 1, 0], [0, 0, 1.0]]))}


BESIDE = UseSettings(own_loads=True, loads=(LoadSettings("a lamp", down=50.0, at=(900.0, 0.0, 400.0)),))

#: What fails, what is found then, the check's name, and what its sentence holds, in this order (regular expressions).
CASES: dict[str, tuple[Callable[[], PieceFindings], str, Sequence[str]]] = {
    # 344 N 310 mm above the worst cut of a Ø60 neck: 106 600 N·mm over π 60³ / 32 is 5.03 MPa of 5.5, 92 %; for a
    # quarter it wants 60 · (0.92 / 0.25)^(1/3) = 92.6, and a little more for the shear.
    "a neck of Ø60 at 92 %": (
        partial(holds, mushroom(30.0), own(push=344.0)), "Piece: strength of its neck",
        ["^Do not let anyone sit", "layer 2 of Piece", "9[1-4] % of its mean strength", "54 %",
         "Make the neck Ø 9[345]", "tenon through it", "another wood alone does not mend it"],
    ),
    "a neck that breaks": (
        partial(holds, mushroom(28.0), UseSettings("stool")), "Piece: strength of its neck",
        ["breaks by this reckoning", "MPa", "do not let anyone sit", "make the neck Ø 9\\d"],
    ),
    "a weak neck": (
        partial(holds, mushroom(30.0), own(push=110.0)), "Piece: strength of its neck",
        ["is weak", "29 % of its mean strength where a quarter is usual", "Make the neck Ø", "holds 6\\.4\\d MPa"],
    ),
    "a thin arm": (
        partial(holds, armchair(), own(down=300.0)), "Piece: strength of its overhang",
        ["overhang in layer", "MPa", "ake it [\\d.]+ mm thick there, or bring a support nearer"],
    ),
    "slim legs": (
        partial(holds, arch(width=30.0), UseSettings("stool")), "Piece: strength of its neck",
        ["do not let anyone sit", "make the neck Ø"],
    ),
    "a thin beam between two legs": (
        partial(holds, arch(crown=20.0), UseSettings("stool")), "Piece: strength of its span",
        ["span between two supports", "thick there"],
    ),
    "a thin bowl": (
        partial(holds, bowl(wall=5.0), UseSettings("stool")), "Piece: strength of its",
        ["of Piece", "MPa", "ake "],
    ),
    "layers that hardly meet": (
        lambda: holds(boxes([(0, 0, 100, 100, 0, 45), (90, 0, 100, 100, 45, 90)]), own(down=10.0)),
        "Piece: glue line left", ["Layers 1 and 2 of Piece meet on only 10 %", "half is usual", "let the form overlap"],
    ),
    # Ø45 in Ø60: 1 − 45² / 60² is 44 %.
    "a mortise that eats the glue line": (
        partial(joined, own(push=10.0), 45.0), "glue line left",
        ["only 4[34] % of the glue line is left", "make those smaller"],
    ),
    "a dry tenon": (
        partial(joined, replace(own(push=300.0), tenon="dry")), "J: strength of the joint",
        ["oint “J”", "\\d", "lue the tenon all round"],
    ),
    "a tenon too slight": (
        partial(joined, own(push=900.0)), "J: strength of the joint", ["oint “J”", "times as (deep|thick)"],
    ),
    "a wood of no known strength across": (
        partial(holds, mushroom(30.0), UseSettings(), species="sugar maple"), "Piece: strength",
        ["is not judged: sugar maple has no strength across the grain in tension in the table", "choose one"],
    ),
    "an unknown wood, sections": (
        partial(holds, mushroom(30.0), UseSettings(), species="plum"), "Piece: strength",
        ["The strength of Piece is not judged: plum is not in the table of woods; give the wood its own figures"],
    ),
    "an unknown wood, deep": (
        partial(deep_of, "plum"), "strength, whole piece",
        ["The strength of the whole piece is not judged: plum is not in the table of woods; give the wood"],
    ),
    "an unknown wood, weight": (
        weightless, "weight", ["The weight of the piece is not judged: plum has no specific gravity", "give the wood"],
    ),
    "an unknown wood, year": (
        partial(unmoved, {}), "movement",
        ["How the piece moves over the year is not judged: white oak is not in the table of woods; give the wood"],
    ),
    "a wood of no known shrinkage": (
        partial(unmoved, LESS), "movement", ["white oak has no shrinkage in the table", "give the wood"],
    ),
    "a load beside the piece": (
        partial(holds, mushroom(30.0), BESIDE), "a lamp: strength", ["750 mm from the surface", "Give it a point on"],
    ),
    "the deep check breaks it": (
        partial(deep, index=1.2), "strength, whole piece, across the grain",
        ["It breaks in layer 5 of Post", "120 % of the mean", "do not let anyone sit", "1\\.7 times as thick"],
    ),
    "the deep check at 92 %": (
        partial(deep, index=0.92), "strength, whole piece, across the grain",
        ["^Do not let anyone sit", "92 % of the mean", "54 %", "Make it 1\\.6 times as thick"],
    ),
    "the deep check, weak": (
        partial(deep, index=0.4), "strength, whole piece, across the grain",
        ["^Weak in layer 5", "40 %", "a quarter is usual", "1\\.2 times as thick", "carry less"],
    ),
    "the deep check, along the grain": (
        partial(deep, index=0.6, scatter_known=True, kind="along the grain"), "strength, whole piece",
        ["^Little to spare", "60 %", "half is usual", "1\\.1 times as thick"],
    ),
    "the deep check on a tenon": (
        partial(deep, index=0.8, scatter_known=True, kind="along the grain", tenon="J"), "strength, whole piece",
        ["^Do not let anyone sit", "on the tenon of “J”", "74 %", "Make the tenon 1\\.2 times as thick"],
    ),
    "the deep check not made": (
        lambda: PieceFindings(pending=(DEEP,)), DEEP, ["has not been made", "press “Look deeper”"],
    ),
    "a stool that tips at once": (
        lambda: stands(four_legs(60.0)), "tipping, sitting on the edge",
        ["tips Stool over at once", "held 0\\.\\d\\d times", "1\\.3 times is wanted", "stand out [\\d.]+ mm further"],
    ),
    "a stool that only just stands": (
        lambda: stands(four_legs(120.0)), "tipping, sitting on the edge",
        ["Stool only just stands up to sitting on the edge", "held 1\\.\\d\\d times", "stand out [\\d.]+ mm further",
         "draw the edge"],
    ),
    "a post that a knock tips": (
        lambda: stands({"Post": box(50, 50, 300)}, UseSettings("stand")), "tipping, a knock at the top",
        ["tips Post over at once", "no foot mends that", "stand out further than the piece is high",
         "fix it to wall or floor"],
    ),
    "a slim post tilted": (
        lambda: stands({"Post": box(50, 50, 300)}), "tips when empty",
        ["tilted by 9\\.5°", "stand out [\\d.]+ mm further", "bring its weight lower"],
    ),
    "a ball": (
        lambda: stands({"Ball": ball(150.0, 4)}), "what it stands on",
        ["only in a point", "rolls or falls", "flatten its underside", "52\\.\\d mm across"],
    ),
    "a leaning post": (
        lambda: stands(leaning()), "what it stands on",
        ["falls over by itself towards RIGHT", "70 mm outside", "stand out [\\d.]+ mm further"],
    ),
    "one short foot": (
        lambda: stands(four_legs(130.0, short=2.0)), "level",
        ["foot 1 by 2 mm off the floor", "scribe all feet at 2 mm"],
    ),
    "an unknown wood, tipping": (
        lambda: stands(four_legs(60.0), density=None), "tipping, sitting on the edge", ["weight is not known"],
    ),
    "a damp room": (
        lambda: year(seasons(months=((20.0, 75.0),) * 12)), "The room's air",
        ["asks for 1\\d\\.\\d %", "6 to 10 %", "dry the air"],
    ),
    "glued too wet": (
        lambda: year(seasons(moisture=14.0)), "Moisture when glued",
        ["Glued at 14\\.0 %", "points off", "until a meter shows \\d %"],
    ),
    "a wide tight joint over a dry winter": (
        partial(joints, relief=0.0, clearance=0.0), "Post to top: squeeze in Post",
        ["swells by up to [\\d.]+ mm", "no room", "more relief"],
    ),
    "a joint that moves across": (
        lambda: joints(across=(0.9,) * 12), "Post to top: across in Post", ["up to 0\\.9", "narrower"],
    ),
    "wedges that come loose": (
        partial(joints, spread=0.1), "Post to top: wedge in Top", ["shrinks by up to [\\d.]+ mm", "drier wood"],
    ),
    "dowels that fill their holes": (full_pins, "Post: dowels over the year", ["have nothing to spare", "shorter"]),
    "layers that dry unlike": (
        far_layer, "Post: neighbouring layers", ["differ by up to 3\\.\\d points", "even finish"],
    ),
    "a tall stack": (tall, "Post: height over the year", ["[\\d.]+ mm lower", "let nothing rigid bridge"]),
    "glued in a bad month": (lambda: year(seasons(glue_in="September")), "Month to glue", ["September", "\\d"]),
    "an allowance that is eaten": (
        eaten, "Piece: budget of the allowance",
        ["has 1 mm of wood", "likely take 1\\.\\d", "more allowance", "carving"],
    ),
    "a part left out": (
        lambda: PieceFindings(left_out=(("standing", "There is no form to stand: slice one first."),)),
        "standing left out", ["slice one first"],
    ),
}  # fmt: skip


@cache
def found_in(case: str) -> PieceFindings:
    return CASES[case][0]()


def failing(case: str, units: str = "mm") -> list[Check]:
    """The verdicts that are not ok."""
    return [c for c in piece_checks(found_in(case), units) if c.verdict != "ok"]


@pytest.mark.parametrize("case", CASES)
def test_it_says_what_is_wrong_the_figure_and_what_to_change(case: str) -> None:
    _, name, wanted = CASES[case]
    (check,) = [c for c in failing(case) if name in c.name][:1]
    at = 0
    for words in wanted:
        found = re.compile(words).search(check.says, at)
        assert found is not None, f"{words!r} is not in, or not after its place in: {check.says}"
        at = found.start()


#: Cases whose verdicts are those of the year, of the allowance, or of what was left out or not made.
_SAID = (
    "a damp room", "glued too wet", "a wide tight joint over a dry winter", "a joint that moves across",
    "wedges that come loose", "dowels that fill their holes", "layers that dry unlike", "a tall stack",
    "an allowance that is eaten", "the deep check not made",
)  # fmt: skip


@pytest.mark.parametrize("case", _SAID)
def test_it_is_said_whole_in_any_language(case: str) -> None:
    found = CASES[case][0]

    def checks() -> list[Check]:
        # The words on the months stand in the findings, which are made once: see climate/test_months.py.
        return [c for c in piece_checks(found()) if not plain(c.name).startswith("Month to")]

    assert same_but_marked(checks)


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("case", CASES)
def test_every_sentence_can_be_read(case: str, units: str) -> None:
    for check in failing(case, units):
        told = f"{check.says} {check.source}"
        assert not re.search(r"\bnan\b|\binf\b|Traceback|None|e\+\d|\d{6}", told), told
        assert (
            check.says.endswith(".") and check.says[0].isupper() and "  " not in check.says and ".." not in check.says
        )
        assert check.source and np.isfinite((check.figure, check.limit)).all()
        if units == "in":
            assert not re.search(r"\d mm\b|MPa|\d k?N\b|\d kg\b", check.says), check.says


def test_what_cannot_be_is_refused_with_a_sentence() -> None:
    plan, meshes = planned({"Piece": cylinder(30.0, 90.0, 24)})
    with pytest.raises(Refusal, match="31 % is outside 0 to 30 %"):
        weigh(plan, meshes, TABLE, 31.0)
    with pytest.raises(Refusal, match="such a climate cannot be: July has a humidity of 140 %: give 0 to 100 %"):
        CLIMATE.read([["20 °C", "140 %" if month == 6 else "45 %"] for month in range(12)], "mm")
    with pytest.raises(Refusal, match="it has 3 months: give twelve pairs"):
        CLIMATE.read([["20 °C", "45 %"]] * 3, "mm")


def test_a_form_in_pieces_is_told_piece_by_piece_and_layers_that_do_not_meet() -> None:
    """Two posts side by side stand each for itself; of one form whose layers lie apart it is told."""
    apart = stands({"Left": box(50, 50, 300), "Right": box(50, 50, 300, (400, 0, 0))})
    names = {c.name.split(":")[0] for c in piece_checks(apart)}
    assert len(names) == 2
    torn = holds(boxes([(0, 0, 100, 100, 0, 45), (300, 0, 100, 100, 45, 90)]), own(down=10.0))
    assert any("Layers 1 and 2 of Piece do not meet" in c.says for c in piece_checks(torn))


if __name__ == "__main__":
    for each in CASES:
        print(f"\n## {each}")
        for one in failing(each):
            print(f"- [{one.name}] {one.figure:.3g} / {one.limit:.3g} {one.unit}: {one.says}")
