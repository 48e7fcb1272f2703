#!/usr/bin/env python3
# SPDX-License-Identifier: LGPL-2.1-or-later

"""Bring the catalogues in step with the code: what is said is collected, what is new stands there untranslated, what is
gone goes, and what programs read is compiled.

    .venv/bin/python tools/languages.py             # collect into de.po, stacklam_de.ts …, and compile
    .venv/bin/python tools/languages.py compile     # compile only

The computation and the sheets speak by gettext (lamination/words.py): .po files, by Babel. The window speaks by Qt
(workbench/fields/words.py): .ts files, by Qt's own lupdate and lrelease. Both lie in freecad_stacklam/data/languages.
Qt's tools come from PySide6 in an environment of their own, out/qttools, which is made when it is wanted: that of
Qt 5 does not read Python files as UTF-8, and none may stand beside FreeCAD's own Qt.
"""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from freecad_stacklam import data  # noqa: E402
from freecad_stacklam.lamination.options.rows import Record, rows_of  # noqa: E402
from freecad_stacklam.lamination.settings.job import Settings  # noqa: E402
from freecad_stacklam.languages import LANGUAGES  # noqa: E402

FOLDER = ROOT / "freecad_stacklam" / "data" / "languages"
OTHERS = [code for code in LANGUAGES if code != "en"]
#: What stands in which argument, as Babel asks for it.
KEYWORDS = {"say": None, "say_many": (1, 2), "say_of": ((1, "c"), 2), "mark": None}


def collected() -> Catalog:
    """All that is said, in English."""
    catalogue = Catalog(charset="utf-8", project="StackLam", fuzzy=False)
    found = extract_from_dir(str(ROOT / "freecad_stacklam"), [("**.py", "python")], keywords=KEYWORDS)
    for file, _, message, comments, context in sorted(found, key=lambda one: (one[0], one[1])):
        catalogue.add(message, locations=[(f"freecad_stacklam/{file}", None)], auto_comments=comments, context=context)
    for where, text in _in_f_strings():
        catalogue.add(text, locations=[(where, None)])
    for where, text in _tables():
        catalogue.add(text, locations=[(where, None)])
    return catalogue


def _in_f_strings() -> Iterator[tuple[str, str]]:
    """What is said inside an f-string, which Babel sees from Python 3.12 on only."""
    for path in sorted((ROOT / "freecad_stacklam").rglob("*.py")):
        for held in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            for call in ast.walk(held) if isinstance(held, ast.JoinedStr) else ():
                said = (
                    isinstance(call, ast.Call) and isinstance(call.func, ast.Name) and call.func.id in ("say", "mark")
                )
                if said and isinstance(call.args[0], ast.Constant):
                    yield path.relative_to(ROOT).as_posix(), str(call.args[0].value)


def _tables() -> Iterator[tuple[str, str]]:
    """What stands in rows of options and in the bundled tables, and is said where it is shown."""
    for record in _records(Settings, []):
        for row in rows_of(record):
            choices = (row.kind.says, *row.kind.choices) if row.kind is not None else ()
            for text in (record.NOUN, row.caption, row.tip, row.group, row.nothing, *choices):
                if text:
                    yield f"option {row.key}", text
    for name in data.species_table():
        yield "species.toml", name
    for name in data.glue_table():
        yield "glues.toml", name
    for climate in data.climate_table().values():
        yield from (("climates.toml", text) for text in (climate.name, climate.says) if text)


def _records(record: type[Record], found: list[type[Record]]) -> list[type[Record]]:
    """A record of options and all that it holds."""
    if record not in found:
        found.append(record)
        for row in rows_of(record):
            if row.record is not None:
                _records(row.record, found)
    return found


def written(language: str) -> Catalog:
    """What is translated so far."""
    path = FOLDER / f"{language}.po"
    if not path.exists():
        return Catalog(locale=language, charset="utf-8", project="StackLam", fuzzy=False)
    with path.open("rb") as file:
        return read_po(file, locale=language)


def _qt_tool(name: str) -> str:
    """Path of a program of Qt's for translators."""
    folder = ROOT / "out" / "qttools"
    if not list(folder.glob(f"lib/python*/site-packages/PySide6/{name}")):
        subprocess.run([sys.executable, "-m", "venv", "--clear", str(folder)], check=True)
        pip = [
            str(folder / "bin" / "python"),
            "-m",
            "pip",
            "install",
            "--quiet",
            "--no-deps",
            "PySide6_Essentials==6.12.0",
        ]
        subprocess.run(pip, check=True)
    (found,) = folder.glob(f"lib/python*/site-packages/PySide6/{name}")
    found.chmod(0o755)
    return str(found)


def main(what: str = "") -> None:
    """Do it all, or only compile."""
    FOLDER.mkdir(exist_ok=True)
    sources = sorted(map(str, (ROOT / "freecad_stacklam" / "workbench").rglob("*.py")))
    for language in OTHERS:
        catalogue = written(language)
        if what != "compile":
            catalogue.update(collected(), no_fuzzy_matching=True)
            catalogue.obsolete.clear()
            with (FOLDER / f"{language}.po").open("wb") as file:
                write_po(file, catalogue, width=118, omit_header=False, include_lineno=False, sort_output=False)
            ours = str(FOLDER / f"stacklam_{language}.ts")
            subprocess.run(
                [_qt_tool("lupdate"), "-silent", "-no-obsolete", "-locations", "none", *sources, "-ts", ours],
                check=True,
            )
        with (FOLDER / f"{language}.mo").open("wb") as file:
            write_mo(file, catalogue)
        names = [str(FOLDER / f"stacklam_{language}{end}") for end in (".ts", ".qm")]
        subprocess.run([_qt_tool("lrelease"), "-silent", names[0], "-qm", names[1]], check=True)
        texts = [message for message in catalogue if message.id]
        done = sum(all(m.string if isinstance(m.string, tuple) else (m.string,)) for m in texts)
        print(f"{language}: {done} of {len(texts)} texts of the computation and the sheets are translated")


if __name__ == "__main__":
    main(*sys.argv[1:])
