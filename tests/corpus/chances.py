# SPDX-License-Identifier: LGPL-2.1-or-later

"""Settings by seed that suit a form of a given size: most of what a maker can set, each now and then."""

from __future__ import annotations

import numpy as np

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.settings.board import Board
from freecad_stacklam.lamination.settings.carving import CarvingSettings
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.stack import StackSettings


def settings_for(seed: int, extents: tuple[float, float, float], step: float = 0.0, plain: bool = False) -> Settings:
    """Settings for a form whose box is so large, mm.

    step: a thickness that puts its flat faces on glue lines, 0 for none. plain: no pins, voids, boards and carving.
    """
    chance = np.random.default_rng([seed, 77])
    size = max(extents)
    axis = (0.0, 0.0, 1.0)
    if not step:
        at = chance.random()
        axis = axis if at < 0.6 else (1.0, 0.0, 0.0) if at < 0.75 else tuple(map(float, chance.normal(size=3)))
    high = extents[2] if axis[2] == 1.0 else extents[0] if axis[0] == 1.0 else size
    stock = (step,) if step else (_thickness(chance, high),)
    more = {}
    if chance.random() < 0.12:
        stock = tuple(sorted({round(stock[0] * f, 3) for f in (0.6, 1.0, 1.5)}))
        more = {"pick": str(chance.choice(["least wood", "fewest layers"]))}
    species = str(chance.choice(list(species_table())))
    stack = StackSettings(
        stock=stock,
        axis=axis,
        allowance=float(chance.choice([0.0, 3.0, chance.uniform(0, 0.02 * size)])) if size > 200 else float(
            chance.choice([0.0, 0.03 * min(extents)])),
        square=bool(chance.random() < 0.15),
        fill_holes=bool(chance.random() < 0.15),
        species=species,
        grain=float(chance.choice([0.0, 90.0, chance.uniform(0, 180)])),
        copies=int(chance.integers(1, 4)),
        pins=None if plain or chance.random() < 0.7 else PinSettings(
            diameter=float(chance.choice([4.0, 6.0, 10.0])), depth=float(min(12.0, max(4.0, 0.6 * stock[0]))),
            count=int(chance.integers(2, 5)), waste=bool(chance.random() < 0.2)),
        hollow=None if plain or chance.random() < 0.75 else HollowSettings(
            wall=float(np.clip(0.06 * size, 5, 50)), caps=int(chance.integers(0, 3)),
            way_in=str(chance.choice(["kerf", "bored hole"]))),
        **more,
    )  # fmt: skip
    boards: tuple[Board, ...] = ()
    if not plain and chance.random() < 0.2:
        boards = (
            Board(name="to buy", species=species, thickness=stock[0], width=float(chance.uniform(80, 300)),
                  length=2400.0, cost=float(chance.uniform(10, 90)), count=0, for_sale=True),
        )  # fmt: skip
    carving = CarvingSettings() if not plain and chance.random() < 0.15 else None
    return Settings(
        title=f"form {seed}", units=str(chance.choice(["mm", "in"])), stacks=(stack,), boards=boards, carving=carving
    )


def _thickness(chance: np.random.Generator, high: float) -> float:
    """A stock thickness: one that boards have where the form is of that size, else 1 to 25 layers."""
    usual = float(chance.choice([19.0, 25.4, 27.0, 45.0]))
    if 1.2 < high / usual < 40 and chance.random() < 0.5:
        return usual
    return float(np.clip(high / chance.uniform(1.1, 25), 0.2, 150))
