"""The edge of an opening: jamb, head and sill are one drawing, laid on the sheet in three ways."""

from dataclasses import dataclass

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.findings import refuse
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.junctions.detail_models import HeadDetail, JambDetail, RevealLining, SillDetail, SillPiece
from storeyrod.junctions.details.detail import (
    DrawnDetail,
    inside,
    leg_of,
    length_with,
    metres,
    outside,
    refuse_beyond,
    thickness_of,
)
from storeyrod.junctions.details.drawing import CUT, PARAMETERS, Box, Surface, Surfaces, Way, place, wall_boxes
from storeyrod.junctions.details.lintel import lintel_boxes
from storeyrod.junctions.details.open_air import OpenAir, open_air
from storeyrod.junctions.details.opening_frame import FRAME, frame_heat
from storeyrod.junctions.details.wall_slices import Wall
from storeyrod.junctions.posed import FRAME_INSIDE, Flank, Place
from storeyrod.reference.documents import HOUSE
from storeyrod.trace import Trace
from storeyrod.units import METRES_PER_MILLIMETRE

_AGAINST_WALL = Assumed("mm", HOUSE, "the frame stands against the wall")

Asked = JambDetail | HeadDetail | SillDetail


@dataclass(frozen=True, slots=True)
class _Cover:
    """What covers the foot of the reveal: thickness, overlap on the frame and projection from the face, in ticks."""

    thickness: float = 0.0
    overlap: float = 0.0
    projection: float = 0.0
    conductivity: float = 0.0
    name: str = ""
    pointer: str = ""


@dataclass(frozen=True, slots=True)
class _Opening:
    """Lines of the drawing in ticks: the wall ends at 0 along, the finished face is 0 across.

    The frame lies from ``start`` to ``end`` along and from ``front`` to ``back`` across.
    """

    cover: _Cover
    start: float
    end: float
    front: float
    back: float


def jamb(asked: JambDetail, wall: Wall, trace: Trace) -> DrawnDetail:
    """The side of an opening: the wall to the left, the finished face below."""
    return _drawn(asked, wall, "plan", [], [], trace)


def sill(asked: SillDetail, wall: Wall, trace: Trace) -> DrawnDetail:
    """The sill of an opening: the wall below, the finished face at the left."""
    return _drawn(asked, wall, "upright", [], [], trace)


def head(asked: HeadDetail, wall: Wall, trace: Trace) -> DrawnDetail:
    """The head of an opening: the wall above, the finished face at the left."""
    boxes, assumed = lintel_boxes(asked.parameters, wall)
    return _drawn(asked, wall, "hanging", boxes, assumed, trace)


def _drawn(
    asked: Asked, wall: Wall, way: Way, extra: list[Box], assumed: list[Assumption], trace: Trace
) -> DrawnDetail:
    given = asked.parameters
    cover, overlap = _cover(asked)
    air = open_air(wall, trace)
    opening = _opening(asked, cover, wall, air)
    leg = leg_of(given.leg_mm, thickness_of(wall.slices, trace), trace, _reach(asked, trace))
    lambda_, u_frame = frame_heat(given.frame, wall.internal, air.resistance, trace)
    frame = Box((opening.start, opening.end), (opening.front, opening.back), float(lambda_), "frame", FRAME)
    refuse_beyond([frame, *extra], -leg.length, opening.end)
    boxes = [*wall_boxes(wall.slices, -leg.length, 0.0), *extra, *_covering(opening, given.gap_conductivity_w_per_m_k)]
    in_opening, clear = _frame_lengths(opening, trace)
    wall_external = leg.metres
    if cover.thickness > 0.0:
        d = trace.given(metres(cover.thickness), f"{cover.pointer}/thickness_mm")
        wall_external = trace.call(length_with, l_leg=leg.metres, d=d)
    return DrawnDetail(
        (*boxes, frame),
        _surfaces(opening, -leg.length, wall, air),
        way,
        (Flank("wall", wall.u_value(trace), leg.metres, wall_external), Flank("frame", u_frame, in_opening, clear)),
        _places(opening, wall, way),
        findings=air.findings + leg.findings,
        assumptions=assumed + overlap + air.assumptions + leg.assumptions,
    )


def _reach(asked: Asked, trace: Trace) -> float | None:
    """How far a lintel stands in the wall, in m."""
    if not isinstance(asked, HeadDetail) or asked.parameters.lintel is None:
        return None
    height = asked.parameters.lintel.height_mm
    return trace.given(height * METRES_PER_MILLIMETRE, f"{PARAMETERS}/lintel/height_mm")


