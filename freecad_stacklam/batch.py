# SPDX-License-Identifier: LGPL-2.1-or-later

"""One job from file to folder, with the document objects that the workbench uses, so the saved project opens there."""

from __future__ import annotations

import argparse
import os
import shutil
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import FreeCAD

from freecad_stacklam.benchsheets.book.index import sheet_index
from freecad_stacklam.benchsheets.book.whole import drawing_book
from freecad_stacklam.benchsheets.drawing.lettering import Units
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.data import example_form, example_rack, example_settings, species_table
from freecad_stacklam.docobjects.cutting import cost_text, gap_text
from freecad_stacklam.docobjects.family import cutting_in
from freecad_stacklam.docobjects.forms.formfile import forms_in, unit_note
from freecad_stacklam.docobjects.making.boards import keep_cutting
from freecad_stacklam.docobjects.making.project import fill_document
from freecad_stacklam.docobjects.reading.insides import finished_stacks
from freecad_stacklam.docobjects.reading.whole import plan_of
from freecad_stacklam.docobjects.reading.wood import key_of, wood_settings
from freecad_stacklam.docobjects.spreadsheets.billsheet import write_bill
from freecad_stacklam.lamination.bill.csvtext import csv_text
from freecad_stacklam.lamination.boards.boardplan import plan_boards
from freecad_stacklam.lamination.boards.cutting import LOOK_LONGER
from freecad_stacklam.lamination.boards.rack import read_rack
from freecad_stacklam.lamination.job.cautions import cautions_for
from freecad_stacklam.lamination.job.planjson import as_dict, dumps
from freecad_stacklam.lamination.lengths import (
    format_fine,
    format_length,
    format_volume,
    parse_length,
    parse_lengths,
    rounded_down,
)
from freecad_stacklam.lamination.plan.boards import BoardsPlan
from freecad_stacklam.lamination.plan.carving import CarvingPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.file import read_with_notes
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.kinds import AXES
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.wood.species import find_species
from freecad_stacklam.qt_binding import gui_application
from freecad_stacklam.sheetwriters.boardpicture import drawn
from freecad_stacklam.sheetwriters.pdf import write_pdf
from freecad_stacklam.sheetwriters.sheetfolder import write_dxfs, write_svgs

FILES = ("project.FCStd", "plan.json", "bill.csv", "drawings.pdf")


def run(asked: argparse.Namespace) -> bool:
    """Plan what was asked and write it to asked.out. True when the plan is proven. Raises Refusal and leaves
    nothing."""
    settings, told = _settings(asked)
    settings = _with_flags(settings, asked)
    paper = paper_named(settings.paper)
    full = paper_named(settings.paper_full) if settings.paper_full else None
    form = Path(asked.form) if asked.form else example_form()
    with _aside(Path(asked.out)) as folder:
        gui_application()
        document = FreeCAD.newDocument("project")
        try:
            forms = forms_in(form, document)
            fill_document(document, forms, settings)
            _plan_boards(document, settings)
            plan = plan_of(document)
            note = unit_note(form)
            plan = replace(plan, notes=(*plan.notes, *([note] if note else []), *told))
            _draw_boards(document, plan)
            write_bill(document, plan.bill)
            document.recompute()
            written = Units(settings.units, asked.fraction, asked.both_units)
            sheets = drawing_book(plan, paper, written, full, cautions_for(plan), day=today())
            facts = as_dict(plan, settings)
            facts["sheets"] = sheet_index(sheets)
            (folder / "plan.json").write_text(dumps(facts), encoding="utf-8")
            (folder / "bill.csv").write_text(csv_text(plan.bill, settings.units), encoding="utf-8", newline="")
            write_pdf(sheets, folder / "drawings.pdf", title=settings.title)
            if asked.dxf:
                write_dxfs(plan, folder / "dxf", written)
            if asked.svg:
                write_svgs(sheets, folder / "svg")
            document.saveAs(str(folder / "project.FCStd"))
            if not (folder / "project.FCStd").is_file():
                raise Refusal(f"The project could not be saved in {asked.out}: make room or choose another folder.")
        finally:
            FreeCAD.closeDocument(document.Name)
    _report(plan, Path(asked.out), [name for name in ("dxf", "svg") if getattr(asked, name)])
    return plan.proven


def today() -> str:
    """The date on the pages of a job that gives none."""
    return date.today().isoformat()


def _plan_boards(document: Any, settings: Settings) -> None:
    """A better cutting plan than the quick one, kept in the document, where there is a rack to cut from."""
    if settings.boards:
        stacks, wood = finished_stacks(document), wood_settings(document)
        better = plan_boards(stacks, wood, rounds=LOOK_LONGER, lp_bound=True)
        keep_cutting(document, better, key_of(stacks, wood))


def _draw_boards(document: Any, plan: Plan) -> None:
    """Put the picture of the boards into the document, beside their plan."""
    cutting = cutting_in(document)
    if cutting is not None:
        with drawn(plan, plan.units) as picture:
            if picture:
                cutting.Picture = picture


