"""An elevation as geometry: outline and openings in the finished plane, and the same wall in the plane of the boards.

Coordinates stay in the frame of the request. An elevation given in the substrate plane is moved out by the build-up at an
external corner and in at an internal one; linings narrow its openings.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise
from types import MappingProxyType
from typing import Final, Literal

from storeyrod.findings import refuse
from storeyrod.geometry.intervals import Interval, difference, intersection, union
from storeyrod.geometry.plane import Box, Region, Ring, bounds, rectangle, signed_area
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.wall.features import FaceFeature, face_features
from storeyrod.wall.grid import build_up_of, corner_projection
from storeyrod.wall.mirror import Survey, surveys_of
from storeyrod.wall.models import Edge, Elevation
from storeyrod.wall.moved_ends import moved_ends
from storeyrod.wall.openings import FaceOpening, face_opening, narrowed, sizes_in_plane, sizes_of, widened
from storeyrod.wall.overlaps import refuse_outside, refuse_repeated, shared_areas
from storeyrod.wall.rings import SMALLEST_OUTLINE, checked_ring
from storeyrod.wall.system import System

__all__ = ["SIDES", "Face", "FaceOpening", "Side", "corner_shift", "faces_of"]

Side = Literal["left", "right"]

SQUARE_DEG: Final = 90.0
"""A corner at another angle has mitred boards and slips."""


@dataclass(frozen=True)
class Face:
    """One elevation in the finished plane, in ticks."""

    survey: Survey
    outline: Ring
    openings: tuple[FaceOpening, ...]
    features: tuple[FaceFeature, ...]
    build_up: float
    board_thickness: float

    @property
    def elevation(self) -> Elevation:
        """What the request says of the face; of a mirror image, what it comes to."""
        return self.survey.elevation

    @property
    def pointer(self) -> str:
        """Its own member of the request."""
        return self.survey.pointer

    @property
    def members_pointer(self) -> str:
        """Where outline, base and joints stand in the request: its own member, or that of the elevation it mirrors."""
        return self.survey.members

    @property
    def id(self) -> str:
        """Name of the elevation."""
        return self.elevation.id

    @cached_property
    def region(self) -> Region:
        """Outline less openings, finished plane."""
        return Region((self.outline, *(opening.ring for opening in self.openings)))

    @cached_property
    def slip_region(self) -> Region:
        """Where slips are laid: outline less openings and features, finished plane."""
        if not self.features:
            return self.region
        rings = [feature.ring for feature in self.features]
        if any(feature.taken for feature in self.features):
            return self.region.less_rings(rings)
        return Region((*self.region.rings, *rings))

    @cached_property
    def left(self) -> float:
        """Left end."""
        return bounds(self.outline)[0]

    @cached_property
    def right(self) -> float:
        """Right end."""
        return bounds(self.outline)[2]

    @cached_property
    def foot(self) -> float:
        """Lowest point of the outline."""
        return bounds(self.outline)[1]

    @cached_property
    def top(self) -> float:
        """Highest point of the outline."""
        return bounds(self.outline)[3]

    @property
    def length(self) -> float:
        """Length of the finished face."""
        return self.right - self.left

    @property
    def gross_area(self) -> float:
        """Area of the outline in square ticks."""
        return signed_area(self.outline)

    def gross_within(self, box: Box) -> float:
        """Area of the outline inside a box in square ticks."""
        return Region((self.outline,)).within(box).area

    @property
    def net_area(self) -> float:
        """Area of the outline less its openings in square ticks."""
        return self.gross_area - sum(opening.area for opening in self.openings)

    @property
    def feature_area(self) -> float:
        """Area of features, which something else than slips covers, in square ticks."""
        return sum(feature.area for feature in self.features)

    def edge(self, side: Side) -> Edge:
        """How the face ends at one side."""
        return self.elevation.left_edge if side == "left" else self.elevation.right_edge

    def edge_pointer(self, side: Side) -> str:
        """Request member of that end."""
        return self.survey.left_edge if side == "left" else self.survey.right_edge

    def edge_heights(self, side: Side) -> list[tuple[float, float]]:
        """Where the wall stands along that end: plumb intervals, bottom to top."""
        x = self.left if side == "left" else self.right
        plumb = [
            (min(a[1], b[1]), max(a[1], b[1]))
            for a, b in pairwise((*self.outline, self.outline[0]))
            if a[0] == b[0] == x and a[1] != b[1]
        ]
        return sorted(plumb)

    def slip_edge_heights(self, side: Side) -> list[Interval]:
        """Where slips may stand along that end: no feature reaches it."""
        x = self.left if side == "left" else self.right
        covered = [edge.heights for feature in self.features for edge in feature.sides(side) if edge.x == x]
        return difference(self.edge_heights(side), union(covered))

    def joint_heights(self, x: float) -> list[Interval]:
        """Where wall stands on both sides of a plumb line, so that a joint along it has two flanks: none beside an opening."""
        return intersection(self.region.heights_at(x), self._region_mirrored.heights_at(-x))

    @cached_property
    def _region_mirrored(self) -> Region:
        """The region in the mirror of x = 0, where the left of a line lies to its right."""
        return Region(tuple(tuple((-x, y) for x, y in ring) for ring in self.region.rings))

    @property
    def substrate_length(self) -> float:
        """Length of the wall behind: the build-up taken off at external corners and added at internal ones."""
        return self.length - sum(corner_shift(self.edge(side), self.build_up) for side in SIDES)

    def base_runs(self) -> list[tuple[float, float, float]]:
        """Level runs of the foot, openings left out: (left, right, height), from left to right."""
        runs = [
            (a[0], b[0], a[1]) for a, b in pairwise((*self.outline, self.outline[0])) if a[1] == b[1] and b[0] > a[0]
        ]
        return sorted(run for level in runs for run in self._open_parts(level))

    def _open_parts(self, run: tuple[float, float, float]) -> Iterator[tuple[float, float, float]]:
        left, right, height = run
        thresholds = [level.span for opening in self.openings for level in opening.sills if level.height == height]
        for low, high in difference([(left, right)], union(thresholds)):
            yield low, high, height

    def board_gross(self, *, left_runs_through: bool, right_runs_through: bool) -> Region:
        """The outline in the plane of the boards' outer faces, for rows that run through or butt at each end."""
        left = self._board_inset("left", runs_through=left_runs_through)
        right = self._board_inset("right", runs_through=right_runs_through)
        return moved_ends(self.outline, -left, -right)

    def board_net(self, gross: Region) -> Region:
        """That outline less the openings as boards are cut for them; linings may take an opening past an end."""
        openings = self.board_openings()
        if all(opening.is_box for opening in openings):
            return gross.less(*((opening.left, opening.sill, opening.right, opening.head) for opening in openings))
        return gross.less_rings([opening.ring for opening in openings])

    def _board_inset(self, side: Side, *, runs_through: bool) -> float:
        """How far boards stay behind the finished end: run-through boards end at the other face's board, butting ones at
        its substrate; at an internal corner they reach past the finished end instead. At a corner that is not square all
        boards are mitred.
        """
        cover, edge = self.build_up - self.board_thickness, self.edge(side)
        if edge.angle_deg != SQUARE_DEG:
            return corner_shift(edge, cover)
        match edge.kind:
            case "external_corner":
                return cover if runs_through else self.build_up
            case "internal_corner":
                return -self.build_up if runs_through else -cover
            case _:
                return 0.0

    def board_openings(self) -> tuple[FaceOpening, ...]:
        """Openings as the boards are cut for them: finished size plus linings."""
        return self._openings_in_boards

    @cached_property
    def _openings_in_boards(self) -> tuple[FaceOpening, ...]:
        return tuple(
            opening if sizes == sizes_in_plane(opening) else face_opening(opening.model, opening.pointer, sizes)
            for opening in self.openings
            for sizes in [widened(opening)]
        )


