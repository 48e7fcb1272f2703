# SPDX-License-Identifier: LGPL-2.1-or-later

"""Task panels, one for each piece of work."""