def _settings(asked: argparse.Namespace) -> tuple[Settings, tuple[str, ...]]:
    """What was asked for, and what the maker is told about the file it stands in."""
    if asked.settings:
        path = Path(asked.settings)
        try:
            text = path.read_text(encoding="utf-8")
        except FileNotFoundError:
            raise Refusal(f"There is no settings file {path}: check the name.") from None
        except (OSError, UnicodeDecodeError) as error:
            raise Refusal(f"{path} cannot be read as text ({error}): give a TOML file.") from None
        return read_with_notes(text, path.name)
    if not asked.form:
        path = example_settings()
        settings, told = read_with_notes(path.read_text(encoding="utf-8"), path.name)
        rack = example_rack()
        return replace(settings, boards=read_rack(rack.read_text(encoding="utf-8"), rack.name).boards), told
    return Settings(title=Path(asked.form).stem), ()


def _with_flags(settings: Settings, asked: argparse.Namespace) -> Settings:
    """The flags win over the settings file, for every stack."""
    settings = replace(
        settings,
        paper=asked.paper or settings.paper,
        units=asked.units or settings.units,
    )
    changes: dict[str, Any] = {}
    if asked.stock is not None:
        changes["stock"] = parse_lengths(asked.stock, settings.units)
        # Thicknesses measured for other boards would contradict the flag.
        changes["thicknesses"] = ()
    if asked.allowance is not None:
        changes["allowance"] = parse_length(asked.allowance, settings.units)
    if asked.axis is not None:
        changes["axis"] = _axis(asked.axis)
    if asked.species is not None:
        changes["species"] = find_species(species_table(), asked.species).name
    if not changes:
        return settings
    return replace(settings, stacks=tuple(replace(s, **changes) for s in settings.stacks or (StackSettings(),)))


def _axis(text: str) -> tuple[float, float, float]:
    if text.lower() in AXES:
        return AXES[text.lower()]
    try:
        x, y, z = (float(part) for part in text.split(","))
    except ValueError:
        raise Refusal(f"“{text}” is no axis: give x, y, z, or three numbers such as 0,1,1.") from None
    return x, y, z


@contextmanager
def _aside(out: Path) -> Iterator[Path]:
    """A folder inside `out` whose files take their places when all is written; nothing is left when it is not."""
    made = not out.exists()
    try:
        out.mkdir(parents=True, exist_ok=True)
        folder = Path(tempfile.mkdtemp(prefix=".unfinished-", dir=out))
    except OSError as error:
        raise Refusal(f"The folder {out} cannot be written ({error.strerror}): choose another with --out.") from error
    done = False
    try:
        yield folder
        for name in sorted(os.listdir(folder)):
            _put(folder / name, out / name)
        done = True
    except OSError as error:
        why = error.strerror or error
        raise Refusal(f"{out} could not be written ({why}): make room or choose another folder.") from error
    finally:
        shutil.rmtree(folder, ignore_errors=True)
        if made and not done:
            shutil.rmtree(out, ignore_errors=True)


def _put(new: Path, place: Path) -> None:
    """Put a file in its place, or the files of a folder beside what a maker keeps there."""
    if new.is_dir() and place.is_dir():
        for name in sorted(os.listdir(new)):
            os.replace(new / name, place / name)
    else:
        os.replace(new, place)


def _report(plan: Plan, out: Path, folders: Sequence[str] = ()) -> None:
    units = plan.units
    for stack in plan.stacks:
        proof = stack.containment
        verdict = "proven" if proof.proven else "STOP: the form is not inside its blanks"
        print(
            f"{stack.name}: {len(stack.layers)} layers of {stack.species}, "
            f"{format_length(stack.height, units)} high, least cover {format_fine(proof.least_cover, units)}, {verdict}"
        )
    for note in plan.notes:
        print(f"note: {note}")
    for joint in plan.joints:
        size = " × ".join(format_fine(side, units) for side in joint.tenon.size)
        print(
            f"{joint.name}: tenon {size} × {format_length(joint.tenon.length, units)}, "
            f"cover {format_length(rounded_down(joint.least_cover, units), units)}"
        )
    if plan.boards is not None:
        _report_boards(plan.boards)
    if plan.carving is not None:
        _report_carving(plan.carving, units)
    for check in plan.checks:
        if check.verdict != "ok":
            print(f"{check.verdict}: {check.says}")
    print(f"Written to {out}: {', '.join((*FILES, *folders))}")


def _report_carving(guide: CarvingPlan, units: str) -> None:
    holes = [hole for depth_map in guide.depth_maps for hole in depth_map.holes]
    volume = format_volume(sum(r.volume for r in guide.removed), units)
    time = "" if guide.hours is None else f", about {guide.hours:.1f} hours at your own rate"
    print(f"Carving: {len(holes)} depth holes, {len(guide.templates)} section templates, {volume} to carve{time}")


def _report_boards(boards: BoardsPlan) -> None:
    if boards.plan and boards.yield_ is not None:
        buy = sum(not b.on_hand for b in boards.plan)
        print(
            f"Boards: {len(boards.plan) - buy} from the rack, {buy} to buy, {100 * boards.yield_:.0f} % of them "
            f"becomes staves, cost {cost_text(boards)}; {gap_text(boards)}"
        )
    for line in (*boards.short, *boards.notes):
        print(f"boards: {line}")
    for seam in boards.seam_conflicts:
        print(f"caution: {seam.stack} {seam.layer}: {seam.says}")
