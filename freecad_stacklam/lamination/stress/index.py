# SPDX-License-Identifier: LGPL-2.1-or-later

"""How near a stress comes to the wood's strength: an index, 1 where a piece of mean strength breaks.

Pull is held against the strength at its angle to the grain by Hankinson's formula, shear against that along the grain,
rolling shear against the rolling, and at a glue line pull and shear together against the wood beside it. Strengths are
means; what they scatter by is known along the grain alone. Crushing is no break, and not counted.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.elastic.element import turned_strain
from freecad_stacklam.lamination.elastic.lattice import Wood
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import SLOPE_STEP, TINY
from freecad_stacklam.lamination.wood.strengths import Strengths
from freecad_stacklam.lamination.wood.unknown import WHOLE_PIECE, not_judged
from freecad_stacklam.lamination.words import mark, say

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: What breaks, in the order of the numbers that `index_of` gives.
KINDS = (
    mark("across the grain"),
    mark("along the grain"),
    mark("shear along the grain"),
    mark("rolling shear"),
    mark("glue line"),
)
ACROSS, ALONG, SHEAR, ROLLING, GLUE = range(5)
#: Kinds whose strength has a figure for its scatter.
SCATTER_KNOWN = (ALONG, SHEAR)
#: Of Hankinson's formula; in pull 1.5 to 2 are given (from memory), 2 breaks soonest nowhere, 1.5 sooner.
EXPONENT = 2.0


def refuse_unknown(strengths: Sequence[Strengths]) -> None:
    """Raise Refusal where a wood's strengths are not all in the table."""
    for one in strengths:
        if one.bending is None or one.tension_across is None or one.shear is None or one.rolling_shear is None:
            raise Refusal(not_judged(say(WHOLE_PIECE), one.species, say("strength across the grain or in shear")))


def index_of(
    stress: Floats, wood: Ints, woods: Sequence[Wood], strengths: Sequence[Strengths], normal: Floats | None = None
) -> tuple[Floats, Ints, Floats]:
    """The index of each stress, the kind that it is of, and the stress of that kind, MPa.

    stress: P × 6 in the piece's frame, MPa. wood: P, places in woods and strengths. normal: P × 3, square to the glue
    line where a place lies at one, 0 elsewhere. Strengths must be known (refuse_unknown).
    """
    index, kind, size = np.zeros(len(stress)), np.zeros(len(stress), dtype=np.int64), np.zeros(len(stress))
    for number in np.unique(wood):
        here = wood == number
        # Stresses turn as the inverse of what turns strains does, transposed; of an orthogonal frame that is:
        own = stress[here] @ np.linalg.inv(turned_strain(woods[number].axes))
        lines = None if normal is None else normal[here] @ woods[number].axes.T
        index[here], kind[here], size[here] = _of_one(own, strengths[number], lines)
    return index, kind, size


def _of_one(own: Floats, strengths: Strengths, lines: Floats | None) -> tuple[Floats, Ints, Floats]:
    along, across, shear, rolling = (
        float(s or np.nan)
        for s in (strengths.bending, strengths.tension_across, strengths.shear, strengths.rolling_shear)
    )
    tensor = own[:, [0, 5, 4, 5, 1, 3, 4, 3, 2]].reshape(-1, 3, 3)
    pulls, ways = np.linalg.eigh(tensor)
    cosine = ways[:, 0, :] ** 2
    held = along * across / (along * (1 - cosine) ** (EXPONENT / 2) + across * cosine ** (EXPONENT / 2))
    use = np.maximum(pulls, 0.0) / held
    most = use.argmax(axis=1)
    rows = np.arange(len(own))
    square = (own[:, 1] + own[:, 2]) / 2 + np.hypot((own[:, 1] - own[:, 2]) / 2, own[:, 3])
    pull = pulls[rows, most]
    lengthwise = cosine[rows, most] > 0.5
    sizes = [square, pull, np.hypot(own[:, 4], own[:, 5]), np.abs(own[:, 3])]
    tilted = use[rows, most]
    uses = [np.maximum(square, 0.0) / across, tilted, sizes[2] / shear, sizes[3] / rolling]
    if lines is not None:
        at_line = (lines != 0).any(axis=1)
        traction = np.einsum("pij,pj->pi", tensor, lines)
        peel = np.maximum(np.einsum("pi,pi->p", traction, lines), 0.0)
        slip = traction - np.einsum("pi,pi->p", traction, lines)[:, None] * lines
        lengthways = np.abs(slip[:, 0])
        sideways = np.sqrt(np.maximum((slip**2).sum(axis=1) - lengthways**2, 0.0))
        uses.append(np.sqrt((peel / across) ** 2 + (lengthways / shear) ** 2 + (sideways / rolling) ** 2) * at_line)
        sizes.append(np.linalg.norm(traction, axis=1))
    table = np.stack(uses)
    worst = table.argmax(axis=0)
    kind = np.where((worst == ALONG) & ~lengthwise, ACROSS, worst)
    return table[worst, rows], kind, np.stack(sizes)[worst, rows]


def slope_of(
    stress: Floats, wood: int, woods: Sequence[Wood], strengths: Sequence[Strengths], normal: Floats
) -> Floats:
    """(6,) how much the index grows with each stress: their sum of products is the index itself, for it grows in
    proportion with the load."""
    step = SLOPE_STEP * max(float(np.abs(stress).max()), TINY)
    tried = np.concatenate([stress + step * np.eye(6), stress - step * np.eye(6)])
    index, _, _ = index_of(tried, np.full(12, wood), woods, strengths, np.tile(normal, (12, 1)))
    return np.asarray((index[:6] - index[6:]) / (2 * step))
