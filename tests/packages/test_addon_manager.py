# SPDX-License-Identifier: LGPL-2.1-or-later

"""FreeCAD's addon manager, asked by its own code: where it puts Python packages, with which Python, and what it makes
of package.xml. Its code differs from version to version; what a version does not have is skipped there.
"""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.freecad

CHECKOUT = Path(__file__).resolve().parents[2]
PLACES = ("/usr/share/freecad/Mod/AddonManager", "/usr/lib/freecad/Mod/AddonManager")


@pytest.fixture
def manager(monkeypatch):
    """The folder of the addon manager's code, on Python's path; its modules are forgotten afterwards."""
    folder = next((place for place in PLACES if Path(place).is_dir()), None)
    if folder is None:
        pytest.skip("no addon manager on this machine")
    before = dict(sys.modules)
    monkeypatch.syspath_prepend(folder)
    yield Path(folder)
    for name in set(sys.modules) - set(before):
        if str(getattr(sys.modules[name], "__file__", "")).startswith(folder):  # Qt's are not loaded twice
            del sys.modules[name]


def _import(name: str):
    try:
        return __import__(name)
    except ImportError as error:
        pytest.skip(f"this addon manager's {name} does not load without FreeCAD's window: {error}")


def test_packages_go_where_the_addon_manager_puts_them(manager) -> None:
    import FreeCAD

    from freecad_stacklam.packages.host import package_folder
    from freecad_stacklam.workbench.installing.thisfreecad import this_freecad

    ours = package_folder(this_freecad(), {})
    if this_freecad().version < (0, 21):  # it has no function for it: the folder is written out where pip is run
        text = (manager / "addonmanager_workers.py").read_text(encoding="utf-8")
        assert 'FreeCAD.getUserAppDataDir(), "AdditionalPythonPackages"\n' in text
        assert ours == Path(FreeCAD.getUserAppDataDir()) / "AdditionalPythonPackages"
    else:
        theirs = _import("addonmanager_utilities").get_pip_target_directory()
        assert ours.resolve() == Path(theirs).resolve()


def test_the_python_is_the_addon_managers(manager) -> None:
    from freecad_stacklam.packages.host import own_python
    from freecad_stacklam.workbench.installing.thisfreecad import this_freecad

    ours = own_python(this_freecad())
    assert ours
    if this_freecad().version < (0, 21):
        pytest.skip("this addon manager looks for its Python in a worker of its own")
    if this_freecad().version < (1, 1):
        find = _import("addonmanager_dependency_installer").get_python_exe
    else:
        find = _import("addonmanager_utilities").fci.get_python_exe
    # Both may be links to the same program.
    assert Path(ours).resolve() == Path(find()).resolve()


def test_package_xml_as_the_addon_manager_reads_it(manager, tmp_path) -> None:
    """Only shapely must be there, ezdxf may; on a copy, as it comes from a repository."""
    addon = _import("Addon").Addon
    copy = tmp_path / "StackLam"
    copy.mkdir()
    shutil.copy(CHECKOUT / "package.xml", copy)
    shutil.copytree(CHECKOUT / "icons", copy / "icons")
    if hasattr(addon, "Status"):
        status = addon.Status.NOT_INSTALLED
    else:  # 0.20 keeps it outside the class
        status = _import("addonmanager_utilities").UpdateStatus.NOT_INSTALLED
    made = addon("StackLam", str(copy), status, "main")
    if not hasattr(made, "load_metadata_file"):
        pytest.skip("this addon manager reads package.xml elsewhere")
    made.load_metadata_file(str(copy / "package.xml"))
    deps = addon.Dependencies()
    made.walk_dependency_tree({}, deps)
    if hasattr(deps, "python_requires"):
        assert (set(deps.python_requires), set(deps.python_optional)) == ({"shapely"}, {"ezdxf"})
    else:  # 0.20 reads no `optional` and no `type`: what is no addon and no workbench of FreeCAD's is a Python package
        assert (set(deps.python_required), set(deps.python_optional)) == ({"shapely", "ezdxf"}, set())
    assert not deps.required_external_addons
    assert not getattr(deps, "unavailable", None)
