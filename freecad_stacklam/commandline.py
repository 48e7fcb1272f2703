# SPDX-License-Identifier: LGPL-2.1-or-later

"""The command line: what may be asked, and how it answers.

Exit status: 0 the plan is proven to contain the form, or the options were printed; 1 a check says stop; 2 the input
cannot be planned (one line on standard error, nothing left behind); 128 and the signal's number when it was stopped.

A plan is made by a second process, which the first watches (timelimit): the kernel may hang or end its process.
"""

from __future__ import annotations

import argparse
import os
import shlex
import signal
import sys
import tempfile
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from traceback import format_exc
from typing import NoReturn, TextIO

from freecad_stacklam import __version__
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say
from freecad_stacklam.languages import LANGUAGES
from freecad_stacklam.outfolder import abandon, clear_up_after, first_to_be_made
from freecad_stacklam.timelimit import End, can_watch, end_with_the_watcher, is_watched, watched

PROVEN, STOP, BAD_INPUT = 0, 1, 2


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        raise Refusal(say("{message}; see python3 -m freecad_stacklam plan --help.", message=message))


def parser() -> argparse.ArgumentParser:
    """The arguments. Lengths accept mm, cm, in and fractions, such as 45mm or 1-3/4in."""
    top = _Parser(prog="python3 -m freecad_stacklam", description="Plan sculpted furniture in stacked layers.")
    commands = top.add_subparsers(dest="command", required=True, metavar="plan|options")
    plan = commands.add_parser("plan", help="slice a form into layers, draw them and write the bill")
    plan.add_argument("form", nargs="?", metavar="FORM", help=".FCStd .step .brep .stl .obj .ply .3mf; none: example")
    plan.add_argument(
        "--form-unit",
        choices=("mm", "cm", "m", "in", "ft"),
        help="unit of a FORM that does not say it: STL, OBJ, PLY, BREP",
    )
    plan.add_argument(
        "--example", metavar="NAME", help="in place of FORM: plant-stand, low-seat, vessel, leaning-table"
    )
    plan.add_argument("--settings", metavar="FILE.toml", help="settings of the whole job")
    plan.add_argument("--stock", metavar="45mm", help="planed thickness of the boards, or several: 45mm,27mm")
    plan.add_argument("--allowance", metavar="3mm", help="wood left outside the form all round")
    plan.add_argument("--axis", metavar="z", help="stacking axis: x, y, z or dx,dy,dz")
    plan.add_argument("--paper", metavar="A4", help="paper of the drawings: A4, Letter, A0, roll 610mm, …")
    plan.add_argument("--units", choices=("mm", "in"), help="units on the drawings")
    plan.add_argument("--language", choices=tuple(LANGUAGES), help="language of drawings, checks and bill")
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
    _mend_streams()
    if is_watched():
        end_with_the_watcher()
    status = _answer_watched(arguments) if _is_to_be_watched(arguments) else _answer_here(arguments)
    # FreeCAD's own leave-taking may crash or change the status, so it is left out.
    for stream in (sys.stdout, sys.stderr):
        with suppress(OSError, ValueError):
            stream.flush()
    os._exit(status)


def _answer_here(arguments: Sequence[str]) -> int:
    end_with_a_sentence()
    return answer(arguments)


def _is_to_be_watched(arguments: Sequence[str]) -> bool:
    """Only a plan asks the kernel for anything, and only the very command of this process can be started again."""
    return can_watch() and arguments[:1] == ["plan"] and sys.orig_argv[-len(arguments) :] == list(arguments)


def _answer_watched(arguments: Sequence[str]) -> int:
    """Let a second process do it, and clear up after that if it is ended; the exit status."""
    try:
        out = Path(parser().parse_args(arguments).out)
        made = first_to_be_made(out)
        end = watched([sys.executable, *sys.orig_argv[1:]])
    except (Refusal, OSError):  # said there; a process that cannot be started leaves the work to this one
        return _answer_here(arguments)
    if end.status >= 0:
        return end.status
    clear_up_after(out, made)
    if end.stopped is not None:
        _say("Stopped: nothing was written.", sys.stderr)
        return 128 + end.stopped
    return _refused(_ended(end))


