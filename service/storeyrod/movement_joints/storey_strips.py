"""What level joints take out of a face: they run where wall stands below and above, and end at openings, verges and tops."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from storeyrod.geometry.intervals import Interval, difference, intersection, union
from storeyrod.geometry.plane import Box
from storeyrod.wall.face import Face
from storeyrod.wall.storey_joints import StoreyJoint


@dataclass(frozen=True, slots=True)
class StoreyStrip:
    """A level joint on one face: where it is sealed, from left to right. Ticks."""

    joint: StoreyJoint
    runs: tuple[Interval, ...]

    def boxes(self, plumb: Sequence[Interval] = ()) -> Iterator[Box]:
        """The strip beside plumb joints, which keep the crossings."""
        for left, right in difference(self.runs, union(plumb)):
            yield left, self.joint.bottom, right, self.joint.top


def storey_strips(face: Face, joints: Sequence[StoreyJoint]) -> list[StoreyStrip]:
    """Level joints that a face has, from the lowest."""
    met = [StoreyStrip(joint, tuple(_runs(face, joint))) for joint in joints if face.foot < joint.bottom < face.top]
    return [strip for strip in met if strip.runs]


def _runs(face: Face, joint: StoreyJoint) -> list[Interval]:
    below, middle = joint.bottom - 1.0, (joint.bottom + joint.top) / 2.0
    flanks = intersection(face.region.level_runs(below), face.region.level_runs(joint.top))
    return intersection(flanks, face.region.level_runs(middle))
