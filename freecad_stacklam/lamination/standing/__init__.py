# SPDX-License-Identifier: LGPL-2.1-or-later

"""Whether the finished piece stands: its weight, what it touches the floor with, what tips it, how it is levelled."""