def _ended(end: End) -> str:
    simpler = say("simplify the solid, or give it as a closed mesh (STL, OBJ, PLY or 3MF)")
    if end.late is not None:
        return say(
            "{busy_with} takes FreeCAD's kernel more than {late:g} s to mesh: {simpler}.",
            busy_with=end.busy_with,
            late=end.late,
            simpler=simpler,
        )
    if end.busy_with:
        return say(
            "{busy_with} makes FreeCAD's kernel fail as it is meshed (signal {status}): {simpler}.",
            busy_with=end.busy_with,
            status=-end.status,
            simpler=simpler,
        )
    return say(
        "The process that plans was ended (signal {status}) by FreeCAD, by the system for "
        "want of memory, or from outside, and nothing was written: run it again, with fewer "
        "or simpler forms if it ends so again.",
        status=-end.status,
    )


def _mend_streams() -> None:
    """Closed streams lead nowhere, and signs that a stream cannot write are replaced: a plan does not hang on who
    listens."""
    for number in (0, 1, 2):
        try:
            os.fstat(number)
        except OSError:
            os.open(os.devnull, os.O_RDWR)  # takes the lowest free number, which is this one
    for name in ("stdout", "stderr"):
        stream = getattr(sys, name)
        if stream is None:
            setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: SIM115
        elif hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")


def end_with_a_sentence() -> None:
    """From now on SIGTERM and SIGINT take away what is half written, say so and end the process with 128 + their
    number."""

    # Readers of forms are kept quiet by turning the streams away, and a stop may come in the midst of that.
    heard = os.dup(2)

    def end(number: int, _: object) -> None:
        if abandon():
            with suppress(OSError):
                os.write(heard, b"Stopped: nothing was written.\n")
            os._exit(128 + number)

    for number in (signal.SIGTERM, signal.SIGINT):
        signal.signal(number, end)


def answer(arguments: Sequence[str]) -> int:
    """Do what a command line asks and return the exit status. Whatever is refused is said in one line on stderr."""
    try:
        asked = parser().parse_args(arguments)
        if asked.command == "options":
            from freecad_stacklam.lamination.settings.optiontable import options_page

            _say(options_page().rstrip("\n"))
            return PROVEN
        _refuse_empty(asked)
        from freecad_stacklam.find_freecad import make_importable

        make_importable()
        os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
        from freecad_stacklam.packages.missing import need_dxf, need_planning

        need_planning()
        if asked.dxf:
            need_dxf()
        from freecad_stacklam.batch import report, run

        plan = run(asked)
        for line in report(plan, asked):
            _say(line)
        return PROVEN if plan.proven else STOP
    except Refusal as refusal:
        return _refused(str(refusal))
    except ImportError as error:
        return _refused(
            say(
                "A Python package is missing ({error}): install it for FreeCAD's Python, as the README says.",
                error=error,
            )
        )
    except OSError as error:
        what, why = error.filename or "A file", error.strerror or error
        return _refused(say("{what} cannot be used ({why}): mend that and run again.", what=what, why=why))
    except MemoryError:
        return _refused("There is not enough memory for this form: give it with fewer triangles, or plan fewer stacks.")
    except Exception as error:  # the last net: a defect of the program is no check that says stop
        return _refused(
            say(
                "StackLam failed ({error}), which is a defect of the program and not of your work; "
                "nothing was written; what happened stands in {file}: please report it "
                "with that file.",
                error=type(error).__name__,
                file=_told_in_a_file(),
            )
        )


def _refuse_empty(asked: argparse.Namespace) -> None:
    """Raise Refusal for a word that is there and says nothing, as a shell makes of a variable that is not set."""
    for name, value in vars(asked).items():
        if isinstance(value, str) and not value.strip():
            flag = "FORM" if name == "form" else f"--{name}"
            raise Refusal(say("{flag} is given but empty: write what it should be, or leave it out.", flag=flag))


def _told_in_a_file() -> str:
    """The traceback of the exception at hand, in a file of its own; its path."""
    try:
        handle, name = tempfile.mkstemp(prefix="stacklam-fault-", suffix=".txt")
        with open(handle, "w", encoding="utf-8", errors="replace") as file:
            file.write(f"StackLam {__version__}, Python {sys.version}\n{shlex.join(sys.argv)}\n\n{format_exc()}")
    except OSError:
        return "no file, for none could be written"
    return name


def _say(line: str, stream: TextIO | None = None) -> None:
    """Print a line, whether or not somebody still reads."""
    with suppress(OSError, ValueError):
        print(line, file=stream or sys.stdout, flush=True)


def _refused(sentence: str) -> int:
    _say(" ".join(sentence.split()), sys.stderr)
    return BAD_INPUT
