# SPDX-License-Identifier: LGPL-2.1-or-later

"""The finished piece in the window: what is asked of it, and the slow looks at it."""
