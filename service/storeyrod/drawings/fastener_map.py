"""The fasteners sheet: every fastener of one elevation at its place, by stage and wind zone, with counts that add up."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.drawings.beside_wall import arranged
from storeyrod.drawings.break_lines import break_entry
from storeyrod.drawings.courses import Rod
from storeyrod.drawings.display_list import Group, Marker, Sheet, View, box_polygon
from storeyrod.drawings.fastener_marks import SYMBOLS
from storeyrod.drawings.joint_marks import joint_blanks
from storeyrod.drawings.legend import SYMBOL, Entry
from storeyrod.drawings.legend_entries import (
    PIECE,
    courses_entry,
    feature_entry,
    ground_entry,
    joints_entry,
    line_entry,
    opening_entry,
    outline_entry,
)
from storeyrod.drawings.level_joints import level_joint_blanks
from storeyrod.drawings.line_styles import FULL_PIECE
from storeyrod.drawings.opening_marks import opening_groups
from storeyrod.drawings.ruled_table import Cell, Table, table_groups
from storeyrod.drawings.sheet_frame import Explained, Extent, extent_of, origin_on, sheet_of_views
from storeyrod.drawings.surroundings import room_around, surroundings
from storeyrod.drawings.title_block import Particulars
from storeyrod.drawings.wall_part import WallPart, whole_of
from storeyrod.drawings.zone_edges import ZONE_EDGE, ZoneEdges, zone_edge_groups
from storeyrod.drawings.zone_hatching import zone_entry
from storeyrod.drawings.zone_words import kilopascals
from storeyrod.drawings.zoned_pieces import (
    MARK,
    NO_ZONE,
    SHORT,
    ZoneCounts,
    ZonedPieces,
    fasteners_in,
    is_met,
    pieces_in,
    zone_counts,
    zoned_pieces,
)
from storeyrod.fasteners.demand import Governs
from storeyrod.fasteners.face_fasteners import FaceFasteners, PieceFasteners
from storeyrod.fasteners.stages import STAGES, Stage
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.wall.face import Face
from storeyrod.wind.face_wind import FaceWind

SHOWS: Final = (
    "outline, openings, board pieces hatched by wind zone, fasteners by stage, counts, movement joints and dimensions"
)

READABLE: Final = 50.0
"""Beyond one to this, a larger sheet is taken: marks of neighbouring fasteners and ids of boards would run together."""

MORE_ROOM: Final = "Ask for a larger scale, or a part of the wall (x_from_mm, x_to_mm)."

_STAGE_WORDS: Final[Mapping[Stage, str]] = {"first": "first", "rest": "the rest", "after_trim": "after trim"}
_MARK_ROOM: Final = 2.0
"""Width of a mark in the table, mm."""

_GOVERNS: Final[Mapping[Governs, str]] = {
    "minimum": "common pattern",
    "pull_out": "pull-out",
    "pull_through": "pull-through",
}


@dataclass(frozen=True, slots=True)
class FastenerMapSubject:
    """What a fasteners sheet draws; without ``wind`` the common pattern alone stands there."""

    plan: JointPlan
    fasteners: FaceFasteners
    rod: Rod
    wind: FaceWind | None = None
    part: WallPart | None = None
    """What of the face is drawn; absent: all of it."""

    @property
    def face(self) -> Face:
        """The face."""
        return self.fasteners.face

    @property
    def zones(self) -> ZoneEdges | None:
        """Where its wind zones end."""
        return ZoneEdges(self.face, self.wind.patches, self.part) if self.wind is not None else None

    @property
    def drawn(self) -> WallPart:
        """The part that is drawn, or the whole wall."""
        return self.part or whole_of(self.face)

    @property
    def pieces(self) -> list[PieceFasteners]:
        """Pieces that are drawn, if only in part."""
        return pieces_in(self.fasteners, self.drawn)


def fastener_map_sheet(
    subject: FastenerMapSubject, scale: int | None, pointer: str, said: Particulars, id_prefix: str
) -> Sheet:
    """One sheet; raises ``sheet-too-small`` when the scale asked for fits no paper. Scale and name of ``said`` are set here."""
    part, boards = subject.drawn, [one.piece for one in subject.pieces]
    extent = part.extent(extent_of(subject.face, ((one.left, one.bottom, one.right, one.top) for one in boards)))
    table = counts_table(subject)
    around = room_around(subject.face, subject.plan, subject.zones, part)
    placed = arranged(extent.size, around, table.size, scale, pointer, READABLE)
    chosen = float(placed.scale)
    zones = subject.zones
    edges = part.clipped(zone_edge_groups(zones, chosen), chosen) if zones is not None else ()
    marks = zoned_pieces(subject.fasteners, chosen, edges, part)
    origin = origin_on(placed.paper.place(placed.around), extent.box, placed.scale)
    wall = View(origin, chosen, (*marks.under, *_wall_groups(subject, extent, marks, chosen)))
    counted = View((0.0, 0.0), 1.0, tuple(table_groups(table, placed.table)))
    entries = list(_entries(subject, marks, edges=bool(edges), ground=bool(extent.ground)))
    told = Explained(_shows(part), entries, list(_notes(subject, marks)))
    name = f"{said.subject}, {part.words}" if part.breaks else said.subject
    return sheet_of_views(
        placed.paper, (wall, counted), replace(said, scale=placed.scale, subject=name), told, id_prefix
    )


def _shows(part: WallPart) -> str:
    return f"{SHOWS}, of the part from {part.words}" if part.breaks else SHOWS


def _wall_groups(subject: FastenerMapSubject, extent: Extent, marks: ZonedPieces, scale: float) -> tuple[Group, ...]:
    face, rod, part = subject.face, subject.rod, subject.drawn
    on_the_wall = (
        *joint_blanks(face, subject.plan, scale),
        *level_joint_blanks(face, rod.joints, scale),
        *opening_groups(part.seen(face), scale, part=part),
    )
    around = surroundings(face, subject.plan, rod, extent, scale, zones=subject.zones, part=part)
    return *part.clipped(on_the_wall, scale), *around, *marks.over


def counts_table(subject: FastenerMapSubject) -> Table:
    """Fasteners by zone and stage, with sums; hatching and marks stand beside their words."""
    rows = zone_counts(subject.fasteners, subject.drawn)
    wind = subject.wind is not None
    suction = [Cell("suction, kN/m²")] if wind else []
    heading = (Cell("zone"), *suction, Cell("pieces"), *map(_stage_cell, STAGES), Cell("fasteners"))
    body = [(_zone_cell(row, wind=wind), *_cells(row, wind=wind)) for row in rows]
    title = "Fasteners by zone and stage" + (f", {subject.drawn.words}" if subject.drawn.breaks else "")
    return Table(title, (heading, *body, _sums(rows, wind=wind)), sums=True)


def _stage_cell(stage: Stage) -> Cell:
    mark = Marker((_MARK_ROOM / 2.0, 0.0), SYMBOLS[stage][0], _MARK_ROOM)
    return Cell(_STAGE_WORDS[stage], (("fastener", MARK, mark),), _MARK_ROOM)


def _zone_cell(row: ZoneCounts, *, wind: bool) -> Cell:
    if row.zone == NO_ZONE:
        words = "not assessed" if wind else "wind not given"
        return Cell(words, (("zone-frame", FULL_PIECE, box_polygon(PIECE)),))
    return Cell(row.zone, zone_entry(row.zone, row.zone).drawn)


def _cells(row: ZoneCounts, *, wind: bool) -> Iterator[Cell]:
    if wind:
        yield Cell("-" if row.suction is None else f"up to {kilopascals(row.suction)}")
    for count in (row.pieces, *row.stages.values(), row.total):
        yield Cell(str(count))


def _sums(rows: Sequence[ZoneCounts], *, wind: bool) -> tuple[Cell, ...]:
    stages = (sum(row.stages[stage] for row in rows) for stage in STAGES)
    counts = (sum(row.pieces for row in rows), *stages, sum(row.total for row in rows))
    return (Cell("in all"), *([Cell("")] if wind else []), *(Cell(str(count)) for count in counts))


def _entries(subject: FastenerMapSubject, marks: ZonedPieces, *, edges: bool, ground: bool) -> Iterator[Entry]:
    """Of what is drawn alone."""
    yield Entry((("board", FULL_PIECE, box_polygon(PIECE)),), _board_words(subject, marks))
    if not all(map(is_met, subject.pieces)):
        yield Entry((("board-short", SHORT, box_polygon(PIECE)),), "need of wind not met")
    stages = {stage for one in subject.pieces for _, stage, _ in fasteners_in(one, subject.drawn)}
    for stage, (symbol, meaning) in SYMBOLS.items():
        if stage in stages:
            yield Entry((("fastener", MARK, Marker((SYMBOL / 2.0, 0.0), symbol, 2.0)),), meaning)
    if edges:
        yield line_entry("zone-edge", ZONE_EDGE, "end of a wind zone")
    seen = subject.drawn.seen(subject.face)
    if seen.openings:
        yield opening_entry()
    if seen.features:
        yield feature_entry()
    yield outline_entry()
    if subject.rod.joints or any(subject.drawn.holds(millimetres(slot.centre)) for slot in subject.plan.slots):
        yield joints_entry(level=bool(subject.rod.joints))
    if subject.drawn.breaks:
        yield break_entry()
    yield courses_entry(subject.rod.pitch)
    if ground:
        yield ground_entry()


def _board_words(subject: FastenerMapSubject, marks: ZonedPieces) -> str:
    """What stands in boards."""
    if marks.named:
        return "board: id, fasteners in zone" if subject.wind is not None else "board: id, fasteners"
    return "board: id" if marks.shortened else "board"


def _notes(subject: FastenerMapSubject, marks: ZonedPieces) -> Iterator[str]:
    """What matters most first: the last ones may find no room."""
    pieces = subject.pieces
    if subject.wind is None:
        yield "Common pattern only: wind, pull-out and weight were not checked."
    elif all(one.need is None or one.need.used is None for one in pieces):
        yield "No resistance was given: numbers are not held against wind."
    if short := sum(not is_met(one) for one in pieces):
        yield f"{short} pieces: no room for as many as wind asks, see the findings."
    yield from _left_out(marks)
    if subject.drawn.breaks:
        yield "Counts are of this part; a piece at a break says its whole number."
    if subject.wind is not None:
        yield "A piece belongs to the strongest zone that it touches. Suction is characteristic."
        governed = Counter(one.need.governed_by for one in pieces if one.need is not None)
        if told := ", ".join(f"{said} {governed[name]}" for name, said in _GOVERNS.items() if governed[name]):
            yield f"Pieces by what decides their number: {told}."


def _left_out(marks: ZonedPieces) -> Iterator[str]:
    """What found no room, and how to get it."""
    counts = [(marks.unnamed, "without id"), (marks.shortened, "with id alone")]
    said = ", ".join(f"{words}: {count}" for count, words in counts if count)
    if said:
        yield f"For lack of room, pieces {said}. {MORE_ROOM}"
