# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is shown in the 3D view besides the objects."""
