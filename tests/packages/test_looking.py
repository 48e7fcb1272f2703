# SPDX-License-Identifier: LGPL-2.1-or-later

"""A package that is not there, one that is too old, and one that does not load are told apart."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from freecad_stacklam.packages.looking import Matter, faults, forget, parsed
from freecad_stacklam.packages.missing import PackagesMissing, need_dxf, need_planning, sentence_for
from freecad_stacklam.packages.needs import DXF, PLANNING, Need

SAW = Need("sawdust_reader", "sawdust-reader", (2, 1))


class Hidden:
    """A finder that says of some modules that they are not there, as Python would."""

    def __init__(self, *names: str) -> None:
        self.names = names

    def find_spec(self, name, path=None, target=None):
        if name.partition(".")[0] in self.names:
            raise ModuleNotFoundError(f"No module named {name!r}", name=name)
        return None


@pytest.fixture
def hide(monkeypatch):
    """Hide modules, and let what was loaded be loaded again; afterwards all is as it was."""
    before = dict(sys.modules)

    def without(*names: str, anew: tuple[str, ...] = ()) -> None:
        for name in list(sys.modules):
            if name.partition(".")[0] in (*names, *anew):
                del sys.modules[name]
        monkeypatch.setattr(sys, "meta_path", [Hidden(*names), *sys.meta_path])

    yield without
    sys.modules.clear()
    sys.modules.update(before)


@pytest.fixture
def shelf(tmp_path, monkeypatch):
    """Lay a package of our own making on Python's path."""
    monkeypatch.syspath_prepend(str(tmp_path))

    def lay(text: str, name: str = SAW.module) -> Path:
        (tmp_path / name).mkdir()
        (tmp_path / name / "__init__.py").write_text(text)
        monkeypatch.delitem(sys.modules, name, raising=False)
        return tmp_path

    yield lay
    for name in [name for name in sys.modules if name.startswith(SAW.module)]:
        del sys.modules[name]


def test_nothing_is_the_matter_here() -> None:
    assert faults((*PLANNING, *DXF)) == ()
    need_planning()
    need_dxf()


def test_a_package_that_is_not_there() -> None:
    (fault,) = faults([SAW])
    assert (fault.matter, fault.place) == (Matter.NOT_THERE, "")
    assert fault.told() == "sawdust-reader 2.1 or newer is not there"


def test_a_package_that_is_too_old(shelf) -> None:
    folder = shelf("__version__ = '2.0.7'\n")
    (fault,) = faults([SAW])
    assert (fault.matter, fault.place, fault.detail) == (Matter.TOO_OLD, str(folder), "2.0.7")
    assert fault.told() == f"sawdust-reader in {folder} is version 2.0.7, and 2.1 or newer is needed"


@pytest.mark.parametrize(
    ("text", "because"),
    [
        ("import no_such_part\n", "it needs no_such_part, which is not there"),
        ("import sawdust_reader._lib\n", "its part sawdust_reader._lib is not there"),
        ("raise ImportError('libgeos.so: cannot open\\nmore')\n", "libgeos.so: cannot open"),
        ("raise RuntimeError('built for another numpy.')\n", "built for another numpy"),
        ("raise SystemExit('no licence')\n", "no licence"),
        ("import sys; sys.exit(3)\n", "3"),
    ],
)
def test_a_package_that_does_not_load(shelf, text: str, because: str) -> None:
    folder = shelf(text)
    (fault,) = faults([SAW])
    assert (fault.matter, fault.place) == (Matter.DOES_NOT_LOAD, str(folder))
    assert because in fault.detail
    assert fault.told().startswith(f"sawdust-reader is there, in {folder}, but does not load: ")


def test_what_could_not_be_loaded_is_looked_for_again(shelf) -> None:
    folder = shelf("import no_such_part\n")
    assert faults([SAW])
    (folder / SAW.module / "__init__.py").write_text("__version__ = '2.1.3rc1'  # another length\n")
    forget([SAW])
    assert faults([SAW]) == ()


# PEP 440: a release segment of numbers with points, then what marks a release before or after it.
@pytest.mark.parametrize(("text", "numbers"), [("2.1.0rc1", (2, 1, 0)), ("1.26", (1, 26)), ("odd", ())])
def test_versions(text: str, numbers: tuple[int, ...]) -> None:
    assert parsed(text) == numbers


def test_without_shapely_nothing_is_planned_and_the_sentence_says_why(hide) -> None:
    hide("shapely")
    with pytest.raises(PackagesMissing, match=r"Nothing can be planned: shapely 2\.1 or newer is not there") as told:
        need_planning()
    assert told.value.needs == PLANNING


def test_ezdxf_that_lacks_its_own_needs_is_not_called_absent(hide) -> None:
    # What an install of ezdxf alone, without dependencies, leaves: it is there and cannot be loaded.
    hide("pyparsing", anew=("ezdxf",))
    with pytest.raises(PackagesMissing) as told:
        need_dxf()
    text = str(told.value)
    assert "pyparsing 3.0 or newer is not there" in text
    assert "ezdxf is there, in " in text
    assert "does not load: it needs pyparsing, which is not there" in text
    assert "PDF and SVG need none of it" in text


def test_a_numpy_that_is_too_old_is_freecads_own_matter(shelf) -> None:
    shelf("__version__ = '1.19'\n", "sawdust_reader")
    own = Need("sawdust_reader", "sawdust-reader", (1, 24), is_freecads=True)
    text = sentence_for(faults([own]), Path("/folder"))
    assert "a newer FreeCAD is what helps" in text
    assert "/folder" not in text, "nothing is installed there"


def test_the_sentence_names_package_reason_and_folder(hide) -> None:
    hide("shapely")
    text = sentence_for(faults(PLANNING), Path("/home/maker/AdditionalPythonPackages"))
    assert text == (
        "StackLam lacks a Python package: shapely 2.1 or newer is not there; what is missing goes into "
        "/home/maker/AdditionalPythonPackages."
    )
