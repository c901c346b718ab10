"""Soldier courses: upright slips over the head of an opening, with equal joints between them and at both ends."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.plane import SMALLEST_PART, Box, Part, Region
from storeyrod.geometry.ticks import TICKS_PER_MM, millimetres, ticks
from storeyrod.reference.documents import GEOMETRY
from storeyrod.setting_out.course_grid import HAIRLINE
from storeyrod.slips.courses import Cut, Run
from storeyrod.slips.zones import zones_in_wall
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
    """The soldiers over one opening: whole ones in runs, cut ones as what is left of them. Ticks.

    ``inside`` says that the zone is known to lie in the wall beside other zones, ``clipped`` that some of it does not.
    """

    opening: FaceOpening
    zone: Box
    perp: float
    width: float
    height: float
    whole: tuple[Run, ...]
    cuts: tuple[Cut, ...]
    zone_area: float
    perp_area: float
    bed_area: float
    inside: bool = False
    clipped: bool = False

    @property
    def whole_count(self) -> int:
        """Whole soldiers."""
        return sum([run.count for run in self.whole])

    @property
    def count(self) -> int:
        """Soldiers, whole and cut."""
        return self.whole_count + len(self.cuts)

    @property
    def lefts(self) -> list[float]:
        """Left ends of whole soldiers."""
        return [run.x + index * run.pitch for run in self.whole for index in range(run.count)]

    @property
    def face_area(self) -> float:
        """Area of all soldiers."""
        return self.whole_count * self.width * self.height + sum([cut.part.area for cut in self.cuts])

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


@dataclass(frozen=True, slots=True)
class _Head:
    """An opening over which soldiers stand: equal joint, number, and the zone that they take with their joints."""

    opening: FaceOpening
    perp: float
    count: int
    zone: Box


def soldier_courses(
    face: Face, free: Region, strips: Sequence[Box], system: System, trace: Trace
) -> tuple[tuple[SoldierCourse, ...], Region, list[Finding]]:
    """Soldiers over the openings that ask for them, the region left for the courses beside them, and findings.

    ``strips`` are what joints took off the free region. An opening too narrow for one soldier gets plain courses and a finding.
    """
    width, height, bed = _sizes(system)
    heads: dict[int, _Head] = {}
    findings: dict[int, list[Finding]] = {}
    for place, opening in enumerate(face.openings):
        if opening.model.head == "soldier":
            perp, count, findings[place] = _perp(face, opening, system, trace)
            if count:
                zone = opening.left, opening.head, opening.right, opening.head + height + bed
                heads[place] = _Head(opening, perp, count, zone)
    inside = zones_in_wall(face, free, strips, [head.zone for head in heads.values()])
    made: dict[int, SoldierCourse] = {}
    open_now: list[Box] = []
    for place, is_inside in sorted(zip(heads, inside, strict=True), key=lambda one: heads[one[0]].zone[0]):
        head = heads[place]
        if is_inside:
            made[place] = _whole_course(head, width, height, bed)
            continue
        open_now = [zone for zone in open_now if zone[2] > head.zone[0]]
        course = _clipped_course(face, free, head, width, height, open_now)
        course = replace(course, clipped=course.clipped or _is_cut(face, head.zone, height, strips))
        made[place] = course
        open_now.append(head.zone)
        findings[place] += _clipped(face, course)
    courses = tuple([made[place] for place in heads])
    return courses, _beside(free, courses), [item for found in findings.values() for item in found]


def _sizes(system: System) -> tuple[float, float, float]:
    """Width and height of a soldier, and the bed above it."""
    return ticks(system.slip.height_mm), ticks(system.slip.length_mm), ticks(system.joint.bed_mm)


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


def _whole_course(head: _Head, width: float, height: float, bed: float) -> SoldierCourse:
    """Soldiers whose zone lies in the wall."""
    left, foot, right, top = head.zone
    run = Run(left + head.perp, head.count, width + head.perp, width, "soldier")
    between = (run.x - left) + (head.count - 1) * head.perp + (right - run.right)
    return SoldierCourse(
        head.opening, head.zone, head.perp, width, height, (run,), (),
        zone_area=(right - left) * (top - foot),
        perp_area=between * height,
        bed_area=(right - left) * bed,
        inside=True,
    )  # fmt: skip


def _clipped_course(
    face: Face, free: Region, head: _Head, width: float, height: float, taken: Sequence[Box]
) -> SoldierCourse:
    """Soldiers whose zone meets an edge of the wall, or a zone that is taken already."""
    left, foot, right, top = head.zone
    run = Run(left + head.perp, head.count, width + head.perp, width, "soldier")
    units = [(x, x + width) for x in (run.x + index * run.pitch for index in range(head.count))]
    edges = [left, *(x for unit in units for x in unit), right]
    perps = [(low, high) for low, high in zip(edges[::2], edges[1::2], strict=True) if high > low]
    overlapping = [other for other in taken if foot < other[3] and top > other[1]]
    if overlapping:
        free = free.less(*overlapping)
    whole, cuts = _pieces(free, (foot, foot + height), units, run)
    return SoldierCourse(
        head.opening, head.zone, head.perp, width, height, whole, cuts,
        zone_area=_area(free, (foot, top), [(left, right)]),
        perp_area=_area(free, (foot, foot + height), perps),
        bed_area=_area(free, (foot + height, top), [(left, right)]),
        clipped=bool(overlapping) or _is_clipped(face, head.zone),
    )  # fmt: skip


def _pieces(
    free: Region, band: Interval, units: Sequence[Interval], run: Run
) -> tuple[tuple[Run, ...], tuple[Cut, ...]]:
    whole, cuts = [], []
    for unit, parts in zip(units, free.cells(*band, units), strict=True):
        for part in parts:
            if _is_whole(part, run.width, band):
                whole.append(Run(unit[0], 1, run.pitch, run.width, "soldier"))
            else:
                cuts.append(Cut(part, "soldier"))
    return (run,) if len(whole) == run.count and not cuts else tuple(whole), tuple(cuts)


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


def _is_cut(face: Face, zone: Box, height: float, strips: Sequence[Box]) -> bool:
    """Whether a level joint runs through soldiers; one over them takes the place of their bed."""
    left, foot, right, _ = zone
    return any(
        x0 < right and left < x1 and face.foot < bottom < foot + height and foot < top for x0, bottom, x1, top in strips
    )


def _clipped(face: Face, course: SoldierCourse) -> list[Finding]:
    if not course.clipped:
        return []
    left, bottom, right, top = course.zone
    where: Where = {"pointer": course.opening.pointer, "elevation": face.id, "opening": course.opening.id}
    where |= {"x_mm": millimetres(left), "y_mm": millimetres(bottom)}
    share = course.zone_area / ((right - left) * (top - bottom))
    return [finding("soldier-clipped", where, value=share, limit=1.0, unit="fraction")]
