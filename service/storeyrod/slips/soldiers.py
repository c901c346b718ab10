"""Soldier courses: upright slips over the head of an opening, with equal joints between them and at both ends."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.plane import SMALLEST_PART, Box, Part, Region
from storeyrod.geometry.ticks import TICKS_PER_MM, millimetres, ticks
from storeyrod.reference.documents import GEOMETRY
from storeyrod.setting_out.course_grid import HAIRLINE
from storeyrod.slips.courses import Cut
from storeyrod.trace import SILENT, Trace, formula
from storeyrod.wall.face import Face, FaceOpening
from storeyrod.wall.system import System


@formula(
    symbol="n_soldiers",
    expression="floor((W - j)/(h + j) + 1/2) + d",
    unit="count",
    inputs={"W": "mm", "j": "mm", "h": "mm", "d": "count"},
    clause=GEOMETRY,
)
def soldier_count(*, W: float, j: float, h: float, d: float) -> float:  # noqa: N803  symbol of the formula
    """Nearest whole number of upright slips of width h over an opening W wide, or d more than that."""
    return float(math.floor((W - j) / (h + j) + 1 / 2)) + d


@formula(
    symbol="j_soldiers",
    expression="(W - n*h)/(n + 1)",
    unit="mm",
    inputs={"W": "mm", "n": "count", "h": "mm"},
    clause=GEOMETRY,
)
def soldier_perp(*, W: float, n: float, h: float) -> float:  # noqa: N803  symbol of the formula
    """Equal joint between n upright slips and at both ends of their course."""
    return (W - n * h) / (n + 1)


@dataclass(frozen=True, slots=True)
class SoldierCourse:
    """The soldiers over one opening: whole ones by their left ends, cut ones as what is left of them. Ticks.

    ``inside`` says that the zone is known to lie in the wall beside other zones, ``clipped`` that some of it does not.
    """

    opening: FaceOpening
    zone: Box
    perp: float
    width: float
    height: float
    lefts: tuple[float, ...]
    cuts: tuple[Cut, ...]
    zone_area: float
    perp_area: float
    bed_area: float
    inside: bool = False
    clipped: bool = False

    @property
    def count(self) -> int:
        """Soldiers, whole and cut."""
        return len(self.lefts) + len(self.cuts)

    @property
    def face_area(self) -> float:
        """Area of all soldiers."""
        return len(self.lefts) * self.width * self.height + sum(cut.part.area for cut in self.cuts)

    @property
    def joint_area(self) -> float:
        """Joints of the zone, measured by strips."""
        return self.perp_area + self.bed_area

    @property
    def bed_length(self) -> float:
        """Length of the bed above the soldiers."""
        bed = self.zone[3] - self.zone[1] - self.height
        return self.bed_area / bed if bed > HAIRLINE else 0.0

    @property
    def perp_length(self) -> float:
        """Length of the upright joints."""
        return self.perp_area / self.perp if self.perp > HAIRLINE else 0.0


def soldier_courses(
    face: Face, free: Region, system: System, trace: Trace
) -> tuple[tuple[SoldierCourse, ...], Region, list[Finding]]:
    """Soldiers over the openings that ask for them, the region left for the courses beside them, and findings.

    An opening too narrow for one soldier gets plain courses and a finding.
    """
    made: dict[str, SoldierCourse] = {}
    findings: dict[str, list[Finding]] = {}
    open_now: list[Box] = []
    for opening in sorted(face.openings, key=lambda one: one.left):
        if opening.model.head != "soldier":
            continue
        perp, count, findings[opening.id] = _perp(face, opening, system, trace)
        if count:
            open_now = [zone for zone in open_now if zone[2] > opening.left]
            course = _course(face, free, opening, perp, count, system, open_now)
            made[opening.id] = course
            open_now.append(course.zone)
            findings[opening.id] += _clipped(face, course)
    order = [opening.id for opening in face.openings]
    courses = tuple(made[name] for name in order if name in made)
    return courses, _beside(free, courses), [item for name in order for item in findings.get(name, [])]


def _beside(free: Region, courses: Sequence[SoldierCourse]) -> Region:
    """The region without the zones of soldiers."""
    zones = [course.zone for course in courses]
    if all(course.inside for course in courses):
        return free.without(zones) if zones else free
    return free.less(*zones)


def _perp(face: Face, opening: FaceOpening, system: System, trace: Trace) -> tuple[float, int, list[Finding]]:
    """Equal joint in ticks and number of soldiers; the number moves by one where that brings the joint inside its limits."""
    low, high = system.joint.perp_min_mm, system.joint.perp_max_mm
    perp, count = _spread(opening, system, 0.0, trace)
    if count and not _within(perp, low, high):
        other = _spread(opening, system, 1.0 if perp > high else -1.0, SILENT)
        if other[1] and _within(other[0], low, high):
            perp, count = _spread(opening, system, 1.0 if perp > high else -1.0, trace)
    if count and _within(perp, low, high):
        return perp * TICKS_PER_MM, count, []
    where: Where = {"pointer": opening.pointer, "elevation": face.id, "opening": opening.id}
    where |= {"x_mm": millimetres(opening.left), "y_mm": millimetres(opening.head)}
    if not count:
        width, least = millimetres(opening.right - opening.left), system.slip.height_mm + 2.0 * low
        advice = "The opening is too narrow for one soldier; plain courses were laid over it."
        return 0.0, 0, [finding("soldier-perp-out-of-range", where, value=width, limit=least, unit="mm", advice=advice)]
    limit = low if perp < low else high
    return perp * TICKS_PER_MM, count, [finding("soldier-perp-out-of-range", where, value=perp, limit=limit, unit="mm")]


def _spread(opening: FaceOpening, system: System, more: float, trace: Trace) -> tuple[float, int]:
    """Joint in mm and number of soldiers; no soldiers where not even one fits."""
    width = trace.given(millimetres(opening.right - opening.left), opening.pointer)
    height = trace.given(system.slip.height_mm, "/system/slip/height_mm")
    nominal = trace.given(system.joint.perp_mm, "/system/joint/perp_mm")
    count = trace.call(soldier_count, W=width, j=nominal, h=height, d=trace.lookup("d", more, "count", GEOMETRY))
    if count < 1:
        return 0.0, 0
    perp = trace.call(soldier_perp, W=width, n=count, h=height)
    return (perp, int(count)) if perp >= 0 else (0.0, 0)


def _within(perp: float, low: float, high: float) -> bool:
    tolerance = HAIRLINE / TICKS_PER_MM
    return low - tolerance <= perp <= high + tolerance


def _course(
    face: Face, free: Region, opening: FaceOpening, perp: float, count: int, system: System, taken: Sequence[Box]
) -> SoldierCourse:
    width, height, bed = (ticks(size) for size in (system.slip.height_mm, system.slip.length_mm, system.joint.bed_mm))
    left, right, foot = opening.left, opening.right, opening.head
    zone = (left, foot, right, foot + height + bed)
    lefts = [left + perp + index * (width + perp) for index in range(count)]
    overlapping = [other for other in taken if foot < other[3] and zone[3] > other[1]]
    if not overlapping and free.holds(zone):
        return SoldierCourse(
            opening, zone, perp, width, height, tuple(lefts), (),
            zone_area=(right - left) * (zone[3] - foot),
            perp_area=((lefts[0] - left) + (count - 1) * perp + (right - lefts[-1] - width)) * height,
            bed_area=(right - left) * bed,
            inside=True,
        )  # fmt: skip
    units = [(x, x + width) for x in lefts]
    edges = [left, *(x for unit in units for x in unit), right]
    perps = [(low, high) for low, high in zip(edges[::2], edges[1::2], strict=True) if high > low]
    if overlapping:
        free = free.less(*overlapping)
    whole, cuts = _pieces(free, (foot, foot + height), units, width)
    return SoldierCourse(
        opening, zone, perp, width, height, whole, cuts,
        zone_area=_area(free, (foot, zone[3]), [(left, right)]),
        perp_area=_area(free, (foot, foot + height), perps),
        bed_area=_area(free, (foot + height, zone[3]), [(left, right)]),
        clipped=bool(overlapping) or _is_clipped(face, zone),
    )  # fmt: skip


def _pieces(
    free: Region, band: Interval, units: Sequence[Interval], width: float
) -> tuple[tuple[float, ...], tuple[Cut, ...]]:
    lefts, cuts = [], []
    for unit, parts in zip(units, free.cells(*band, units), strict=True):
        for part in parts:
            if _is_whole(part, width, band):
                lefts.append(unit[0])
            else:
                cuts.append(Cut(part, "soldier"))
    return tuple(lefts), tuple(cuts)


def _is_whole(part: Part, width: float, band: Interval) -> bool:
    inside = part.right - part.left >= width - HAIRLINE and part.top - part.bottom >= band[1] - band[0] - HAIRLINE
    return part.is_rectangle and inside


def _area(region: Region, band: Interval, columns: Sequence[Interval]) -> float:
    if band[1] <= band[0]:
        return 0.0
    return sum(part.area for parts in region.cells(*band, columns) for part in parts)


def _is_clipped(face: Face, zone: Box) -> bool:
    left, bottom, right, top = zone
    whole = (right - left) * (top - bottom)
    return _area(face.slip_region, (bottom, top), [(left, right)]) < whole - SMALLEST_PART


def _clipped(face: Face, course: SoldierCourse) -> list[Finding]:
    if not course.clipped:
        return []
    left, bottom, right, top = course.zone
    where: Where = {"pointer": course.opening.pointer, "elevation": face.id, "opening": course.opening.id}
    where |= {"x_mm": millimetres(left), "y_mm": millimetres(bottom)}
    share = course.zone_area / ((right - left) * (top - bottom))
    return [finding("soldier-clipped", where, value=share, limit=1.0, unit="fraction")]
