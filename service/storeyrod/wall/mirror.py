"""Elevations given as the mirror image of another one: the same house type, handed.

Everything is mirrored about the middle of the source's outline, in whole ticks, so that the image lies in the same frame and
mirroring twice gives the source back.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from storeyrod.findings import refuse
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.wall.models import Base, Edge, Elevation, Feature, PolygonFeature, RectangleFeature
from storeyrod.wall.opening_models import CircleOpening, Opening, Point, PolygonOpening, Reveal

_OWN: Final = frozenset({"id", "mirror_of", "viewed", "face", "left_edge", "right_edge"})
"""Members that stand beside ``mirror_of``."""


@dataclass(frozen=True, slots=True)
class Survey:
    """An elevation as it is clad, and where the request says so.

    ``members`` is the pointer of the elevation whose outline, openings, base and joints these are: its own, or the source's.
    """

    elevation: Elevation
    pointer: str
    members: str
    left_edge: str
    right_edge: str
    mirrored: bool = False


def surveys_of(elevations: Sequence[Elevation]) -> list[Survey]:
    """Every elevation in request order, mirror images worked out.

    Raises ``reference-unknown`` for a source that is not drawn in this request, and ``mirror-contradictory`` for an image that
    describes itself as well.
    """
    pointers = {elevation.id: f"/elevations/{index}" for index, elevation in enumerate(elevations)}
    drawn = {elevation.id: elevation for elevation in elevations if elevation.mirror_of is None}
    return [_survey(elevation, f"/elevations/{index}", drawn, pointers) for index, elevation in enumerate(elevations)]


def source_of(elevation: Elevation, by_id: Mapping[str, Elevation]) -> Elevation:
    """The elevation that holds the sizes: itself, or the one it mirrors where the request holds that."""
    return elevation if elevation.mirror_of is None else by_id.get(elevation.mirror_of, elevation)


def _survey(elevation: Elevation, pointer: str, drawn: Mapping[str, Elevation], pointers: Mapping[str, str]) -> Survey:
    if elevation.mirror_of is None:
        return Survey(elevation, pointer, pointer, f"{pointer}/left_edge", f"{pointer}/right_edge")
    source = drawn.get(elevation.mirror_of)
    if source is None:
        detail = (
            "No elevation of this request that is drawn itself has this id; name one that has an outline of its own."
        )
        raise refuse("reference-unknown", f"{pointer}/mirror_of", detail)
    _refuse_own_description(elevation, pointer)
    members = pointers[source.id]
    own = elevation.model_fields_set
    return Survey(
        image_of(source, elevation),
        pointer,
        members,
        f"{pointer}/left_edge" if "left_edge" in own else f"{members}/right_edge",
        f"{pointer}/right_edge" if "right_edge" in own else f"{members}/left_edge",
        mirrored=True,
    )


def _refuse_own_description(elevation: Elevation, pointer: str) -> None:
    given = (name for name in type(elevation).model_fields if name in elevation.model_fields_set - _OWN)
    for name in given:
        if getattr(elevation, name) is not None:
            detail = f"{name} stands beside mirror_of; leave out one of them: an image takes it from the elevation it mirrors."
            raise refuse("mirror-contradictory", f"{pointer}/{name}", detail)


def image_of(source: Elevation, given: Elevation) -> Elevation:
    """The mirror image of an elevation, with the id and edges that are given for it."""
    axis = _axis(source)
    ends = {"left_edge": _unpaired(source.right_edge), "right_edge": _unpaired(source.left_edge)}
    own = {name: getattr(given, name) for name in sorted(_OWN & given.model_fields_set)}
    origin, joints = source.bond_origin_x_mm, source.joints_x_mm
    changes: dict[str, Any] = {
        "face": None,
        "outline": _points(source.outline, axis) if source.outline is not None else None,
        "openings": [_opening(opening, axis) for opening in source.openings],
        "features": [_feature(feature, axis) for feature in source.features],
        "base": _base(source.base, axis) if source.base is not None else None,
        "existing_joints_x_mm": [_across(x, axis) for x in source.existing_joints_x_mm],
        "joints_x_mm": [_across(x, axis) for x in joints] if joints is not None else None,
        "bond_from": "right" if source.bond_from == "left" else "left",
        "bond_origin_x_mm": _across(origin, axis) if origin is not None else None,
    }
    return source.model_copy(update={**ends, **changes, **own})


def _axis(source: Elevation) -> float:
    """Left and right end of the outline added up, in ticks: what x and its image add up to."""
    if source.outline is None:
        return ticks(source.width_mm or 0.0)
    places = [ticks(point.x_mm) for point in source.outline]
    return min(places) + max(places)


def _across(x_mm: float, axis: float, width_mm: float = 0.0) -> float:
    """Left end in mm of the image of what starts at x and is so wide."""
    return millimetres(axis - ticks(x_mm) - ticks(width_mm))


def _points(points: Sequence[Point], axis: float) -> list[Point]:
    """Images of points, from right to left."""
    return [point.model_copy(update={"x_mm": _across(point.x_mm, axis)}) for point in reversed(points)]


def _unpaired(edge: Edge) -> Edge:
    """An end without its partner: the image's neighbour is another one."""
    return edge.model_copy(update={"to": None})


def _base(base: Base, axis: float) -> Base:
    return base.model_copy(update={"ground": _points(base.ground, axis)})


def _opening(opening: Opening, axis: float) -> Opening:
    match opening:
        case PolygonOpening():
            return opening.model_copy(update={"points": _points(opening.points, axis)})
        case CircleOpening():
            return opening.model_copy(update={"x_mm": _across(opening.x_mm, axis)})
        case _:
            reveal = Reveal(left=opening.reveal.right, right=opening.reveal.left, head=opening.reveal.head)
            x_mm = _across(opening.x_mm, axis, opening.width_mm)
            return opening.model_copy(update={"x_mm": x_mm, "reveal": reveal})


def _feature(feature: Feature, axis: float) -> Feature:
    match feature:
        case PolygonFeature():
            return feature.model_copy(update={"points": _points(feature.points, axis)})
        case RectangleFeature():
            return feature.model_copy(update={"x_mm": _across(feature.x_mm, axis, feature.width_mm)})
