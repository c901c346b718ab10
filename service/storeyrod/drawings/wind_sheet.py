"""The wind sheet: zones on one elevation, with direction, suction and pressure: their envelope, or those of one direction."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.drawings.beside_wall import arranged
from storeyrod.drawings.courses import Rod
from storeyrod.drawings.display_list import Group, Sheet, View
from storeyrod.drawings.legend import Entry
from storeyrod.drawings.legend_entries import (
    courses_entry,
    feature_entry,
    ground_entry,
    joints_entry,
    line_entry,
    opening_entry,
    outline_entry,
)
from storeyrod.drawings.lettering import number
from storeyrod.drawings.opening_marks import opening_groups
from storeyrod.drawings.ruled_table import Cell, Table, table_groups
from storeyrod.drawings.sheet_frame import Explained, Extent, extent_of, origin_on, sheet_of_views
from storeyrod.drawings.surroundings import room_around, surroundings
from storeyrod.drawings.title_block import PLANES, Particulars
from storeyrod.drawings.wind_marks import NOT_ASSESSED, WindMarks, ZoneShapes, wind_marks, zone_shapes
from storeyrod.drawings.zone_edges import ZONE_EDGE, ZoneEdges, zone_edge_groups
from storeyrod.drawings.zone_hatching import zone_entry
from storeyrod.drawings.zone_words import kilopascals, on_sides
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.wall.face import Face
from storeyrod.wind.envelope import envelope
from storeyrod.wind.face_wind import FaceWind
from storeyrod.wind.face_zones import FaceZone
from storeyrod.wind.internal import SIDES
from storeyrod.wind.site_models import SideName

SHOWS: Final = "outline, openings, wind zones with direction, suction and pressure, movement joints and dimensions"

READABLE: Final = 100.0
"""Beyond one to this, a larger sheet is taken: the words in a zone would find no room."""

MOST_ROWS: Final = 28
"""Rows that a table on the smallest sheet holds."""

_SQUARE_MILLIMETRES: Final = 1e6
_LEAST_AREA: Final = 0.01
"""A smaller area is not printed as a figure, m2: it would read as none."""


@dataclass(frozen=True, slots=True)
class WindSubject:
    """What a wind sheet draws: without ``direction`` the envelope of all, else the zones of that direction."""

    plan: JointPlan
    wind: FaceWind
    found: Sequence[FaceZone]
    rod: Rod
    directions: Sequence[SideName]
    direction: SideName | None = None

    @property
    def face(self) -> Face:
        """The face."""
        return self.wind.face

    @property
    def zones(self) -> ZoneEdges:
        """The zones that are shown."""
        if self.direction is None:
            return ZoneEdges(self.face, self.wind.patches)
        return ZoneEdges(self.face, envelope([one for one in self.found if one.zone.direction == self.direction]))


def wind_sheet(subject: WindSubject, scale: int | None, pointer: str, said: Particulars, id_prefix: str) -> Sheet:
    """One sheet; raises ``sheet-too-small`` when the scale asked for fits no paper. Scale, name and planes of ``said`` are set here."""
    extent, zones = extent_of(subject.face), subject.zones
    table = zones_table(zones)
    around = room_around(subject.face, subject.plan, zones)
    placed = arranged(extent.size, around, table.size, scale, pointer, READABLE)
    chosen = float(placed.scale)
    marks = wind_marks(zones, chosen)
    origin = origin_on(placed.paper.place(placed.around), extent.box, placed.scale)
    wall = View(origin, chosen, (*marks.under, *_wall_groups(subject, zones, extent, chosen), *marks.labels))
    listed = View((0.0, 0.0), 1.0, tuple(table_groups(table, placed.table)))
    entries = list(_entries(subject, zones, ground=bool(extent.ground)))
    told = Explained(SHOWS, entries, [*_notes(subject, zones), *_left_out(marks)])
    named = replace(said, scale=placed.scale, planes=PLANES, subject=f"{said.subject}: {_shown(subject)}")
    return sheet_of_views(placed.paper, (wall, listed), named, told, id_prefix)


def _shown(subject: WindSubject) -> str:
    if subject.direction is not None:
        return on_sides((subject.direction,))
    all_round = len(subject.directions) == len(SIDES)
    return "envelope of all directions" if all_round else f"envelope of {on_sides(subject.directions)}"


def _wall_groups(subject: WindSubject, zones: ZoneEdges, extent: Extent, scale: float) -> tuple[Group, ...]:
    return (
        *zone_edge_groups(zones, scale),
        *opening_groups(subject.face, scale),
        *surroundings(subject.face, subject.plan, subject.rod, extent, scale, zones=zones),
    )


def zones_table(zones: ZoneEdges) -> Table:
    """A row for each zone with its values that has wall; parts of the wall with the same values share one."""
    heading = tuple(map(Cell, ("zone", "wind on", "suction, kN/m²", "pressure, kN/m²", "wall, m²")))
    found = [one for one in zone_shapes(zones) if one.shapes]
    alike: dict[tuple[object, ...], list[ZoneShapes]] = {}
    for one in found:
        key = (one.zone.zone, one.zone.suction, one.zone.pressure) if one.zone is not None else ()
        alike.setdefault(key, []).append(one)
    rows = [tuple(_row(same)) for same in sorted(alike.values(), key=_order)]
    if len(rows) > MOST_ROWS:
        more = f"and {len(rows) - MOST_ROWS + 1} more"
        rows = [*rows[: MOST_ROWS - 1], tuple(map(Cell, (more, "", "", "", "")))]
    return Table("Wind zones, characteristic values", (heading, *rows))


def _order(same: Sequence[ZoneShapes]) -> tuple[bool, float, float, str]:
    """Strongest suction first, what was not assessed last."""
    zone = same[0].zone
    return (True, 0.0, 0.0, "") if zone is None else (False, -zone.suction, -zone.pressure, zone.zone)


def _row(same: Sequence[ZoneShapes]) -> Iterator[Cell]:
    area = sum(shape.area for one in same for shape in one.shapes) / _SQUARE_MILLIMETRES
    zone = same[0].zone
    if zone is None:
        yield from map(Cell, (NOT_ASSESSED, "-", "-", "-"))
    else:
        sides = dict.fromkeys(side for one in same if one.zone is not None for side in one.zone.directions)
        yield Cell(zone.zone, zone_entry(zone.zone, zone.zone).drawn)
        yield from map(Cell, (", ".join(sides), kilopascals(zone.suction), kilopascals(zone.pressure)))
    yield Cell(f"{area:.2f}" if area >= _LEAST_AREA else f"under {_LEAST_AREA:.2f}")


def _entries(subject: WindSubject, zones: ZoneEdges, *, ground: bool) -> Iterator[Entry]:
    for zone in sorted({one.zone.zone for one in zone_shapes(zones) if one.shapes and one.zone is not None}):
        yield zone_entry(zone, f"zone {zone}")
    if zones.any:
        yield line_entry("zone-edge", ZONE_EDGE, "end of a wind zone")
    if subject.face.openings:
        yield opening_entry()
    if subject.face.features:
        yield feature_entry()
    yield outline_entry()
    if subject.plan.slots or subject.rod.joints:
        yield joints_entry(level=bool(subject.rod.joints))
    yield courses_entry(subject.rod.pitch)
    if ground:
        yield ground_entry()


def _notes(subject: WindSubject, zones: ZoneEdges) -> Iterator[str]:
    yield "Suction and pressure are net and characteristic, without partial factors."
    if subject.direction is None:
        yield "Envelope: the direction is that of the suction; the strongest pressure may come from another."
    if subject.face.elevation.face is None:
        yield "Side of the building not given: the strongest zone all over."
    if zones.assessed_to < subject.face.top:
        yield f"Parapet above {number(millimetres(zones.assessed_to))}: wind was not assessed."
    yield "Zones are for a plain box; an engineer must confirm them."


def _left_out(marks: WindMarks) -> list[str]:
    notes = [f"Zones without words, see the table: {marks.unnamed}."] if marks.unnamed else []
    return [*notes, f"Zones with fewer words, see the table: {marks.shortened}."] if marks.shortened else notes
