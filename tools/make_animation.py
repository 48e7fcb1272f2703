# SPDX-License-Identifier: LGPL-2.1-or-later

"""Makes one moving picture of the whole job, about three minutes long, of the frames that a test took.

    STACKLAM_PICTURES=docs/pictures python -m pytest -m "gui and slow" tests/gui/test_whole_job.py
    python tools/make_animation.py [FRAMES] [OUT.webp]

FRAMES (out/whole-job) holds PNG pictures and captions.json: in the order of the story the names of the pictures that
are seen at once, and their caption. Needs pillow with WebP.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

HERE = Path(__file__).resolve().parent.parent
#: How long it lasts, seconds; how wide and high it is, and the strip with the caption, dots; and its bytes at most.
LASTS, WIDTH, HEIGHT, STRIP, MOST = 180.0, 960, 608, 44, 2_000_000


def lettering(size: int) -> ImageFont.FreeTypeFont | ImageFont.ImageFont:
    """A plain upright letter of this size; what pillow has where the system has none."""
    for name in ("DejaVuSans.ttf", "LiberationSans-Regular.ttf", "Arial.ttf"):
        try:
            return ImageFont.truetype(name, size)
        except OSError:
            continue
    return ImageFont.load_default()


def frame(paths: list[Path], caption: str, number: int, of: int) -> Image.Image:
    """Pictures side by side, their caption under them, and a line that shows how far the job is."""
    made = Image.new("RGB", (WIDTH, HEIGHT + STRIP), "white")
    room = WIDTH // len(paths)
    for i, path in enumerate(paths):
        with Image.open(path) as opened:
            full = opened.convert("RGB")
        share = min(room / full.width, HEIGHT / full.height)
        scaled = full.resize((round(full.width * share), round(full.height * share)), Image.LANCZOS)
        made.paste(scaled, (i * room + (room - scaled.width) // 2, (HEIGHT - scaled.height) // 2))
    pen = ImageDraw.Draw(made)
    pen.rectangle((0, HEIGHT, round(WIDTH * number / of), HEIGHT + 3), fill=(110, 85, 55))
    pen.text((14, HEIGHT + 13), caption, fill="black", font=lettering(17))
    return made


def main(frames: Path, out: Path) -> None:
    """Write the moving picture, as fine as its size allows."""
    story = json.loads((frames / "captions.json").read_text(encoding="utf-8"))
    pictures = [
        frame([frames / f"{name}.png" for name in names], caption, number, len(story))
        for number, (names, caption) in enumerate(story, 1)
    ]
    out.parent.mkdir(parents=True, exist_ok=True)
    for quality in (80, 65, 50, 35, 20):
        pictures[0].save(
            out,
            save_all=True,
            append_images=pictures[1:],
            duration=round(1000 * LASTS / len(pictures)),
            loop=0,
            quality=quality,
            method=5,
        )
        if out.stat().st_size <= MOST:
            break
    size, each = out.stat().st_size / 1024, LASTS / len(pictures)
    print(f"{out}: {len(pictures)} frames of {each:.1f} s, {size:.0f} KiB at quality {quality}")
    if size * 1024 > MOST:
        raise SystemExit("It is too large: take fewer or smaller frames.")


if __name__ == "__main__":
    asked = sys.argv[1:]
    main(
        Path(asked[0]) if asked else HERE / "out" / "whole-job",
        Path(asked[1]) if len(asked) > 1 else HERE / "docs" / "pictures" / "whole-job.webp",
    )
