"""What wind does to a face: rectangles with the greatest suction and pressure of all directions, in ticks."""

from dataclasses import dataclass

from storeyrod.findings import Finding
from storeyrod.wall.face import Face
from storeyrod.wind.site_models import SideName


@dataclass(frozen=True, slots=True)
class WindPatch:
    """A rectangle of a face with one governing suction and one governing pressure, both net, positive and characteristic, in Pa.

    ``zone`` and ``direction`` are those of the suction, which may carry the step of the trace that gave it.
    """

    left: float
    right: float
    bottom: float
    top: float
    zone: str
    direction: SideName
    suction: float
    pressure: float


@dataclass(frozen=True, slots=True)
class FaceWind:
    """Wind on one face: disjoint patches that cover the box round its outline up to ``assessed_to``, where a parapet starts."""

    face: Face
    patches: tuple[WindPatch, ...]
    assessed_to: float | None = None

    def governing(self, left: float, right: float, bottom: float, top: float) -> WindPatch | None:
        """The patch of greatest suction of those that a rectangle touches; none where wind was not assessed for it."""
        if self.assessed_to is not None and top > self.assessed_to:
            return None
        touched = (
            patch
            for patch in self.patches
            if patch.left < right and patch.right > left and patch.bottom < top and patch.top > bottom
        )
        return max(touched, key=lambda patch: patch.suction, default=None)


@dataclass(frozen=True, slots=True)
class WindPlan:
    """Wind on all faces in request order, and what was found."""

    faces: tuple[FaceWind, ...]
    findings: tuple[Finding, ...] = ()