def _cover(asked: Asked) -> tuple[_Cover, list[Assumption]]:
    given: RevealLining | SillPiece | None
    if isinstance(asked, SillDetail):
        given, name, pointer = asked.parameters.piece, "sill piece", f"{PARAMETERS}/piece"
        projection = 0.0 if asked.parameters.piece is None else ticks(asked.parameters.piece.projection_mm)
    else:
        given, name, pointer = asked.parameters.lining, "lining of the reveal", f"{PARAMETERS}/lining"
        projection = 0.0
    if given is None:
        return _Cover(), []
    overlap = given.thickness_mm if given.overlap_mm is None else given.overlap_mm
    made = _Cover(ticks(given.thickness_mm), ticks(overlap), projection, given.conductivity_w_per_m_k, name, pointer)
    assumed = [] if given.overlap_mm is not None else [stated(f"{pointer}/overlap_mm", overlap, _AGAINST_WALL)]
    return made, assumed


def _opening(asked: Asked, cover: _Cover, wall: Wall, air: OpenAir) -> _Opening:
    """The lines of the drawing; refuses a frame that finds no room in the reveal."""
    given = asked.parameters
    front = ticks(given.setback_mm) - air.depth
    back = front + ticks(given.frame.depth_mm)
    start = cover.thickness - cover.overlap
    end = start + ticks(given.frame.width_mm)
    if back > wall.thickness:
        raise refuse(
            "detail-unfit",
            f"{PARAMETERS}/setback_mm",
            f"the frame ends {millimetres(back + air.depth):g} mm behind the finished face, in a wall of "
            f"{millimetres(wall.thickness + air.depth):g} mm; reduce setback_mm or the depth of the frame",
        )
    if front < 0.0:
        raise refuse(
            "detail-unfit",
            f"{PARAMETERS}/setback_mm",
            f"the frame begins in the ventilated cladding, {millimetres(air.depth):g} mm deep, which is not drawn; set it back that far",
        )
    if end <= cover.thickness:
        raise refuse(
            "detail-unfit",
            f"{FRAME}/width_mm",
            f"what covers the reveal hides all {given.frame.width_mm:g} mm of the frame; widen it, or reduce overlap_mm",
        )
    if cover.thickness > 0.0 and front == 0.0:
        raise refuse(
            "detail-unfit",
            f"{PARAMETERS}/setback_mm",
            f"a frame in the face of the wall leaves no reveal for the {cover.name}",
        )
    return _Opening(cover, start, end, front, back)


def _covering(opening: _Opening, gap: float) -> list[Box]:
    """Lining or sill piece, and the filling of the gap behind it."""
    cover = opening.cover
    if cover.thickness == 0.0:
        return []
    across = (0.0 - cover.projection, opening.front)
    made = [Box((0.0, cover.thickness), across, cover.conductivity, cover.name, cover.pointer)]
    if opening.start > 0.0:
        made.append(Box((0.0, opening.start), (opening.front, opening.back), gap, "filling of the gap", PARAMETERS))
    return made


def _surfaces(opening: _Opening, cut: float, wall: Wall, air: OpenAir) -> Surfaces:
    def found(along: float, across: float) -> Surface:
        if along in (cut, opening.end):
            return CUT
        if across >= opening.back:
            return inside(_facing_the_room(opening, along), wall)
        if along < 0.0:
            return outside("wall, outside", wall)
        in_front = across == opening.front and along > opening.cover.thickness
        return air.surface("frame, outside" if in_front else "wall, outside")

    return found


def _facing_the_room(opening: _Opening, along: float) -> str:
    """Name of an inside surface: wall, filling of the gap beside the frame, or frame."""
    if along <= 0.0:
        return "wall, inside"
    return "gap, inside" if along < opening.start else FRAME_INSIDE


def _frame_lengths(opening: _Opening, trace: Trace) -> tuple[float, float]:
    """Length of frame in the opening of the wall, and in the clear opening outside; a gap beside the frame is none of it."""
    cover = opening.cover
    width = ("width", metres(opening.end - opening.start), f"{FRAME}/width_mm")
    hidden = ("overlap", -metres(cover.overlap), cover.pointer)
    lined = ("thickness", metres(cover.thickness), f"{cover.pointer}/thickness_mm")
    behind = [width, lined, hidden] if opening.start < 0.0 else [width]
    clear = [width, hidden] if cover.overlap > 0.0 else [width]
    return trace.measure("l_f", "m", behind), trace.measure("l_f", "m", clear)


def _places(opening: _Opening, wall: Wall, way: Way) -> tuple[Place, ...]:
    meets = place("frame_meets_reveal", 0.0, opening.back, way)
    if opening.back == wall.thickness:
        return (meets,)
    return (meets, place("inside_arris", 0.0, wall.thickness, way))
