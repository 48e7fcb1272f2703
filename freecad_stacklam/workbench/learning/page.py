# SPDX-License-Identifier: LGPL-2.1-or-later

"""The guide as a page to read, docs/tutorial.md, written from its steps:

python3 -m freecad_stacklam.workbench.learning.page > docs/tutorial.md
"""

from __future__ import annotations

import sys

from freecad_stacklam.workbench.learning.course import minutes_left
from freecad_stacklam.workbench.learning.judging import texts
from freecad_stacklam.workbench.learning.steps import STEPS, Step, numbered

HEAD = """# The first piece

From an empty document to printed drawings in about {minutes} minutes: a low stool for a candle, a foot under a round
top, each glued up of layers. FreeCAD and StackLam are installed ([README](../README.md)); nothing else is needed.

In FreeCAD the command **First piece** (workbench StackLam) opens a guide beside the model with these steps. It looks
at the document to see whether a step is done, says what differs from what was asked, and goes on by itself. **Show me
where** rings the button, the row of the tree or the field. **Do it for me** does the step, or leaves it out where
only you can do it. **Back** shows an earlier step again. Close the guide or FreeCAD whenever you like: open the file
again, run **First piece**, and it goes on where the document is.

![Show me where rings the row of the tree](pictures/tutorial-where.png)
"""
FOOT = """
## In inches

Where FreeCAD shows inches, the guide asks for these sizes.

{table}

## And then

The same commands make your own piece. **Open the example** has a plant stand to try the rest on: a hollow, a rack of
boards and how they are cut, the glue-up, the carving guide, and what is asked of the finished piece. The
[README](../README.md) says what each does. The plan does not prove that a piece carries a load: judge and test it
before anyone relies on it, and let your machines' manuals, local rules and licensed practice come before anything
said here.
"""
#: How the sizes are called in the table.
CALLED = {
    "bottom": "Foot, Radius 1",
    "neck": "Foot, Radius 2",
    "high": "Foot, Height; top, Position Z",
    "wide": "Top, Radius",
    "thick": "Top, Height",
    "round": "Rim, Radius",
    "foot_boards": "Foot, Stock thickness",
    "top_boards": "Top, Stock thickness",
    "tenon": "Joint, Side or diameter",
}


def tutorial() -> str:
    """The page, as Markdown."""
    steps = "".join(_step(number, step) for number, step in enumerate(STEPS, 1))
    mm, inches = texts("mm"), texts("in")
    rows = ["| size | mm | in |", "|---|---|---|", *(f"| {CALLED[n]} | {mm[n]} | {inches[n]} |" for n in CALLED)]
    return HEAD.format(minutes=minutes_left(0)) + steps + FOOT.format(table="\n".join(rows))


def _step(number: int, step: Step) -> str:
    lines = numbered([line.format(**texts("mm")) for line in step.lines])
    picture = f"\n![{step.title}](pictures/tutorial-{step.picture}.png)\n" if step.picture else ""
    return f"\n## {number}. {step.title}\n\n" + "\n".join(lines) + "\n" + picture


if __name__ == "__main__":
    sys.stdout.write(tutorial())
