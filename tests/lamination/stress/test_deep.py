# SPDX-License-Identifier: LGPL-2.1-or-later

"""The whole check: what it finds, leaves out and says. Beside statics of a neck; small numbers of cells."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import bricks
import numpy as np
import pytest
import solids
from jobs import plan_job
from weakforms import armchair, planned

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.findings.deep import DeepFindings
from freecad_stacklam.lamination.form.mesh import Mesh, gate
from freecad_stacklam.lamination.job.assembly import Form
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.stress import deep
from freecad_stacklam.lamination.stress.checks import deep_checks
from freecad_stacklam.lamination.stress.deep import check_deep
from freecad_stacklam.lamination.usage.use import LoadSettings, UseSettings


def quietly(share: float, what: str) -> bool:
    return True


@pytest.fixture(autouse=True)
def few_cells(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(deep, "SCANNED", 3000)


@pytest.fixture
def held_feet(monkeypatch: pytest.MonkeyPatch) -> None:
    """Feet that stay on the floor: letting them lift is more than half the work of a check. The mushroom and the
    splayed legs below let them, and so does elastic/test_feet.py."""
    monkeypatch.setattr(deep, "_loose", lambda plan, model, loads, cases, found: found)


@cache
def stool() -> tuple[Plan, dict[str, Mesh]]:
    """The mushroom, planned once for all tests here."""
    return bricks.turned(bricks.MUSHROOM)


def test_a_mushroom_breaks_in_its_neck() -> None:
    plan, meshes = stool()
    told: list[float] = []
    found = check_deep(plan, meshes, UseSettings(kind="stool"), species_table(), lambda s, w: told.append(s) or True)
    assert found.worst is not None and found.refused == "" and not found.stopped
    assert found.worst.load == "all weight on the edge"
    # The force stands 60 mm inside the edge: M = 1300 · 110, less N / A; in three thousand cells a neck reads low.
    wanted = (1300 * 110 * 30 / (np.pi * 30**4 / 4) - 1300 / (np.pi * 30**2)) / 5.5
    assert found.worst.index == pytest.approx(wanted, rel=0.18)
    assert found.other_rings is not None and found.other_rings.rings == "T up"
    assert found.without_tenon is None and found.fine is None
    assert found.balance < 2e-3 and 2000 < found.cells < 5000 and found.seconds > 0
    assert told == sorted(told) and found.solved < found.tried
    assert found.surface is not None and max(found.surface.values) == pytest.approx(found.spots[0].index, rel=1e-3)
    assert any("mean" in note for note in found.notes)


@pytest.mark.usefixtures("held_feet")
@pytest.mark.parametrize("at", [(5000.0, 0.0, 400.0), (0.0, 0.0, -500.0)])
def test_what_stands_beside_the_piece_never_holds(at: tuple[float, float, float]) -> None:
    plan, meshes = stool()
    beside = LoadSettings(name="beside", down=500.0, at=at)
    found = check_deep(plan, meshes, UseSettings(own_loads=True, loads=(beside,)), species_table(), quietly)
    assert not found.spots and "from the surface of the piece" in found.refused
    both = check_deep(plan, meshes, UseSettings(own_loads=True, loads=(beside, LoadSettings(name="on", push=50.0))),
                      species_table(), quietly)  # fmt: skip
    assert {spot.load for spot in both.spots} == {"on"} and "“beside”" in both.notes[0]


@pytest.mark.parametrize("size", [12.0, 25.0])
def test_what_is_too_small_to_be_read_is_refused_with_a_sentence(size: float) -> None:
    """Of a cube of 25 mm no place is 45 mm from a load; one of 12 mm lies within 15 mm of its floor."""
    plan, meshes = planned({"A": solids.box(size, size, size)}, "6 mm")
    found = check_deep(plan, meshes, UseSettings(), species_table(), quietly)
    assert not found.spots and found.refused.endswith("set it to none and go by the sections.")


@cache
def post_and_top() -> tuple[object, dict[str, object]]:
    lift = np.eye(4)
    lift[2, 3] = 315.0
    meshes = {"Post": solids.cylinder(35, 315, 60), "Top": solids.moved(solids.cylinder(150, 54, 60), lift)}
    joint = JointSettings(name="j", through=(0.0, 0.0, 315.0), section="round", size=(36.0,),
                          embed=(("Post", 200.0), ("Top", None)))  # fmt: skip
    settings = Settings(stacks=(StackSettings(form="Post"), StackSettings(form="Top", stock=(27.0,))), joints=(joint,))
    return plan_job([Form(n, m) for n, m in meshes.items()], settings, species_table()), meshes


@pytest.mark.usefixtures("held_feet")
def test_a_tenon_takes_load_off_the_layers() -> None:
    plan, meshes = post_and_top()
    found = check_deep(plan, meshes, UseSettings(kind="stool"), species_table(), quietly)  # type: ignore[arg-type]
    assert found.without_tenon is not None and found.worst is not None
    assert found.without_tenon.index > found.spots[0].index
    dry = check_deep(plan, meshes, UseSettings(kind="stool", tenon="dry"), species_table(), quietly)  # type: ignore
    assert dry.without_tenon is None and dry.worst is not None
    assert dry.worst.index == pytest.approx(found.without_tenon.index, rel=0.25)


@pytest.mark.usefixtures("held_feet")
def test_finer_cells_find_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    plan, meshes = stool()
    found = check_deep(plan, meshes, UseSettings(deep="fine"), species_table(), quietly, 12_000)
    assert found.fine is not None and found.fine_cells > 2 * found.cells
    assert found.fine.index == pytest.approx(found.spots[0].index, rel=0.14)


@pytest.mark.usefixtures("held_feet")
def test_it_stops_when_told_and_keeps_what_it_has() -> None:
    plan, meshes = stool()
    at_once = check_deep(plan, meshes, UseSettings(), species_table(), lambda share, what: False)
    assert at_once.stopped and at_once.spots == ()
    late = check_deep(plan, meshes, UseSettings(), species_table(), lambda share, what: share < 0.7)
    assert late.stopped and late.spots


def test_when_its_time_is_over_it_says_what_it_left_untried(monkeypatch: pytest.MonkeyPatch) -> None:
    plan, meshes = stool()
    none = check_deep(plan, meshes, UseSettings(), species_table(), quietly, longest=0.0)
    assert not none.stopped and "go by the sections" in none.refused and none.spots == ()

    heard: list[str] = []

    def hear(share: float, what: str) -> bool:
        heard.append(what)
        return True

    late_at = 60
    monkeypatch.setattr(deep, "monotonic", lambda: 121.0 if len(heard) > late_at else 0.0)
    some = check_deep(plan, meshes, UseSettings(deep="fine"), species_table(), hear, longest=120.0)
    assert some.spots and not some.stopped and not some.refused and 0 < some.solved < 12
    assert some.untried == (
        "The deep check may take 120 s and they were over, so a worse place may be left; untried: some of the loads, "
        "the map of the worst place, the rings the other way, feet that may lift and slide and finer cells."
    )
    monkeypatch.setattr(deep, "monotonic", lambda: 121.0 if heard[-1:] == ["the rings the other way"] else 0.0)
    more = check_deep(plan, meshes, UseSettings(), species_table(), hear, longest=120.0)
    assert (
        more.untried.endswith("untried: the rings the other way and feet that may lift and slide.")
        and more.influence is not None
    )
    assert more.spots[0].index > 0.9 * some.spots[0].index
    assert deep_checks(some, "mm")[-1].says == some.untried


def test_what_cannot_be_checked_is_said() -> None:
    plan, meshes = stool()
    table = {name: replace(s, tension_across=None) for name, s in species_table().items()}
    assert "across the grain" in check_deep(plan, meshes, UseSettings(), table, quietly).refused
    assert "not asked for" in check_deep(plan, meshes, UseSettings(deep="none"), species_table(), quietly).refused
    assert DeepFindings().worst is None


@pytest.mark.usefixtures("held_feet")
def test_a_form_in_two_parts_is_told_and_what_hangs_free_carries_nothing() -> None:
    seat, lamp = stool()[1]["Piece"], solids.box(300, 300, 100, (600, 0, 400))
    count = len(seat.vertices)
    both = gate(np.vstack([seat.vertices, lamp.vertices]), np.vstack([seat.triangles, lamp.triangles + count]))
    plan, meshes = planned({"A": both})
    found = check_deep(plan, meshes, UseSettings(), species_table(), quietly)
    assert len(found.cautions) == 2 and found.cautions[0].startswith("A part of “A” hangs in the air")
    assert "were left out" in found.cautions[1]
    assert all(np.hypot(*spot.load_place[:2]) < 175 for spot in found.spots)
    says = deep_checks(found, "mm")[-2:]
    assert [c.says for c in says] == list(found.cautions) and {c.verdict for c in says} == {"caution"}


def splayed() -> tuple[object, dict[str, object]]:
    """A seat 400 mm square on two slabs that lean outward by 15°, one form: 330 mm high legs, 40 mm thick."""
    outline = [(0, 0), (41, 0), (129, 330), (441, 330), (529, 0), (570, 0), (480, 370), (90, 370)]
    points = np.array([(x, y, z) for y in (0.0, 400.0) for x, z in outline], dtype=float)
    flat = [(0, 1, 2), (0, 2, 7), (7, 2, 3), (7, 3, 6), (6, 3, 4), (6, 4, 5)]
    faces = [*flat, *[(c + 8, b + 8, a + 8) for a, b, c in flat]]
    for i in range(8):
        j = (i + 1) % 8
        faces += [(j, i, i + 8), (j, i + 8, j + 8)]
    return planned({"Stool": gate(points, np.array(faces))})


def test_legs_that_splay_are_worse_where_they_may_slide() -> None:
    """Held feet of a portal take half of its beam's moment or more by their thrust; feet that slide take none."""
    plan, meshes = splayed()
    found = check_deep(plan, meshes, UseSettings(), species_table(), quietly)  # type: ignore[arg-type]
    assert found.loose_feet is not None and found.balance < 1e-2
    note = next(n for n in found.notes if "let lift and slide" in n)
    before, after = float(note.split("not ")[1].split(" %")[0]), found.loose_feet.index * 100
    assert after > 1.2 * before
    assert found.worst is not None and found.worst.index >= found.loose_feet.index


@pytest.mark.usefixtures("held_feet")
def test_a_back_breaks_backward_above_the_seat() -> None:
    """As the sections say: 6 M / (b h²) = 1.10 MPa above the seat, of 5.5 MPa; more at one end, where one leans on
    the corner, and where the back meets the seat."""
    plan, meshes = planned({"Chair": armchair()})
    use = UseSettings(own_loads=True, loads=(LoadSettings(name="own", push=450.0, place="back"),))
    found = check_deep(plan, meshes, use, species_table(), quietly)
    assert found.worst is not None and found.tried == 3
    assert found.worst.force == pytest.approx((0.0, 450.0, 0.0), abs=20.0)
    assert 0.5 * 1.10 / 5.5 < found.worst.index < 4 * 1.10 / 5.5
    none = check_deep(*stool(), use, species_table(), quietly)
    assert "nothing rises above the seat" in none.refused
