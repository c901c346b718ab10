"""Working of the width of a face's joints, what seals them, and what is found about both."""

from collections.abc import Iterator
from typing import Final, get_args

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.ticks import ROUNDING_GUARD
from storeyrod.movement_joints.coefficients import of_the_same_material
from storeyrod.movement_joints.movement import MOVEMENT, Moisture, joint_movement, moisture_assumed
from storeyrod.movement_joints.movement_width import (
    FORMS,
    LEAST_WIDTH_MM,
    governing,
    longest_bay_for,
    rounded_width,
    width_for,
)
from storeyrod.movement_joints.sealant import Seal, depths_for, rod_limits
from storeyrod.movement_joints.width_models import ConventionWidth, JointSeal, RodRow, WidthWorking
from storeyrod.reference.documents import HOUSE
from storeyrod.trace import SILENT, Trace
from storeyrod.units import (
    LITRES_PER_CUBIC_METRE,
    METRES_PER_MILLIMETRE,
    MILLILITRES_PER_LITRE,
    SQUARE_METRES_PER_SQUARE_MILLIMETRE,
)
from storeyrod.wall.face import Face
from storeyrod.wall.movement import Convention, Movement
from storeyrod.wall.system import System

GREATEST_WIDTH_MM: Final = 50.0
"""House limit: the textbook's 25 mm are usual, and twice that the widest joint that gun-applied sealant is asked to fill."""

WIDTH_NOT_CHECKED: Final = (
    "Width of movement joints follows a spacing rule or is as given: temperature range, moisture, movement of the structure and "
    "the sealant's movement capability were not checked; give system.movement_joint.movement. The designer's joints and the "
    "local code come first."
)
MOVEMENT_NOT_CHECKED: Final = (
    "Width of movement joints rests on the movement given: temperatures, coefficients, drift and the sealant's declaration were "
    "not checked, nor the width of level joints, bays held at one end, creep and frost. The designer's joints and the local code come first."
)


def unchecked_width(system: System) -> str:
    """What the width of joints leaves to others."""
    return WIDTH_NOT_CHECKED if system.movement_joint.movement is None else MOVEMENT_NOT_CHECKED


def width_working(given: Movement, bay_m: float, width_mm: float, trace: Trace) -> WidthWorking:
    """Movement of the longest bay, the width that it asks for by both conventions, and the bays that the width can serve."""
    moved = joint_movement(given, bay_m, trace)
    direction, way = governing(given, moved)
    row: WidthWorking = {
        "bay_mm": bay_m / METRES_PER_MILLIMETRE,
        "closing_mm": moved.closing.movement,
        "opening_mm": moved.opening.movement,
        "total_mm": moved.total.movement,
        "governing": direction,
        "governing_mm": way.movement,
        "widths": [],
    }
    for convention in get_args(Convention):
        width = _by_convention(convention, given, width_for(way.movement, given, convention, trace), trace)
        longest = longest_bay_for(width_mm, given, way, convention, trace)
        if longest is not None:
            width["longest_bay_mm"] = longest / METRES_PER_MILLIMETRE
        row["widths"].append(width)
    if given.material is not None:
        row["coefficients"] = of_the_same_material(given.material)
    return row


def _by_convention(convention: Convention, given: Movement, needed: float, trace: Trace) -> ConventionWidth:
    clause = FORMS[convention].width.clause
    return {
        "convention": convention,
        "used": convention == given.convention,
        "width_mm": needed,
        "width_rounded_mm": rounded_width(needed, trace),
        "document": clause.document,
        "number": clause.number,
        "status": clause.status,
    }


def joint_seal(system: System, seal: Seal, length_m: float) -> JointSeal:
    """Section of the seal of a face's joints, its rod, and what other rules give for its depth."""
    by_rule = system.movement_joint.sealant_depth_mm is None
    return {
        "section": seal.section,
        "section_mm2": seal.area,
        "volume_ml_per_m": section_volume(seal.area),
        "backer_rod": rod_row(seal, length_m),
        "depths": depths_for(seal.width, by_rule=by_rule),
    }


def section_volume(area_mm2: float) -> float:
    """Millilitres in a metre of a section."""
    return area_mm2 * SQUARE_METRES_PER_SQUARE_MILLIMETRE * LITRES_PER_CUBIC_METRE * MILLILITRES_PER_LITRE


def rod_row(seal: Seal, length_m: float) -> RodRow:
    """Rod behind a seal."""
    least, most = rod_limits(seal.rod.kind, seal.width)
    return {
        "kind": seal.rod.kind,
        "diameter_mm": seal.rod.diameter,
        "diameter_least_mm": least,
        "diameter_most_mm": most,
        "length_m": length_m,
    }


def width_findings(face: Face, system: System, bay_m: float, width_mm: float) -> Iterator[Finding]:
    """What is found about the width of a face's joints and the rod given for them."""
    where: Where = {"pointer": "/system/movement_joint", "elevation": face.id}
    joint = system.movement_joint
    if joint.movement is not None and joint.width_mm is not None:
        _, way = governing(joint.movement, joint_movement(joint.movement, bay_m, SILENT))
        needed = width_for(way.movement, joint.movement, joint.movement.convention, SILENT)
        if width_mm < needed - ROUNDING_GUARD:
            yield finding("joint-width-short", where, value=width_mm, limit=needed, unit="mm")
    if not LEAST_WIDTH_MM <= width_mm <= GREATEST_WIDTH_MM:
        limit = LEAST_WIDTH_MM if width_mm < LEAST_WIDTH_MM else GREATEST_WIDTH_MM
        yield finding("joint-hard-to-seal", where, value=width_mm, limit=limit, unit="mm")
    yield from _rod_findings(system, width_mm, where)


def _rod_findings(system: System, width_mm: float, where: Where) -> Iterator[Finding]:
    rod = system.movement_joint.backer_rod
    if rod.diameter_mm is None:
        return
    least, most = rod_limits(rod.kind, width_mm)
    if not least - ROUNDING_GUARD <= rod.diameter_mm <= most + ROUNDING_GUARD:
        limit = least if rod.diameter_mm < least else most
        yield finding("backer-rod-unfit", where, value=rod.diameter_mm, limit=limit, unit="mm")


def moisture_assumptions(given: Movement) -> Iterator[Assumption]:
    """Moisture movement that was taken where the request gives none."""
    for member in get_args(Moisture):
        if getattr(given, member) is None:
            value, clause = moisture_assumed(given, member)
            note = "no moisture movement was given" if clause == HOUSE else ""
            yield stated(f"{MOVEMENT}/{member}", value, Assumed("mm_per_m", clause, note))
