"""A fastener through the insulation, in the disc of wall that belongs to it, turned about its axis."""

from math import pi, sqrt

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.findings import refuse
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.junctions.detail_models import PointFastenerDetail, PointFastenerParameters
from storeyrod.junctions.details.detail import DrawnDetail, inside, outside
from storeyrod.junctions.details.drawing import CUT, PARAMETERS, Box, Surface, place, wall_boxes
from storeyrod.junctions.details.wall_slices import Slice, Wall, insulation_of
from storeyrod.junctions.posed import Flank
from storeyrod.reference.documents import GEOMETRY, HOUSE
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE

_RADIUS = f"{PARAMETERS}/radius_of_influence_mm"
_WIDE_MM = 500.0
_WIDE = Assumed("mm", HOUSE, "wide enough that the fastener is felt no further")
_SAME_MATERIAL = Assumed("w_per_m_k", HOUSE, "a plug of the insulation's own material")


@formula(symbol="r", expression="sqrt(1 / (pi * n))", unit="m", inputs={"n": "per_m2"}, clause=GEOMETRY)
def radius_of_share(*, n: float) -> float:
    """Radius of the disc that has the area of one of n fasteners per square metre."""
    return sqrt(1.0 / (pi * n))


def point_fastener(asked: PointFastenerDetail, wall: Wall, trace: Trace) -> DrawnDetail:
    """The axis is x = 0, the finished face y = 0."""
    given = asked.parameters
    insulation, assumed = insulation_of(wall, given.insulation_layer, PARAMETERS)
    count = given.count_per_m2
    if count is not None:
        count = trace.given(count, f"{PARAMETERS}/count_per_m2")
    radius, assumed_radius = _radius(given, count, trace)
    far = ticks(float(radius) / METRES_PER_MILLIMETRE)
    fastener, assumed_plug = _fastener(given, insulation)
    _refuse_unfit(given, fastener, insulation, far, wall)

    def surfaces(along: float, across: float) -> Surface:
        if along == far:
            return CUT
        return inside("inside", wall) if across == wall.thickness else outside("outside", wall)

    return DrawnDetail(
        (*wall_boxes(wall.slices, 0.0, far), *fastener),
        surfaces,
        "plan",
        (Flank("wall", wall.u_value(trace), radius, radius),),
        (place("inside_on_axis", 0.0, wall.thickness, "plan"),),
        geometry="axisymmetric",
        count_per_m2=count,
        assumptions=assumed + assumed_radius + assumed_plug,
    )


def _radius(given: PointFastenerParameters, count: float | None, trace: Trace) -> tuple[float, list[Assumption]]:
    if given.radius_of_influence_mm is not None:
        if count is not None:
            raise refuse("detail-unfit", _RADIUS, "give radius_of_influence_mm or count_per_m2, not both")
        return trace.given(given.radius_of_influence_mm * METRES_PER_MILLIMETRE, _RADIUS), []
    if count is not None:
        return trace.call(radius_of_share, n=count), []
    return trace.lookup("r", _WIDE_MM * METRES_PER_MILLIMETRE, "m", HOUSE), [stated(_RADIUS, _WIDE_MM, _WIDE)]


def _fastener(given: PointFastenerParameters, insulation: Slice) -> tuple[list[Box], list[Assumption]]:
    """Plug, head and shank, from outside to inside; what is absent is not drawn."""
    made: list[Box] = []
    assumed: list[Assumption] = []
    shank, head, recess = given.shank, given.head, given.recess
    half = ticks((shank.diameter_mm if head is None else head.diameter_mm) / 2.0)
    at = insulation.outer
    if recess is not None:
        pointer = f"{PARAMETERS}/recess"
        plug = recess.plug_conductivity_w_per_m_k
        if plug is None:
            plug = insulation.conductivity
            assumed = [stated(f"{pointer}/plug_conductivity_w_per_m_k", plug, _SAME_MATERIAL)]
        made.append(Box((0.0, half), (at, at + ticks(recess.depth_mm)), plug, "plug", pointer))
        at += ticks(recess.depth_mm)
    if head is not None:
        across = (at, at + ticks(head.thickness_mm))
        made.append(Box((0.0, half), across, head.conductivity_w_per_m_k, "head", f"{PARAMETERS}/head"))
        at = across[1]
    across = (at, insulation.inner + ticks(given.embedment_mm))
    around = (0.0, ticks(shank.diameter_mm / 2.0))
    return [*made, Box(around, across, shank.conductivity_w_per_m_k, "shank", f"{PARAMETERS}/shank")], assumed


def _refuse_unfit(
    given: PointFastenerParameters, fastener: list[Box], insulation: Slice, far: float, wall: Wall
) -> None:
    shank = fastener[-1]
    faults = (
        (max(box.along[1] for box in fastener) >= far, _RADIUS, "the head or shank is as wide as its disc of wall"),
        (
            given.head is not None and given.head.diameter_mm < given.shank.diameter_mm,
            f"{PARAMETERS}/head/diameter_mm",
            "the head is narrower than the shank",
        ),
        (
            shank.across[0] >= insulation.inner,
            f"{PARAMETERS}/{'recess/depth_mm' if given.recess else 'head/thickness_mm'}",
            f"recess and head leave nothing of an insulation of {millimetres(insulation.inner - insulation.outer):g} mm",
        ),
        (
            shank.across[1] > wall.thickness,
            f"{PARAMETERS}/embedment_mm",
            f"the shank comes out of the wall: {millimetres(wall.thickness - insulation.inner):g} mm stand behind the insulation",
        ),
    )
    for wrong, pointer, sentence in faults:
        if wrong:
            raise refuse("detail-unfit", pointer, sentence)
