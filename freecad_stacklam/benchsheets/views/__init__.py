# SPDX-License-Identifier: LGPL-2.1-or-later

"""The finished piece as it is seen, with places, loads and values marked on it."""
