# SPDX-License-Identifier: LGPL-2.1-or-later

"""Pictures for the pages in docs: made small, and written to the folder that STACKLAM_PICTURES names, if it is set."""

from __future__ import annotations

import os
from io import BytesIO
from pathlib import Path

from PIL import Image

#: Bytes of one picture at most.
MOST = 60_000


def wanted() -> Path | None:
    """The folder for the pictures; None where nobody asked for any."""
    folder = os.environ.get("STACKLAM_PICTURES")
    return Path(folder) if folder else None


def small(path: Path, width: int) -> bytes:
    """A picture as a PNG of few colours, at most so many dots wide, and narrower until it is small enough."""
    with Image.open(path) as opened:
        full = opened.convert("RGB")
    wide = min(width, full.width)
    while True:
        scaled = full.resize((wide, max(1, round(full.height * wide / full.width))), Image.LANCZOS)
        out = BytesIO()
        scaled.quantize(96, dither=Image.NONE).save(out, "PNG", optimize=True)
        if out.tell() <= MOST:
            return out.getvalue()
        wide = round(wide * 0.93)


def write(path: Path, name: str, width: int = 760) -> int:
    """Keep a picture as NAME.png where pictures are wanted; how many bytes it has. It is made small in any case."""
    data, folder = small(path, width), wanted()
    if folder is not None:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / f"{name}.png").write_bytes(data)
    return len(data)


def shows_something(path: Path) -> bool:
    """Whether a picture has more than a plain ground in it."""
    with Image.open(path) as opened:
        return len(set(opened.convert("L").resize((160, 120)).getdata())) > 12
