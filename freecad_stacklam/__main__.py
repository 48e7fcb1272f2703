# SPDX-License-Identifier: LGPL-2.1-or-later

"""python -m freecad_stacklam plan [FORM] --out DIR: plan a form without opening a window."""

from __future__ import annotations

import sys

from freecad_stacklam.commandline import main

if __name__ == "__main__":
    main(sys.argv[1:])
