# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where to put a number of pads so that the place that is pressed least is pressed most.

The least pressure is flat at nothing until every place is reached, so a soft one is sought first: the sum of
(pressure over wanted)^−q, whose share of the worst places grows with q. Pads are added one by one, or in the order of
their shares in a fractional answer; each start is bettered by exchanges of one pad on ever greater q, the best of them
by exchanges of two and on the least itself, and at last every pad is nudged between its candidates.
Nothing is random and no clock is looked at.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.tolerances import NO_DIRECTION, ROUNDING

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Whole = NDArray[np.int64]
#: Exponents, as doublings of 1: the first is soft enough to lead pads to what is not reached at all.
SOFT, SHARPENING, HARD = 1, (2, 4, 6), 99
#: A place that is pressed by less than this part of the mean, or gapes, is weighed by the tangent to 1/x there: powers
#: stay finite, and what gapes more weighs more.
_LEAST = 0.05
#: Its powers up to the sharpest are numbers still: 1e4^64 is 1e256.
_MOST = 1e4
#: Once it is nearly right, a pad is tried on so many places nearest to it and on as many nearest to what is worst.
_NEAR = 20
#: Up to so many pads, two are exchanged at once, each with so many of the best candidates, shared among the pads.
_FEW, _BEST = 8, 200
#: Of so few pads, the first is put on so many places in turn: on a ring all of them must turn together.
_VERY_FEW, _FIRSTS = 4, 12
#: Rounds of the fractional game, and of nudges: each halves its step when nothing is gained.
_GAME, _NUDGES = 80, 5


@dataclass(frozen=True, eq=False)
class Choices:
    """Where `count` pads alike may be put: candidates C × 2, the pad's diameter, mm, and what one pad at each adds to
    each of M places, as a share of the pressure wanted there (C × M)."""

    places: Floats
    pad: float
    count: int
    adds: Floats


@dataclass(frozen=True, eq=False)
class Placing:
    """For each of the choices the places of its pads (fewer than asked where no more have room), and the share of the
    pressure wanted that each of the M places gets."""

    places: tuple[Floats, ...]
    gets: Floats

    @property
    def fit(self) -> int:
        """How many pads have room."""
        return sum(len(p) for p in self.places)


@dataclass(frozen=True, eq=False)
class _Task:
    at: Floats
    pad: Floats
    kind: Whole
    adds: Floats  # in means: what all pads together add on average is 1
    counts: tuple[int, ...]
    weights: Floats
    clash: Flags

    def soft(self, gets: Floats, doublings: int) -> Floats:
        """Σ weight · gets^−(2^doublings), for one or for many rows of gets: the smaller, the better. At HARD doublings
        the least share alone counts, and of two alike the soft sum decides."""
        if doublings == HARD:
            return np.asarray(_inverse(gets.min(axis=-1)) + self.soft(gets, 2) * ROUNDING)
        powers = _inverse(gets)
        for _ in range(doublings):
            powers = powers * powers
        return np.asarray(powers @ self.weights)

    def free(self, chosen: Sequence[int], kind: int) -> Whole:
        """Candidates of a kind that clash with none of the chosen."""
        free = self.kind == kind
        if len(chosen):
            free = free & ~self.clash[list(chosen)].any(axis=0)
        return np.flatnonzero(free)


