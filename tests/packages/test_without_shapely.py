# SPDX-License-Identifier: LGPL-2.1-or-later

"""What works, and what is said, where shapely cannot be used: on the command line, and of the workbench's modules."""

from __future__ import annotations

import ast
import os
import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.freecad

CHECKOUT = Path(__file__).resolve().parents[2]


@pytest.fixture
def environment(tmp_path) -> dict[str, str]:
    """Variables with which Python finds a shapely that does not load, as one made for another Python would not."""
    (tmp_path / "broken" / "shapely").mkdir(parents=True)
    (tmp_path / "broken" / "shapely" / "__init__.py").write_text("from shapely import lib\n")
    path = os.pathsep.join([str(tmp_path / "broken"), str(CHECKOUT), os.environ.get("PYTHONPATH", "")])
    return {**os.environ, "PYTHONPATH": path, "PYTHONDONTWRITEBYTECODE": "1"}


def test_the_command_line_says_one_sentence_and_leaves_nothing(tmp_path, environment) -> None:
    line = [sys.executable, "-m", "freecad_stacklam", "plan", "--out", str(tmp_path / "plan")]
    done = subprocess.run(line, cwd=CHECKOUT, env=environment, capture_output=True, text=True)
    assert done.returncode == 2
    (said,) = [line for line in done.stderr.splitlines() if "shapely" in line]
    assert said.startswith(f"Nothing can be planned: shapely is there, in {tmp_path / 'broken'}, but does not load: ")
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "plan").exists()


def test_what_the_commands_stand_on_loads_all_the_same(environment) -> None:
    names = ["docobjects", "docobjects.base.family", "docobjects.base.proxy", "docobjects.observer", "packages.missing"]
    code = f"import FreeCAD\nfor name in {names}: __import__('freecad_stacklam.' + name)\n"
    done = subprocess.run([sys.executable, "-c", code], cwd=CHECKOUT, env=environment, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr


def test_a_stand_in_keeps_the_class_that_files_name(environment) -> None:
    code = (
        "import FreeCAD\n"
        "from freecad_stacklam.workbench.installing.standins import stand_back, stand_in_where_needed\n"
        "stand_in_where_needed(); stand_in_where_needed()\n"
        "from freecad_stacklam.docobjects.stack import Stack\n"
        "print(Stack.__module__, Stack.__name__, Stack.__mro__[1].__name__)\n"
        "thing = type('Thing', (), {'Label': 'Gate post'})()\n"
        "try: Stack().execute(thing)\n"
        "except ValueError as no: print(type(no)); print(no)\n"
        "print(stand_back(), stand_back())\n"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=CHECKOUT, env=environment, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    names, label, sentence, back = done.stdout.splitlines()[-4:]
    assert names == "freecad_stacklam.docobjects.stack Stack StandIn"
    assert label == "Gate post"
    assert sentence.startswith("cannot be computed: shapely is there, in ")
    assert back == "True False"


def test_every_object_has_its_stand_in() -> None:
    from freecad_stacklam.objectkinds import KINDS
    from freecad_stacklam.workbench.installing.standins import CLASSES

    written = {}
    for path in (CHECKOUT / "freecad_stacklam" / "docobjects").glob("*.py"):
        classes = [node.name for node in ast.parse(path.read_text()).body if isinstance(node, ast.ClassDef)]
        written.update((path.stem, name) for name in classes if name in KINDS)
    assert written == CLASSES
    assert set(CLASSES.values()) == set(KINDS)