SIDES: tuple[Side, Side] = ("left", "right")


TURNS: Final[Mapping[str, float]] = MappingProxyType({"external_corner": 1.0, "internal_corner": -1.0})
"""Which way a plane outside another one ends beyond it, by kind of edge; other edges turn nowhere."""


def corner_shift(edge: Edge, build_up: float) -> float:
    """How far the end of a plane lies outside the end of the plane that lies a build-up behind it: the finished end outside the
    substrate's. Whole ticks.
    """
    turn = TURNS.get(edge.kind, 0.0)
    return float(round(corner_projection(k=turn, t=build_up, angle=edge.angle_deg, one=1.0)))


def faces_of(elevations: Sequence[Elevation], system: System) -> tuple[Face, ...]:
    """Faces of all elevations in the finished plane, in request order.

    Raises the refusals of outline, openings, ids and mirror images; their pointers name the member at fault.
    """
    refuse_repeated((elevation.id for elevation in elevations), "/elevations")
    build_up, board = ticks(build_up_of(system)), ticks(system.board.thickness_mm)
    return tuple(_face(survey, build_up, board) for survey in surveys_of(elevations))


def faces_as_drawn(elevations: Sequence[Elevation]) -> tuple[Face, ...]:
    """Faces of all elevations as they are drawn, without a build-up to move them; raises the refusals of ``faces_of``."""
    refuse_repeated((elevation.id for elevation in elevations), "/elevations")
    return tuple(_face(survey, 0.0, 0.0) for survey in surveys_of(elevations))


