# SPDX-License-Identifier: LGPL-2.1-or-later

"""What an option is: what it may hold, the row it is declared by, and where its key stands in a file."""
