# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sentences and figures of the year in the room, for the maker's page and the owner's."""

from __future__ import annotations

from freecad_stacklam.benchsheets.drawing.lettering import Units
from freecad_stacklam.lamination.findings.seasons import MONTHS, Lag, SeasonFindings, Year, even
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.lengths import INCH, format_move
from freecad_stacklam.lamination.quantities import format_temperature
from freecad_stacklam.lamination.words import figure, say

#: Air that furniture is best kept in, % (common practice, no source).
KEEP_FROM, KEEP_TO = 35, 55
#: Days are told to this.
_TO = 5


def signed(mm: float, units: Units) -> str:
    """A movement with its sign, without its unit: "+1.2" or "-0.05"."""
    text = f"{mm / INCH:+.2f}" if units.first == "in" else f"{mm:+.1f}"
    return "0" if float(text) == 0 else figure(text)


def fine_signed(mm: float, units: Units) -> str:
    """The same to 0.01 mm or 0.001 in: "+0.12", "-0.004"."""
    text = f"{mm / INCH:+.3f}" if units.first == "in" else f"{mm:+.2f}"
    return "0" if float(text) == 0 else figure(text)


def plotted(year: Year, units: Units) -> Year:
    """A year of lengths, mm, in the unit that a plot shows."""
    return tuple(v / INCH for v in year) if units.first == "in" else year


def step_figure(value: float) -> str:
    """A step of a plot of movements, in its own unit: "+0.5"."""
    rounded = round(value, 6)
    return figure(f"{rounded:+g}") if rounded else "0"


def lag_words(lag: Lag | None) -> str:
    """A lag as a band: "about 30 days (20 to 40)"."""
    if lag is None:
        return "–"
    days, low, high = (max(_TO, _TO * round(d / _TO)) for d in (lag.days, lag.low, lag.high))
    return say("{days} ({low} to {high})", days=days, low=low, high=high)


def smallest_and_largest(findings: SeasonFindings) -> str:
    """When the piece is driest and wettest, as a sentence for its owner."""
    mean = findings.piece.mean
    if even(mean):
        return say("In a room that is the same all year, as it was planned for, the piece settles and keeps its size.")
    dry, wet = shown(MONTHS[mean.index(min(mean))]), shown(MONTHS[mean.index(max(mean))])
    return say(
        "Expect the piece at its smallest about {dry} and at its largest about {wet}, weeks after the air itself.",
        dry=dry,
        wet=wet,
    )


def moves(low: float, high: float, units: Units) -> str:
    """From the least to the most, each unsigned in words: "1.2 mm less to 0.8 mm more"."""
    down, up = format_move(max(-low, 0.0), units.first), format_move(max(high, 0.0), units.first)
    return say("{down} less to {up} more", down=down, up=up)


def _air(findings: SeasonFindings) -> str:
    """The air to keep: the usual, but where the piece was planned for another, that one; a sentence."""
    each = [month.humidity for month in findings.months]
    if KEEP_FROM <= sum(each) / len(each) <= KEEP_TO:
        return say(
            "Keep the air between {low} and {high} % of humidity where you can: a hygrometer beside the piece tells "
            "it. Even air matters more than any one figure.",
            low=KEEP_FROM,
            high=KEEP_TO,
        )
    low, high = (_TO * round(v / _TO) for v in (min(each), max(each)))
    return say(
        "Keep the air between {low} and {high} % of humidity, for which the piece was planned, where you can: a "
        "hygrometer beside the piece tells it. Even air matters more than any one figure.",
        low=low,
        high=max(high, low + _TO),
    )


def care(findings: SeasonFindings, units: Units) -> list[str]:
    """What the owner is asked to do."""
    cool = min(m.temperature for m in findings.months)
    warm = max(m.temperature for m in findings.months)
    low, high = format_temperature(cool, units.first), format_temperature(warm, units.first)
    between = low if low == high else say("{low} to {high}", low=low, high=high)
    return [
        _air(findings),
        smallest_and_largest(findings),
        say("Keep it a good step away from stoves, radiators, air outlets and windows in full sun."),
        say(
            "Do not leave it in a damp cellar, a garage or a closed car; bring it in slowly, and unpack it after two "
            "days."
        ),
        say("Wipe up water at once. Put a saucer and a mat under plants, and lift them now and then."),
        say(
            "Dust with a dry or barely damp cloth. Renew the finish as its maker says, on all faces alike, the "
            "underside and the end grain too: a bare face moves more than its neighbours."
        ),
        say(
            "A fine line may open at a joint or between layers in the dry months and close again. One that stays "
            "open, or is wider than a visiting card, is for the maker to see."
        ),
        say(
            "Planned for a room of {between}. In another climate the piece moves otherwise: tell the maker before it "
            "travels.",
            between=between,
        ),
    ]


def basis(findings: SeasonFindings, units: Units) -> list[str]:
    """What the figures stand on."""
    inch = units.first == "in"
    across = figure(f"{findings.across / INCH**2:.2g} in²" if inch else f"{findings.across:g} mm²")
    surface = figure(f"{findings.surface / INCH:.2g} in" if inch else f"{findings.surface:g} mm")
    return [
        say(
            "Moisture by Eq. 4-5, movement by Eq. 13-3 and 13-4 of the Wood Handbook, FPL-GTR-282 (2021), from "
            "{moisture:g} % when glued in {month}.",
            moisture=findings.moisture,
            month=shown(MONTHS[findings.glued]),
        ),
        say(
            "Diffusion {across} a day across the grain, {ratio:g} times that along it, surface {surface} a day, from "
            "memory; in brackets with diffusion {band:g} times faster and slower. Wood varies: shrinkage by about 15 "
            "% from piece to piece (the same handbook).",
            across=across,
            ratio=findings.ratio,
            surface=surface,
            band=findings.band,
        ),
        *findings.notes,
    ]
