# SPDX-License-Identifier: LGPL-2.1-or-later

"""The whole of a second opinion: what it says without programs, and, slow, with the real ones beside closed forms."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import ClassVar

import bricks
import numpy as np
import pytest
import solids
from tetrahedrons import boxes, mesher_text

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.elastic.multigrid import Stopped
from freecad_stacklam.lamination.findings.deep import DeepFindings, WeakSpot
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.opinion.deck import Deck, Laid, deck_of
from freecad_stacklam.lamination.opinion.fit import fitted
from freecad_stacklam.lamination.opinion.results import Results, balance_of, fault_of, read_results
from freecad_stacklam.lamination.opinion.script import Job, script_of, stl_of
from freecad_stacklam.lamination.opinion.second import second_opinion
from freecad_stacklam.lamination.opinion.tetrahedra import Tetrahedra, read_mesh, straightened
from freecad_stacklam.lamination.stress.deep import check_deep
from freecad_stacklam.lamination.stress.materials import FLAT_SAWN, elastic_for
from freecad_stacklam.lamination.usage.use import LoadSettings, UseSettings
from freecad_stacklam.outsideprograms import OutsidePrograms

POST = [[0, 0], [40, 0], [40, 180], [0, 180]]
SPOT = WeakSpot((40.0, 0.0, 100.0), "Piece", 3, "across the grain", 0.3, 1.65, 5.5, False, "a push", (0.0, 0.0, 180.0),
                (100.0, 0.0, 0.0), FLAT_SAWN)  # fmt: skip
Going = Callable[[], bool]


@dataclass
class Broken:
    """Programs that write what they are given."""

    meshed: str = ""
    printed: str = ""
    lacks: str = ""
    closed: int = 0
    decks: list[str] = field(default_factory=list)

    def lacking(self) -> str:
        return self.lacks

    def solid(self, stack: str) -> str | None:
        return None

    def mesh(self, script: str, files: Mapping[str, str], going: Going) -> str:
        return self.meshed

    def solve(self, deck: str, going: Going) -> str:
        self.decks.append(deck)
        return self.printed

    def keep(self) -> str:
        return "/a/folder"

    def close(self) -> None:
        self.closed += 1


def asked(programs: Broken, found: DeepFindings, tell: Callable[[float, str], bool] = lambda *_: True) -> str:
    plan, meshes = bricks.turned(POST)
    return second_opinion(plan, meshes, UseSettings(), species_table(), found, programs, tell).refused


def test_absent_programs_are_one_sentence() -> None:
    assert asked(Broken(lacks="Not here."), DeepFindings(spots=(SPOT,))) == "Not here."


def test_nothing_found_is_nothing_to_look_at() -> None:
    assert "set it to scan" in asked(Broken(), DeepFindings())


def test_no_mesh_is_said_and_files_are_thrown_away() -> None:
    programs = Broken()
    refused = asked(programs, DeepFindings(spots=(SPOT,)))
    assert "no tetrahedra" in refused and "/a/folder" in refused
    assert programs.closed == 1


def test_it_stops_when_told() -> None:
    with pytest.raises(Stopped):
        asked(Broken(), DeepFindings(spots=(SPOT,)), lambda *_: False)


def test_a_run_that_prints_nothing_is_tried_again_with_straight_edges_and_then_refused() -> None:
    programs = Broken(meshed=mesher_text(boxes(8, 180.0, 56.0)))
    refused = asked(programs, DeepFindings(spots=(SPOT,)))
    assert "came to nothing: it printed no stresses" in refused and "/a/folder" in refused
    assert len(programs.decks) == 2 and "*STEP" in programs.decks[0]


def test_where_cuts_cannot_be_meshed_it_is_meshed_whole() -> None:
    plan, meshes = bricks.turned(POST)
    (stack,) = plan.stacks
    turned = tuple(replace(layer, grain=90.0 * (n % 2)) for n, layer in enumerate(stack.layers))
    plan = replace(plan, stacks=(replace(stack, layers=turned),))

    class Choosy(Broken):
        scripts: ClassVar[list[str]] = []

        def solid(self, stack: str) -> str | None:
            return "solid"

        def mesh(self, script: str, files: Mapping[str, str], going: Going) -> str:
            self.scripts.append(script)
            return "" if "planes() +=" in script else mesher_text(boxes(8, 180.0, 56.0))

    programs = Choosy()
    told = second_opinion(plan, meshes, UseSettings(), species_table(), DeepFindings(spots=(SPOT,)), programs,
                          lambda *_: True)  # fmt: skip
    assert len(programs.scripts) == 2 and "planes() +=" not in programs.scripts[1]
    assert "printed no stresses" in told.refused  # so it came as far as the solver


# --- with the real programs ------------------------------------------------------------------------------------------

real = pytest.mark.skipif(OutsidePrograms(lambda name: None).lacking() != "", reason="no mesher, or no solver")


def meshed(surface: Mesh, size: float, spot: tuple[float, float, float]) -> Tetrahedra:
    programs = OutsidePrograms(lambda name: None)
    job = Job(size, spot, facets="form.stl")
    text = programs.mesh(script_of(job), {"form.stl": stl_of(surface.vertices, surface.triangles)}, lambda: True)
    programs.close()
    return straightened(read_mesh(text))


def solved(deck: Deck) -> Results:
    programs = OutsidePrograms(lambda name: None)
    results = read_results(programs.solve(deck_of(deck), lambda: True), deck)
    programs.close()
    assert fault_of(results, deck) == "" and balance_of(results, deck) < 1e-5
    return results


@real
@pytest.mark.slow
def test_a_cantilever_bends_as_its_closed_form_says() -> None:
    """P L³ / 3EI + 6 P L / 5 G A (Timoshenko's beam; shear coefficient 5/6 of a rectangle): 1000 N at the end of
    400 × 40 × 40 along the grain, moving square to it in R."""
    oak = elastic_for(species_table(), "white oak")
    mesh = meshed(solids.box(40, 40, 400), 14.0, (0.0, 0.0, 0.0))
    low = mesh.points[:, 2].min()
    floor = np.flatnonzero(mesh.points[:, 2] < low + 0.01)
    end = np.flatnonzero(mesh.points[:, 2] > low + 399.99)
    forces = np.tile([1000.0 / len(end), 0.0, 0.0], (len(end), 1))
    wood = Laid(oak, np.array([[0, 0, 1], [1, 0, 0], [0, 1, 0]], dtype=float))
    number = np.zeros(len(mesh.corners), dtype=int)
    results = solved(Deck(mesh, [wood], number, floor, end, forces, np.arange(20)))
    wanted = 1000 * 400**3 / (3 * oak.along * 40**4 / 12) + 6 * 1000 * 400 / (5 * oak.shear_lr * 1600)
    moved = float(results.moved[:, 0].mean())
    print(f"cantilever: {moved:.3f} mm, closed form {wanted:.3f} mm")
    assert moved == pytest.approx(wanted, rel=0.015)


@real
@pytest.mark.slow
def test_a_round_neck_is_stressed_as_statics_say() -> None:
    """M c / I of Ø60 under 135 N·m: 6.366 MPa, whatever the layers, whose grain lies this way and that in turn."""
    mesh = meshed(solids.cylinder(30, 360, 240), 10.0, (30.0, 0.0, 200.0))
    oak = elastic_for(species_table(), "white oak")
    x, y, z = np.eye(3)
    woods = [Laid(oak, np.array([x, z, -y])), Laid(oak, np.array([y, z, x]))]
    layer = np.clip(mesh.middles[:, 2] // 45, 0, 7).astype(int)
    floor = np.flatnonzero(mesh.points[:, 2] < 0.01)
    top = np.flatnonzero(mesh.points[:, 2] > 359.99)
    lever = mesh.points[top, 0] - mesh.points[top, 0].mean()
    forces = np.zeros((len(top), 3))
    forces[:, 2] = lever * 135_000 / (lever @ mesh.points[top, 0])
    read = np.flatnonzero(layer == 4)
    deck = Deck(mesh, woods, layer % 2, floor, top, forces, read)
    found = solved(deck).stress.reshape(-1, 6)
    at, volume = (v[read] for v in mesh.integrated())
    stress = fitted(at.reshape(-1, 3), found, volume.ravel(), np.array([30.0, 0, 202.5]), 10.0)
    print(f"neck: {stress[2]:.3f} MPa, closed form 6.366 MPa")
    assert stress[2] == pytest.approx(6.366, rel=0.02)


@real
@pytest.mark.slow
def test_both_ways_agree_on_a_turned_stool() -> None:
    plan, meshes = bricks.turned(bricks.MUSHROOM)
    push = LoadSettings(name="a push", down=1300.0, at=(110.0, 0.0, 450.0))
    use = UseSettings(own_loads=True, loads=(push,))
    found = check_deep(plan, meshes, use, species_table(), lambda *_: True)
    programs = OutsidePrograms(lambda name: None)
    told = second_opinion(plan, meshes, use, species_table(), found, programs, lambda *_: True)
    print(told)
    assert told.refused == "" and told.balance < 1e-5 and told.kind == told.our_kind
    assert abs(told.difference) < 0.15
    # The force stands 110 mm beside the neck's axis: M c / I − N / A of Ø60, by hand 6.743 − 0.460 = 6.283 MPa.
    assert told.stress == pytest.approx(6.283, rel=0.02)
