# SPDX-License-Identifier: LGPL-2.1-or-later

"""The worst word of several checks: by hand, and whatever their order."""

from __future__ import annotations

from itertools import permutations, product

import pytest

from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.verdicts import worst_of


def check(verdict: str) -> Check:
    return Check("any", verdict, 0.0, 0.0, "", "by hand", "So.")


@pytest.mark.parametrize("words", [w for n in range(4) for w in product(("ok", "caution", "stop"), repeat=n)])
def test_one_stop_stops_and_one_caution_cautions(words: tuple[str, ...]) -> None:
    wanted = "stop" if "stop" in words else "caution" if "caution" in words else "ok"
    for order in permutations(words):
        assert worst_of(check(w) for w in order) == wanted


def test_a_word_that_is_no_verdict_is_an_error() -> None:
    """A slip in a check must not pass for “ok”."""
    with pytest.raises(ValueError, match="not in"):
        worst_of([check("ok"), check("fine")])
