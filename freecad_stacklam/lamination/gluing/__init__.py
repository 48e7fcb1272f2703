# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue-up: what must be so before glue is opened, set-ups that keep their limits, rounds, and all of it as one."""