def _face(survey: Survey, build_up: float, board: float) -> Face:
    elevation, pointer = survey.elevation, survey.members
    drawn = outline = _outline(elevation, pointer)
    shifted = elevation.plane == "substrate"
    if shifted:
        ends = [corner_shift(edge, build_up) for edge in (elevation.left_edge, elevation.right_edge)]
        outline = _finished(outline, ends, survey.pointer)
    openings = tuple(
        face_opening(opening, f"{pointer}/openings/{index}", narrowed(opening) if shifted else sizes_of(opening))
        for index, opening in enumerate(elevation.openings)
    )
    if survey.mirrored:
        openings = tuple(replace(opening, mirrored=True) for opening in openings)
    features = face_features(elevation.features, f"{pointer}/features", drawn, outline)
    _refuse_misplaced(outline, openings, features, pointer)
    shares = shared_areas(openings, features)
    features = tuple(replace(feature, taken=share) for feature, share in zip(features, shares, strict=True))
    face = Face(survey, outline, openings, features, build_up, board)
    if face.substrate_length <= 0:
        detail = f"The finished face is {millimetres(face.length):g} mm long; its corners leave no wall behind it; check its length and the build-up."
        raise refuse("corner-too-short", survey.pointer, detail)
    if face.net_area - face.feature_area < SMALLEST_OUTLINE:
        at = f"{pointer}/openings" if face.net_area < SMALLEST_OUTLINE else f"{pointer}/features"
        raise refuse("opening-fills-wall", at, "Openings and features leave no wall for slips; check their sizes.")
    return face


def _refuse_misplaced(
    outline: Ring, openings: Sequence[FaceOpening], features: Sequence[FaceFeature], pointer: str
) -> None:
    """Refuse repeated ids, and openings and features that leave the outline."""
    refuse_repeated((opening.id for opening in openings), f"{pointer}/openings")
    refuse_repeated((feature.id for feature in features), f"{pointer}/features")
    refuse_outside(openings, outline, "opening-outside-outline", "opening")
    refuse_outside(features, outline, "feature-outside-outline", "feature")


def _outline(elevation: Elevation, pointer: str) -> Ring:
    sized = elevation.width_mm is not None or elevation.height_mm is not None
    if elevation.outline is not None and sized:
        raise refuse("outline-contradictory", pointer, "Give outline, or width_mm and height_mm, not both.")
    if elevation.outline is not None:
        return checked_ring(elevation.outline, f"{pointer}/outline")
    if elevation.width_mm is None or elevation.height_mm is None:
        raise refuse("outline-missing", pointer, "Give outline, or both width_mm and height_mm.")
    return rectangle(0.0, 0.0, ticks(elevation.width_mm), ticks(elevation.height_mm))


def _finished(outline: Ring, ends: Sequence[float], pointer: str) -> Ring:
    """Outline in the finished plane; refused when the build-up leaves nothing, or cuts the face apart."""
    moved = moved_ends(outline, *ends)
    if len(moved.rings) != 1:
        left, _, right, _ = bounds(outline)
        detail = (
            f"The face is {millimetres(right - left):g} mm long, and the build-up at its internal corners takes "
            f"{millimetres(-sum(min(0.0, end) for end in ends)):g} mm; check its length, plane and edges."
        )
        raise refuse("corner-too-short", pointer, detail)
    return moved.rings[0]
