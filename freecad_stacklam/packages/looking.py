# SPDX-License-Identifier: LGPL-2.1-or-later

"""Whether a package loads here, and if not, which of three things is the matter: it is not there, it is too old, or it
is there and does not load."""

from __future__ import annotations

import importlib
import importlib.metadata
import importlib.util
import re
import sys
from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum
from pathlib import Path
from typing import Any

from freecad_stacklam.lamination.words import say
from freecad_stacklam.packages.needs import Need, number


class Matter(Enum):
    """What keeps a package from being used."""

    NOT_THERE = "not there"
    TOO_OLD = "too old"
    DOES_NOT_LOAD = "does not load"


@dataclass(frozen=True)
class Fault:
    """What is the matter with one package. `place` is the folder it was found in, "" where it was not; `detail` the
    version that was found, or why it does not load."""

    need: Need
    matter: Matter
    place: str = ""
    detail: str = ""

    def told(self) -> str:
        """Name, place and reason, as a part of a sentence that begins with the name."""
        name = self.need.package
        if self.matter is Matter.NOT_THERE:
            return say("{name} {least} or newer is not there", name=name, least=number(self.need.least))
        if self.matter is Matter.TOO_OLD:
            return say(
                "{name} in {place} is version {detail}, and {least} or newer is needed",
                name=name,
                place=self.place,
                detail=self.detail,
                least=number(self.need.least),
            )
        return say(
            "{name} is there, in {folder}, but does not load: {detail}",
            name=name,
            folder=self.place or say("an unknown folder"),
            detail=self.detail,
        )


def faults(needs: Iterable[Need]) -> tuple[Fault, ...]:
    """What is the matter with each of these that cannot be used; nothing where all can."""
    return tuple(fault for fault in map(_fault_of, needs) if fault is not None)


def _fault_of(need: Need) -> Fault | None:
    try:
        module = importlib.import_module(need.module)
    except ModuleNotFoundError as missing:
        if missing.name == need.module:
            return Fault(need, Matter.NOT_THERE)
        return Fault(need, Matter.DOES_NOT_LOAD, _place(need), _what_lacks(need, missing))
    except (Exception, SystemExit) as error:  # a library of another make may fail with anything
        return Fault(need, Matter.DOES_NOT_LOAD, _place(need), _reason(error))
    version = _version(module, need)
    if version and parsed(version) < need.least:
        return Fault(need, Matter.TOO_OLD, _folder(getattr(module, "__file__", None)), version)
    return None


def parsed(version: str) -> tuple[int, ...]:
    """The leading numbers of a version: (2, 1, 0) of "2.1.0rc1"."""
    found = re.match(r"\d+(?:\.\d+)*", version)
    return tuple(int(part) for part in found[0].split(".")) if found else ()


def _version(module: Any, need: Need) -> str:
    """What the package says of itself; "" where it says nothing, and then it is taken as it is."""
    said = getattr(module, "__version__", None)
    if isinstance(said, str):
        return said
    try:
        return importlib.metadata.version(need.package)
    except importlib.metadata.PackageNotFoundError:
        return ""


def _what_lacks(need: Need, missing: ModuleNotFoundError) -> str:
    lacking = missing.name or _reason(missing)
    if lacking.partition(".")[0] == need.module:
        return say("its part {lacking} is not there, as where it was made for another Python", lacking=lacking)
    return say("it needs {lacking}, which is not there", lacking=lacking)


def _reason(error: BaseException) -> str:
    """The first line of what went wrong, without the stop that ends it."""
    lines = [line.strip() for line in str(error).splitlines() if line.strip()]
    return lines[0].rstrip(".") if lines else type(error).__name__


def _place(need: Need) -> str:
    """The folder in which Python finds a package that it could not load."""
    try:
        spec = importlib.util.find_spec(need.module)
    except Exception:  # a half-loaded package has none
        return ""
    if spec is None:
        return ""
    return _folder(spec.origin or next(iter(spec.submodule_search_locations or ()), "") + "/__init__.py")


def _folder(file: str | None) -> str:
    """The folder that holds a package, of the file it begins with."""
    if not file:
        return ""
    path = Path(file)
    return str(path.parent.parent if path.name == "__init__.py" else path.parent)


def forget(needs: Iterable[Need]) -> None:
    """Let Python look again for what could not be loaded, after something was installed.

    What did load stays as it is: a library that is in use cannot be exchanged under FreeCAD.
    """
    importlib.invalidate_caches()
    for need in needs:
        if need.module not in sys.modules:  # Python keeps the parts of a package whose beginning failed
            for name in [name for name in sys.modules if name.startswith(need.module + ".")]:
                del sys.modules[name]
