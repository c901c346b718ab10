"""Lengths and openings of every face in the planes of the substrate, the boards and the finished face."""

from storeyrod.geometry.ticks import exact_ticks, millimetres
from storeyrod.setting_out.bed_levels import bed_level_limits
from storeyrod.setting_out.course_grid import half_modules, module_lengths
from storeyrod.setting_out.level_models import FinishedFace, OpeningPlanes, PlaneSizes
from storeyrod.trace import Trace
from storeyrod.wall.face import SIDES, Face, corner_shift
from storeyrod.wall.openings import FaceOpening, Sizes, widened
from storeyrod.wall.system import System


def finished_face(face: Face, system: System, trace: Trace) -> FinishedFace:
    """One face: substrate to finished plane by the kinds of its edges, and its openings in both planes."""
    left, right = (millimetres(corner_shift(face.edge(side), face.build_up)) for side in SIDES)
    return {
        "elevation": face.id,
        "substrate_length_mm": millimetres(face.substrate_length),
        "finished_length_mm": millimetres(face.length),
        "board_length_run_through_mm": _board_length(face, runs_through=True),
        "board_length_butted_mm": _board_length(face, runs_through=False),
        "left_shift_mm": left,
        "right_shift_mm": right,
        "openings": [_opening(opening, system) for opening in face.openings],
        "bed_levels": bed_level_limits(face, trace),
    }


def _board_length(face: Face, *, runs_through: bool) -> float:
    left, _, right, _ = face.board_gross(left_runs_through=runs_through, right_runs_through=runs_through).box
    return millimetres(right - left)


def _opening(opening: FaceOpening, system: System) -> OpeningPlanes:
    module = module_lengths(system)
    width, perp = opening.right - opening.left, exact_ticks(system.joint.perp_mm)
    modules = half_modules(width - perp, module)
    return {
        "opening": opening.id,
        "finished": _sizes((opening.left, opening.right, opening.sill, opening.springing, opening.head)),
        "substrate": _sizes(widened(opening)),
        "modules": float(modules),
        "off_module_mm": millimetres(width - perp - float(modules) * module.length),
    }


def _sizes(sizes: Sizes) -> PlaneSizes:
    left, right, sill, _, head = (millimetres(size) for size in sizes)
    return {"x_mm": left, "width_mm": right - left, "sill_mm": sill, "head_mm": head}
