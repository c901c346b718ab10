"""Setting out a whole wall: the bond starts on one face and is carried round the corners to the next.

At a corner one face shows the longer side of a unit where the other shows the shorter one, so the neighbour begins with the
other unit. A face into which the bond is carried is set out from that corner.
"""

from collections.abc import Mapping, Sequence

from storeyrod.movement_joints.placement import JointPlan
from storeyrod.options import Options
from storeyrod.setting_out.bays import BondStart, FaceSetOut, bond_origin, set_out_face
from storeyrod.setting_out.course_grid import HAIRLINE, Module, Stretch, module_lengths
from storeyrod.setting_out.ways import End, meeting_ends
from storeyrod.wall.face import Face, Side
from storeyrod.wall.wall import Wall


def set_out(wall: Wall, plans: Sequence[JointPlan], options: Options) -> tuple[FaceSetOut, ...]:
    """Set out every face; ``plans`` are the movement joints of the faces in the same order.

    Faces whose bond is given come first, and the bond goes from them along the corners, by name. What no corner reaches starts
    by itself with a full unit.
    """
    bays = {face.id: plan.bays for face, plan in zip(wall.faces, plans, strict=True)}
    faces = {face.id: face for face in sorted(wall.faces, key=lambda one: one.id)}
    meets = meeting_ends(wall)
    module = module_lengths(wall.system)
    done: dict[str, FaceSetOut] = {}

    def lay(face: Face, start: BondStart) -> None:
        done[face.id] = set_out_face(face, start, bays[face.id], wall.system, module, options)

    given = [face for face in faces.values() if not _is_carried(face, options)]
    for face in given:
        side = face.elevation.bond_from
        half = face.elevation.bond_start == "half"
        lay(face, BondStart(side, bond_origin(face, side, wall.system), half))
    queue = [face.id for face in given]
    while len(done) < len(faces):
        if not queue:
            first = next(face for face in faces.values() if face.id not in done)
            side = first.elevation.bond_from
            lay(first, BondStart(side, bond_origin(first, side, wall.system), half=False))
            queue.append(first.id)
        for end, (name, side) in _neighbours(queue.pop(0), meets):
            if name not in done:
                half = ends_long(done[end[0]], end[1], module)
                origin = bond_origin(faces[name], side, wall.system)
                lay(faces[name], BondStart(side, origin, half, carried_from=f"{end[0]}:{end[1]}"))
                queue.append(name)
    return tuple(done[face.id] for face in wall.faces)


def _is_carried(face: Face, options: Options) -> bool:
    start = face.elevation.bond_start
    return start == "carried" or (start is None and options.perps == "equalised")


def _neighbours(name: str, meets: Mapping[End, End]) -> list[tuple[End, End]]:
    """Edges of a face that meet another one, right before left: the bond goes round to the right first."""
    sides: tuple[Side, Side] = ("right", "left")
    return [((name, side), meets[name, side]) for side in sides if (name, side) in meets]


def ends_long(out: FaceSetOut, side: Side, module: Module, course: int = 0) -> bool:
    """Whether a course of a face ends on a side with more than three quarters of a stretcher."""
    bay = out.bays[0 if side == "left" else -1]
    pattern = bay.patterns[course % len(bay.patterns)]
    width = end_piece(pattern[0] if side == "left" else pattern[-1], side, module)
    return width > (module.stretcher + module.header) / 2.0


def end_piece(stretch: Stretch, side: Side, module: Module) -> float:
    """Length of the unit nearest to an end of a stretch, as far as it lies in it. Ticks."""
    low, high = (
        (stretch.left, stretch.left + module.length)
        if side == "left"
        else (stretch.right - module.length, stretch.right)
    )
    units = [
        min(right, stretch.right) - max(left, stretch.left)
        for left, right, kind in stretch.grid.columns(low, high)
        if kind is not None and min(right, stretch.right) - max(left, stretch.left) > HAIRLINE
    ]
    return (units[0] if side == "left" else units[-1]) if units else 0.0
