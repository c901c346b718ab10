"""The fasteners sheet: every fastener of one elevation at its place, by stage and wind zone, with counts that add up."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.drawings.beside_wall import arranged
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
from storeyrod.drawings.zone_edges import ZONE_EDGE, ZoneEdges, zone_edge_groups
from storeyrod.drawings.zone_hatching import zone_entry
from storeyrod.drawings.zone_words import kilopascals
from storeyrod.drawings.zoned_pieces import (
    MARK,
    NO_ZONE,
    SHORT,
    ZoneCounts,
    ZonedPieces,
    is_met,
    zone_counts,
    zoned_pieces,
)
from storeyrod.fasteners.demand import Governs
from storeyrod.fasteners.face_fasteners import FaceFasteners
from storeyrod.fasteners.stages import STAGES, Stage
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.wall.face import Face
from storeyrod.wind.face_wind import FaceWind

SHOWS: Final = (
    "outline, openings, board pieces hatched by wind zone, fasteners by stage, counts, movement joints and dimensions"
)

READABLE: Final = 50.0
"""Beyond one to this, a larger sheet is taken: marks of neighbouring fasteners and ids of boards would run together."""

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

    @property
    def face(self) -> Face:
        """The face."""
        return self.fasteners.face

    @property
    def zones(self) -> ZoneEdges | None:
        """Where its wind zones end."""
        return ZoneEdges(self.face, self.wind.patches) if self.wind is not None else None


def fastener_map_sheet(
    subject: FastenerMapSubject, scale: int | None, pointer: str, said: Particulars, id_prefix: str
) -> Sheet:
    """One sheet; raises ``sheet-too-small`` when the scale asked for fits no paper. ``said.scale`` is set here."""
    pieces = [one.piece for one in subject.fasteners.pieces]
    extent = extent_of(subject.face, ((one.left, one.bottom, one.right, one.top) for one in pieces))
    table = counts_table(subject)
    around = room_around(subject.face, subject.plan, subject.zones)
    placed = arranged(extent.size, around, table.size, scale, pointer, READABLE)
    chosen = float(placed.scale)
    zones = subject.zones
    marks = zoned_pieces(subject.fasteners, chosen, zone_edge_groups(zones, chosen) if zones is not None else ())
    origin = origin_on(placed.paper.place(placed.around), extent.box, placed.scale)
    wall = View(origin, chosen, (*marks.under, *_wall_groups(subject, extent, marks, chosen)))
    counted = View((0.0, 0.0), 1.0, tuple(table_groups(table, placed.table)))
    told = Explained(SHOWS, list(_entries(subject, ground=bool(extent.ground))), [*_notes(subject), *_left_out(marks)])
    return sheet_of_views(placed.paper, (wall, counted), replace(said, scale=placed.scale), told, id_prefix)


def _wall_groups(subject: FastenerMapSubject, extent: Extent, marks: ZonedPieces, scale: float) -> tuple[Group, ...]:
    face, rod = subject.face, subject.rod
    return (
        *joint_blanks(face, subject.plan, scale),
        *level_joint_blanks(face, rod.joints, scale),
        *opening_groups(face, scale),
        *marks.over,
        *surroundings(face, subject.plan, rod, extent, scale, zones=subject.zones),
    )


def counts_table(subject: FastenerMapSubject) -> Table:
    """Fasteners by zone and stage, with sums; hatching and marks stand beside their words."""
    rows = zone_counts(subject.fasteners)
    wind = subject.wind is not None
    suction = [Cell("suction, kN/m²")] if wind else []
    heading = (Cell("zone"), *suction, Cell("pieces"), *map(_stage_cell, STAGES), Cell("fasteners"))
    body = [(_zone_cell(row, wind=wind), *_cells(row, wind=wind)) for row in rows]
    return Table("Fasteners by zone and stage", (heading, *body, _sums(rows, wind=wind)), sums=True)


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


def _entries(subject: FastenerMapSubject, *, ground: bool) -> Iterator[Entry]:
    words = "board: id, fasteners in zone" if subject.wind is not None else "board: id, fasteners"
    yield Entry((("board", FULL_PIECE, box_polygon(PIECE)),), words)
    if not all(map(is_met, subject.fasteners.pieces)):
        yield Entry((("board-short", SHORT, box_polygon(PIECE)),), "need of wind not met")
    for symbol, meaning in SYMBOLS.values():
        yield Entry((("fastener", MARK, Marker((SYMBOL / 2.0, 0.0), symbol, 2.0)),), meaning)
    if subject.zones is not None and subject.zones.any:
        yield line_entry("zone-edge", ZONE_EDGE, "end of a wind zone")
    yield opening_entry()
    if subject.face.features:
        yield feature_entry()
    yield outline_entry()
    if subject.plan.slots or subject.rod.joints:
        yield joints_entry(level=bool(subject.rod.joints))
    yield courses_entry(subject.rod.pitch)
    if ground:
        yield ground_entry()


def _notes(subject: FastenerMapSubject) -> Iterator[str]:
    pieces = subject.fasteners.pieces
    if subject.wind is None:
        yield "Common pattern only: wind, pull-out and weight were not checked."
        return
    yield "A piece belongs to the strongest zone that it touches. Suction is characteristic."
    governed = Counter(one.need.governed_by for one in pieces if one.need is not None)
    told = ", ".join(f"{said} {governed[name]}" for name, said in _GOVERNS.items() if governed[name])
    if told:
        yield f"Pieces by what decides their number: {told}."
    if all(one.need is None or one.need.used is None for one in pieces):
        yield "No resistance was given: numbers are not held against wind."
    short = sum(not is_met(one) for one in pieces)
    if short:
        yield f"{short} pieces: no room for as many as wind asks, see the findings."


def _left_out(marks: ZonedPieces) -> list[str]:
    notes = [f"Pieces without id for lack of room: {marks.unnamed}."] if marks.unnamed else []
    return [*notes, f"Pieces with id alone: {marks.shortened}."] if marks.shortened else notes
