"""Places of lettering on the paper: the first of those that are tried at which nothing stands yet."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from storeyrod.drawings.display_list import Box, Point
from storeyrod.drawings.lettering import box_around


@dataclass(slots=True)
class FreeRoom:
    """A field of the paper and the boxes in it that are taken, in mm of paper."""

    within: Box
    taken: list[Box] = field(default_factory=list)

    def is_free(self, box: Box) -> bool:
        """Whether a box lies in the field and over nothing that stands there."""
        left, bottom, right, top = self.within
        if box[0] < left or box[1] < bottom or box[2] > right or box[3] > top:
            return False
        return not any(_overlap(box, other) for other in self.taken)

    def take(self, box: Box) -> None:
        """Keep others out of a box."""
        self.taken.append(box)

    def first(self, tried: Iterable[Box]) -> Box | None:
        """Take the first box that is free; none where none is."""
        found = next(filter(self.is_free, tried), None)
        if found is not None:
            self.taken.append(found)
        return found


def _overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def middle_of(box: Box) -> Point:
    """Middle of a box."""
    return (box[0] + box[2]) / 2.0, (box[1] + box[3]) / 2.0


def boxes_beside(point: Point, width: float, height: float, distances: Iterable[float]) -> Iterator[Box]:
    """Boxes round a point at growing distances: at the right and left of it, above and below, then at its corners."""
    x, y = point
    for distance in distances:
        aside, up = width / 2.0 + distance, height / 2.0 + distance
        for right, above in ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1)):
            yield box_around((x + right * aside, y + above * up), width, height)
