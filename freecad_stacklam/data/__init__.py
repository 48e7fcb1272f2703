# SPDX-License-Identifier: LGPL-2.1-or-later

"""Files that come with the package, and the only place that reads them."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

from freecad_stacklam.lamination.quantities import parse_pressure, parse_temperature, parse_time
from freecad_stacklam.lamination.settings.glue import Glue
from freecad_stacklam.lamination.usage.climate import Climate
from freecad_stacklam.lamination.wood.species import ElasticRatios, GreenValues, PrintedCoefficient, Species

HERE = Path(__file__).resolve().parent


@cache
def species_table() -> dict[str, Species]:
    """The bundled species by name, in the order of the file."""
    with (HERE / "species.toml").open("rb") as file:
        rows = tomllib.load(file)["species"]
    table = {}
    for row in rows:
        printed = tuple(PrintedCoefficient(**p) for p in row.pop("printed", ()))
        green = row.pop("green", None)
        elastic = row.pop("elastic", None)
        table[row["name"]] = Species(
            **{"specific_gravity": None, **row},
            printed=printed,
            green=None if green is None else GreenValues(**green),
            elastic=None if elastic is None else ElasticRatios(**elastic),
        )
    return table


@cache
def glue_table() -> dict[str, Glue]:
    """The bundled kinds of glue by name, in the order of the file."""
    with (HERE / "glues.toml").open("rb") as file:
        rows = tomllib.load(file)["glue"]
    reads = {
        **dict.fromkeys(("open_time", "assembly_time", "clamp_time", "cure_time"), parse_time),
        **dict.fromkeys(("least_pressure", "most_pressure"), parse_pressure),
        "least_temperature": parse_temperature,
    }
    table = {}
    for row in rows:
        held: dict[str, Any] = {key: reads[key](value) if key in reads else value for key, value in row.items()}
        table[row["name"]] = Glue(**held)
    return table


@cache
def climate_table() -> dict[str, Climate]:
    """The bundled climates by name, in the order of the file."""
    with (HERE / "climates.toml").open("rb") as file:
        rows = tomllib.load(file)["climate"]
    made = (Climate(r["name"], tuple((float(t), float(h)) for t, h in r["months"]), r["says"]) for r in rows)
    return {one.name: one for one in made}


#: The bundled examples by the names that the command line takes, and what their files are called. The first is opened
#: and planned where none is named.
EXAMPLES = {
    "plant-stand": "plant_stand",
    "low-seat": "low_seat",
    "vessel": "vessel",
    "leaning-table": "leaning_table",
}


def example_form(name: str = "plant-stand") -> Path:
    """The form of a bundled example, of those in EXAMPLES, as a FreeCAD document."""
    return HERE / f"{EXAMPLES[name]}.FCStd"


def example_settings(name: str = "plant-stand") -> Path:
    """The settings file of a bundled example. All but the plant stand have their boards in it."""
    return HERE / f"{EXAMPLES[name]}.toml"


def example_rack() -> Path:
    """The boards of the plant stand, as a rack's CSV file."""
    return HERE / "rack.csv"


def wedged_settings() -> Path:
    """Other settings for the plant stand: a wedged through tenon, pins, and a hollow pedestal."""
    return HERE / "plant_stand_wedged.toml"


def sheet_template() -> Path:
    """The sheet for TechDraw pages: A4 upright with the fields of ISO 7200."""
    return HERE / "sheet_template_a4.svg"


def bench_page_texts() -> tuple[str, str]:
    """Looks and script of the bench page: CSS and JavaScript."""
    looks, script = ((HERE / name).read_text(encoding="utf-8") for name in ("benchpage.css", "benchpage.js"))
    return looks, script


def language_file(name: str) -> Path:
    """A file of sentences in other languages: de.mo of the computation and the sheets, stacklam_de.qm of the window."""
    return HERE / "languages" / name
