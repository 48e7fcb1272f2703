# SPDX-License-Identifier: LGPL-2.1-or-later

"""The house stands as its rules say: the manifest, the arrows between the rooms, the names.

The manifest is held against FreeCAD's published package metadata format (freecad.org wiki, "Package Metadata"), the
licence identifier against the SPDX list.
"""

from __future__ import annotations

import ast
import os
import re
import subprocess
import sys
import tomllib
from collections.abc import Callable
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import pytest

import freecad_stacklam

CHECKOUT = Path(__file__).resolve().parent.parent
PACKAGE = CHECKOUT / "freecad_stacklam"
SPACE = {"m": "https://wiki.freecad.org/Package_Metadata"}

# What each room may import of the project; the ground floor (data, qt_binding, timelimit) is named where allowed.
ARROWS = {
    "lamination": {"lamination"},
    "benchsheets": {"benchsheets", "lamination"},
    "formfiles": {"formfiles", "lamination"},
    "packages": {"packages", "lamination"},
    "sheetwriters": {"sheetwriters", "benchsheets", "lamination", "data", "packages", "qt_binding"},
    "docobjects": {
        "docobjects",
        "formfiles",
        "lamination",
        "data",
        "objectkinds",
        "packages",
        "timelimit",
        "outsideprograms",
    },
}
# The rooms of the computation, from the top floor down; rooms of one floor know nothing of each other. A file that lies
# in no room stands on the landing, which every room may use.
LADDERS: dict[str, tuple[tuple[str, ...], ...]] = {
    "lamination": (
        ("job",),
        ("asbuilt", "grain"),
        ("gluing",),
        ("pressing", "joining"),
        ("opinion",),
        ("stress",),
        ("strength", "climate", "standing"),
        ("tops",),
        ("voxels", "elastic"),
        ("carving", "inside"),
        ("joints",),
        ("layers", "bill", "bandsaw"),
        ("boards",),
        ("settings", "packing"),
        ("wood",),
        ("plan",),
        ("usage",),
        ("findings",),
        ("form", "options"),
    ),
    "benchsheets": (
        ("book",),
        ("layers", "boards", "joints", "gluing", "carving", "findings", "lists"),
        ("views",),
        ("pages",),
        ("drawing",),
    ),
    "docobjects": (
        ("observer",),
        ("making",),
        ("objects",),
        ("reading",),
        ("spreadsheets",),
        ("forms",),
        ("base",),
    ),
    "workbench": (
        ("commands",),
        ("learning",),
        ("panels",),
        ("piece", "gluing"),
        ("beginning",),
        ("working", "help"),
        ("scene",),
        ("fields",),
        ("panelparts", "installing"),
        ("recorded", "fields.words", "scene.apart"),
    ),
}
#: Files on a landing that have a place of their own on the ladder; of docobjects all do, because users' files name the
#: classes there: they are the objects, unless they are named as a place themselves. Of workbench they open the rooms,
#: and two files that know nothing of their own room stand below all: the words, and what takes objects out of sight.
STANDING = {"docobjects": "objects", "workbench": "commands"}
#: Rooms of issues to come: they have their place on the ladder, and no files yet.
UNBUILT = {"asbuilt", "grain"}
#: Files in a room, at most: more wants another room.
MOST_FILES = 14
OUTSIDE = {"FreeCAD", "FreeCADGui", "Part", "Mesh", "MeshPart", "TechDraw", "PySide", "PySide2", "PySide6"}


@cache
def modules(room: str) -> list[Path]:
    return sorted((PACKAGE / room).rglob("*.py"))


@cache
def parsed(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


@cache
def imports(path: Path) -> frozenset[str]:
    """Dotted names of all that a file imports, wherever in the file it does so."""
    names: set[str] = set()
    for node in ast.walk(parsed(path)):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path} imports relatively: write from freecad_stacklam.… import …"
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
    return frozenset(names)


@pytest.mark.parametrize("room", sorted(ARROWS))
def test_arrows_run_downwards(room: str) -> None:
    files = modules(room)
    assert files, f"the room {room} is empty"
    for path in files:
        for name in imports(path):
            if name.startswith("freecad_stacklam."):
                target = name.split(".")[1]
                assert target in ARROWS[room] | {"__version__"}, f"{path.name} in {room} reaches up to {name}"


