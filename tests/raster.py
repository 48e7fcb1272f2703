# SPDX-License-Identifier: LGPL-2.1-or-later

"""Printed pages as an outside judge sees them: rasterised by poppler's pdftoppm, in mm from the lower left corner."""

from __future__ import annotations

import subprocess
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pypdf
from numpy.typing import NDArray

DPI = 300
INCH = 25.4


@dataclass(frozen=True)
class Raster:
    """One page. `grey` is 0 (black) to 255 (white), rows from the top; `height` of the page in mm."""

    grey: NDArray[np.uint8]
    height: float

    @property
    def pitch(self) -> float:
        """Size of a dot, mm."""
        return INCH / DPI

    def at(self, points: NDArray[np.float64]) -> NDArray[np.float64]:
        """Ink, 0 to 1, at page points (…, 2) mm, between the four nearest dots."""
        column = points[..., 0] / self.pitch - 0.5
        row = (self.height - points[..., 1]) / self.pitch - 0.5
        c = np.clip(np.floor(column).astype(int), 0, self.grey.shape[1] - 2)
        r = np.clip(np.floor(row).astype(int), 0, self.grey.shape[0] - 2)
        u, v = column - c, row - r
        above = self.grey[r, c] * (1 - u) + self.grey[r, c + 1] * u
        below = self.grey[r + 1, c] * (1 - u) + self.grey[r + 1, c + 1] * u
        return 1.0 - (above * (1 - v) + below * v) / 255.0

    def dark(self) -> NDArray[np.float64]:
        """Page points (n × 2) mm of all dots that are more black than white."""
        row, column = np.nonzero(self.grey < 128)
        return np.column_stack([(column + 0.5) * self.pitch, self.height - (row + 0.5) * self.pitch])

    def lines_across(self, start: tuple[float, float], end: tuple[float, float]) -> list[float]:
        """Distances from `start`, mm, of the middles of the dark lines crossed on the way to `end`."""
        a, b = np.asarray(start), np.asarray(end)
        length = float(np.hypot(*(b - a)))
        way = np.arange(0.0, length, 0.01)
        ink = self.at(a + (b - a) * (way / length)[:, None])
        dark = np.concatenate([[False], ink > 0.2, [False]])
        first, last = np.flatnonzero(dark[1:] & ~dark[:-1]), np.flatnonzero(~dark[1:] & dark[:-1])
        return [float((way[i:j] * ink[i:j]).sum() / ink[i:j].sum()) for i, j in zip(first, last, strict=True)]


def rasters(path: Path, first: int, last: int) -> list[Raster]:
    """Pages `first` to `last` (from 1) of a PDF at 300 dots per inch."""
    folder = path.parent / f"{path.stem}-{first}-{last}"
    folder.mkdir()
    command = ["pdftoppm", "-r", str(DPI), "-gray", "-f", str(first), "-l", str(last), str(path), str(folder / "p")]
    subprocess.run(command, check=True, capture_output=True)
    boxes = [page.mediabox for page in pypdf.PdfReader(str(path)).pages[first - 1 : last]]
    found = []
    for file, box in zip(sorted(folder.glob("*.pgm")), boxes, strict=True):
        data = file.read_bytes()
        kind, size, depth = data.split(b"\n", 3)[:3]
        assert (kind, depth) == (b"P5", b"255")
        width, height = map(int, size.split())
        grey = np.frombuffer(data[-width * height :], np.uint8).reshape(height, width)
        found.append(Raster(grey, float(box.height) / 72 * INCH))
    return found
