# SPDX-License-Identifier: LGPL-2.1-or-later

"""The whole job: everything known before the first cut."""
