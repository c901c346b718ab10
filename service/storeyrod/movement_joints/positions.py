"""Where a movement joint may stand: on perps of the half-module grid clear of openings, at changes of height, on declared jamb lines.

Places are counted from the end from which the bond is set out: of a face set out from the right, x is negative. So a mirrored wall
has mirrored places.
"""

import math
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, Literal

from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.plane import Region
from storeyrod.geometry.ticks import ticks
from storeyrod.wall.face import SIDES, Face, FaceOpening, Side
from storeyrod.wall.grid import module_of
from storeyrod.wall.system import System

Reason = Literal["existing", "designer", "height_change", "spacing", "jamb"]
"""Why a joint stands where it stands."""

RANKS: Final[dict[Reason, int]] = {"height_change": 0, "spacing": 1, "jamb": 2}
"""Among as few joints, changes of height are taken before perps, and jamb lines last."""


@dataclass(frozen=True, slots=True)
class Place:
    """A place for a joint: its centre, and why it is one.

    ``flush`` is the line with which the joint is flush, in the frame of the face, and ``lower`` the side of it on which the joint
    lies: at a change of height it lies in the lower wall, so that the end of the higher one runs straight down.
    """

    centre: float
    reason: Reason
    flush: float = 0.0
    lower: Side | None = None

    def strip(self, width: float) -> Interval:
        """What a joint of that width takes out, in the frame of the face."""
        match self.lower:
            case "left":
                return self.flush - width, self.flush
            case "right":
                return self.flush, self.flush + width
            case _:
                return self.centre - width / 2.0, self.centre + width / 2.0


@dataclass(frozen=True, slots=True)
class Step:
    """A change of height in the top of a face: where it is, and on which side of it the wall is lower."""

    x: float
    lower: Side

    def place(self, width: float) -> Place:
        """The place for a joint of that width."""
        half = width / 2.0 if self.lower == "right" else -width / 2.0
        return Place(self.x + half, "height_change", self.x, self.lower)


@dataclass(frozen=True)
class Positions:
    """What a new joint must respect on a face, in ticks: its greatest width, the grid, blocked centres by their left end, and places
    off the grid.
    """

    width: float
    step: float
    origin: float
    blocked: tuple[Interval, ...]
    turned: bool
    others: tuple[tuple[float, Place], ...]

    def there(self, x: float) -> float:
        """A place of the face as it is counted here, and the other way about."""
        return 0.0 - x if self.turned else x

    def between(self, low: float, high: float) -> list[tuple[float, Place]]:
        """Permitted places between two fixed joints, as counted here, at least a joint's width from both."""
        first = math.ceil((low + self.width - self.origin) / self.step)
        last = math.floor((high - self.width - self.origin) / self.step)
        places = {x: Place(self.there(x), "spacing") for x in self._free(first, last)}
        others = [(x, place) for x, place in self.others if low + self.width <= x <= high - self.width]
        for x, place in others:
            if x not in places or RANKS[place.reason] < RANKS[places[x].reason]:
                places[x] = place
        return sorted(places.items(), key=lambda row: row[0])

    def _free(self, first: int, last: int) -> Iterator[float]:
        coming, blocked_to = list(reversed(self.blocked)), -math.inf
        for index in range(first, last + 1):
            x = self.origin + index * self.step
            while coming and coming[-1][0] < x:
                blocked_to = max(blocked_to, coming.pop()[1])
            if x >= blocked_to:
                yield x


def positions_of(face: Face, system: System, width: float) -> Positions:
    """Places for joints of a face that are at most so wide, in ticks."""
    asked = system.movement_joint
    step = ticks(asked.snap_mm if asked.snap_mm is not None else module_of(system) / 2.0)
    clear = ticks(asked.clear_of_opening_mm) + width / 2.0
    blocked = [(opening.left - clear, opening.right + clear) for opening in face.openings]
    turned = face.elevation.bond_from == "right"
    places = [place for step_ in steps_of(face, system) if not _blocks((place := step_.place(width)).centre, blocked)]
    if face.elevation.joints_at_jambs:
        places += [Place(x, "jamb") for x in _free_jambs(face, blocked)]
    others = sorted(
        ((0.0 - place.centre if turned else place.centre, place) for place in places), key=lambda row: row[0]
    )
    return Positions(
        width,
        step,
        _origin(face, turned=turned) - ticks(system.joint.perp_mm / 2.0),
        tuple(sorted((-high, -low) for low, high in blocked) if turned else sorted(blocked)),
        turned,
        tuple(others),
    )


def _origin(face: Face, *, turned: bool) -> float:
    """Where the bond starts, as places are counted: parts of one face that name the same place have their joints on one grid."""
    given = face.elevation.bond_origin_x_mm
    start = ticks(given) if given is not None else (face.right if turned else face.left)
    return -start if turned else start


def steps_of(face: Face, system: System) -> list[Step]:
    """Changes of height in the top of a face, from left to right."""
    least = ticks(system.movement_joint.change_of_height_mm)
    plumb = sorted({a[0] for a, b in pairwise((*face.outline, face.outline[0])) if a[0] == b[0]})
    inner = [x for x in plumb if face.left < x < face.right]
    if not inner:
        return []
    outline = Region((face.outline,))
    mirrored = Region((tuple((-x, y) for x, y in face.outline),))
    found = []
    for x in inner:
        left, right = mirrored.heights_at(-x)[-1][1], outline.heights_at(x)[-1][1]
        if abs(left - right) >= least:
            found.append(Step(x, "left" if left < right else "right"))
    return found


def near_step(system: System) -> float:
    """How near to a change of height a joint serves it: half a module, in ticks."""
    return ticks(module_of(system) / 2.0)


def _blocks(x: float, blocked: Sequence[Interval]) -> bool:
    return any(low < x < high for low, high in blocked)


def _free_jambs(face: Face, blocked: Sequence[Interval]) -> list[float]:
    """Jamb lines that no other opening stands on or too near to; openings above one another may share one."""
    lines = sorted({x for opening in face.openings for x in _jamb_lines(opening)})
    taken = set()
    for (low, high), opening in zip(blocked, face.openings, strict=True):
        for index in range(bisect_left(lines, low), bisect_left(lines, high)):
            if lines[index] > low and lines[index] not in (opening.left, opening.right):
                taken.add(lines[index])
    return [x for x in lines if x not in taken]


def _jamb_lines(opening: FaceOpening) -> set[float]:
    """Where jambs stand at the left and right of an opening; a circle has none, a polygon may have one or none."""
    return {edge.x for side in SIDES for edge in opening.jambs(side)} & {opening.left, opening.right}
