"""The foot of the cladding on a metal rail, over a plinth that is bare or insulated."""

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.findings import refuse
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.junctions.detail_models import BaseRailDetail, BaseRailParameters, Plinth
from storeyrod.junctions.details.detail import (
    DrawnDetail,
    inside,
    leg_of,
    length_with,
    metres,
    outside,
    refuse_beyond,
    thickness_of,
)
from storeyrod.junctions.details.drawing import CUT, PARAMETERS, Box, Surface, place, wall_boxes
from storeyrod.junctions.details.open_air import open_air
from storeyrod.junctions.details.wall_slices import Slice, Wall, behind, insulation_of, u_value_of
from storeyrod.junctions.posed import Flank
from storeyrod.reference.documents import HOUSE
from storeyrod.thermal.resistance import homogeneous
from storeyrod.trace import Trace
from storeyrod.units import METRES_PER_MILLIMETRE

_AS_DEEP = Assumed("mm", HOUSE, "as deep as the cladding")


def base_rail(asked: BaseRailDetail, wall: Wall, trace: Trace) -> DrawnDetail:
    """The rail with its top at the origin; above it the wall, below it what stands behind the cladding, with its plinth."""
    given = asked.parameters
    insulation, assumed = insulation_of(wall, given.insulation_layer, PARAMETERS)
    rest = behind(wall, insulation)
    cladding = insulation.inner
    leg = leg_of(given.leg_mm, _thickest(given, wall, rest, trace), trace, _reach(given, trace))
    rail, depth = _rail(given, cladding)
    lowest = -leg.length
    air = open_air(wall, trace)

    def surfaces(along: float, across: float) -> Surface:
        if abs(along) == leg.length:
            return CUT
        if across == wall.thickness:
            return inside("inside", wall)
        return outside("outside", wall) if along > 0.0 else air.surface("outside")

    refuse_beyond(rail, lowest, leg.length)
    boxes = [*wall_boxes(wall.slices, 0.0, leg.length), *wall_boxes(rest, lowest, 0.0)]
    boxes += [*_plinth(given, cladding, lowest), *rail]
    return DrawnDetail(
        tuple(boxes),
        surfaces,
        "upright",
        (
            Flank("wall", wall.u_value(trace), leg.metres, leg.metres),
            Flank("plinth", _plinth_u_value(given, wall.internal, rest, air.resistance, trace), leg.metres, leg.metres),
        ),
        (place("inside_behind_rail", 0.0, wall.thickness, "upright"),),
        findings=air.findings + leg.findings,
        assumptions=assumed + air.assumptions + leg.assumptions + depth,
    )


def _thickest(given: BaseRailParameters, wall: Wall, rest: tuple[Slice, ...], trace: Trace) -> float:
    """Thickness in m of the thicker flank: the wall above the rail, or the plinth with the wall behind it."""
    whole = thickness_of(wall.slices, trace)
    if given.plinth is None or ticks(given.plinth.thickness_mm) <= rest[-1].outer:
        return whole
    return trace.call(length_with, l_leg=thickness_of(rest, trace), d=_plinth_thickness(given.plinth, trace))


def _plinth_thickness(plinth: Plinth, trace: Trace) -> float:
    return trace.given(plinth.thickness_mm * METRES_PER_MILLIMETRE, f"{PARAMETERS}/plinth/thickness_mm")


def _reach(given: BaseRailParameters, trace: Trace) -> float:
    """How far the rail stands up beyond its level leg, in m."""
    pointer = f"{PARAMETERS}/rail"
    rows = [("upright", metres(ticks(given.rail.upright_mm)), f"{pointer}/upright_mm")]
    rows.append(("thickness", -metres(ticks(given.rail.thickness_mm)), f"{pointer}/thickness_mm"))
    return trace.measure("d", "m", rows)


def _rail(given: BaseRailParameters, cladding: float) -> tuple[list[Box], list[Assumption]]:
    """Both legs of the angle, the level one under the cladding, the upright one in place of its innermost part."""
    pointer = f"{PARAMETERS}/rail"
    thick = ticks(given.rail.thickness_mm)
    deep = cladding if given.rail.depth_mm is None else ticks(given.rail.depth_mm)
    high = ticks(given.rail.upright_mm)
    if thick >= min(cladding, high):
        raise refuse(
            "detail-unfit",
            f"{pointer}/thickness_mm",
            f"a rail of {given.rail.thickness_mm:g} mm is as thick as the cladding or as its own upright leg",
        )
    lambda_ = given.rail.conductivity_w_per_m_k
    level = Box((-thick, 0.0), (cladding - deep, cladding), lambda_, "rail", pointer)
    upright = Box((-thick, high - thick), (cladding - thick, cladding), lambda_, "rail", pointer)
    assumed = [] if given.rail.depth_mm is not None else [stated(f"{pointer}/depth_mm", millimetres(deep), _AS_DEEP)]
    return [level, upright], assumed


def _plinth(given: BaseRailParameters, cladding: float, lowest: float) -> list[Box]:
    if given.plinth is None:
        return []
    outer = cladding - ticks(given.plinth.thickness_mm)
    pointer = f"{PARAMETERS}/plinth"
    return [Box((lowest, 0.0), (outer, cladding), given.plinth.conductivity_w_per_m_k, "plinth", pointer)]


def _plinth_u_value(
    given: BaseRailParameters, internal: float, rest: tuple[Slice, ...], external: float, trace: Trace
) -> float:
    resistances = [internal, *(one.heat.resistance for one in rest)]
    if given.plinth is not None:
        pointer = f"{PARAMETERS}/plinth"
        d = _plinth_thickness(given.plinth, trace)
        lambda_ = trace.given(given.plinth.conductivity_w_per_m_k, f"{pointer}/conductivity_w_per_m_k")
        resistances.append(trace.call(homogeneous, d=d, lambda_=lambda_))
    return u_value_of([*resistances, external], trace)
