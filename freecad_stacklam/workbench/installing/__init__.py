# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where a Python package is missing: the window that installs it, and what stands in for the objects meanwhile."""
