"""The edge of a floor slab that bears in the wall."""

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.findings import refuse
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.junctions.detail_models import SlabEdgeDetail, SlabEdgeParameters
from storeyrod.junctions.details.detail import DrawnDetail, inside, leg_of, measured, metres, outside, thickness_of
from storeyrod.junctions.details.drawing import CUT, PARAMETERS, Box, Surface, place, wall_boxes
from storeyrod.junctions.details.wall_slices import Wall, behind, insulation_of
from storeyrod.junctions.posed import Flank
from storeyrod.reference.documents import GEOMETRY, HOUSE
from storeyrod.trace import SILENT, Trace

_OTHERWISE = "; or give embedment_mm, how far the slab reaches into the wall"
_WHOLE_WALL = Assumed("mm", HOUSE, "through all that stands behind the cladding")


def slab_edge(asked: SlabEdgeDetail, wall: Wall, trace: Trace) -> DrawnDetail:
    """The slab with its underside at the origin; internal lengths are clear heights, external ones have the slab too."""
    given = asked.parameters
    deep, assumed = _embedment(given, wall)
    leg = leg_of(given.leg_mm, thickness_of(wall.slices, trace), trace)
    slab = ticks(given.slab_thickness_mm)
    reach = wall.thickness + leg_of(None, metres(slab), SILENT).length
    foot, head = -leg.length, slab + leg.length

    def surfaces(along: float, across: float) -> Surface:
        if along in (foot, head) or across == reach:
            return CUT
        return inside("inside", wall) if across >= wall.thickness else outside("outside", wall)

    lambda_ = given.slab_conductivity_w_per_m_k
    floor = Box((0.0, slab), (wall.thickness - deep, reach), lambda_, "floor slab", PARAMETERS)
    clear = trace.sum("l", "m", [leg.metres, leg.metres], GEOMETRY)
    thick = measured("d", slab, trace, f"{PARAMETERS}/slab_thickness_mm")
    whole = trace.sum("l", "m", [leg.metres, thick, leg.metres], GEOMETRY)
    return DrawnDetail(
        (*wall_boxes(wall.slices, foot, head), floor),
        surfaces,
        "upright",
        (Flank("wall", wall.u_value(trace), clear, whole),),
        (place("under_slab", 0.0, wall.thickness, "upright"), place("on_slab", slab, wall.thickness, "upright")),
        findings=leg.findings,
        assumptions=assumed + leg.assumptions,
    )


def _embedment(given: SlabEdgeParameters, wall: Wall) -> tuple[float, list[Assumption]]:
    """How far the slab reaches into the wall, in ticks."""
    pointer = f"{PARAMETERS}/embedment_mm"
    if given.embedment_mm is None:
        insulation, assumed = insulation_of(wall, given.insulation_layer, PARAMETERS, _OTHERWISE)
        deep = wall.thickness - behind(wall, insulation, _OTHERWISE)[-1].outer
        return deep, [*assumed, stated(pointer, millimetres(deep), _WHOLE_WALL)]
    deep = ticks(given.embedment_mm)
    if deep >= wall.thickness:
        raise refuse(
            "detail-unfit",
            pointer,
            f"the slab reaches {given.embedment_mm:g} mm into a wall of {millimetres(wall.thickness):g} mm; leave some of it outside",
        )
    return deep, []
