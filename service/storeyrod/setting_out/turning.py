"""Whether the bond turns at the corners, as laid."""

from collections.abc import Mapping
from itertools import pairwise

from storeyrod.setting_out.bays import FaceSetOut
from storeyrod.setting_out.course_grid import Module, end_piece
from storeyrod.setting_out.ways import Way, other_side
from storeyrod.wall.face import Side


def turns(way: Way, laid: Mapping[str, FaceSetOut], module: Module) -> bool:
    """Whether the bond turns at every corner of a way, as laid: one face shows the long end where the other has the short."""
    joints = zip(way.steps, (*way.steps[1:], way.steps[0]), strict=True) if way.closed else pairwise(way.steps)
    return all(
        ends_long(laid[face.id], other_side(side), module) != ends_long(laid[onwards.id], entered, module)
        for (face, side), (onwards, entered) in joints
    )


def ends_long(out: FaceSetOut, side: Side, module: Module, course: int = 0) -> bool:
    """Whether a course of a face ends on a side with more than three quarters of a stretcher."""
    bay = out.bays[0 if side == "left" else -1]
    pattern = bay.patterns[course % len(bay.patterns)]
    width = end_piece(pattern[0] if side == "left" else pattern[-1], side, module)
    return width > (module.stretcher + module.header) / 2.0