def _names_of(module: str) -> set[str]:
    """Dotted names of the files that a name given to `import` may stand for."""
    parts = module.split(".")
    return {".".join(parts[:n]) for n in range(2, len(parts) + 1)}


@cache
def _arrows(floor: str) -> dict[str, set[str]]:
    """File → files of the same floor that it imports, dotted and without the floor's name."""
    stem = f"freecad_stacklam.{floor}."
    files = {".".join(p.relative_to(CHECKOUT).with_suffix("").parts)[len(stem) :]: p for p in modules(floor)}
    return {
        name: {
            found[len(stem) :]
            for dotted in imports(path)
            for found in _names_of(dotted)
            if found.startswith(stem) and found[len(stem) :] in files
        }
        - {name}
        for name, path in files.items()
    }


@pytest.mark.parametrize("floor", sorted(LADDERS))
def test_arrows_between_rooms_run_down_the_ladder(floor: str) -> None:
    height = {room: i for i, rooms in enumerate(reversed(LADDERS[floor])) for room in rooms}
    there = {p.name for p in (PACKAGE / floor).iterdir() if p.is_dir() and (p / "__init__.py").exists()}
    standing = {p.stem for p in (PACKAGE / floor).glob("*.py")} if floor in STANDING else set()
    assert there == set(height) - (UNBUILT - there) - standing - set(STANDING.values()) - {
        name for name in height if "." in name
    }, "a room has no place, or is gone"

    def place(name: str) -> tuple[str, str]:
        if name in height:
            return name, name
        room, _, inside = name.partition(".")
        if inside or floor not in STANDING:
            return room, inside
        return (room if room in height else STANDING[floor]), room

    for name, uses in _arrows(floor).items():
        if name == "__init__":
            continue
        room, inside = place(name)
        for used in uses:
            other, within = place(used)
            if not within or (other == room and inside):
                continue  # the landing, or the same room
            assert inside, f"{floor}/{name} stands on the landing and reaches into the room {other}"
            assert height[other] < height[room], f"{floor}/{name} reaches up or across to {used}"


@pytest.mark.parametrize("floor", sorted({*ARROWS, *LADDERS}))
def test_no_file_is_in_a_circle(floor: str) -> None:
    arrows = _arrows(floor)
    while True:
        ground = {name for name, uses in arrows.items() if not uses}
        if not ground:
            break
        arrows = {name: uses - ground for name, uses in arrows.items() if name not in ground}
    assert not arrows, f"these files import each other in a circle, or stand on one: {sorted(arrows)}"


@pytest.mark.parametrize("floor", sorted({*ARROWS, *LADDERS}))
def test_no_room_is_crowded(floor: str) -> None:
    for folder in (PACKAGE / floor, *(p for p in (PACKAGE / floor).iterdir() if p.is_dir())):
        files = [p.name for p in folder.glob("*.py") if p.name != "__init__.py"]
        assert len(files) <= MOST_FILES, f"{folder} has {len(files)} files"


def test_tests_mirror_the_computation() -> None:
    """A test file for each file, at the same place."""
    names = {
        str(p.relative_to(PACKAGE / "lamination").with_suffix(""))
        for p in modules("lamination")
        if p.stem != "__init__"
    }
    tests = CHECKOUT / "tests" / "lamination"
    tested = {str((p.parent / p.stem[len("test_") :]).relative_to(tests)) for p in tests.rglob("test_*.py")}
    assert names <= tested, sorted(names - tested)
    # Tests of several files at once: other people's models, and properties that hold for any form.
    assert tested - names == {"layers/models", "layers/properties", "job/every_check", "settings/every_option"}


@pytest.mark.parametrize("room", ["lamination", "benchsheets"])
def test_computation_knows_neither_freecad_nor_qt(room: str) -> None:
    for path in modules(room):
        outside = {name.split(".")[0] for name in imports(path)} & OUTSIDE
        assert not outside, f"{path.name} in {room} imports {outside}"
        assert not re.search(r"\bopen\(|\.read_text\(|\.write_text\(", path.read_text(encoding="utf-8")), path


