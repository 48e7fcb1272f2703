# SPDX-License-Identifier: LGPL-2.1-or-later

"""Writing beside the target and renaming: a file is there whole or not at all."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from freecad_stacklam.lamination.refusal import Refusal


@contextmanager
def aside(path: str | Path) -> Iterator[Path]:
    """A temporary file in the target's folder, put in its place when the block ends well, removed otherwise."""
    target = Path(path)
    try:
        handle, name = tempfile.mkstemp(prefix=f".{target.name[:40]}.", suffix=target.suffix, dir=target.parent)
    except OSError as error:
        raise Refusal(
            f"{target} cannot be written ({error.strerror}): choose a folder that exists and can be written to."
        ) from error
    os.close(handle)
    temporary = Path(name)
    try:
        yield temporary
        umask = os.umask(0)
        os.umask(umask)
        temporary.chmod(0o666 & ~umask)
        os.replace(temporary, target)
    except OSError as error:
        raise Refusal(
            f"{target} could not be written ({error.strerror}): make room or choose another folder."
        ) from error
    finally:
        temporary.unlink(missing_ok=True)
