# SPDX-License-Identifier: LGPL-2.1-or-later

"""What every test may rely on.

A test marked `freecad` fails, and is never skipped, where the FreeCAD module cannot be imported: a run that leaves
those tests out must say so itself with -m "not freecad and not gui".
"""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Generator
from pathlib import Path
from zlib import crc32

import pytest

CHECKOUT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(CHECKOUT))


def _of_this_share(path: Path) -> bool:
    """Whether a file belongs to the share K/N of the plain tests that STACKLAM_SHARE names; all do without it."""
    share, _, shares = os.environ.get("STACKLAM_SHARE", "").partition("/")
    if not shares:
        return True
    return crc32(str(path.relative_to(CHECKOUT)).encode()) % int(shares) == int(share) - 1


def pytest_ignore_collect(collection_path: Path, config: pytest.Config) -> bool | None:
    """Leave out, unread, files of which the marks that are asked for choose no test: a part that runs 26 tests need not
    import the three hundred files of all others.

    Only where the expression asks for one mark and others are no more than excluded; whatever else it says, all is
    collected and pytest chooses. A file that does not write `mark.NAME` has no test so marked.
    """
    if not collection_path.name.startswith("test_") or collection_path.suffix != ".py":
        return None
    asked = re.fullmatch(r"(not )?(freecad|gui)((?: and not \w+)*)", config.getoption("markexpr"))
    if asked is None:
        return None
    if asked[1] and not _of_this_share(collection_path):
        return True
    text = collection_path.read_text(encoding="utf-8")
    without = set(re.findall(r"\w+", asked[3])) - {"and", "not"}
    if asked[1]:
        without.add(asked[2])
    elif f"mark.{asked[2]}" not in text:
        return True
    # Marked as a whole.
    whole = re.search(r"^pytestmark = pytest\.mark\.(\w+)$", text, re.MULTILINE)
    return True if whole is not None and whole[1] in without else None


@pytest.fixture(scope="session")
def checkout() -> Path:
    """The folder that holds package.xml."""
    return CHECKOUT


@pytest.fixture(scope="session")
def _freecad_there() -> str:
    """Empty when FreeCAD can be imported, else why not."""
    try:
        import FreeCAD  # noqa: F401
    except ImportError as problem:
        return str(problem)
    return ""


@pytest.fixture(autouse=True)
def _freecad_or_fail(request: pytest.FixtureRequest) -> None:
    if request.node.get_closest_marker("freecad") is None:
        return
    problem = request.getfixturevalue("_freecad_there")
    if problem:
        pytest.fail(f"FreeCAD cannot be imported here ({problem}): run this test with tools/test.sh.", pytrace=False)


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(
    item: pytest.Item, call: pytest.CallInfo[None]
) -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """FreeCAD swallows exceptions in its callbacks and goes on: a traceback it printed fails a test that passed."""
    report = yield
    printed = report.capstdout + report.capstderr
    if report.when == "call" and report.passed and item.get_closest_marker("freecad") and "Traceback" in printed:
        report.outcome = "failed"
        report.longrepr = "An exception was swallowed; its traceback is in the captured output."
    return report