@pytest.mark.parametrize("room", ["lamination", "benchsheets"])
def test_computation_imports_in_plain_python(room: str) -> None:
    names = [".".join(path.relative_to(CHECKOUT).with_suffix("").parts) for path in modules(room)]
    code = (
        f"import importlib, sys\nfor name in {names!r}: importlib.import_module(name)\n"
        f"print(sorted(set(sys.modules) & {OUTSIDE!r}))"
    )
    environment = {key: value for key, value in os.environ.items() if key != "PYTHONPATH"}
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=CHECKOUT, capture_output=True, text=True, env=environment, timeout=60
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip() == "[]"


#: Small numbers that are no tolerances: how many a file may hold, and why.
SMALL_NUMBERS = {
    "formfiles/meshfiles.py": (1, "a micrometre in mm"),
    "lamination/quantities.py": (3, "MPa in a psi, in a kPa; kg in a gram"),
    "lamination/settings/presses.py": (1, "MPa of the faintest vacuum"),
    "lamination/wood/moisture.py": (5, "coefficients of Eq. 4-5"),
}


def small_numbers(path: Path) -> list[float]:
    """Numbers below a hundredth written in a file, in formulas as in text."""
    nodes = ast.walk(parsed(path))
    return [n.value for n in nodes if isinstance(n, ast.Constant) and isinstance(n.value, float) and 0 < n.value < 0.01]


@pytest.mark.parametrize("room", sorted(p.name for p in PACKAGE.iterdir() if (p / "__init__.py").exists()))
def test_every_tolerance_has_a_name_and_stands_in_one_file(room: str) -> None:
    tolerances = PACKAGE / "lamination" / "tolerances.py"
    found = {str(p.relative_to(PACKAGE)): small_numbers(p) for p in modules(room) if p != tolerances}
    count = {name: len(numbers) for name, numbers in found.items() if numbers}
    allowed = {name: many for name, (many, _) in SMALL_NUMBERS.items() if name.startswith(room)}
    assert count == allowed, "give it a name, a unit and a reason in lamination/tolerances.py"


def test_every_named_tolerance_is_used() -> None:
    tolerances = PACKAGE / "lamination" / "tolerances.py"
    names = {t.id for n in ast.parse(tolerances.read_text()).body if isinstance(n, ast.Assign) for t in n.targets
             if isinstance(t, ast.Name)}  # fmt: skip
    used = {name.rsplit(".", 1)[1] for p in PACKAGE.rglob("*.py") for name in imports(p)
            if name.startswith("freecad_stacklam.lamination.tolerances.")}  # fmt: skip
    within = {n.id for n in ast.walk(ast.parse(tolerances.read_text())) if isinstance(n, ast.Name)
              and isinstance(n.ctx, ast.Load)}  # fmt: skip
    assert names - used - within == set()


def test_only_one_file_chooses_the_qt_binding() -> None:
    for path in PACKAGE.rglob("*.py"):
        found = {name.split(".")[0] for name in imports(path)} & {"PySide", "PySide2", "PySide6", "PyQt5", "PyQt6"}
        assert not found or path == PACKAGE / "qt_binding.py", f"{path} imports {found}"


def test_only_the_package_is_a_module_at_the_top() -> None:
    # FreeCAD puts the checkout itself at the front of sys.path, for all addons.
    assert [entry.name for entry in CHECKOUT.glob("*.py")] == []
    tops = {p.parent.name for p in CHECKOUT.glob("*/__init__.py")}
    assert tops - {".venv", "out"} == {"freecad_stacklam"}


def manifest() -> tuple[ElementTree.Element, Callable[[str], str]]:
    """package.xml, and what finds the text of one of its elements by path."""
    root = ElementTree.parse(CHECKOUT / "package.xml").getroot()

    def text(path: str) -> str:
        found = root.findall(path, SPACE)
        assert len(found) == 1, f"package.xml has {len(found)} of {path}"
        return found[0].text or ""

    return root, text


def test_the_manifest_says_what_freecad_needs() -> None:
    root, text = manifest()
    assert root.tag == f"{{{SPACE['m']}}}package"
    assert root.get("format") == "1"
    # Required of every package by the published format.
    assert text("m:name") == "StackLam"
    assert text("m:version") == freecad_stacklam.__version__
    assert re.fullmatch(r"\d{4}-\d{2}-\d{2}", text("m:date"))
    assert text("m:description")
    assert text("m:maintainer")
    assert text("m:license") == "LGPL-2.1-or-later"
    licence = root.find("m:license", SPACE)
    assert licence is not None
    assert (CHECKOUT / licence.get("file", "")).read_text().lstrip().startswith("GNU LESSER GENERAL PUBLIC LICENSE")
    assert (CHECKOUT / text("m:icon")).is_file()
    # What this package needs.
    assert text("m:freecadmin") == "0.20.0"
    assert text("m:pythonmin") == "3.11"
    assert root.find(".//m:freecadmax", SPACE) is None
    depends = {d.text: d.get("optional", "false") for d in root.findall("m:depend", SPACE)}
    assert depends == {"shapely": "false", "ezdxf": "true"}


