# SPDX-License-Identifier: LGPL-2.1-or-later

"""From settings to objects, and from objects to the plan."""
