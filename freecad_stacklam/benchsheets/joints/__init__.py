# SPDX-License-Identifier: LGPL-2.1-or-later

"""The sheets of the joints."""
