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

import judges

from freecad_stacklam.lamination.form.mesh import Mesh, gate
from freecad_stacklam.lamination.layers.shadow import slice_surface
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.settings.stack import StackSettings


def lobed(around: int, up: int) -> Mesh:
    """A closed three-lobed pedestal, 450 mm high, of 2·around·(up + 1) triangles: undercut at its neck, twisted."""
    t = np.linspace(0.0, 1.0, up + 1)
    a = 2 * np.pi * np.arange(around) / around
    radius = 60 + 90 * (2 * t - 1) ** 2 + 12 * np.sin(9 * t)
    grid = radius[:, None] * (1 + 0.18 * np.cos(3 * (a[None, :] + 0.7 * t[:, None])))
    ring = np.stack([grid * np.cos(a), grid * np.sin(a), np.broadcast_to(450 * t[:, None], grid.shape)], axis=-1)
    points = np.vstack([ring.reshape(-1, 3), [0, 0, 0], [0, 0, 450]])
    i, k = np.meshgrid(np.arange(around), np.arange(up), indexing="xy")
    j = (i + 1) % around
    p, q, r, s = k * around + i, k * around + j, (k + 1) * around + i, (k + 1) * around + j
    side = np.concatenate([np.stack([p, q, s], -1).reshape(-1, 3), np.stack([p, s, r], -1).reshape(-1, 3)])
    first = np.arange(around)
    after = (first + 1) % around
    bottom = np.stack([np.full(around, len(points) - 2), after, first], axis=1)
    top = np.stack([np.full(around, len(points) - 1), up * around + first, up * around + after], axis=1)
    return gate(points, np.vstack([side, bottom, top]))


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
