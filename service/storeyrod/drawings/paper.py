"""Paper, frame and scale: which sheet a wall is drawn on and how small.

Sizes of the A series are ISO 216, margins of 20 mm at the left for filing and 10 mm elsewhere ISO 5457, scales 1:2, 1:5 and
1:10 and their decimal multiples ISO 5455 (all from memory).
"""

import math
from dataclasses import dataclass
from typing import Final

from storeyrod.drawings.display_list import Box
from storeyrod.findings import refuse

SCALES: Final = (5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000)
"""Denominators tried in turn when a sheet names none."""

DETAIL_SCALES: Final = (0.1, 0.2, 0.5, 1, 2, *SCALES)
"""The same for a detail; one below 1 enlarges: 0.1 is ten to one."""

_FILING_MARGIN: Final = 20.0
_MARGIN: Final = 10.0
STRIP_HEIGHT: Final = 46.0
"""Legend and title block along the foot of the frame."""

Room = tuple[float, float, float, float]
"""Kept free at the left, below, at the right and above a wall, for courses, dimensions and labels, mm."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of the A series, landscape."""

    name: str
    width: float
    height: float

    @property
    def frame(self) -> Box:
        """The frame inside the margins."""
        return _FILING_MARGIN, _MARGIN, self.width - _MARGIN, self.height - _MARGIN

    @property
    def strip(self) -> Box:
        """Where legend and title block stand."""
        left, bottom, right, _ = self.frame
        return left, bottom, right, bottom + STRIP_HEIGHT

    @property
    def field(self) -> Box:
        """Where the drawing stands: the frame above the strip."""
        left, bottom, right, top = self.frame
        return left, bottom + STRIP_HEIGHT, right, top

    def place(self, around: Room) -> Box:
        """Where the wall itself stands."""
        left, bottom, right, top = self.field
        return left + around[0], bottom + around[1], right - around[2], top - around[3]

    def takes(self, width_mm: float, height_mm: float, around: Room, scale: float) -> bool:
        """Whether a wall fits at a scale."""
        left, bottom, right, top = self.place(around)
        return width_mm / scale <= right - left and height_mm / scale <= top - bottom

    def least_scale(self, width_mm: float, height_mm: float, around: Room) -> int:
        """The smallest whole denominator at which a wall fits, standard or not; the last standard one where it fits at none."""
        left, bottom, right, top = self.place(around)
        if right <= left or top <= bottom:
            return SCALES[-1]
        share = max(width_mm / (right - left), height_mm / (top - bottom))
        tried = range(max(1, math.floor(share)), SCALES[-1])
        return next((scale for scale in tried if self.takes(width_mm, height_mm, around, scale)), SCALES[-1])


PAPERS: Final = (
    Paper("A3", 420.0, 297.0),
    Paper("A2", 594.0, 420.0),
    Paper("A1", 841.0, 594.0),
    Paper("A0", 1189.0, 841.0),
)


def paper_and_scale(
    width_mm: float,
    height_mm: float,
    around: Room,
    scale: int | None,
    pointer: str,
    readable: float | None = None,
) -> tuple[Paper, int]:
    """A3 at the largest standard scale that fits, or the smallest sheet that takes the wall at the scale asked for.

    With ``readable``, a larger sheet is taken where A3 would need a scale with a greater denominator than that; where all
    would, the smallest sheet at the best scale that any of them takes. Raises ``sheet-too-small`` when no sheet takes the scale asked for.
    """
    if scale is None:
        return _readable(width_mm, height_mm, around, readable)
    for paper in PAPERS:
        if paper.takes(width_mm, height_mm, around, scale):
            return paper, scale
    detail = (
        f"At 1:{scale} the wall of {width_mm:g} x {height_mm:g} mm fits no sheet up to A0; "
        f"leave out scale, or give {PAPERS[-1].least_scale(width_mm, height_mm, around)} or more."
    )
    raise refuse("sheet-too-small", pointer, detail)


def _readable(width_mm: float, height_mm: float, around: Room, readable: float | None) -> tuple[Paper, int]:
    papers = PAPERS if readable is not None else PAPERS[:1]
    fitted = [(paper, scale_for(width_mm, height_mm, around, paper)) for paper in papers]
    return next(
        (one for one in fitted if readable is not None and one[1] <= readable), min(fitted, key=lambda one: one[1])
    )


def scale_for(width_mm: float, height_mm: float, around: Room, paper: Paper = PAPERS[0]) -> int:
    """Denominator of the largest standard scale at which a wall fits on a sheet; a kilometre still does on A3."""
    return next((scale for scale in SCALES if paper.takes(width_mm, height_mm, around, scale)), SCALES[-1])
