"""Voussoirs: how many slips stand in each ring of an arch, whether they are cut, and how wide their joints are.

Each voussoir is a slip, or a piece of one, whose length points to the centre of the arch. It is straight at both ends: the inner
end touches the intrados at its middle. Lengths round the arch are measured along the arc, as the trade does, so that n units
and n joints fill a ring: half a joint lies at each springing. Above each ring lies a joint as thick as a bed.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, Literal

from storeyrod.findings import Finding, Where, finding, refuse
from storeyrod.geometry.arc import arc_length, arc_radius, concentric_length, ring_area
from storeyrod.geometry.ticks import ROUNDING_GUARD, TICKS_PER_MM, millimetres
from storeyrod.reference.documents import COMMON_PRACTICE, GEOMETRY
from storeyrod.setting_out.course_grid import HAIRLINE
from storeyrod.trace import SILENT, Trace, formula
from storeyrod.wall.face import Face, FaceOpening
from storeyrod.wall.grid import header_of
from storeyrod.wall.opening_models import ArchOpening, Voussoirs
from storeyrod.wall.system import System

VoussoirCut = Literal["square", "taper"]

FEWEST: Final = 3
"""Voussoirs of the smallest ring: a key and one on either side."""

_TOLERANCE_MM: Final = HAIRLINE / TICKS_PER_MM


@formula(symbol="R_next", expression="R + d + b", unit="mm", inputs={"R": "mm", "d": "mm", "b": "mm"}, clause=GEOMETRY)
def next_radius(*, R: float, d: float, b: float) -> float:  # noqa: N803  symbol of the formula
    """Radius of the ring above one of radius R and depth d, with a joint b between them."""
    return R + d + b


@formula(
    symbol="n",
    expression="2*floor((s/(h + j) - 1)/2) + 1 + m",
    unit="count",
    inputs={"s": "mm", "h": "mm", "j": "mm", "m": "count"},
    clause=COMMON_PRACTICE,
)
def square_count(*, s: float, h: float, j: float, m: float) -> float:
    """Odd number of units of height h and joints of j in an arc of length s, or m more than that."""
    return float(2 * math.floor((s / (h + j) - 1) / 2) + 1) + m


@formula(
    symbol="n",
    expression="2*ceiling((s*(1 + d/R)/(h + j) - 1)/2) + 1 + m",
    unit="count",
    inputs={"s": "mm", "d": "mm", "R": "mm", "h": "mm", "j": "mm", "m": "count"},
    clause=COMMON_PRACTICE,
)
def taper_count(*, s: float, d: float, R: float, h: float, j: float, m: float) -> float:  # noqa: N803  symbol
    """Least odd number of units no wider than h that fill the extrados of a ring with joints of j, or m more than that."""
    return float(2 * math.ceil((s * (1 + d / R) / (h + j) - 1) / 2) + 1) + m


@formula(symbol="p_i", expression="s/n", unit="mm", inputs={"s": "mm", "n": "count"}, clause=GEOMETRY)
def intrados_pitch(*, s: float, n: float) -> float:
    """Unit and joint at the intrados of a ring whose intrados is s long."""
    return s / n


@formula(
    symbol="p_e",
    expression="s/n*(1 + d/R)",
    unit="mm",
    inputs={"s": "mm", "n": "count", "d": "mm", "R": "mm"},
    clause=GEOMETRY,
)
def extrados_pitch(*, s: float, n: float, d: float, R: float) -> float:  # noqa: N803  symbol of the formula
    """Unit and joint at the extrados of a ring of depth d on a radius R."""
    return s / n * (1 + d / R)


@formula(symbol="j", expression="p - h", unit="mm", inputs={"p": "mm", "h": "mm"}, clause=GEOMETRY)
def joint_width(*, p: float, h: float) -> float:
    """Joint between square units of height h at a pitch of p."""
    return p - h


@formula(symbol="w", expression="p - j", unit="mm", inputs={"p": "mm", "j": "mm"}, clause=GEOMETRY)
def taper_width(*, p: float, j: float) -> float:
    """Width of a tapered unit where the pitch is p and the joint j."""
    return p - j


@formula(
    symbol="A_voussoirs",
    expression="n*d*(w_i + w_e)/2",
    unit="mm2",
    inputs={"n": "count", "d": "mm", "w_i": "mm", "w_e": "mm"},
    clause=GEOMETRY,
)
def voussoir_area(*, n: float, d: float, w_i: float, w_e: float) -> float:
    """Face area of n units of depth d, w_i wide at the intrados and w_e at the extrados."""
    return n * d * (w_i + w_e) / 2


@dataclass(frozen=True, slots=True)
class RingSetting:
    """One ring as it is set out: number from the intrados outwards, units, radius and length of its intrados. Millimetres."""

    number: int
    cut: VoussoirCut
    count: int
    radius_mm: float
    arc_mm: float
    depth_mm: float
    bed_mm: float
    width_intrados_mm: float
    width_extrados_mm: float
    joint_intrados_mm: float
    joint_extrados_mm: float

    @property
    def extrados_mm(self) -> float:
        """Radius of the outer ends of the units."""
        return self.radius_mm + self.depth_mm

    @property
    def zone_area_mm2(self) -> float:
        """Units, their joints and the joint above them."""
        return ring_area(s=self.arc_mm, d=self.depth_mm + self.bed_mm, R=self.radius_mm)

    @property
    def face_area_mm2(self) -> float:
        """Face area of the units."""
        return voussoir_area(n=self.count, d=self.depth_mm, w_i=self.width_intrados_mm, w_e=self.width_extrados_mm)

    @property
    def joint_area_mm2(self) -> float:
        """Joints measured by strips: those between the units, and the one above them."""
        between = self.count * self.depth_mm * (self.joint_intrados_mm + self.joint_extrados_mm) / 2.0
        return between + ring_area(s=self._arc_at(self.extrados_mm), d=self.bed_mm, R=self.extrados_mm)

    @property
    def radial_length_mm(self) -> float:
        """Length of the joints between units; the halves at the springings make one."""
        return self.count * self.depth_mm

    @property
    def bed_length_mm(self) -> float:
        """Length of the joint above the ring, along its middle."""
        return self._arc_at(self.extrados_mm + self.bed_mm / 2.0) if self.bed_mm else 0.0

    @property
    def corner_rise_mm(self) -> float:
        """How far the outer corners of a unit stand above the extrados, since its end is straight."""
        return math.hypot(self.extrados_mm, self.width_extrados_mm / 2.0) - self.extrados_mm

    def _arc_at(self, radius_mm: float) -> float:
        return self.arc_mm * radius_mm / self.radius_mm


def voussoirs_of(opening: FaceOpening) -> Voussoirs | None:
    """The voussoirs that an opening asks for; only arches do."""
    return opening.model.voussoirs if isinstance(opening.model, ArchOpening) else None


def ring_settings(
    face: Face, opening: FaceOpening, wanted: Voussoirs, system: System, trace: Trace = SILENT
) -> tuple[tuple[RingSetting, ...], list[Finding]]:
    """The rings over an arch from the innermost, and a finding where slips must be tapered that nobody asked to taper.

    Raises ``arch-joint-wide``, ``arch-joint-narrow``, ``voussoir-too-wide``, ``voussoir-too-narrow``, ``arch-bed-thin`` and
    ``header-too-short``.
    """
    arch = _Arch(opening, wanted, system)
    cut, findings = wanted.cut, []
    if cut is None:
        fault = _first(_joint_fault(ring, wanted) for ring in arch.rings("square", SILENT))
        cut = "square" if fault is None else "taper"
        if fault is not None:
            where: Where = {"pointer": arch.pointer, "elevation": face.id, "opening": opening.id}
            where |= {"x_mm": millimetres(opening.left), "y_mm": millimetres(opening.springing)}
            findings.append(finding("voussoirs-tapered", where, value=fault.value, limit=fault.limit, unit="mm"))
    rings = arch.rings(cut, trace)
    fault = _first(found for ring in rings for found in _faults(ring, wanted, system))
    if fault is not None:
        raise refuse(fault.slug, arch.pointer, fault.detail)
    return rings, findings


@dataclass(frozen=True, slots=True)
class _Arch:
    """What the rings over one opening are worked out from."""

    opening: FaceOpening
    wanted: Voussoirs
    system: System

    @property
    def pointer(self) -> str:
        return f"{self.opening.pointer}/voussoirs"

    def rings(self, cut: VoussoirCut, trace: Trace) -> tuple[RingSetting, ...]:
        opening = self.opening
        rise = trace.given(millimetres(opening.head - opening.springing), opening.pointer)
        width = trace.given(millimetres(opening.right - opening.left), opening.pointer)
        radius = trace.call(arc_radius, w=width, h=rise)
        arc = trace.call(arc_length, R=radius, h=rise)
        depth, bed = self._depth(trace), trace.given(self.system.joint.bed_mm, "/system/joint/bed_mm")
        made = []
        for number in range(1, self.wanted.rings_count + 1):
            made.append(self._ring(number, cut, radius, arc, depth, bed, trace))
            above = trace.call(next_radius, R=radius, d=depth, b=bed)
            radius, arc = above, trace.call(concentric_length, s=arc, r=above, R=radius)
        return tuple(made)

    def _depth(self, trace: Trace) -> float:
        slip = self.system.slip
        if self.wanted.depth == "stretcher":
            return trace.given(slip.length_mm, "/system/slip/length_mm")
        depth = header_of(self.system, trace)
        if depth <= _TOLERANCE_MM:
            less = f"A slip of {slip.length_mm:g} mm less a perp of {self.system.joint.perp_mm:g} mm leaves no header"
            raise refuse("header-too-short", self.pointer, f"{less}; set depth to stretcher, or check both lengths.")
        return depth

    def _ring(
        self, number: int, cut: VoussoirCut, radius: float, arc: float, depth: float, bed: float, trace: Trace
    ) -> RingSetting:
        height = trace.given(self.system.slip.height_mm, "/system/slip/height_mm")
        joint = trace.given(self.system.joint.perp_mm, "/system/joint/perp_mm")
        if number == 1 and self.wanted.units_count is not None:
            count = trace.given(float(self.wanted.units_count), f"{self.pointer}/units_count")
        elif cut == "square":
            count = self._square_count(arc, depth, radius, height, joint, trace)
        else:
            count = self._taper_count(arc, depth, radius, height, joint, trace)
        inner = trace.call(intrados_pitch, s=arc, n=count)
        outer = trace.call(extrados_pitch, s=arc, n=count, d=depth, R=radius)
        if cut == "square":
            widths = height, height
            joints = trace.call(joint_width, p=inner, h=height), trace.call(joint_width, p=outer, h=height)
        else:
            widths = trace.call(taper_width, p=inner, j=joint), trace.call(taper_width, p=outer, j=joint)
            joints = joint, joint
        return RingSetting(number, cut, int(count), radius, arc, depth, bed, *widths, *joints)

    def _square_count(
        self, arc: float, depth: float, radius: float, height: float, joint: float, trace: Trace
    ) -> float:
        """The odd number whose intrados joint is nearest to the perp; of those inside the limits, where there are any."""
        below = square_count(s=arc, h=height, j=joint, m=0.0)
        nearest = min(
            (count for count in (below, below + 2.0) if count > 0.0),
            key=lambda count: abs(arc / count - height - joint),
        )
        low = _odd_from(arc * (1.0 + depth / radius) / (height + self.wanted.joint_max_mm + _TOLERANCE_MM))
        high = _odd_to(arc / (height + self.wanted.joint_min_mm - _TOLERANCE_MM))
        count = max(FEWEST, min(high, max(low, nearest)) if low <= high else nearest)
        more = trace.lookup("m", count - below, "count", COMMON_PRACTICE)
        return trace.call(square_count, s=arc, h=height, j=joint, m=more)

    @staticmethod
    def _taper_count(arc: float, depth: float, radius: float, height: float, joint: float, trace: Trace) -> float:
        """The least odd number of wedges that come out of slips."""
        count = max(FEWEST, _odd_from(arc * (1.0 + depth / radius) / (height + joint + _TOLERANCE_MM)))
        plain = taper_count(s=arc, d=depth, R=radius, h=height, j=joint, m=0.0)
        more = trace.lookup("m", count - plain, "count", COMMON_PRACTICE)
        return trace.call(taper_count, s=arc, d=depth, R=radius, h=height, j=joint, m=more)


@dataclass(frozen=True, slots=True)
class _Fault:
    """What keeps a ring from being built: slug of the refusal, value and limit in mm, and a sentence."""

    slug: str
    value: float
    limit: float
    detail: str


def _first(faults: Iterable[_Fault | None]) -> _Fault | None:
    return next((fault for fault in faults if fault is not None), None)


def _faults(ring: RingSetting, wanted: Voussoirs, system: System) -> tuple[_Fault | None, ...]:
    return _joint_fault(ring, wanted), _wide_fault(ring, system), _narrow_fault(ring, system), _bed_fault(ring)


def _joint_fault(ring: RingSetting, wanted: Voussoirs) -> _Fault | None:
    inner, outer = ring.joint_intrados_mm, ring.joint_extrados_mm
    joints = f"Ring {ring.number} of {ring.count} voussoirs has joints from {inner:.4g} mm at the intrados to {outer:.4g} mm at the extrados"
    square = ring.cut == "square"
    if outer > wanted.joint_max_mm + _TOLERANCE_MM:
        cure = _wide_cure(wanted) if square else "raise joint_max_mm, or narrow perp_mm"
        detail = f"{joints}, over joint_max_mm {wanted.joint_max_mm:g}; {cure}."
        return _Fault("arch-joint-wide", outer, wanted.joint_max_mm, detail)
    if inner < wanted.joint_min_mm - _TOLERANCE_MM:
        cure = "take fewer units, or set cut to taper" if square else "lower joint_min_mm, or widen perp_mm"
        detail = f"{joints}, under joint_min_mm {wanted.joint_min_mm:g}; {cure}."
        return _Fault("arch-joint-narrow", inner, wanted.joint_min_mm, detail)
    return None


def _wide_cure(wanted: Voussoirs) -> str:
    """Less depth narrows the extrados joint; a ring of headers is as shallow as rings get."""
    rings = ", lay more rings of headers" if wanted.depth == "stretcher" else ""
    return f"set cut to taper{rings}, or raise joint_max_mm"


def _wide_fault(ring: RingSetting, system: System) -> _Fault | None:
    """A wedge must come out of a slip."""
    width, limit = ring.width_extrados_mm, system.slip.height_mm
    if width <= limit + _TOLERANCE_MM:
        return None
    needed = math.ceil(
        ring.count * (width + ring.joint_extrados_mm) / (limit + ring.joint_extrados_mm) - ROUNDING_GUARD
    )
    wedges = f"{ring.count} voussoirs in ring {ring.number} would be {width:.4g} mm wide at the extrados, over a slip's {limit:g} mm"
    return _Fault("voussoir-too-wide", width, limit, f"{wedges}; take at least {needed}, or leave out units_count.")


def _narrow_fault(ring: RingSetting, system: System) -> _Fault | None:
    """A wedge is ripped along its length, so its narrow end keeps the least height of a rip."""
    width, limit = ring.width_intrados_mm, system.minimum_rip_mm
    if ring.cut == "square" or width >= limit - _TOLERANCE_MM:
        return None
    wedges = f"{ring.count} voussoirs in ring {ring.number} would be {width:.4g} mm wide at the intrados, under minimum_rip_mm {limit:g}"
    return _Fault(
        "voussoir-too-narrow",
        width,
        limit,
        f"{wedges}; take fewer units, lay rings of less depth, or leave out voussoirs.",
    )


def _bed_fault(ring: RingSetting) -> _Fault | None:
    rise, bed = ring.corner_rise_mm, ring.bed_mm
    if rise <= bed + _TOLERANCE_MM:
        return None
    corners = f"The outer corners of {ring.count} voussoirs in ring {ring.number} stand {rise:.4g} mm above the extrados, over bed_mm {bed:g}"
    return _Fault("arch-bed-thin", rise, bed, f"{corners}; widen the bed, or take more and narrower units.")


def _odd_from(number: float) -> int:
    """Least odd whole number that is not below a number."""
    return 2 * math.ceil((number - 1.0) / 2.0) + 1


def _odd_to(number: float) -> int:
    """Greatest odd whole number that is not above a number."""
    return 2 * math.floor((number - 1.0) / 2.0) + 1
