"""Setting out a whole wall: the bond starts on one face and is carried round the corners to the next.

At a corner one face shows the longer side of a unit where the other shows the shorter one, so the neighbour begins with the
other unit. A face into which the bond is carried is set out from that corner.
"""

from collections.abc import Mapping, Sequence
from typing import Final

from storeyrod.findings import refuse
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.options import Options
from storeyrod.setting_out.bays import BondStart, FaceSetOut, bond_origin, set_out_face
from storeyrod.setting_out.bond import BONDS
from storeyrod.setting_out.course_grid import HAIRLINE, module_lengths
from storeyrod.setting_out.loop import closing_change
from storeyrod.setting_out.turning import ends_long, turns
from storeyrod.setting_out.ways import meeting_ends, other_side, ways_round
from storeyrod.wall.face import Face, Side
from storeyrod.wall.system import System
from storeyrod.wall.wall import Wall

_ROUND: Final[tuple[Side, Side]] = ("right", "left")
"""Ends from which the bond is carried on: round to the right first."""


def set_out(wall: Wall, plans: Sequence[JointPlan], options: Options) -> tuple[FaceSetOut, ...]:
    """Set out every face; ``plans`` are the movement joints of the faces in the same order.

    Faces whose bond is given come first, and the bond goes from them along the corners, by name. What no corner reaches starts
    by itself with a full unit. Where equalised perps leave a loop with an odd half module, the face that takes it with the
    least change of its perps is laid to the odd number.

    Raises ``header-too-short`` for a bond with headers when a slip has none.
    """
    _refuse_without_header(wall.system)
    laid = _laid(wall, plans, options, frozenset())
    if options.perps == "equalised":
        odd = _odd_faces(wall, plans, laid)
        if odd:
            laid = _laid(wall, plans, options, odd)
    return tuple(laid[face.id] for face in wall.faces)


def _odd_faces(wall: Wall, plans: Sequence[JointPlan], laid: Mapping[str, FaceSetOut]) -> frozenset[str]:
    """For each loop whose last corner does not turn, the face that can take the odd half module."""
    module = module_lengths(wall.system)
    bays = {face.id: plan.bays for face, plan in zip(wall.faces, plans, strict=True)}
    changes = [
        closing_change(way, bays, laid, wall.system)
        for way in ways_round(wall)
        if way.closed and not turns(way, laid, module)
    ]
    return frozenset(change["elevation"] for change in changes if change is not None)


def _laid(wall: Wall, plans: Sequence[JointPlan], options: Options, odd: frozenset[str]) -> Mapping[str, FaceSetOut]:
    bays = {face.id: plan.bays for face, plan in zip(wall.faces, plans, strict=True)}
    faces = {face.id: face for face in sorted(wall.faces, key=lambda one: one.id)}
    meets = meeting_ends(wall)
    module = module_lengths(wall.system)
    done: dict[str, FaceSetOut] = {}

    def lay(face: Face, side: Side, *, half: bool, carried_from: str | None = None) -> None:
        start = BondStart(side, bond_origin(face, side, wall.system), half, carried_from, face.id in odd)
        done[face.id] = set_out_face(face, start, bays[face.id], wall.system, module, options)

    given = [face for face in faces.values() if not _is_carried(face, options)]
    for face in given:
        lay(face, face.elevation.bond_from, half=face.elevation.bond_start == "half")
    open_ends = [(face.id, side) for face in given for side in _ROUND]
    while len(done) < len(faces):
        if not open_ends:
            first = next(face for face in faces.values() if face.id not in done)
            lay(first, first.elevation.bond_from, half=False)
            open_ends = [(first.id, side) for side in _ROUND]
        end = open_ends.pop(0)
        if end in meets and meets[end][0] not in done:
            name, side = meets[end]
            lay(faces[name], side, half=ends_long(done[end[0]], end[1], module), carried_from=f"{end[0]}:{end[1]}")
            open_ends.insert(0, (name, other_side(side)))
    return done


def _is_carried(face: Face, options: Options) -> bool:
    start = face.elevation.bond_start
    return start == "carried" or (start is None and options.perps == "equalised")


def _refuse_without_header(system: System) -> None:
    has_headers = any("header" in course.units for course in BONDS[system.bond].courses)
    if has_headers and module_lengths(system).header <= HAIRLINE:
        slip = f"A slip of {system.slip.length_mm:g} mm less a perp of {system.joint.perp_mm:g} mm leaves no header"
        detail = f"{slip}; choose a bond without headers, or check both lengths."
        raise refuse("header-too-short", "/system/slip/length_mm", detail)