def place(choices: Sequence[Choices], weights: Floats, gap: float) -> Placing:
    """The pads of all choices for the highest least share; at least `gap` mm stay between the rims of two pads.

    weights: of the M places, their areas."""
    task = _task(choices, weights, gap)
    if task is None:
        return Placing(tuple(np.zeros((0, 2)) for _ in choices), np.zeros(len(weights)))
    bests = []
    for start in _starts(task):
        chosen = start
        for doublings in SHARPENING:
            chosen = _exchanged(task, chosen, doublings)
        bests.append(chosen)
    most = max(len(b) for b in bests)
    bests = sorted((b for b in bests if len(b) == most), key=lambda b: _worst(task, b))[-(8 // max(1, most)) - 2 :]
    if most <= _FEW:
        bests = [_two_exchanged(task, b) for b in bests]
    chosen = max((_exchanged(task, b, HARD) for b in bests), key=lambda b: _worst(task, b))
    kinds = [np.array([c for c in chosen if task.kind[c] == i], dtype=np.int64) for i in range(len(choices))]
    return Placing(tuple(task.at[k] for k in kinds), sum((choices[i].adds[k - _first(choices, i)].sum(axis=0)
                   for i, k in enumerate(kinds) if len(k)), np.zeros(len(weights))))  # fmt: skip


def nudged(
    placing: Placing,
    pads: Sequence[float],
    adds: Callable[[int, Floats], Floats],
    sits: Callable[[int, Floats], Flags],
    weights: Floats,
    gap: float,
    step: float,
) -> Placing:
    """The pads moved by ever less than `step` mm, each to where the least share gains, between the candidates.

    adds(kind, N × 2 places): what a pad there adds (N × M); sits(kind, places): whether it may sit there; pads: their
    diameters by kind."""
    at = np.concatenate(placing.places)
    kind = np.concatenate([np.full(len(p), i) for i, p in enumerate(placing.places)]).astype(np.int64)
    size = np.array([pads[k] for k in kind])
    rows = np.concatenate([adds(i, p) for i, p in enumerate(placing.places) if len(p)]) if len(at) else np.zeros((0, 1))
    if not len(at):
        return placing
    before = placing
    turns = np.arange(8) * np.pi / 4
    rays = np.stack([np.cos(turns), np.sin(turns)], axis=1)
    gets = rows.sum(axis=0)
    for _ in range(_NUDGES):
        gained = False
        for i in range(len(at)):
            tried = at[i] + step * rays
            apart = np.linalg.norm(tried[:, None, :] - at[None, :, :], axis=2)
            apart[:, i] = np.inf
            tried = tried[(apart >= (size[i] + size) / 2 + gap).all(axis=1) & sits(int(kind[i]), tried)]
            if not len(tried):
                continue
            found = adds(int(kind[i]), tried)
            value = _sharp(gets - rows[i] + found, weights)
            best = int(np.argmin(value))
            if value[best] < _sharp(gets[None, :], weights)[0] * (1 - ROUNDING):
                gets = gets - rows[i] + found[best]
                at[i], rows[i], gained = tried[best], found[best], True
        if not gained:
            step /= 2
    moved = Placing(tuple(at[kind == i] for i in range(len(placing.places))), gets)
    return moved if moved.gets.min() >= before.gets.min() else before


def _sharp(gets: Floats, weights: Floats) -> Floats:
    """As _Task.soft at its sharpest, in means of what is got."""
    scale = max(float(gets.mean()), NO_DIRECTION)
    powers = _inverse(gets / scale)
    for _ in range(SHARPENING[-1]):
        powers = powers * powers
    return np.asarray(powers @ weights)


def _inverse(gets: Floats) -> Floats:
    far = np.where(gets > _LEAST, 1.0 / np.maximum(gets, _LEAST), (2 * _LEAST - gets) / _LEAST**2)
    return np.minimum(far, _MOST)


def _first(choices: Sequence[Choices], kind: int) -> int:
    return sum(len(c.places) for c in choices[:kind])


def _task(choices: Sequence[Choices], weights: Floats, gap: float) -> _Task | None:
    if not sum(len(c.places) * (c.count > 0) for c in choices) or not len(weights):
        return None
    at = np.concatenate([c.places for c in choices])
    pad = np.concatenate([np.full(len(c.places), c.pad) for c in choices])
    kind = np.concatenate([np.full(len(c.places), i) for i, c in enumerate(choices)]).astype(np.int64)
    adds = np.concatenate([c.adds for c in choices])
    share = weights / weights.sum()
    mean = sum(float((c.adds @ share).mean()) * c.count for c in choices if len(c.places))
    apart = np.linalg.norm(at[:, None, :] - at[None, :, :], axis=2)
    clash = apart < (pad[:, None] + pad[None, :]) / 2 + gap - ROUNDING
    return _Task(at, pad, kind, adds / (mean or 1.0), tuple(c.count for c in choices), share, clash)


def _worst(task: _Task, chosen: Sequence[int]) -> tuple[float, float]:
    gets = task.adds[list(chosen)].sum(axis=0)
    return float(gets.min()), -float(task.soft(gets, SHARPENING[-1]))


def _starts(task: _Task) -> list[list[int]]:
    """Pads one by one, of few from several first places; by the fractional answer; and where these jam, as many as can
    be packed."""
    wanted = sum(min(count, int((task.kind == i).sum())) for i, count in enumerate(task.counts))
    found = [_greedy(task, SOFT), _greedy(task, 3), _by_game(task)]
    if wanted <= _VERY_FEW:
        firsts = np.flatnonzero(task.kind == _kinds_in_turn(task)[0])
        found += [_greedy(task, 3, int(first)) for first in firsts[:: max(1, len(firsts) // _FIRSTS)]]
    if max(map(len, found)) < wanted:
        found.append(_packed(task))
    return found


def _kinds_in_turn(task: _Task) -> list[int]:
    """Kind of each pad to be placed, the kinds mixed in proportion, so that none is left with the rest."""
    turns = sorted(((i + 0.5) / count, kind) for kind, count in enumerate(task.counts) for i in range(count))
    return [kind for _, kind in turns]


def _greedy(task: _Task, doublings: int, first: int | None = None) -> list[int]:
    chosen: list[int] = [] if first is None else [first]
    gets = task.adds[chosen].sum(axis=0)
    for kind in _kinds_in_turn(task)[len(chosen) :]:
        free = task.free(chosen, kind)
        if len(free):
            best = int(free[np.argmin(task.soft(gets + task.adds[free], doublings))])
            chosen.append(best)
            gets = gets + task.adds[best]
    return chosen


def _by_game(task: _Task) -> list[int]:
    """Pads in the order of their shares in the fractional answer: the game between pads, which seek what is worst, and
    places, which weigh more the less they get (multiplicative weights, Freund and Schapire 1999)."""
    weight = task.weights.copy()
    share = np.zeros(len(task.at))
    rate = np.sqrt(8 * np.log(max(2, len(weight))) / _GAME) / max(float(task.adds.max()), NO_DIRECTION) / 4
    pads = sum(task.counts)
    for _ in range(_GAME):
        worth = task.adds @ (weight / weight.sum())
        best = np.zeros(len(task.adds[0]))
        for kind, count in enumerate(task.counts):
            own = np.flatnonzero(task.kind == kind)
            taken = own[np.argsort(-worth[own], kind="stable")[:count]]
            share[taken] += 1.0
            best += task.adds[taken].sum(axis=0)
        weight = weight * np.exp(-rate * np.minimum(best / pads, task.adds.max()))
        weight = np.maximum(weight / weight.max(), NO_DIRECTION)
    chosen: list[int] = []
    left = list(task.counts)
    for _ in range(pads):
        open_kinds = [k for k, n in enumerate(left) if n and len(task.free(chosen, k))]
        if not open_kinds:
            break
        free = np.concatenate([task.free(chosen, k) for k in open_kinds])
        # What a place stands for is its own share and that of all it would crowd out.
        crowds = task.clash[free] & (task.kind[free][:, None] == task.kind[None, :])
        taken = int(free[np.argmax(crowds @ share)])
        left[task.kind[taken]] -= 1
        chosen.append(taken)
    return chosen


def _packed(task: _Task) -> list[int]:
    """As many pads as a simple rule packs: always the one that crowds out fewest others."""
    chosen: list[int] = []
    for kind in _kinds_in_turn(task):
        free = task.free(chosen, kind)
        if len(free):
            crowds = task.clash[np.ix_(free, free)].sum(axis=1)
            chosen.append(int(free[np.argmin(crowds)]))
    return chosen


def _exchanged(task: _Task, chosen: Sequence[int], doublings: int) -> list[int]:
    """One pad after the other moved to its best candidate, until none gains."""
    chosen = list(chosen)
    gets = task.adds[chosen].sum(axis=0)
    now = float(task.soft(gets, doublings))
    still = 0
    i = 0
    while still < len(chosen):
        others = chosen[:i] + chosen[i + 1 :]
        free = task.free(others, int(task.kind[chosen[i]]))
        without = gets - task.adds[chosen[i]]
        if doublings > SHARPENING[0] and len(free) > 2 * _NEAR:
            free = _near(task, free, chosen[i], gets)
        values = task.soft(without + task.adds[free], doublings)
        best = int(np.argmin(values))
        if values[best] < now * (1 - ROUNDING):
            chosen[i], now, still = int(free[best]), float(values[best]), 0
            gets = without + task.adds[chosen[i]]
        else:
            still += 1
        i = (i + 1) % len(chosen)
    return chosen


def _near(task: _Task, free: Whole, pad: int, gets: Floats) -> Whole:
    """Of the free candidates those nearest to a pad, and those that do most for the place that gets least."""
    beside = np.argpartition(((task.at[free] - task.at[pad]) ** 2).sum(axis=1), _NEAR)[:_NEAR]
    helps = np.argpartition(-task.adds[free, int(gets.argmin())], _NEAR)[:_NEAR]
    return np.asarray(free[np.union1d(beside, helps)])


def _two_exchanged(task: _Task, chosen: Sequence[int]) -> list[int]:
    """Two pads moved at once, to pairs of the candidates that are best alone, until no pair gains."""
    chosen = list(chosen)
    sharp = HARD
    now = float(task.soft(task.adds[chosen].sum(axis=0), sharp))
    again = True
    while again:
        again = False
        for i in range(len(chosen)):
            for j in range(i):
                others = [c for n, c in enumerate(chosen) if n not in (i, j)]
                rest = task.adds[others].sum(axis=0)
                a, b = (_likely(task, others, rest, int(task.kind[chosen[n]])) for n in (i, j))
                first, second = (grid.ravel() for grid in np.meshgrid(a, b))
                apart = ~task.clash[first, second]
                first, second = first[apart], second[apart]
                if not len(first):
                    continue
                values = task.soft(rest + task.adds[first] + task.adds[second], sharp)
                best = int(np.argmin(values))
                if values[best] < now * (1 - ROUNDING):
                    chosen[i], chosen[j], now, again = int(first[best]), int(second[best]), float(values[best]), True
        if again:
            chosen = _exchanged(task, chosen, sharp)
            now = float(task.soft(task.adds[chosen].sum(axis=0), sharp))
    return chosen


def _likely(task: _Task, others: Sequence[int], rest: Floats, kind: int) -> Whole:
    """The candidates of a kind that gain most beside the others, softly seen: those that a pair is sought among."""
    free = task.free(others, kind)
    values = task.soft(rest + task.adds[free], 2)
    best: Whole = free[np.argsort(values, kind="stable")[: _BEST // (len(others) + 2)]]
    return best
