"""What to know before wind figures are used: faces that do not fit the box of the building, and pressures that look misread."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Final

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.ticks import TICKS_PER_MM, millimetres, ticks
from storeyrod.units import SQUARE_METRES_PER_SQUARE_MILLIMETRE
from storeyrod.wall.face import SIDES as ENDS
from storeyrod.wall.face import SQUARE_DEG, Face, Side
from storeyrod.wall.models import BuildingFace
from storeyrod.wall.system import System
from storeyrod.wind.face_wind import FaceWind
from storeyrod.wind.face_zones import SLACK_M, side_length
from storeyrod.wind.internal import SIDES
from storeyrod.wind.site_models import AnyWind, InternalDominantFace, PeakPressures

SMALLEST_LOADED_AREA_M2: Final = 1.0
"""Up to here coefficients do not depend on the loaded area (EN 1991-1-4, 7.2.1(1), from memory)."""

_ROUNDING_M: Final = 0.01
"""House rule: how much higher or longer than the building a face may be without a word."""

_DEEP_M: Final = 3.0
"""House rule: a storey; walls reach a little below the ground, but no storey of cladding does."""

_MILLIMETRES: Final = 1000.0
_TICKS_PER_M: Final = _MILLIMETRES * TICKS_PER_MM

Places = Mapping[str, BuildingFace | None]
"""Where each elevation stands on the building, by its name."""


def wind_findings(faces: Sequence[FaceWind], wind: AnyWind) -> list[Finding]:
    """Findings on the wind itself, then face by face."""
    places = {one.face.id: one.face.elevation.face for one in faces}
    return [
        *_left_out(wind),
        *_falling(wind),
        *_closed_face([one.face for one in faces], wind),
        *(item for one in faces for item in _face_findings(one, places, wind)),
    ]


def area_findings(system: System, wind: AnyWind) -> list[Finding]:
    """Suction for a larger area than a board loads is too low for its fasteners."""
    board = system.board.cover_length_mm * system.board.cover_height_mm * SQUARE_METRES_PER_SQUARE_MILLIMETRE
    value, limit = wind.loaded_area_m2, max(SMALLEST_LOADED_AREA_M2, board)
    if value <= limit:
        return []
    return [finding("loaded-area-large", {"pointer": "/wind/loaded_area_m2"}, value=value, limit=limit, unit="m2")]


def _left_out(wind: AnyWind) -> Iterator[Finding]:
    missing = [side for side in SIDES if side not in wind.directions]
    if missing:
        place: Where = {"pointer": "/wind/directions"}
        yield finding("wind-directions-left-out", place, value=len(missing), limit=0, unit="count")


def _falling(wind: AnyWind) -> Iterator[Finding]:
    """Where given pressures fall with height, which no profile of the standard does."""
    for index, (below, above) in enumerate(pairwise(wind.peak_pressures if isinstance(wind, PeakPressures) else ()), 1):
        if above.pressure_pa < below.pressure_pa:
            place: Where = {"pointer": f"/wind/peak_pressures/{index}/pressure_pa"}
            yield finding("pressure-falls", place, value=above.pressure_pa, limit=below.pressure_pa, unit="pa")
            return


def _closed_face(faces: Sequence[Face], wind: AnyWind) -> Iterator[Finding]:
    """A side that is said to have most openings is drawn without any, and another one with some."""
    if not isinstance(wind.internal_pressure, InternalDominantFace):
        return
    side = wind.internal_pressure.side
    open_of = {face.elevation.face.side: False for face in faces if face.elevation.face is not None}
    for face in faces:
        if face.elevation.face is not None and face.openings:
            open_of[face.elevation.face.side] = True
    if open_of.get(side) is False and any(open_of.values()):
        yield finding("dominant-face-closed", {"pointer": "/wind/internal_pressure/side"})


def _face_findings(wind: FaceWind, places: Places, site: AnyWind) -> Iterator[Finding]:
    face = wind.face
    where: Where = {"pointer": face.pointer, "elevation": face.id}
    if wind.assessed_to is not None:
        above: Where = {
            **where,
            "pointer": f"{face.members_pointer}/parapet_from_mm",
            "y_mm": millimetres(wind.assessed_to),
        }
        yield finding("parapet-wind", above)
    if any(_is_no_box(face, end) for end in ENDS):
        yield finding("wind-plan-not-a-box", where)
    if face.elevation.face is None:
        yield finding("wind-face-unknown", where)
    elif wind.patches and all(patch.zone == "A" for patch in wind.patches):
        yield finding("zone-a-whole-face", where)
    unclear = [end for end in ENDS if _views_disagree(face, end, places)]
    if unclear:
        yield finding("wind-view-unclear", where)
    yield from _heights(face, where, site)
    for end in ENDS:
        if face.edge(end).kind == "external_corner" and end not in unclear:
            yield from _corner(face, end, places, site)


def _is_no_box(face: Face, end: Side) -> bool:
    edge = face.edge(end)
    return edge.kind == "internal_corner" or (edge.kind == "external_corner" and edge.angle_deg != SQUARE_DEG)


def _heights(face: Face, where: Where, site: AnyWind) -> Iterator[Finding]:
    """Faces that rise a little over the building, or reach deep below the ground."""
    ground = ticks(site.ground_y_mm)
    top, foot = (face.top - ground) / _TICKS_PER_M, (face.foot - ground) / _TICKS_PER_M
    height = site.building.height_m
    if top > height + _ROUNDING_M:
        yield finding("building-low", where, value=top, limit=height, unit="m")
    if top <= 0.0 or foot < -_DEEP_M:
        yield finding("wind-below-ground", where, value=-foot, limit=_DEEP_M, unit="m")


def _corner(face: Face, end: Side, places: Places, site: AnyWind) -> Iterator[Finding]:
    """External corners stand at the ends of their side, and meet the side round the corner."""
    place = face.elevation.face
    if place is None:
        return
    x = face.left if end == "left" else face.right
    where: Where = {"pointer": face.edge_pointer(end), "elevation": face.id, "x_mm": millimetres(x)}
    seen, offset = _from_outside(end, place), place.offset_mm / _MILLIMETRES
    stands = offset if seen == "left" else offset + face.length / _TICKS_PER_M
    away = abs(stands - (0.0 if seen == "left" else side_length(place, site)))
    if away > SLACK_M:
        yield finding("wind-corner-misplaced", where, value=away, limit=SLACK_M, unit="m")
    other = (face.edge(end).to or "").rpartition(":")[0]
    beside = places.get(other)
    if beside is not None and other != face.id:
        turn = 1 if seen == "right" else -1
        if beside.side != SIDES[(SIDES.index(place.side) + turn) % len(SIDES)]:
            yield finding("wind-sides-apart", where)


def _from_outside(end: Side, place: BuildingFace) -> Side:
    """Which end of its side that is, seen from outside."""
    if place.seen_from == "outside":
        return end
    return "left" if end == "right" else "right"


def _views_disagree(face: Face, end: Side, places: Places) -> bool:
    """Whether an end meets a like end of another face that is drawn from the same side, or an unlike one drawn from the other."""
    other, _, met = (face.edge(end).to or "").rpartition(":")
    own, its = face.elevation.face, places.get(other)
    if own is None or its is None or other == face.id:
        return False
    return (met == end) == (own.seen_from == its.seen_from)
