# SPDX-License-Identifier: LGPL-2.1-or-later

"""Shadows, timed beside manifold3d in the same run. Run by hand:

    .venv/bin/python tests/benchmarks/bench_shadows.py

Ours: all shadows of a cached mesh in one pass. The judge's: split the solid at every glue line and project each piece.
"""

from __future__ import annotations

import sys
from pathlib import Path
from time import perf_counter

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
sys.path.insert(0, str(Path(__file__).resolve().parents[1]))
sys.path.insert(0, str(Path(__file__).resolve().parent))

import judges
from forms import lobed

from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.layers.shadow import slice_surface
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.settings.stack import StackSettings


def best(work, runs: int) -> float:
    times = []
    for _ in range(runs):
        start = perf_counter()
        work()
        times.append(perf_counter() - start)
    return float(np.median(times))


def judged(mesh: Mesh, planes: np.ndarray) -> list[float]:
    """Two half-space cuts and a projection for every slab, as one would ask for a slab."""
    whole = judges.solid(mesh)
    areas = []
    for low, high in zip(planes[:-1], planes[1:]):
        slab = whole.trim_by_plane((0, 0, 1), low).trim_by_plane((0, 0, -1), -high)
        areas.append(slab.project().area())
    return areas


def judged_in_passing(mesh: Mesh, planes: np.ndarray) -> list[float]:
    """The judge's cheaper way: cut one slab off after the other, so that every cut meets a smaller rest."""
    rest, areas = judges.solid(mesh), []
    for high in planes[1:]:
        above, below = rest.split_by_plane((0, 0, 1), float(high))
        areas.append(below.project().area())
        rest = above
    return areas


def main() -> None:
    mesh = lobed(240, 49)
    planes = np.linspace(0, 450, 25)
    ours = best(lambda: slice_surface(mesh.vertices, mesh.triangles, mesh.twins, planes, sections=False), 9)
    both = best(lambda: slice_surface(mesh.vertices, mesh.triangles, mesh.twins, planes), 9)
    theirs = best(lambda: judged(mesh, planes), 3)
    passing = best(lambda: judged_in_passing(mesh, planes), 3)
    shadows = slice_surface(mesh.vertices, mesh.triangles, mesh.twins, planes, sections=False).shadows
    apart = max(abs(s.area - a) for s, a in zip(shadows, judged(mesh, planes)))
    print(f"{len(mesh.triangles)} triangles, 24 layers, mesh cached (median seconds)")
    print(f"  our shadows                             {ours:9.4f}   (asked: 0.05)")
    print(f"  our shadows and 50 sections             {both:9.4f}")
    print(f"  manifold3d, trim and project every slab {theirs:9.4f}   ({theirs / ours:.0f} times ours; asked: 30)")
    print(f"  manifold3d, split in passing, project   {passing:9.4f}   ({passing / ours:.0f} times ours)")
    print(f"  largest difference of a shadow's area   {apart:9.5f} mm²")

    start = perf_counter()
    large = lobed(2000, 499)
    gated = perf_counter() - start
    planes = np.linspace(0, 450, 21)
    ours = best(lambda: slice_surface(large.vertices, large.triangles, large.twins, planes, sections=False), 3)
    both = best(lambda: slice_surface(large.vertices, large.triangles, large.twins, planes), 3)
    print(f"{len(large.triangles)} triangles, 20 layers, mesh cached (making and gating it took {gated:.2f} s)")
    print(f"  our shadows                             {ours:9.3f}   (asked: 2)")
    print(f"  our shadows and 42 sections             {both:9.3f}")

    start = perf_counter()
    plan = plan_stack(mesh, StackSettings(stock=(18.75,)), name="pedestal")
    took = perf_counter() - start
    print(f"whole plan of the first form, with outlines and proof: {took:.2f} s, {plan.containment.samples} samples")


if __name__ == "__main__":
    main()
