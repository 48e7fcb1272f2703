# SPDX-License-Identifier: LGPL-2.1-or-later

"""One job from file to folder, with the document objects that the workbench uses, so the saved project opens there."""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

import FreeCAD

from freecad_stacklam.benchsheets.book.index import sheet_index
from freecad_stacklam.benchsheets.book.whole import drawing_book
from freecad_stacklam.benchsheets.drawing.lettering import Units
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.data import EXAMPLES, example_form, example_rack, example_settings, species_table
from freecad_stacklam.docobjects.base.family import cutting_in
from freecad_stacklam.docobjects.cutting import cost_text, gap_text
from freecad_stacklam.docobjects.forms.formfile import forms_in, unit_note
from freecad_stacklam.docobjects.forms.plancache import standing_still
from freecad_stacklam.docobjects.making.boards import keep_cutting
from freecad_stacklam.docobjects.making.piece import look_and_keep
from freecad_stacklam.docobjects.making.project import fill_document
from freecad_stacklam.docobjects.reading.insides import finished_stacks
from freecad_stacklam.docobjects.reading.whole import plan_of
from freecad_stacklam.docobjects.reading.wood import key_of, longer_for, wood_settings
from freecad_stacklam.docobjects.spreadsheets.billsheet import write_bill
from freecad_stacklam.lamination.bill.csvtext import csv_text
from freecad_stacklam.lamination.boards.rack import read_rack
from freecad_stacklam.lamination.job.cautions import cautions_for
from freecad_stacklam.lamination.job.piece import piece_wanted
from freecad_stacklam.lamination.job.planjson import as_dict, dumps
from freecad_stacklam.lamination.lengths import (
    format_fine,
    format_length,
    format_volume,
    parse_length,
    parse_lengths,
    rounded_down,
)
from freecad_stacklam.lamination.options.kinds import AXES
from freecad_stacklam.lamination.options.rows import Record
from freecad_stacklam.lamination.plan.boards import BoardsPlan
from freecad_stacklam.lamination.plan.carving import CarvingPlan
from freecad_stacklam.lamination.plan.toldonce import told_once
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.file import read_settings, read_with_notes
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.wood.ownspecies import woods_with
from freecad_stacklam.lamination.wood.species import Species, find_species
from freecad_stacklam.lamination.words import say, say_many
from freecad_stacklam.languages import LANGUAGES, speak_language
from freecad_stacklam.marks import mark_project
from freecad_stacklam.outfolder import FOLDERS, PLAN, digests, written_aside
from freecad_stacklam.qt_binding import gui_application
from freecad_stacklam.sheetwriters.benchpage import write_bench_page
from freecad_stacklam.sheetwriters.boardpicture import drawn
from freecad_stacklam.sheetwriters.pdf import write_pdf
from freecad_stacklam.sheetwriters.sheetfolder import write_dxfs, write_svgs

FILES = ("project.FCStd", PLAN, "bill.csv", "drawings.pdf")
#: Written besides where there is a glue-up.
BENCH = "bench.html"


def run(asked: argparse.Namespace) -> Plan:
    """Plan what was asked and write it to asked.out; the plan. Raises Refusal, in the units of the job, and leaves
    nothing."""
    units = asked.units or "mm"
    try:
        _example(asked)
        settings, notes = _settings(asked)
        units = asked.units or settings.units
        settings = _with_flags(settings, asked)
        # To the end of the process, for what is reported of the plan too.
        if settings.language in LANGUAGES:
            speak_language(settings.language)
        return _run(settings, notes, asked)
    except Refusal as refusal:
        refusal.sentence = refusal.told(units)
        raise


