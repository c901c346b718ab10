"""The schedule of fasteners: every position of every piece with its stage."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from storeyrod.boards.layout import BoardLayout, FaceBoards
from storeyrod.boards.pieces import Piece
from storeyrod.boards.rows import row_origin, substrate_of
from storeyrod.fasteners.demand import Demand, PieceNeed, heads_of
from storeyrod.fasteners.findings import need_findings, piece_findings
from storeyrod.fasteners.loads import NO_LOADS, Loads
from storeyrod.fasteners.pattern import Pattern, pattern_of
from storeyrod.fasteners.places import PiecePlaces, places_in
from storeyrod.fasteners.resistance import Resistance, resistance_of
from storeyrod.fasteners.stages import Stage, stages_of, stands_on_base
from storeyrod.findings import Finding
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.face import Face
from storeyrod.wall.system import System
from storeyrod.wall.wall import Wall
from storeyrod.wind.face_wind import FaceWind, WindPatch, WindPlan
from storeyrod.wind.plan import wind_on

_Alike = tuple[float, float, float, int]
"""Width, height, place in the pattern, and patch of wind."""


@dataclass(frozen=True, slots=True)
class PieceFasteners:
    """Fasteners of one piece: places in ticks and stages, row by row from the lowest, each from left to right."""

    piece: Piece
    places: tuple[tuple[float, float], ...]
    stages: tuple[Stage, ...]
    need: PieceNeed | None = None


@dataclass(frozen=True, slots=True)
class FaceFasteners:
    """Fasteners of one face, piece by piece in the order of its boards."""

    face: Face
    pieces: tuple[PieceFasteners, ...]

    @property
    def total(self) -> int:
        """Number of fasteners."""
        return sum(len(piece.places) for piece in self.pieces)

    def count_of(self, stage: Stage) -> int:
        """Number of fasteners of a stage."""
        return sum(piece.stages.count(stage) for piece in self.pieces)


@dataclass(frozen=True, slots=True)
class FastenerSchedule:
    """Fasteners of a wall: faces in request order, the system, what was found, and the loads that they answer."""

    faces: tuple[FaceFasteners, ...]
    system: System
    findings: tuple[Finding, ...]
    wind: WindPlan | None = None
    resistance: Resistance | None = None
    loads: Loads = NO_LOADS

    @property
    def total(self) -> int:
        """Number of fasteners."""
        return sum(face.total for face in self.faces)


def set_fasteners(wall: Wall, layout: BoardLayout, loads: Loads = NO_LOADS, trace: Trace = SILENT) -> FastenerSchedule:
    """Fasteners of every piece of a layout; raises the refusals of wind."""
    pattern = pattern_of(wall.system, row_origin(wall))
    patterns = [
        pattern,
        *(replace(pattern, foot=joint.top) for joint in wall.storey_joints if joint.top > pattern.foot),
    ]
    wind = wind_on(wall.faces, loads.wind, trace) if loads.wind is not None else None
    resistance = resistance_of(wall.system, loads.substrate, trace) if _is_asked(wall.system, loads) else None
    demand = _demand(wall.system, loads, resistance, trace) if wind is not None else None
    faces, findings = [], [*(wind.findings if wind else ()), *(resistance.findings if resistance else ())]
    for index, boards in enumerate(layout.faces):
        placing = _Placing(boards.face, patterns, wind.faces[index] if wind is not None else None, demand)
        placed = [(piece, *placing.of(piece)) for piece in boards.pieces]
        faces.append(_face_fasteners(boards, placed))
        findings += piece_findings(boards.face, [(piece, places) for piece, places, _ in placed], pattern)
        findings += need_findings(boards.face, [(piece, need) for piece, _, need in placed if need is not None])
    return FastenerSchedule(tuple(faces), wall.system, tuple(findings), wind, resistance, loads)


def _is_asked(system: System, loads: Loads) -> bool:
    """Whether anything is said of what the fasteners carry, or of what they are driven into."""
    return loads.wind is not None or system.fastener.pull_out is not None


def _demand(system: System, loads: Loads, resistance: Resistance | None, trace: Trace) -> Demand:
    gamma = trace.given(loads.factors.wind, "/partial_factors/wind")
    return Demand(gamma, resistance.design if resistance else None, heads_of(system), trace)


@dataclass
class _Placing:
    """Places on one face: by the patterns from level joint to level joint; rectangles alike in size, course and wind are worked out
    once.
    """

    face: Face
    patterns: Sequence[Pattern]
    wind: FaceWind | None
    demand: Demand | None
    known: dict[_Alike, tuple[Piece, PiecePlaces, PieceNeed | None]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """What all pieces share."""
        self.substrate = substrate_of(self.face)
        reach = self.patterns[0].from_end - self.patterns[0].edge
        self.plain_from, self.plain_to = self.substrate[0] + reach, self.substrate[1] - reach
        self.feet = [pattern.foot for pattern in self.patterns]
        self.period = self.patterns[0].every * self.patterns[0].pitch

    def of(self, piece: Piece) -> tuple[PiecePlaces, PieceNeed | None]:
        """Places of a piece, and what wind asks of it where that is assessed."""
        left, right, bottom, top = piece.part.left, piece.part.right, piece.part.bottom, piece.part.top
        pattern = self.patterns[max(0, bisect_right(self.feet, bottom) - 1)]
        patch = self.wind.governing(left, right, bottom, top) if self.wind is not None else None
        if not piece.part.is_rectangle or left < self.plain_from or right > self.plain_to:
            return self._worked_out(piece, pattern, patch)
        alike = right - left, top - bottom, (bottom - pattern.foot) % self.period, id(patch)
        if alike not in self.known:
            self.known[alike] = piece, *self._worked_out(piece, pattern, patch)
        model, places, need = self.known[alike]
        return _moved(places, left - model.left, bottom - model.bottom), need

    def _worked_out(
        self, piece: Piece, pattern: Pattern, patch: WindPatch | None
    ) -> tuple[PiecePlaces, PieceNeed | None]:
        def place(needed: int) -> PiecePlaces:
            return places_in(piece, pattern, self.substrate, needed)

        if patch is None or self.demand is None:
            return place(0), None
        return self.demand.placed(piece, patch, self.face.pointer, place)


def _moved(places: PiecePlaces, right: float, up: float) -> PiecePlaces:
    if right == up == 0.0:
        return places
    rows = [(height + up, tuple(x + right for x in xs)) for height, xs in places.rows]
    return PiecePlaces(rows, places.keeps_edge, places.asked)


def _face_fasteners(boards: FaceBoards, placed: Sequence[tuple[Piece, PiecePlaces, PieceNeed | None]]) -> FaceFasteners:
    base = boards.face.base_runs()
    lowest = max((height for _, _, height in base), default=boards.face.foot)
    pieces = []
    for piece, places, need in placed:
        on_base = piece.bottom <= lowest and stands_on_base(piece, base)
        points = tuple((x, height) for height, xs in places.rows for x in xs)
        pieces.append(PieceFasteners(piece, points, tuple(stages_of(places, on_base=on_base)), need))
    return FaceFasteners(boards.face, tuple(pieces))
