"""What lies between vertical and level movement joints, openings not deducted: areas, heights and the ratio of their sides."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate

from storeyrod.geometry.plane import Region, Ring, Slab
from storeyrod.wall.face import Face
from storeyrod.wall.storey_joints import StoreyJoint


@dataclass(frozen=True)
class Storey:
    """A face between two level joints, or the whole of it: its outline there with the axes changed over, in ticks."""

    turned: Region

    def area(self, left: float, right: float) -> float:
        """Area between two plumb lines."""
        return sum(slab.area for slab in self.turned.slabs(left, right))

    def height(self, left: float, right: float) -> float:
        """Height between two plumb lines, from the lowest to the highest point."""
        return height_of([self], left, right)

    @property
    def whole_height(self) -> float:
        """Height from the lowest to the highest point."""
        low, _, high, _ = self.turned.box
        return high - low

    def area_until(self, x: float) -> float:
        """Area left of a plumb line; many of them are asked for, so what lies before each corner is added up once."""
        index = bisect_right(self._starts, x) - 1
        if index < 0:
            return 0.0
        return self._sums[index] + sum(slab.area for slab in self.turned.slabs(self._starts[index], x))

    @cached_property
    def _slabs(self) -> list[Slab]:
        _, left, _, right = self.turned.box
        return self.turned.slabs(left, right)

    @cached_property
    def _starts(self) -> list[float]:
        return [slab.bottom for slab in self._slabs]

    @cached_property
    def _sums(self) -> list[float]:
        return [0.0, *accumulate(slab.area for slab in self._slabs)]


def storeys_of(face: Face, joints: Sequence[StoreyJoint]) -> tuple[Storey, ...]:
    """The face between level joints, from the lowest."""
    outline = Region((face.outline,))
    crossed = [joint for joint in joints if joint.top > face.foot and joint.bottom < face.top]
    if not crossed:
        return (Storey(_turned(outline.rings)),)
    levels = [face.foot, *(edge for joint in crossed for edge in (joint.bottom, joint.top)), face.top]
    bands = [(low, high) for low, high in zip(levels[::2], levels[1::2], strict=True) if high > low]
    cut = [outline.within((face.left, low, face.right, high)) for low, high in bands]
    return tuple(Storey(_turned(band.rings)) for band in cut if band.rings)


def _turned(rings: Sequence[Ring]) -> Region:
    return Region(tuple(tuple((y, x) for x, y in ring) for ring in rings))


@dataclass(frozen=True, slots=True)
class Measured:
    """A bay between two plumb lines, in ticks: its area and height as a whole, and the worst of what lies between level joints."""

    left: float
    right: float
    area: float
    height: float
    largest: float
    ratio: float

    @property
    def length(self) -> float:
        """Clear length."""
        return self.right - self.left


def measured(storeys: Sequence[Storey], left: float, right: float) -> Measured:
    """Sizes of a bay."""
    areas = [storey.area(left, right) for storey in storeys]
    heights = [storey.height(left, right) for storey in storeys]
    ratios = [max(right - left, height) / min(right - left, height) for height in heights if height > 0 < right - left]
    whole = height_of(storeys, left, right)
    return Measured(left, right, sum(areas), whole, max(areas), max(ratios, default=1.0))


def height_of(storeys: Sequence[Storey], left: float, right: float) -> float:
    """Height of storeys between two plumb lines, from the lowest to the highest point, level joints included."""
    runs = [run for storey in storeys for slab in storey.turned.slabs(left, right) for run in slab.outer]
    return max(high for _, high in runs) - min(low for low, _ in runs) if runs else 0.0
