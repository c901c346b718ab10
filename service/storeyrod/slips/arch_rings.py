"""Rings of voussoirs as they stand in a wall: whole where the wall has room for them, clipped elsewhere, and their joints.

The zone of the rings is taken out of the wall before courses are laid. Its inner edge is the opening's own polygon, so that
nothing is lost between them.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.arc import Arc, arc_of, arc_vertices, sector
from storeyrod.geometry.plane import SMALLEST_PART, Box, Part, Region, Ring, bounds, overlap_area
from storeyrod.geometry.share import Share, region_without, share_of, whole_share
from storeyrod.geometry.ticks import TICKS_PER_MM, millimetres
from storeyrod.setting_out.course_grid import HAIRLINE
from storeyrod.slips.voussoirs import RingSetting, ring_settings, voussoirs_of
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.face import Face, FaceOpening
from storeyrod.wall.system import System

_SAME_AREA = 100.0 * SMALLEST_PART
"""Square ticks (0.01 mm2): a zone that lost less has lost nothing but rounding."""


@dataclass(frozen=True, slots=True)
class VoussoirRing:
    """One ring over one opening: which voussoirs stand whole, and what is left of the others, with their numbers.

    They are numbered from 0 at the left springing. Lengths in ticks, areas in square ticks. ``joint_area`` is measured by strips, not as what the pieces leave.
    """

    opening: FaceOpening
    arc: Arc
    setting: RingSetting
    whole: tuple[int, ...]
    parts: tuple[tuple[int, Part], ...]
    zone_area: float
    face_area: float
    joint_area: float

    @property
    def count(self) -> int:
        """Voussoirs, whole and clipped."""
        return len(self.whole) + len(self.parts)

    @property
    def depth(self) -> float:
        """Length of a voussoir, towards the centre."""
        return self.setting.depth_mm * TICKS_PER_MM

    @property
    def wedge(self) -> tuple[float, float] | None:
        """Widths of a tapered voussoir at the intrados and at the extrados."""
        made = self.setting
        widths = made.width_intrados_mm * TICKS_PER_MM, made.width_extrados_mm * TICKS_PER_MM
        return widths if made.cut == "taper" else None

    @property
    def area_of_one(self) -> float:
        """Face area of a whole voussoir."""
        return _square_ticks(self.setting.face_area_mm2 / self.setting.count)

    def is_cut(self, slip_length: float) -> bool:
        """Whether a whole voussoir is less than a whole slip."""
        return self.setting.cut == "taper" or self.depth < slip_length - HAIRLINE

    @property
    def outlines(self) -> list[tuple[Ring, ...]]:
        """Rings of every voussoir, the whole ones first."""
        return [rings for _, _, rings in sorted(self.pieces, key=lambda piece: not piece[1])]

    @property
    def pieces(self) -> list[tuple[int, bool, tuple[Ring, ...]]]:
        """Number, whether it is whole, and rings of every voussoir, from the left springing."""
        whole = [(index, True, (voussoir_outline(self.arc, self.setting, index),)) for index in self.whole]
        clipped = [(index, False, part.outline) for index, part in self.parts]
        return sorted([*whole, *clipped], key=lambda one: one[0])

    @property
    def outer_radius(self) -> float:
        """Radius on which the next ring, or the courses, begin."""
        return _outer_radius(self.setting)

    @property
    def share(self) -> float:
        """How much of the ring stands in the wall."""
        return self.zone_area / _square_ticks(self.setting.zone_area_mm2)

    @property
    def perp_length(self) -> float:
        """Length of the joints between voussoirs."""
        return self.setting.radial_length_mm * TICKS_PER_MM * self.share

    @property
    def bed_length(self) -> float:
        """Length of the joint above the ring."""
        return self.setting.bed_length_mm * TICKS_PER_MM * self.share


def voussoir_outline(arc: Arc, setting: RingSetting, index: int) -> Ring:
    """Corners of a voussoir, anticlockwise from the left one at the intrados; ``index`` counts from the left springing."""
    angle = arc.half_angle * (2 * index + 1 - setting.count) / setting.count
    along, across = (math.sin(angle), math.cos(angle)), (math.cos(angle), -math.sin(angle))
    corners = [
        (setting.radius_mm, -setting.width_intrados_mm), (setting.radius_mm, setting.width_intrados_mm),
        (setting.extrados_mm, setting.width_extrados_mm), (setting.extrados_mm, -setting.width_extrados_mm),
    ]  # fmt: skip
    return tuple(
        (
            arc.x + TICKS_PER_MM * (radius * along[0] + width / 2.0 * across[0]),
            arc.y + TICKS_PER_MM * (radius * along[1] + width / 2.0 * across[1]),
        )
        for radius, width in corners
    )


def voussoir_rings(
    face: Face, free: Region, system: System, trace: Trace = SILENT
) -> tuple[tuple[VoussoirRing, ...], Region, list[Finding]]:
    """Rings over the arches that ask for them, the region left for the courses round them, and findings."""
    arches: list[_ArchZones] = []
    findings: list[list[Finding]] = []
    for opening in face.openings:
        wanted = voussoirs_of(opening)
        if wanted is not None:
            settings, found = ring_settings(face, opening, wanted, system, trace)
            arches.append(_zones(opening, settings))
            findings.append(found)
    if not arches:
        return (), free, []
    shares: list[Share] = []
    made: list[VoussoirRing] = []
    for arch, lost, found in zip(arches, _taken(arches), findings, strict=True):
        laid = [_ring(arch, share_of(free, zone, lost), index) for index, zone in enumerate(arch.zones)]
        made += [ring for ring, _ in laid]
        shares += [share for _, share in laid]
        found.extend(_clipped(face, arch.opening, [ring for ring, _ in laid]))
    return tuple(made), region_without(free, shares), [item for found in findings for item in found]


@dataclass(frozen=True, slots=True)
class _ArchZones:
    """An arch with the settings and zones of its rings, from the opening outwards, and the box round them.

    ``inner`` holds for every ring the polygon that it stands on, closed by a chord.
    """

    opening: FaceOpening
    arc: Arc
    settings: tuple[RingSetting, ...]
    zones: tuple[Ring, ...]
    inner: tuple[Ring, ...]
    box: Box


def arc_over(opening: FaceOpening) -> Arc:
    """Intrados of an arch."""
    return arc_of(*_chord(opening))


def _chord(opening: FaceOpening) -> tuple[float, float, float, float]:
    return opening.left, opening.springing, opening.right - opening.left, opening.head - opening.springing


def _zones(opening: FaceOpening, settings: tuple[RingSetting, ...]) -> _ArchZones:
    """Zones of the rings; neighbours share their vertices."""
    arc, inner = arc_over(opening), arc_vertices(*_chord(opening))
    zones, stood_on = [], []
    for setting in settings:
        outer = arc.vertices(_outer_radius(setting))
        zones.append(sector(inner, outer))
        stood_on.append(tuple(inner))
        inner = outer
    box = bounds(corner for zone in zones for corner in zone)
    return _ArchZones(opening, arc, settings, tuple(zones), tuple(stood_on), box)


def _taken(arches: Sequence[_ArchZones]) -> list[list[tuple[Ring, Box]]]:
    """For each arch the rings of others that it gives way to, and inside which box.

    Over a pier the rings of two arches meet at the pier's middle; of two arches above one another the lower one is whole.
    """
    taken: list[list[tuple[Ring, Box]]] = [[] for _ in arches]
    open_now: list[int] = []
    for index in sorted(range(len(arches)), key=lambda index: arches[index].box):
        here = arches[index]
        open_now = [other for other in open_now if arches[other].box[2] > here.box[0]]
        for other in open_now:
            there = arches[other]
            if there.box[1] < here.box[3] and here.box[1] < there.box[3]:
                taken[index] += _given_way(here, there)
                taken[other] += _given_way(there, here)
        open_now.append(index)
    return taken


def _given_way(arch: _ArchZones, other: _ArchZones) -> list[tuple[Ring, Box]]:
    left, bottom, right, top = other.box
    if other.opening.right <= arch.opening.left:
        right = (other.opening.right + arch.opening.left) / 2.0
    elif arch.opening.right <= other.opening.left:
        left = (arch.opening.right + other.opening.left) / 2.0
    elif other.opening.springing >= arch.opening.springing:
        return []
    return [(zone, (left, bottom, right, top)) for zone in other.zones]


def _ring(arch: _ArchZones, share: Share, index: int) -> tuple[VoussoirRing, Share]:
    setting = arch.settings[index]
    zone, face, joints = (
        area * TICKS_PER_MM**2 for area in (setting.zone_area_mm2, setting.face_area_mm2, setting.joint_area_mm2)
    )
    if share.area < zone - _SAME_AREA:
        return _clipped_ring(share, arch, index), share
    whole = tuple(range(setting.count))
    return VoussoirRing(arch.opening, arch.arc, setting, whole, (), zone, face, joints), whole_share(arch.zones[index])


def _clipped_ring(share: Share, arch: _ArchZones, number: int) -> VoussoirRing:
    setting = arch.settings[number]
    outlines = [voussoir_outline(arch.arc, setting, index) for index in range(setting.count)]
    area = _square_ticks(setting.face_area_mm2 / setting.count)
    whole, parts, areas = [], [], []
    for index, found in enumerate(share.parts(outlines)):
        areas += [part.area for part in found]
        # A vertex of the polygon below stands a hair outside the arc that a voussoir touches.
        lost_below = overlap_area(outlines[index], arch.inner[number])
        if len(found) == 1 and found[0].area >= area - lost_below - SMALLEST_PART:
            whole.append(index)
        else:
            parts += [(index, part) for part in found]
    return VoussoirRing(
        arch.opening, arch.arc, setting, tuple(whole), tuple(parts),
        zone_area=share.area,
        face_area=math.fsum(areas),
        joint_area=share.area_beside(outlines),
    )  # fmt: skip


def _outer_radius(setting: RingSetting) -> float:
    return (setting.extrados_mm + setting.bed_mm) * TICKS_PER_MM


def _square_ticks(area_mm2: float) -> float:
    return area_mm2 * TICKS_PER_MM**2


def _clipped(face: Face, opening: FaceOpening, rings: Sequence[VoussoirRing]) -> list[Finding]:
    if all(len(ring.whole) == ring.setting.count for ring in rings):
        return []
    where: Where = {"pointer": f"{opening.pointer}/voussoirs", "elevation": face.id, "opening": opening.id}
    where |= {"x_mm": millimetres(opening.left), "y_mm": millimetres(opening.springing)}
    inside = math.fsum(ring.zone_area for ring in rings)
    whole = math.fsum(_square_ticks(ring.setting.zone_area_mm2) for ring in rings)
    return [finding("voussoirs-clipped", where, value=inside / whole, limit=1.0, unit="fraction")]
