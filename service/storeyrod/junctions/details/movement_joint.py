"""A movement joint: a slot through the whole cladding, with a filling and a sealant in its mouth."""

from storeyrod.findings import refuse
from storeyrod.geometry.ticks import ticks
from storeyrod.junctions.detail_models import MovementJointDetail, MovementJointParameters
from storeyrod.junctions.details.detail import DrawnDetail, inside, leg_of, measured, outside, thickness_of
from storeyrod.junctions.details.drawing import CUT, PARAMETERS, Box, Surface, place, wall_boxes
from storeyrod.junctions.details.wall_slices import Wall, insulation_of
from storeyrod.junctions.posed import Flank
from storeyrod.reference.documents import GEOMETRY
from storeyrod.trace import Trace


def movement_joint(asked: MovementJointDetail, wall: Wall, trace: Trace) -> DrawnDetail:
    """The joint with its middle at the origin; the wall's own heat loss is taken off over the whole length, slot included."""
    given = asked.parameters
    insulation, assumed = insulation_of(wall, given.insulation_layer, PARAMETERS)
    leg = leg_of(given.leg_mm, thickness_of(wall.slices, trace), trace)
    half = ticks(given.width_mm / 2.0)
    end = half + leg.length

    def surfaces(along: float, across: float) -> Surface:
        if abs(along) == end:
            return CUT
        return inside("inside", wall) if across == wall.thickness else outside("outside", wall)

    width = measured("b", 2.0 * half, trace, f"{PARAMETERS}/width_mm")
    length = trace.sum("l", "m", [leg.metres, width, leg.metres], GEOMETRY)
    return DrawnDetail(
        (*wall_boxes(wall.slices, -end, end), *_slot(given, half, insulation.inner)),
        surfaces,
        "plan",
        (Flank("wall", wall.u_value(trace), length, length),),
        (place("inside_behind_joint", 0.0, wall.thickness, "plan"),),
        findings=leg.findings,
        assumptions=assumed + leg.assumptions,
    )


def _slot(given: MovementJointParameters, half: float, deep: float) -> list[Box]:
    slot = Box((-half, half), (0.0, deep), given.filling_conductivity_w_per_m_k, "filling of the joint", PARAMETERS)
    if given.sealant is None:
        return [slot]
    pointer = f"{PARAMETERS}/sealant"
    depth = ticks(given.sealant.depth_mm)
    if depth > deep:
        raise refuse(
            "detail-unfit",
            f"{pointer}/depth_mm",
            f"the sealant is {given.sealant.depth_mm:g} mm deep and the cladding {deep / ticks(1.0):g} mm; it cannot be deeper",
        )
    return [slot, Box((-half, half), (0.0, depth), given.sealant.conductivity_w_per_m_k, "sealant", pointer)]
