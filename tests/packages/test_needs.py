# SPDX-License-Identifier: LGPL-2.1-or-later

"""The needs say the same as what pip and FreeCAD's addon manager read, and ezdxf's are those of its own metadata."""

from __future__ import annotations

import importlib.metadata
import re
import tomllib
from pathlib import Path
from xml.etree import ElementTree

from freecad_stacklam.packages.needs import DXF, PLANNING

CHECKOUT = Path(__file__).resolve().parents[2]


def test_the_versions_are_those_of_the_project_file() -> None:
    project = tomllib.loads((CHECKOUT / "pyproject.toml").read_text())["project"]
    assert [need.requirement for need in PLANNING] == project["dependencies"]
    (ezdxf,) = [need for need in DXF if need.module == "ezdxf"]
    assert project["optional-dependencies"]["dxf"] == [ezdxf.requirement]


def test_the_versions_are_those_that_the_tools_install() -> None:
    lines = (CHECKOUT / "tools" / "requirements.txt").read_text().splitlines()
    listed = {line for line in lines if line and not line.startswith("#")}
    assert {need.requirement for need in (*PLANNING, *DXF) if not need.is_freecads} == listed


def test_the_manifest_names_what_must_be_installed() -> None:
    root = ElementTree.parse(CHECKOUT / "package.xml").getroot()
    named = {element.text for element in root.iter("{https://wiki.freecad.org/Package_Metadata}depend")}
    assert named == {"shapely", "ezdxf"}  # ezdxf's own needs are found by pip, which the addon manager runs with them
    assert named <= {need.package for need in (*PLANNING, *DXF)}


def test_ezdxf_has_all_that_its_own_metadata_asks_for() -> None:
    asked = importlib.metadata.requires("ezdxf") or []
    names = {re.match(r"[\w-]+", line)[0].lower().replace("-", "_") for line in asked if "extra ==" not in line}
    assert names == {need.package for need in DXF if need.package != "ezdxf"} | {"numpy"}
