# SPDX-License-Identifier: LGPL-2.1-or-later

"""Drives the real FreeCAD, window and all, from a test.

    def slice_a_ball(desk):                     # runs inside FreeCAD: import what it needs itself
        import FreeCAD
        ball = FreeCAD.newDocument().addObject("Part::Sphere", "Ball")
        FreeCAD.ActiveDocument.recompute()
        desk.open_workbench()
        desk.select(ball)
        desk.command("StackLam_SliceForm")
        desk.picture("panel")
        desk.press_ok()
        return {"objects": [o.Name for o in FreeCAD.ActiveDocument.Objects]}

    @pytest.mark.gui
    def test_slice(tmp_path):
        run = freecad(slice_a_ball, tmp_path)
        assert "Stack" in run.result["objects"]  # run.output: all FreeCAD printed; run.pictures: {"panel": Path}

What the steps can ask of `desk` is in desk.py beside this file. FreeCAD starts with a throw-away home and preferences,
this checkout as an addon in its Mod folder, and the Python packages of the running interpreter where the addon manager
would have put them. An exception in the steps, a `Traceback` in the output, a crash, a hang or a missing answer fails
the test with the end of FreeCAD's output.
"""

from __future__ import annotations

import inspect
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import textwrap
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from xml.sax.saxutils import quoteattr

CHECKOUT = Path(__file__).resolve().parent.parent.parent
SCREEN = "-screen 0 1600x1000x24"

# Nothing may pop up, phone out or save behind a test's back.
QUIET: dict[str, bool | int | float | str] = {
    "General/ShowSplasher": False,
    "General/AutoloadModule": "NoneWorkbench",
    "General/CheckFirstStart": False,
    "Document/AutoSaveEnabled": False,
    "Document/RecoveryEnabled": False,
    "Document/CreateNewDoc": False,
    "Mod/Start/ShowOnStartup": False,
    "Mod/Start/FirstStart2024": False,
    "Addons/AutoCheck": False,
    "View/ShowNaviCube": False,
    "View/UseNavigationAnimations": False,
    "Units/UserSchema": 0,
    # 1.1 lays the task panel over the right of the 3D view; wide enough to be read.
    "/MainWindow/DockWindows/OverlayRight/Width": 430,
}


@dataclass(frozen=True)
class Run:
    """What a run of FreeCAD left: the steps' answer, all that was printed, and the pictures by name."""

    result: dict[str, Any]
    output: str
    pictures: dict[str, Path]


def freecad(
    steps: Callable[..., dict[str, Any] | None] | Path | str,
    folder: Path,
    *,
    arguments: Mapping[str, Any] | None = None,
    preferences: Mapping[str, bool | int | float | str] | None = None,
    timeout: float = 120.0,
    without: tuple[str, ...] = (),
) -> Run:
    """Start FreeCAD, run `steps(desk, **arguments)` in it and return what it answered.

    `steps` is a function (its source is taken, so it must import all it uses and close over nothing) or the path of a
    Python file that defines `steps(desk, …)`. `arguments` and the answer must be JSON. `preferences` are FreeCAD's own,
    for instance {"Units/UserSchema": 3}: by path below BaseApp/Preferences, or below BaseApp with a slash before it.
    `folder` (pytest's tmp_path) takes the home, the result and the pictures; a second run in the same folder keeps the
    home. `timeout` in seconds. `without` names Python packages that FreeCAD shall not find.
    """
    home = _home(folder, {**QUIET, **(preferences or {})}, without)
    job = folder / "job.json"
    answer = folder / "answer.json"
    answer.unlink(missing_ok=True)
    source, name = _source(steps, folder)
    job.write_text(
        json.dumps(
            {
                "checkout": str(CHECKOUT),
                "steps": str(source),
                "function": name,
                "arguments": dict(arguments or {}),
                "answer": str(answer),
                "pictures": str(folder),
            }
        ),
        encoding="utf-8",
    )
    start = folder / "start.FCMacro"
    desk = Path(__file__).with_name("desk.py")
    start.write_text(
        f"import runpy\nrunpy.run_path({str(desk)!r})['begin']({str(job)!r})\n",
        encoding="utf-8",
    )
    output, status = _execute(
        [_program(), "-u", str(home / "user.cfg"), "-s", str(home / "system.cfg"), str(start)], home, timeout
    )
    (folder / "freecad.log").write_text(output, encoding="utf-8")
    tail = "\n".join(output.splitlines()[-60:])
    if status is None:
        raise AssertionError(f"FreeCAD did not finish within {timeout:g} s. Its last words:\n{tail}")
    if not answer.exists():
        raise AssertionError(f"FreeCAD ended with status {status} and left no answer. Its last words:\n{tail}")
    told = json.loads(answer.read_text(encoding="utf-8"))
    if told["error"]:
        raise AssertionError(f"The steps failed inside FreeCAD:\n{told['error']}\nFreeCAD's last words:\n{tail}")
    if "Traceback" in output:
        block = output.split("Traceback", 1)[1]
        raise AssertionError(f"FreeCAD printed a traceback:\nTraceback{block[:6000]}")
    if status != 0:
        raise AssertionError(f"FreeCAD ended with status {status}. Its last words:\n{tail}")
    return Run(told["result"], output, {name: Path(path) for name, path in told["pictures"].items()})


