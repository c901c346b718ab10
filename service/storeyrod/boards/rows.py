"""Rows of boards: their heights on the course grid, and the area that each row has to cover in the board plane.

At a corner the rows of the two faces run through and butt in turn, so a face has two outlines: one for its even rows and one
for its odd ones.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.plane import Box, Region
from storeyrod.geometry.ticks import ticks
from storeyrod.movement_joints.placement import Slot
from storeyrod.wall.face import SIDES, Face, Side, corner_shift
from storeyrod.wall.wall import Wall


class Row(NamedTuple):
    """One row of boards over the whole building: its number from the lowest, where the lower edge of a whole board stands, and
    where the row ends: a board higher, or under a storey joint. Ticks.
    """

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

    def areas(self, bottom: float, top: float) -> tuple[float, float, float]:
        """Between two heights: area of the outline, of that less openings, and of what boards cover, in square ticks."""
        gross, net = _area_between(self.gross, bottom, top), _area_between(self.net, bottom, top)
        return gross, net, net if self.clad is self.net else _area_between(self.clad, bottom, top)


def _area_between(region: Region, bottom: float, top: float) -> float:
    return sum(slab.area for slab in region.slabs(bottom, top))


def row_origin(wall: Wall) -> float:
    """Foot of row 0: the highest course line at or below the foot of the building, or as many courses lower as the lowest row is
    cut at its foot.
    """
    return wall.gauge.bottom(wall.gauge.standing_at(wall.foot) - _courses_cut_off(wall))


def _courses_cut_off(wall: Wall) -> int:
    """Courses by which the lowest row is cut at its foot; none unless the base trim takes a cut edge.

    Of all numbers of courses the one with fewest top rows lower than the least piece, then fewest rows, then fewest courses.
    """
    board = wall.system.board
    if not board.base_row_cut:
        return 0
    height, least, pitch = ticks(board.cover_height_mm), ticks(board.minimum_piece_mm), wall.gauge.pitch
    foot = wall.gauge.bottom(wall.gauge.standing_at(wall.foot))
    tops = [wall.storey_joints[0].bottom] if wall.storey_joints else [face.top for face in wall.faces]

    def faults(courses: int) -> tuple[int, int, int]:
        rises = [top - foot + round(courses * pitch) for top in tops]
        return sum(0.0 < rise % height < least for rise in rises), math.ceil(max(rises) / height), courses

    return min(range(max(1, round(height / pitch))), key=faults)


def rows_of(wall: Wall, grounds: Sequence[Ground]) -> list[Row]:
    """Rows that a face needs, from the lowest; over every storey joint they start anew, and under it they end."""
    height = ticks(wall.system.board.cover_height_mm)
    low, high = min(ground.gross.box[1] for ground in grounds), max(ground.gross.box[3] for ground in grounds)
    feet = [row_origin(wall), *(joint.top for joint in wall.storey_joints)]
    heads = [*(joint.bottom for joint in wall.storey_joints), math.inf]
    rows, below = [], 0
    for foot, head in zip(feet, heads, strict=True):
        first, last = math.floor((low - foot) / height), math.ceil((min(head, high) - foot) / height)
        for index in range(max(0, first), last):
            bottom = foot + index * height
            rows.append(Row(below + index, bottom, min(head, bottom + height)))
        below += 0 if head == math.inf else max(0, math.ceil((head - foot) / height))
    return rows


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


def substrate_of(face: Face, deeper: float = 0.0) -> Interval:
    """Ends of the wall behind a face, at its external corners, so many ticks behind the boards; without end where no corner hides it."""
    left, right = (face.edge(side) for side in SIDES)
    behind = face.build_up + deeper
    start = face.left + corner_shift(left, behind) if left.kind == "external_corner" else -math.inf
    end = face.right - corner_shift(right, behind) if right.kind == "external_corner" else math.inf
    return start, end


def _through(face: Face, side: Side, through: Mapping[str, bool], parity: int) -> bool:
    return through.get(f"{face.id}:{side}", True) == (parity == 0)


def _strips(gross: Region, slots: Sequence[Slot]) -> list[Box]:
    _, bottom, _, top = gross.box
    return [(slot.left, bottom, slot.right, top) for slot in slots]
