# SPDX-License-Identifier: LGPL-2.1-or-later

"""Pages of what is found about the finished piece."""
