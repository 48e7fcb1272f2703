# SPDX-License-Identifier: LGPL-2.1-or-later

"""Bodies of wood as elastic bricks: stiffness, what stands on the floor, and how they move under forces."""
