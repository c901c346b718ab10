"""What of a ring lies in a region, and how smaller rings divide that."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from storeyrod.geometry.plane import Box, Part, Region, Ring, parts_of, region_of


@dataclass(frozen=True, slots=True)
class Share:
    """The part of a ring that lies in a region; areas in square ticks."""

    polygon: BaseGeometry

    @property
    def area(self) -> float:
        """Area of the share."""
        return float(self.polygon.area)

    def parts(self, rings: Sequence[Ring]) -> list[list[Part]]:
        """For each ring the connected parts of it that lie in the share."""
        return [parts_of(shapely.intersection(self.polygon, Polygon(ring))) for ring in rings]

    def area_beside(self, rings: Sequence[Ring]) -> float:
        """Area of the share that no ring covers."""
        return float(shapely.difference(self.polygon, shapely.union_all([Polygon(ring) for ring in rings])).area)


def share_of(region: Region, ring: Ring, taken: Sequence[tuple[Ring, Box]] = ()) -> Share:
    """What of a ring lies in a region, less the parts of other rings inside their boxes."""
    share = shapely.intersection(region.polygon, Polygon(ring))
    if taken:
        lost = [shapely.intersection(Polygon(other), shapely.box(*box)) for other, box in taken]
        share = shapely.difference(share, shapely.union_all(lost))
    return Share(share)


def whole_share(ring: Ring) -> Share:
    """All of a ring."""
    return Share(Polygon(ring))


def region_without(region: Region, shares: Iterable[Share]) -> Region:
    """What is left of a region."""
    return region_of(shapely.difference(region.polygon, shapely.union_all([share.polygon for share in shares])))