def _run(settings: Settings, told: Sequence[str], asked: argparse.Namespace) -> Plan:
    paper = paper_named(settings.paper)
    full = paper_named(settings.paper_full) if settings.paper_full else None
    form = Path(asked.form) if asked.form else example_form(_example(asked))
    inputs = [form, *([Path(asked.settings)] if asked.settings else [])]
    with written_aside(Path(asked.out), (*FILES, *_folders(asked)), inputs) as folder, standing_still():
        gui_application()
        document = FreeCAD.newDocument("project")
        try:
            forms = forms_in(form, document, asked.form_unit or "")
            fill_document(document, forms, settings, partial(_plan_boards, settings=settings))
            if piece_wanted(settings):
                look_and_keep(document, lambda *_: True)
            plan = plan_of(document)
            note = unit_note(form, asked.form_unit or "")
            plan = replace(plan, notes=(*plan.notes, *([note] if note else []), *told))
            _draw_boards(document, plan)
            write_bill(document, plan.bill)
            document.recompute()
            written = Units(settings.units, asked.fraction, asked.both_units)
            sheets = drawing_book(plan, paper, written, full, cautions_for(plan), day=today())
            facts = as_dict(plan, settings)
            facts["sheets"] = sheet_index(sheets)
            (folder / "bill.csv").write_text(csv_text(plan.bill, settings.units), encoding="utf-8", newline="")
            write_pdf(sheets, folder / "drawings.pdf", title=settings.title)
            if plan.glue_up is not None:
                write_bench_page(plan, sheets, folder / BENCH, written)
            if asked.dxf:
                write_dxfs(plan, folder / "dxf", written)
            if asked.svg:
                write_svgs(sheets, folder / "svg")
            document.saveAs(str(folder / "project.FCStd"))
            if not (folder / "project.FCStd").is_file():
                raise Refusal(
                    say("The project could not be saved in {out}: make room or choose another folder.", out=asked.out)
                )
            mark_project(folder / "project.FCStd")
            facts["files"] = digests(folder)
            (folder / PLAN).write_text(dumps(facts), encoding="utf-8")
        finally:
            FreeCAD.closeDocument(document.Name)
    return plan


def _folders(asked: argparse.Namespace) -> list[str]:
    return [name for name in FOLDERS if getattr(asked, name)]


def today() -> str:
    """The date on the pages of a job that gives none."""
    return date.today().isoformat()


def _plan_boards(document: Any, settings: Settings) -> None:
    """A better cutting plan than the quick one, kept in the document, where there is a rack to cut from."""
    if settings.boards:
        stacks, wood = finished_stacks(document), wood_settings(document)
        try:
            better = longer_for(stacks, wood)
        except Refusal:
            return  # said by the plan's checks
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
            raise Refusal(say("There is no settings file {path}: check the name.", path=path)) from None
        except (OSError, UnicodeDecodeError) as error:
            raise Refusal(
                say("{path} cannot be read as text ({error}): give a TOML file.", path=path, error=error)
            ) from None
        woods = woods_with(species_table(), read_settings(text, path.name).species)
        settings, told = read_with_notes(text, path.name, partial(_judge_wood, woods.table))
        return _woods_by_their_names(settings, woods.table), (*told, *woods.notes)
    if not asked.form:
        path = example_settings(_example(asked))
        settings, told = read_with_notes(path.read_text(encoding="utf-8"), path.name)
        if settings.boards:
            return settings, told
        rack = example_rack()
        return replace(settings, boards=read_rack(rack.read_text(encoding="utf-8"), rack.name).boards), told
    return Settings(title=Path(asked.form).stem), ()


def _example(asked: argparse.Namespace) -> str:
    """The name of the bundled example that is planned where no form is given."""
    if not asked.example:
        return next(iter(EXAMPLES))
    if asked.form:
        raise Refusal(say("Give either FORM or --example, not both: an example brings its own form."))
    if asked.example not in EXAMPLES:
        raise Refusal(
            say(
                "There is no example “{name}”: the bundled examples are {examples}.",
                name=asked.example,
                examples=", ".join(EXAMPLES),
            )
        )
    return str(asked.example)


def _judge_wood(table: Mapping[str, Species], record: Record) -> None:
    """Raise Refusal where a record of the settings file names a wood that the table does not know."""
    species = getattr(record, "species", "")
    if species and isinstance(species, str):
        find_species(table, species)


def _woods_by_their_names(settings: Settings, table: Mapping[str, Species]) -> Settings:
    """Every wood as the table writes it: a file may write it with other capitals."""

    def named(record: Any) -> Any:
        return replace(record, species=find_species(table, record.species).name) if record.species else record

    return replace(
        settings,
        stacks=tuple(map(named, settings.stacks)),
        joints=tuple(map(named, settings.joints)),
        boards=tuple(map(named, settings.boards)),
    )


