# SPDX-License-Identifier: LGPL-2.1-or-later

"""Staves, boards and textbook cutting problems with known optima, for tests."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from freecad_stacklam.lamination.plan.boards import Stave
from freecad_stacklam.lamination.settings.board import Board, Rack
from freecad_stacklam.lamination.settings.shop import ShopSettings

BARE = ShopSettings(kerf=0.0, end_trim=0.0, jointing=0.0, shortest_to_machine=0.0)


#: V. Chvátal, Linear Programming (1983), chapter 13: rolls of 100 in, optimum 453, LP bound 452.25.
CHVATAL = (100.0, ((45.0, 97), (36.0, 610), (31.0, 395), (14.0, 211)), 453, 452.25)


#: The paper-mill example of the article "Cutting stock problem" of the English-language encyclopaedia: 73 rolls.
MILL = (
    5600.0,
    ((1380.0, 22), (1520.0, 25), (1560.0, 12), (1710.0, 14), (1820.0, 18), (1880.0, 18), (1930.0, 20), (2000.0, 10),
     (2050.0, 12), (2100.0, 14), (2140.0, 16), (2150.0, 18), (2200.0, 20)),
    73, 72.0 + 11 / 12,
)  # fmt: skip


def stave(name: str, length: float, width: float, **more: object) -> Stave:
    return replace(Stave(name, "Body", 1, (), width, length, 45.0, 0.0, "oak"), **more)  # type: ignore[arg-type]


def for_sale(width: float, length: float, cost: float | None = 1.0, name: str = "Yard") -> Board:
    return Board(name, width, length, 45.0, "oak", cost, count=0, for_sale=True)


def rolls(problem: tuple) -> tuple[list[Stave], Rack]:
    roll, kinds, _, _ = problem
    return [stave(f"r{w:g}", w, 50.0, copies=n) for w, n in kinds], Rack((for_sale(50.0, roll),))


def cut_apart(rng: np.random.Generator, boards: int, length: float, width: float, kerf: float) -> list[Stave]:
    """Whole boards crosscut and ripped at random, nothing wasted but the kerf."""
    staves = []
    for _ in range(boards):
        x = 0.0
        while x < length:
            step = min(length - x, float(rng.integers(250, 700)))
            if length - x - step - kerf < 250:
                step = length - x
            y = 0.0
            while y < width:
                strip = min(width - y, float(rng.integers(45, 110)))
                if width - y - strip - kerf < 45:
                    strip = width - y
                staves.append(stave(f"s{len(staves)}", step, strip))
                y += strip + kerf
            x += step + kerf
    return staves
