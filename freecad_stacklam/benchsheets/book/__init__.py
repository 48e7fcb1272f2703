# SPDX-License-Identifier: LGPL-2.1-or-later

"""All sheets of a plan, bound in working order."""
