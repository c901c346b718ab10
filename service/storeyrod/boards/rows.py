"""Rows of boards: their heights on the course grid, and the area that each row has to cover in the board plane.

At a corner the rows of the two faces run through and butt in turn, so a face has two outlines: one for its even rows and one
for its odd ones.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.plane import Box, Region
from storeyrod.geometry.ticks import ticks
from storeyrod.movement_joints.placement import Slot
from storeyrod.wall.face import SIDES, Face, Side, corner_shift
from storeyrod.wall.wall import Wall


@dataclass(frozen=True, slots=True)
class Row:
    """One row of boards over the whole building: its number from the lowest, and its height in ticks."""

    number: int
    bottom: float
    top: float


@dataclass(frozen=True, slots=True)
class Ground:
    """What the rows of one parity have to cover on a face: outline, outline less openings, and that less joints.

    ``substrate`` is where the wall behind ends: rows that run through at an external corner reach past it.
    """

    gross: Region
    net: Region
    clad: Region
    slots: tuple[Slot, ...]
    substrate: Interval

    def gross_area(self, row: Row) -> float:
        """Area of the outline in a row, in square ticks."""
        return sum(slab.area for slab in self.gross.slabs(row.bottom, row.top))

    def net_area(self, row: Row) -> float:
        """Area of the outline less openings in a row, in square ticks."""
        return sum(slab.area for slab in self.net.slabs(row.bottom, row.top))

    def joint_area(self, row: Row) -> float:
        """Area that the movement joints take out of a row, in square ticks."""
        strips = self.net.cells(row.bottom, row.top, [(slot.left, slot.right) for slot in self.slots])
        return sum(part.area for strip in strips for part in strip)


def row_origin(wall: Wall) -> float:
    """Foot of row 0: the highest course line at or below the foot of the building."""
    return wall.gauge.bottom(wall.gauge.standing_at(wall.foot))


def rows_of(wall: Wall, grounds: Sequence[Ground]) -> list[Row]:
    """Rows that a face needs, from the lowest."""
    origin, height = row_origin(wall), ticks(wall.system.board.cover_height_mm)
    first = math.floor((min(ground.gross.box[1] for ground in grounds) - origin) / height)
    last = math.ceil((max(ground.gross.box[3] for ground in grounds) - origin) / height)
    return [Row(number, origin + number * height, origin + (number + 1) * height) for number in range(first, last)]


def runs_through(wall: Wall) -> Mapping[str, bool]:
    """By edge name: whether its even rows run through at the corner; odd rows do the opposite.

    The end whose name sorts first runs through in even rows; so does an end whose partner is unknown.
    """
    through: dict[str, bool] = {}
    for corner in wall.corners:
        through[corner.first.name] = True
        if corner.second is not None:
            through[corner.second.name] = False
    return through


def grounds_of(face: Face, slots: Sequence[Slot], through: Mapping[str, bool]) -> tuple[Ground, Ground]:
    """What the even and the odd rows of a face have to cover."""
    even = _ground(face, slots, through, parity=0)
    if not any(face.edge(side).kind in ("external_corner", "internal_corner") for side in ("left", "right")):
        return even, even
    return even, _ground(face, slots, through, parity=1)


def _ground(face: Face, slots: Sequence[Slot], through: Mapping[str, bool], *, parity: int) -> Ground:
    gross = face.board_gross(
        left_runs_through=_through(face, "left", through, parity),
        right_runs_through=_through(face, "right", through, parity),
    )
    net = face.board_net(gross)
    clad = net.less(*_strips(gross, slots)) if slots else net
    return Ground(gross, net, clad, tuple(slots), substrate_of(face))


def substrate_of(face: Face) -> Interval:
    """Ends of the wall behind a face, at its external corners; without end where no corner hides it."""
    left, right = (face.edge(side) for side in SIDES)
    start = face.left + corner_shift(left, face.build_up) if left.kind == "external_corner" else -math.inf
    end = face.right - corner_shift(right, face.build_up) if right.kind == "external_corner" else math.inf
    return start, end


def _through(face: Face, side: Side, through: Mapping[str, bool], parity: int) -> bool:
    return through.get(f"{face.id}:{side}", True) == (parity == 0)


def _strips(gross: Region, slots: Sequence[Slot]) -> list[Box]:
    _, bottom, _, top = gross.box
    return [(slot.left, bottom, slot.right, top) for slot in slots]
