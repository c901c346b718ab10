"""Boards: rows, seams and pieces in the plane of the boards, and the boards they are cut from."""
