"""A section that the request draws itself, as it goes to the solver."""

from collections.abc import Iterable, Sequence
from typing import Final

from storeyrod.findings import refuse
from storeyrod.geometry.ticks import ticks
from storeyrod.junctions.drawn_sides import JUNCTION, drawn_findings, sides_of
from storeyrod.junctions.models import Junction, JunctionBoundary, JunctionFlank, JunctionRectangle
from storeyrod.junctions.partition import partition_of
from storeyrod.junctions.posed import Flank, PosedJunction
from storeyrod.junctions.section import Edge, Patch, Section, edge
from storeyrod.trace import Trace
from storeyrod.units import METRES_PER_MILLIMETRE

_TWO: Final = 2
"""Environments between which a transmittance lies without saying so."""


def posed_section(junction: Junction, trace: Trace) -> PosedJunction:
    """Section, temperatures and flanks as given.

    Refuses ``boundary-contradictory``, ``boundary-off-outline`` for a slanted segment, ``environment-contradictory``,
    ``environment-unknown``, ``no-temperature-difference`` and ``flanks-unfit``; what is wrong with the section itself is refused when it is solved.
    """
    boundaries = [(one, f"{JUNCTION}/boundaries/{at}") for at, one in enumerate(junction.boundaries)]
    for boundary, pointer in boundaries:
        _refuse_contradictory(boundary, pointer)
    environments = _environments(boundaries, trace)
    section = Section(
        tuple(_patch(one, f"{JUNCTION}/rectangles/{at}") for at, one in enumerate(junction.rectangles)),
        tuple(_edge(boundary, pointer, trace) for boundary, pointer in boundaries),
        tuple(environments),
        junction.geometry,
        later_covers=junction.overlaps == "later_covers",
        pointer=JUNCTION,
    )
    names = tuple(edge.environment or "adiabatic" for edge in section.edges)
    temperatures = tuple(environments.values())
    if len(set(temperatures)) < 2:
        _refuse_without_difference(section)
    sides = sides_of(junction.between, environments)
    paired = len(environments) == _TWO or junction.between is not None
    return PosedJunction(
        section,
        names,
        temperatures,
        *sides,
        tuple(_flanks(junction, trace)),
        paired=paired,
        findings=list(drawn_findings(junction, section, sides)),
    )


def _refuse_contradictory(boundary: JunctionBoundary, pointer: str) -> None:
    temperature, resistance = boundary.temperature_deg_c, boundary.surface_resistance_m2_k_per_w
    given = [value is not None for value in (temperature, resistance, boundary.environment)]
    if boundary.adiabatic and any(given):
        raise refuse(
            "boundary-contradictory", pointer, "an adiabatic boundary has no environment, temperature or resistance"
        )
    if not boundary.adiabatic and not all(given[:2]):
        raise refuse(
            "boundary-contradictory",
            pointer,
            "give temperature_deg_c and surface_resistance_m2_k_per_w, or adiabatic true",
        )


def _environments(boundaries: Iterable[tuple[JunctionBoundary, str]], trace: Trace) -> dict[str, float]:
    """Temperatures by environment, in order of first mention."""
    found: dict[str, float] = {}
    for boundary, pointer in boundaries:
        if boundary.temperature_deg_c is None:
            continue
        name = _environment(boundary, boundary.temperature_deg_c)
        known = found.get(name)
        if known is None:
            found[name] = trace.given(boundary.temperature_deg_c, f"{pointer}/temperature_deg_c")
        elif known != boundary.temperature_deg_c:
            raise refuse(
                "environment-contradictory",
                f"{pointer}/temperature_deg_c",
                f"environment {name} is at {known:g} and at {boundary.temperature_deg_c:g} °C; give it one temperature, or two names",
            )
    return found


def _refuse_without_difference(section: Section) -> None:
    """Refuse what is wrong with the section first: a side without boundary is often why there is one temperature only."""
    partition_of(section)
    raise refuse(
        "no-temperature-difference",
        f"{JUNCTION}/boundaries",
        "heat flows between two temperatures at least; give boundaries of two environments that differ",
    )


def _environment(boundary: JunctionBoundary, temperature: float) -> str:
    return boundary.environment or f"{temperature:.15g} °C"


def _patch(given: JunctionRectangle, pointer: str) -> Patch:
    right, top = ticks(given.x_mm + given.width_mm), ticks(given.y_mm + given.height_mm)
    return Patch(ticks(given.x_mm), ticks(given.y_mm), right, top, given.conductivity_w_per_m_k, given.name, pointer)


def _edge(boundary: JunctionBoundary, pointer: str, trace: Trace) -> Edge:
    given = boundary.segment
    ends = [ticks(value) for value in (given.x_from_mm, given.y_from_mm, given.x_to_mm, given.y_to_mm)]
    if (ends[0] == ends[2]) == (ends[1] == ends[3]):
        raise refuse(
            "boundary-off-outline",
            f"{pointer}/segment",
            "the segment is slanted or has no length; outlines of rectangles run level or upright",
        )
    if boundary.temperature_deg_c is None or boundary.surface_resistance_m2_k_per_w is None:
        return edge(ends, None, 0.0, pointer)
    environment = _environment(boundary, boundary.temperature_deg_c)
    resistance = trace.given(boundary.surface_resistance_m2_k_per_w, f"{pointer}/surface_resistance_m2_k_per_w")
    return edge(ends, environment, resistance, pointer)


def _flanks(junction: Junction, trace: Trace) -> Iterable[Flank]:
    if junction.geometry == "axisymmetric":
        _refuse_unfit(junction.flanks)
    for at, one in enumerate(junction.flanks):
        here = f"{JUNCTION}/flanks/{at}"
        yield Flank(
            f"flank {at}",
            trace.given(one.u_value_w_per_m2_k, f"{here}/u_value_w_per_m2_k"),
            trace.given(one.internal_length_mm * METRES_PER_MILLIMETRE, f"{here}/internal_length_mm"),
            trace.given(one.external_length_mm * METRES_PER_MILLIMETRE, f"{here}/external_length_mm"),
        )


def _refuse_unfit(flanks: Sequence[JunctionFlank]) -> None:
    if len(flanks) > 1 or any(one.internal_length_mm != one.external_length_mm for one in flanks):
        raise refuse(
            "flanks-unfit",
            f"{JUNCTION}/flanks",
            "an axisymmetric section takes the loss of one disc off: give one flank, with its radius as both lengths",
        )