def test_the_manifest_says_nothing_twice_and_names_no_address_that_does_not_exist() -> None:
    root, _ = manifest()
    tags = [tag.text for tag in root.findall(".//m:tag", SPACE)]
    assert len(tags) == len(set(tags))
    assert len(root.findall(".//m:freecadmin", SPACE)) == 1
    # Names that RFC 2606 reserves, so that they never lead anywhere.
    assert not re.search(
        r"\bexample\.(org|com|net)\b|\.(example|invalid|test)\b", (CHECKOUT / "package.xml").read_text()
    )
    # Of addresses, the format wants the repository with its branch first.
    addresses = root.findall("m:url", SPACE)
    assert not addresses or any(url.get("type") == "repository" and url.get("branch") for url in addresses)


def test_freecad_finds_the_workbench_from_the_manifest() -> None:
    _, text = manifest()
    subdirectory = CHECKOUT / text("m:content/m:workbench/m:subdirectory")
    # FreeCAD puts this folder on sys.path too, for all addons: whatever lay in it could be taken for theirs.
    assert [p.name for p in subdirectory.iterdir() if p.name != "__pycache__"] == ["InitGui.py"]
    # FreeCAD joins a workbench's icon to its subdirectory.
    assert (subdirectory / text("m:content/m:workbench/m:icon")).resolve() == CHECKOUT / "icons" / "stacklam.svg"
    tree = ast.parse((subdirectory / "InitGui.py").read_text(encoding="utf-8"))
    classes = {node.name for node in ast.walk(tree) if isinstance(node, ast.ClassDef)}
    assert text("m:content/m:workbench/m:classname") in classes


def test_the_version_is_written_once() -> None:
    with (CHECKOUT / "pyproject.toml").open("rb") as file:
        project = tomllib.load(file)
    assert "version" not in project["project"]
    assert project["tool"]["setuptools"]["dynamic"]["version"] == {"attr": "freecad_stacklam.__version__"}


def test_every_source_names_its_licence() -> None:
    # The line is that of the SPDX specification (annex "SPDX short identifiers in source files"). Files that have no
    # room for a comment (CSV, JSON, pictures, FreeCAD documents) and the two readmes fall under LICENSE as a whole.
    kinds = {".py", ".sh", ".toml", ".svg", ".xml", ".yml", ".cfg"}
    left_out = {".venv", "out", "__pycache__", ".git", ".hypothesis", ".mypy_cache", ".ruff_cache", ".pytest_cache"}
    sources = [
        path
        for top in CHECKOUT.iterdir()
        if top.name not in left_out
        for path in ([top] if top.is_file() else top.rglob("*"))
        if path.is_file()
        and (path.suffix in kinds or path.name in {"run", "requirements.txt", "requirements-test.txt"})
    ]
    assert len(sources) > 200
    for path in sources:
        head = path.read_text(encoding="utf-8").splitlines()[:4]
        assert any("SPDX-License-Identifier: LGPL-2.1-or-later" in line for line in head), path


@pytest.mark.parametrize("icon", sorted(p.name for p in (CHECKOUT / "icons").glob("*.svg")))
def test_icons_are_64_px_squares(icon: str) -> None:
    root = ElementTree.parse(CHECKOUT / "icons" / icon).getroot()
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("64", "64", "0 0 64 64")


def test_every_command_has_an_icon() -> None:
    tree = parsed(PACKAGE / "workbench" / "commands.py")
    names = {n.value for n in ast.walk(tree) if isinstance(n, ast.Constant) and isinstance(n.value, str)}
    commands = {name for name in names if re.fullmatch(r"StackLam_[A-Za-z]+", name)}
    assert len(commands) > 15
    examples = {name for name in commands if name.startswith("StackLam_Example")}  # one icon for all
    expected = commands - examples | {"StackLam_Example", "StackLam_SetUp"}
    assert {f"{name}.svg" for name in expected} <= {p.name for p in (CHECKOUT / "icons").glob("*.svg")}


