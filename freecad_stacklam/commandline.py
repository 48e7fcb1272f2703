# SPDX-License-Identifier: LGPL-2.1-or-later

"""The command line: what may be asked, and how it answers.

Exit status: 0 the plan is proven to contain the form, or the options were printed; 1 a check says stop; 2 the input
cannot be planned (one line on standard error, nothing left behind).
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from typing import NoReturn

from freecad_stacklam.lamination.refusal import Refusal

PROVEN, STOP, BAD_INPUT = 0, 1, 2


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        raise Refusal(f"{message}; see python3 -m freecad_stacklam plan --help.")


def parser() -> argparse.ArgumentParser:
    """The arguments. Lengths accept mm, cm, in and fractions, such as 45mm or 1-3/4in."""
    top = _Parser(prog="python3 -m freecad_stacklam", description="Plan sculpted furniture in stacked layers.")
    commands = top.add_subparsers(dest="command", required=True, metavar="plan|options")
    plan = commands.add_parser("plan", help="slice a form into layers, draw them and write the bill")
    plan.add_argument("form", nargs="?", metavar="FORM", help=".FCStd .step .brep .stl .obj .ply .3mf; none: example")
    plan.add_argument("--settings", metavar="FILE.toml", help="settings of the whole job")
    plan.add_argument("--stock", metavar="45mm", help="planed thickness of the boards, or several: 45mm,27mm")
    plan.add_argument("--allowance", metavar="3mm", help="wood left outside the form all round")
    plan.add_argument("--axis", metavar="z", help="stacking axis: x, y, z or dx,dy,dz")
    plan.add_argument("--paper", metavar="A4", help="paper of the drawings: A4, Letter, A0, roll 610mm, …")
    plan.add_argument("--units", choices=("mm", "in"), help="units on the drawings")
    plan.add_argument("--species", metavar="NAME", help="wood, for instance white oak")
    plan.add_argument("--fraction", type=int, choices=(16, 32, 64), default=32, help="inches to the nearest 1/32, say")
    plan.add_argument("--both-units", action="store_true", help="the other unit too, in brackets, on every sheet")
    plan.add_argument("--dxf", action="store_true", help="layers and section templates as DXF too, into DIR/dxf")
    plan.add_argument("--svg", action="store_true", help="every sheet as SVG too, into DIR/svg")
    plan.add_argument("--out", metavar="DIR", required=True, help="folder for the plan")
    commands.add_parser("options", help="print every option of the settings file")
    return top


def main(arguments: Sequence[str]) -> NoReturn:
    """Run one command line and leave the process with its exit status."""
    status = answer(arguments)
    # FreeCAD's own leave-taking may crash or change the status, so it is left out.
    sys.stdout.flush()
    sys.stderr.flush()
    os._exit(status)


def answer(arguments: Sequence[str]) -> int:
    """Do what a command line asks and return the exit status. Whatever is refused is said in one line on stderr."""
    try:
        asked = parser().parse_args(arguments)
        if asked.command == "options":
            from freecad_stacklam.lamination.settings.optiontable import options_page

            print(options_page(), end="")
            return PROVEN
        from freecad_stacklam.find_freecad import make_importable

        make_importable()
        os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
        from freecad_stacklam.batch import run

        return PROVEN if run(asked) else STOP
    except Refusal as refusal:
        return _refused(str(refusal))
    except ImportError as error:
        return _refused(f"A Python package is missing ({error}): install it for FreeCAD's Python, as the README says.")
    except OSError as error:
        what, why = error.filename or "A file", error.strerror or error
        return _refused(f"{what} cannot be used ({why}): mend that and run again.")


def _refused(sentence: str) -> int:
    print(" ".join(sentence.split()), file=sys.stderr)
    return BAD_INPUT
