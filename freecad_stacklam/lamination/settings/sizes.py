# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sizes that a record refuses, mm."""

from __future__ import annotations

from math import isfinite

from freecad_stacklam.lamination.refusal import Refusal


def positive(value: float, what: str) -> None:
    """Refuse a size, mm, that is not above 0; `what` begins the sentence."""
    if not isfinite(value) or value <= 0:
        raise Refusal(f"{what} must be more than 0 mm, not {value:g} mm: give the size you have at the bench.")


def not_negative(value: float, what: str) -> None:
    """Refuse a size, mm, below 0; `what` begins the sentence."""
    if not isfinite(value) or value < 0:
        raise Refusal(f"{what} cannot be {value:g} mm: give 0 or more.")