@pytest.mark.parametrize("tool", ["setup.sh", "try.sh", "test.sh", "matrix.sh"])
def test_tools_are_posix_shell(tool: str) -> None:
    done = subprocess.run(["sh", "-n", str(CHECKOUT / "tools" / tool)], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr


#: What shows a text to a person → which of its arguments that is.
SHOWN = {
    "tell": 0, "group": 0, "QLabel": 0, "QPushButton": 0, "QCheckBox": 0, "QGroupBox": 0, "setText": 0, "setToolTip": 0,
    "setPlaceholderText": 0, "setWindowTitle": 0, "setSpecialValueText": 0, "setTitle": 0, "addRow": 0, "addTab": 1,
    "one_undo_step": 1, "Refusal": 0, "length_field": 2, "angle_field": 2,
}  # fmt: skip


def untranslated(tree: ast.AST) -> list[str]:
    """Words in a call of SHOWN that are not in a call of translate."""
    found = []
    for call in ast.walk(tree):
        if not isinstance(call, ast.Call):
            continue
        name = call.func.attr if isinstance(call.func, ast.Attribute) else getattr(call.func, "id", "")
        if name in SHOWN and len(call.args) > SHOWN[name]:
            found += [f"line {call.lineno}: {text}" for text in _bare_words(call.args[SHOWN[name]])]
    return found


def _bare_words(node: ast.AST) -> list[str]:
    if isinstance(node, ast.Call):  # translate("StackLam", …), or what another function makes of it
        return []
    if isinstance(node, ast.Constant):
        return [node.value] if isinstance(node.value, str) and re.search(r"[A-Za-z]{3}", node.value) else []
    if isinstance(node, ast.FormattedValue):
        return []
    return [text for child in ast.iter_child_nodes(node) for text in _bare_words(child)]


@pytest.mark.parametrize("path", modules("workbench"), ids=lambda p: p.name)
def test_every_word_that_a_person_sees_can_be_translated(path: Path) -> None:
    # FreeCAD wiki, "Translating an external workbench": translate(context, text) with the text as a literal.
    assert untranslated(ast.parse(path.read_text(encoding="utf-8"))) == []


def test_the_search_for_untranslated_words_finds_them() -> None:
    bad = ast.parse('box.setText(f"{n} layers"); box.setToolTip(translate("StackLam", "Layers")); tell("Not so")')
    assert [text.split(": ")[1] for text in untranslated(bad)] == [" layers", "Not so"]


@pytest.mark.parametrize(
    "page",
    ["README.md", "DEVELOPERS.md", *(f"docs/help/{path.name}" for path in (CHECKOUT / "docs/help").glob("*.md"))],
)
def test_every_file_that_the_readmes_name_is_there(page: str) -> None:
    text = (CHECKOUT / page).read_text(encoding="utf-8")
    written = {"stack.py", "settings.toml", "project.FCStd", "plan.json", "bill.csv", "drawings.pdf", "dxf/", "svg/"}
    for name in re.findall(r"`([\w/.-]+(?:\.(?:py|md|toml|csv|sh|txt)|/))`", text):
        if name in written or name.startswith(("~", "/")):
            continue
        places = [CHECKOUT / name, PACKAGE / name, PACKAGE / "lamination" / name, PACKAGE / "docobjects" / name]
        places += [PACKAGE / room / name for room in ("benchsheets", "workbench")]
        places += [CHECKOUT / folder / name for folder in ("tests/benchmarks", "tools")]
        assert any(place.exists() for place in places), f"{page} names {name}, which is not there"


@pytest.mark.parametrize("path", sorted((CHECKOUT / "tests" / "benchmarks").glob("bench_*.py")), ids=lambda p: p.name)
def test_benchmarks_find_all_that_they_measure(path: Path) -> None:
    """They are run by hand, from the checkout and without any setting: here only what they import is asked for."""
    code = (
        f"import runpy, sys; sys.path.insert(0, {str(path.parent)!r}); runpy.run_path({str(path)!r}, run_name='asked')"
    )
    environment = {key: value for key, value in os.environ.items() if key != "PYTHONPATH"}
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=CHECKOUT, capture_output=True, text=True, env=environment, timeout=60
    )
    assert done.returncode == 0, done.stderr
