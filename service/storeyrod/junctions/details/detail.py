"""What a ready detail makes of its build-up: the drawing, its flanks and its points."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Final

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.findings import Finding, finding, refuse
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.junctions.details.drawing import PARAMETERS, Box, Surface, Surfaces, Way
from storeyrod.junctions.details.wall_slices import Slice, Wall
from storeyrod.junctions.posed import INSIDE, OUTSIDE, Flank, Place
from storeyrod.junctions.section import Geometry
from storeyrod.reference.documents import Clause
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE

_CUT_OFF: Final = Clause("ISO 10211", "cut-off planes", "memory")
_LEAST_M: Final = 1.0
_THICKNESSES: Final = 3.0
"""Cut-off planes lie at least 1 m and three thicknesses of the flanking element away from the junction."""


_AS_FAR: Final = "1 m, or three times the thickness where that is more"


@dataclass(frozen=True)
class DrawnDetail:
    """Boxes and the surfaces along their outline, how they lie on the sheet, flanks, points, and what was assumed and found."""

    boxes: tuple[Box, ...]
    surfaces: Surfaces
    way: Way
    flanks: tuple[Flank, ...]
    places: tuple[Place, ...]
    geometry: Geometry = "plane"
    count_per_m2: float | None = None
    findings: list[Finding] = field(default_factory=list)
    assumptions: list[Assumption] = field(default_factory=list)


@dataclass(frozen=True)
class Leg:
    """Length of wall drawn on a side of the junction, in ticks and, linked, in m."""

    length: float
    metres: float
    findings: list[Finding]
    assumptions: list[Assumption]


@formula(
    symbol="l_cut",
    expression="Max(l_min, n * d)",
    unit="m",
    inputs={"l_min": "m", "n": "count", "d": "m"},
    clause=_CUT_OFF,
)
def cut_off_distance(*, l_min: float, n: float, d: float) -> float:
    """Least distance from the junction to a cut-off plane."""
    return max(l_min, n * d)


@formula(symbol="l", expression="l_leg + d", unit="m", inputs={"l_leg": "m", "d": "m"}, clause=_CUT_OFF)
def length_with(*, l_leg: float, d: float) -> float:
    """Length of a flank that reaches on by a thickness or a width."""
    return l_leg + d


def metres(length: float) -> float:
    """Metres of a length in ticks."""
    return millimetres(length) * METRES_PER_MILLIMETRE


def measured(symbol: str, length: float, trace: Trace, pointer: str = PARAMETERS) -> float:
    """A length in m that the drawing has, linked to the member that it was drawn from."""
    return trace.measure(symbol, "m", [(symbol, metres(length), pointer)])


def thickness_of(slices: Iterable[Slice], trace: Trace) -> float:
    """Thickness of a wall in m, added up from its layers."""
    rows = [(one.name or "layer", metres(one.inner - one.outer), f"{one.pointer}/thickness_mm") for one in slices]
    return trace.measure("d", "m", rows)


def leg_of(leg_mm: float | None, thickness: float, trace: Trace, reach: float | None = None) -> Leg:
    """The leg asked for, else the shortest that the standard allows; one that is shorter is remarked on.

    ``thickness`` of the wall and ``reach``, how far the junction itself goes along it, in m.
    """
    least = trace.call(
        cut_off_distance,
        l_min=trace.lookup("l_min", _LEAST_M, "m", _CUT_OFF),
        n=trace.lookup("n", _THICKNESSES, "count", _CUT_OFF),
        d=thickness,
    )
    if reach is not None:
        least = trace.call(length_with, l_leg=least, d=reach)
    pointer = f"{PARAMETERS}/leg_mm"
    least_mm = float(least) / METRES_PER_MILLIMETRE
    if leg_mm is None:
        why = Assumed("mm", _CUT_OFF, _AS_FAR if reach is None else f"{_AS_FAR}, beyond the end of what stands in it")
        return Leg(ticks(least_mm), least, [], [stated(pointer, round(least_mm, 4), why)])
    found = []
    if ticks(leg_mm) < ticks(least_mm):
        found = [finding("cut-off-near", {"pointer": pointer}, value=leg_mm, limit=round(least_mm, 4), unit="mm")]
    return Leg(ticks(leg_mm), trace.given(leg_mm * METRES_PER_MILLIMETRE, pointer), found, [])


def refuse_beyond(boxes: Iterable[Box], start: float, end: float) -> None:
    """Refuse ``detail-unfit`` where a part reaches along the wall beyond what is drawn of it."""
    for box in boxes:
        if box.along[0] < start or box.along[1] > end:
            reach = millimetres(max(start - box.along[0], box.along[1] - end))
            sentence = f"the {box.name} reaches {reach:g} mm beyond the wall that is drawn; make it shorter, or give a longer leg_mm"
            raise refuse("detail-unfit", box.pointer, sentence)


def inside(name: str, wall: Wall) -> Surface:
    """A surface that faces the room."""
    return Surface(name, INSIDE, wall.internal)


def outside(name: str, wall: Wall) -> Surface:
    """The outer face of the wall as it is drawn."""
    return Surface(name, OUTSIDE, wall.external)
