# SPDX-License-Identifier: LGPL-2.1-or-later

"""What every test may rely on.

A test marked `freecad` fails, and is never skipped, where the FreeCAD module cannot be imported: a run that leaves
those tests out must say so itself with -m "not freecad and not gui".
"""

from __future__ import annotations

import sys
from collections.abc import Generator
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(CHECKOUT))


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