def _with_flags(settings: Settings, asked: argparse.Namespace) -> Settings:
    """The flags win over the settings file, for every stack."""
    settings = replace(
        settings,
        paper=asked.paper or settings.paper,
        units=asked.units or settings.units,
        language=asked.language or settings.language,
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
        changes["species"] = find_species(woods_with(species_table(), settings.species).table, asked.species).name
    if not changes:
        return settings
    return replace(settings, stacks=tuple(replace(s, **changes) for s in settings.stacks or (StackSettings(),)))


def _axis(text: str) -> tuple[float, float, float]:
    if text.lower() in AXES:
        return AXES[text.lower()]
    try:
        x, y, z = (float(part) for part in text.split(","))
    except ValueError:
        raise Refusal(say("“{text}” is no axis: give x, y, z, or three numbers such as 0,1,1.", text=text)) from None
    return x, y, z


def report(plan: Plan, asked: argparse.Namespace) -> Iterator[str]:
    """What is said of a plan that was written, line by line."""
    units = plan.units
    for stack in plan.stacks:
        proof = stack.containment
        verdict = say("proven") if proof.proven else say("STOP: the form is not inside its blanks")
        yield (
            say_many(
                "{name}: {count} layer of {species}, {height} high, least wood left {least_cover}, {verdict}",
                "{name}: {count} layers of {species}, {height} high, least wood left {least_cover}, {verdict}",
                len(stack.layers),
                name=stack.name,
                species=say(stack.species),
                height=format_length(stack.height, units),
                least_cover=format_fine(proof.least_cover, units),
                verdict=verdict,
            )
        )
    for note in plan.notes:
        yield say("note: {note}", note=note)
    for joint in plan.joints:
        size = " × ".join(format_fine(side, units) for side in joint.tenon.size)
        yield (
            say(
                "{name}: tenon {size} × {length}, cover {least_cover}",
                name=joint.name,
                size=size,
                length=format_length(joint.tenon.length, units),
                least_cover=format_length(rounded_down(joint.least_cover, units), units),
            )
        )
    if plan.boards is not None:
        yield from _report_boards(plan.boards)
    if plan.carving is not None:
        yield _report_carving(plan.carving, units)
    for check in told_once(plan, [check for check in plan.checks if check.verdict != "ok"]):
        yield f"{say(check.verdict)}: {check.says}"
    bench = [BENCH] if plan.glue_up is not None else []
    yield say("Written to {folder}: {files}", folder=asked.out, files=", ".join((*FILES, *bench, *_folders(asked))))


def _report_carving(guide: CarvingPlan, units: str) -> str:
    holes = [hole for depth_map in guide.depth_maps for hole in depth_map.holes]
    volume = format_volume(sum(r.volume for r in guide.removed), units)
    counts: dict[str, Any] = {"holes": len(holes), "templates": len(guide.templates), "volume": volume}
    if guide.hours is None:
        return say("Carving: {holes} depth holes, {templates} section templates, {volume} to carve", **counts)
    return say(
        "Carving: {holes} depth holes, {templates} section templates, {volume} to carve, about {hours:.1f} hours at "
        "your own rate",
        hours=guide.hours,
        **counts,
    )


def _report_boards(boards: BoardsPlan) -> Iterator[str]:
    if boards.plan and boards.yield_ is not None:
        buy = sum(not b.on_hand for b in boards.plan)
        yield (
            say(
                "Boards: {cut} from the rack, {buy} to buy, {share:.0f} % of them becomes staves, cost {cost}; {gap}",
                cut=len(boards.plan) - buy,
                buy=buy,
                share=100 * boards.yield_,
                cost=cost_text(boards),
                gap=gap_text(boards),
            )
        )
    for line in (*boards.short, *boards.notes):
        yield say("boards: {line}", line=line)
    for seam in boards.seam_conflicts:
        yield say("caution: {stack} {layer}: {says}", stack=seam.stack, layer=seam.layer, says=seam.says)