def _program() -> str:
    for name in ("freecad", "FreeCAD"):
        found = shutil.which(name)
        if found:
            return found
    raise AssertionError("FreeCAD is not installed: no program called freecad was found. Run tools/test.sh.")


def _source(steps: Callable[..., Any] | Path | str, folder: Path) -> tuple[Path, str]:
    if callable(steps):
        path = folder / f"{steps.__name__}.py"
        text = "from __future__ import annotations\n" + textwrap.dedent(inspect.getsource(steps))
        path.write_text(text, encoding="utf-8")
        return path, steps.__name__
    return Path(steps), "steps"


def _home(folder: Path, preferences: Mapping[str, bool | int | float | str], without: tuple[str, ...] = ()) -> Path:
    """A home with the checkout as an addon and the Python packages where each FreeCAD looks for them."""
    home = folder / "home"
    data = home / "data"
    for part in (data / "Mod", home / "config", home / "tmp", home / "cache", home / "run"):
        part.mkdir(parents=True, exist_ok=True)
    (home / "run").chmod(0o700)
    link = data / "Mod" / "StackLam"
    if not link.is_symlink():
        link.symlink_to(CHECKOUT, target_is_directory=True)
    packages = data / "AdditionalPythonPackages"
    if not packages.exists():
        packages.mkdir()
        site = Path(sys.prefix) / "lib" / f"python{sys.version_info[0]}.{sys.version_info[1]}" / "site-packages"
        for entry in site.iterdir():
            if entry.suffix != ".pth" and re.split(r"[-.]", entry.name)[0].lower() not in without:
                (packages / entry.name).symlink_to(entry)
        # 0.20 looks in the folder itself, later versions in one named after the Python.
        (packages / f"py{sys.version_info[0]}{sys.version_info[1]}").symlink_to(packages, target_is_directory=True)
    (home / "user.cfg").write_text(_parameters(preferences), encoding="utf-8")
    return home


def _parameters(preferences: Mapping[str, bool | int | float | str]) -> str:
    """FreeCAD's parameter file for preferences given by path."""
    tree: dict[str, Any] = {}
    for path, value in preferences.items():
        at = tree
        top = "BaseApp" if path.startswith("/") else "BaseApp/Preferences/"
        *groups, key = (top + path).split("/")
        for group in groups:
            at = at.setdefault(group, {})
        at[key] = value

    def lines(groups: dict[str, Any]) -> str:
        text = ""
        for key, value in groups.items():
            label = quoteattr(key)
            if isinstance(value, dict):
                text += f"<FCParamGroup Name={label}>{lines(value)}</FCParamGroup>\n"
            elif isinstance(value, bool):
                text += f'<FCBool Name={label} Value="{int(value)}"/>\n'
            elif isinstance(value, int):
                text += f'<FCInt Name={label} Value="{value}"/>\n'
            elif isinstance(value, float):
                text += f'<FCFloat Name={label} Value="{value!r}"/>\n'
            else:
                text += f"<FCText Name={label}>{value}</FCText>\n"
        return text

    return (
        '<?xml version="1.0" encoding="UTF-8" standalone="no" ?>\n<FCParameters>\n'
        f'<FCParamGroup Name="Root">{lines(tree)}</FCParamGroup>\n</FCParameters>\n'
    )


def _execute(command: list[str], home: Path, timeout: float) -> tuple[str, int | None]:
    """Run a command on a screen; its output and its status, None when it had to be stopped."""
    drop = {"PYTHONPATH", "PYTHONHOME", "VIRTUAL_ENV", "QT_QPA_PLATFORM", "QT_PLUGIN_PATH", "WAYLAND_DISPLAY"}
    environment = {key: value for key, value in os.environ.items() if key not in drop}
    environment |= {
        "HOME": str(home),
        "FREECAD_USER_HOME": str(home),
        "FREECAD_USER_DATA": str(home / "data"),
        "FREECAD_USER_TEMP": str(home / "tmp"),
        "XDG_CONFIG_HOME": str(home / "config"),
        "XDG_DATA_HOME": str(home / "data"),
        "XDG_CACHE_HOME": str(home / "cache"),
        "XDG_RUNTIME_DIR": str(home / "run"),
        "QT_QPA_PLATFORM": "xcb",
        "QTWEBENGINE_DISABLE_SANDBOX": "1",  # 0.20 does not start as root without it
        "LIBGL_ALWAYS_SOFTWARE": "1",
        "LC_ALL": "C.UTF-8",
    }
    if not environment.get("DISPLAY"):
        runner = shutil.which("xvfb-run")
        if not runner:
            raise AssertionError("There is no screen and no xvfb-run to make one. Run tools/test.sh.")
        command = [runner, "-a", "-n", str(1000 + os.getpid() % 8000), "-s", SCREEN, *command]
    log = home / "output.txt"
    with log.open("wb") as sink:
        process = subprocess.Popen(
            command,
            env=environment,
            cwd=home,
            stdin=subprocess.DEVNULL,
            stdout=sink,
            stderr=subprocess.STDOUT,
            start_new_session=True,
        )
        try:
            status: int | None = process.wait(timeout)
        except subprocess.TimeoutExpired:
            status = None
            os.killpg(process.pid, signal.SIGTERM)
            try:
                process.wait(5)
            except subprocess.TimeoutExpired:
                os.killpg(process.pid, signal.SIGKILL)
                process.wait()
    return log.read_text(encoding="utf-8", errors="replace"), status
