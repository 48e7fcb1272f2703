# SPDX-License-Identifier: LGPL-2.1-or-later

"""The computation: forms into layers, joints, staves and proof. No FreeCAD, no Qt, no files.

Everything here is in mm, mm², mm³, N, MPa, kg and degrees. Records are frozen; rooms are plain functions.
"""
