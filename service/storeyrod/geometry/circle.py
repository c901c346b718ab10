"""Circles as polygons of exactly the same area."""

import math
from typing import Final

from storeyrod.geometry.arc import CHORD_ERROR
from storeyrod.geometry.plane import Ring, tidy

_FEWEST_CHORDS: Final = 16


def circle_ring(centre_x: float, centre_y: float, radius: float) -> Ring:
    """Ring of the circle, in ticks: a regular polygon of its area, no farther from it than ``CHORD_ERROR``.

    Chords are a multiple of four and lie square at crown, foot and sides, so that the ring stays inside the circle's box and
    is its own mirror image.
    """
    sagitta = min(1.0, CHORD_ERROR / radius)
    quarter = max(_FEWEST_CHORDS // 4, math.ceil(math.pi / 4.0 / math.acos(1.0 - sagitta)))
    step = math.pi / 2.0 / quarter
    outer = radius * math.sqrt(step / math.sin(step))
    turns = [(math.cos(angle) * outer, math.sin(angle) * outer) for angle in _angles(quarter, step)]
    corners = [
        *turns,
        *((-x, y) for x, y in reversed(turns)),
        *((-x, -y) for x, y in turns),
        *((x, -y) for x, y in reversed(turns)),
    ]
    return tidy([(centre_x + x, centre_y + y) for x, y in corners])


def _angles(quarter: int, step: float) -> list[float]:
    return [step * (index + 0.5) for index in range(quarter)]
