"""Wind zones on a face: shapes hatched by zone, with letter, direction and pressures where they find room."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.drawings.display_list import Group, Polygon, Text, box_polygon
from storeyrod.drawings.line_styles import BLANK, LETTERING
from storeyrod.drawings.piece_labels import Lettered, Lines, PieceLabels
from storeyrod.drawings.piece_marks import points_of
from storeyrod.drawings.zone_edges import DrawnZone, ZoneEdges
from storeyrod.drawings.zone_hatching import HATCHES, zone_hatching
from storeyrod.drawings.zone_words import kilopascals, on_sides
from storeyrod.geometry.plane import Box, parts_of
from storeyrod.wall.face import Face

_INSET: Final = 0.8
"""Between the white ground of lettering and the sides of its zone on paper, mm: the outline of a wall is up to 0.7 wide."""

NOT_ASSESSED: Final = "not assessed"


@dataclass(frozen=True, slots=True)
class ZoneShapes:
    """A zone as the parts of wall in it, from left to right; without a zone, wall that was not assessed."""

    zone: DrawnZone | None
    shapes: tuple[Polygon, ...]


def zone_shapes(edges: ZoneEdges) -> list[ZoneShapes]:
    """Shapes of every zone, and of what lies above them all; each has an id, and its title says what acts there."""
    face = edges.face
    found = [
        ZoneShapes(one, _shapes(face, _box(one), str(index), one)) for index, one in enumerate(edges.zones, start=1)
    ]
    if edges.assessed_to < face.top:
        above = face.left, edges.assessed_to, face.right, face.top
        found.append(ZoneShapes(None, _shapes(face, above, "none", None)))
    return found


def _box(zone: DrawnZone) -> Box:
    return zone.left, zone.bottom, zone.right, zone.top


def _shapes(face: Face, box: Box, index: str, zone: DrawnZone | None) -> tuple[Polygon, ...]:
    name = f"{face.id}:wind:{index}"
    title = f"zone {zone.zone}, {', '.join(_said(zone))}" if zone is not None else f"wind {NOT_ASSESSED}"
    return tuple(
        Polygon(tuple(map(points_of, part.outline)), f"{name}-{place}", title)
        for place, part in enumerate(parts_of(face.region.within(box).polygon), start=1)
    )


def _said(zone: DrawnZone) -> tuple[str, ...]:
    pressures = f"suction {kilopascals(zone.suction)} kN/m²", f"pressure {kilopascals(zone.pressure)} kN/m²"
    return *pressures, on_sides(zone.directions)


@dataclass(frozen=True, slots=True)
class WindMarks:
    """Groups that show zones, labels that stand over all that is drawn on the wall, and how many zones have none or a short one."""

    under: tuple[Group, ...]
    labels: tuple[Group, ...]
    unnamed: int
    shortened: int


def wind_marks(edges: ZoneEdges, scale: float) -> WindMarks:
    """Zones of a face; labels stand over movement joints, and clear of openings."""
    zones = [one for one in zone_shapes(edges) if one.shapes]
    labels = PieceLabels(scale, 0.0, _INSET * scale)
    found = [_label(labels, one) for one in zones]
    lettered = [label for label in found if label is not None]
    under = (
        Group("zone", BLANK, tuple(shape for one in zones for shape in one.shapes)),
        *_hatching(zones, scale),
    )
    over = (
        Group("zone-blank", BLANK, tuple(_ground(label, scale) for label in lettered)),
        Group("zone-words", LETTERING, tuple(text for label in lettered for text in _lettered(label))),
    )
    return WindMarks(under, over, len(found) - len(lettered), sum(label.way > 0 for label in lettered))


def _ground(label: Lettered, scale: float) -> Polygon:
    """White ground of lettering, clear of the lines around its zone."""
    left, bottom, right, top = label.box
    inset = _INSET * scale
    return box_polygon((left + inset, bottom + inset, right - inset, top - inset))


def _label(labels: PieceLabels, zone: ZoneShapes) -> Lettered | None:
    """In the largest of its parts."""
    largest = max(zone.shapes, key=lambda shape: shape.area)
    return labels.of(largest, _ways(zone.zone))


def _ways(zone: DrawnZone | None) -> tuple[Lines, ...]:
    if zone is None:
        return ((f"wind {NOT_ASSESSED}",), ("-",))
    suction = kilopascals(zone.suction)
    return (
        (zone.zone, *_said(zone)),
        (zone.zone, f"{suction} kN/m²", " or ".join(zone.directions)),
        (zone.zone, suction),
        (zone.zone,),
    )


def _lettered(label: Lettered) -> Iterator[Text]:
    """The letter of the zone in bold."""
    letter, *others = label.texts
    yield replace(letter, bold=True)
    yield from others


def _hatching(zones: Sequence[ZoneShapes], scale: float) -> Iterator[Group]:
    for zone in HATCHES:
        shapes = [
            shape.rings for one in zones if one.zone is not None and one.zone.zone == zone for shape in one.shapes
        ]
        yield from zone_hatching(zone, shapes, scale)
