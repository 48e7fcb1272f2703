# SPDX-License-Identifier: LGPL-2.1-or-later

"""The guide for carving: offsets, templates, depth holes."""
