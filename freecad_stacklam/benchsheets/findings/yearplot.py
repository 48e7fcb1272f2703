# SPDX-License-Identifier: LGPL-2.1-or-later

"""A small plot of a year: twelve months along, one or two figures up, told apart by the kind of line."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import ceil, floor, log10

from freecad_stacklam.benchsheets.drawing.sheet import NOTE, PLAIN, Mark, Polyline, Text
from freecad_stacklam.lamination.findings.seasons import MONTHS, Year
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.tolerances import SAME_HEIGHT, WHOLE

#: What stands left of a plot, below and above it, mm; steps up it at most.
LEFT, BELOW, ABOVE, MOST_STEPS = 13.0, 5.0, 6.0, 5
#: A plot of percents spans so many at the least.
LEAST_PERCENT = 2.0
#: Length of a line's sample in a legend, mm.
SAMPLE = 14.0
#: Lines in their order: the first is the main one.
PENS = ("mortise", "hidden", "next")


def nice_step(span: float, most: int = MOST_STEPS) -> float:
    """1, 2 or 5 times a power of ten, of which at most so many make up the span."""
    raw = max(span, SAME_HEIGHT) / most
    power = 10.0 ** floor(log10(raw))
    return next(step * power for step in (1.0, 2.0, 5.0, 10.0) if step * power >= raw * (1 - WHOLE))


def year_plot(
    x: float, y: float, width: float, height: float, title: str, years: Sequence[tuple[str, Year]],
    figure: Callable[[float], str], zero: Sequence[float] = (), least: float = 0.0,
) -> list[Mark]:  # fmt: skip
    """A plot with its lower left corner at x, y, page mm, all its lettering within width and height.

    years: what each line is called, and its twelve figures. figure: how a figure is written. zero: heights that must be
    seen, such as 0. least: what the plot spans at the least, so that a year that hardly changes looks so.
    """
    seen = [value for _, year in years for value in year] + list(zero)
    step = nice_step(max(max(seen) - min(seen), least))
    low = floor(min(seen) / step + WHOLE) * step
    high = max(ceil(max(seen) / step - WHOLE) * step, low + step)
    x0, y0 = x + LEFT, y + BELOW
    wide, tall = width - LEFT - 2.0, height - BELOW - ABOVE
    month = wide / len(MONTHS)

    def level(value: float) -> float:
        return y0 + (value - low) / (high - low) * tall

    marks: list[Mark] = [Text((x, y + height - PLAIN - 0.6), title, PLAIN, bold=True, fit=width)]
    for i in range(round((high - low) / step) + 1):
        value = low + i * step
        at = level(value)
        marks.append(Polyline(((x0, at), (x0 + wide, at)), "thin" if abs(value) < step / 2 and zero else "fine"))
        marks.append(Text((x0 - 1.2, at - NOTE / 2), figure(value), NOTE, "right", fit=LEFT - 1.4))
    for i, name in enumerate(MONTHS):
        marks.append(Text((x0 + (i + 0.5) * month, y + 1.0), shown(name)[:1], NOTE, "centre"))
    for pen, (_, year) in zip(PENS, years):
        marks.append(Polyline(tuple((x0 + (i + 0.5) * month, level(v)) for i, v in enumerate(year)), pen))
    return marks


def plot_legend(x: float, y: float, names: Sequence[str], width: float) -> list[Mark]:
    """What the lines of a plot are, side by side from x at height y."""
    marks: list[Mark] = []
    share = width / max(len(names), 1)
    for i, (pen, name) in enumerate(zip(PENS, names)):
        at = x + i * share
        marks += [
            Polyline(((at, y + 0.9), (at + SAMPLE, y + 0.9)), pen),
            Text((at + SAMPLE + 1.5, y), name, NOTE, fit=share - SAMPLE - 3.0),
        ]
    return marks
