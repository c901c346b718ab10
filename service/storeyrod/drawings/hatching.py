"""Hatching of a box: parallel strokes at 45 degrees, cut off at its sides."""

import math
from collections.abc import Iterator

from storeyrod.drawings.cut_edges import Segment
from storeyrod.drawings.display_list import Box


def hatched(box: Box, pitch: float) -> Iterator[Segment]:
    """Strokes rising to the right, ``pitch`` apart along a level line; lengths in mm of the subject."""
    left, bottom, right, top = box
    width, height = right - left, top - bottom
    for index in range(1, math.ceil((width + height) / pitch)):
        along = index * pitch - height
        start, end = max(along, 0.0), min(along + height, width)
        if end > start:
            yield (left + start, bottom + start - along), (left + end, bottom + end - along)
