"""Cutting rectangles from boards and offcuts by straight cuts from edge to edge, with proved bounds; knows nothing of walls."""
