"""The working of a course: every temperature, pressure, flux and amount again, by formulas that link to their inputs.

The course itself is worked out on plain numbers. What is recorded here repeats its arithmetic term by term, so that each
step has the value that the answer shows.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from storeyrod.moisture.climate import Period
from storeyrod.moisture.course import Course, Moment
from storeyrod.moisture.humid_air import SaturationConstants, saturation
from storeyrod.moisture.rules import MOISTURE_RULES
from storeyrod.moisture.section import Section
from storeyrod.moisture.vapour_string import Strung
from storeyrod.reference.documents import Clause
from storeyrod.trace import Recorder, Trace, formula, origin_of

_TEMPERATURE = Clause("ISO 13788", "6.4.3, distribution of temperature", "memory")
_PRESSURE = Clause("ISO 13788", "6.4.4, distribution of vapour pressure", "memory")
_SURFACE = Clause("ISO 13788", "6.4.4, vapour pressure at most saturation", "memory")
_FLUX = Clause("ISO 13788", "6.2, density of vapour flow rate", "memory")
_RATE = Clause("ISO 13788", "6.4.5 and 6.4.6, rate of condensation and evaporation", "memory")
_ACCUMULATED = Clause("ISO 13788", "6.4.6, accumulated moisture", "memory")

_DELTA: Final = MOISTURE_RULES["vapour_permeability_of_air"]
_DRY: Final = MOISTURE_RULES["dry_plane"]
_NO_FLUX: Final = MOISTURE_RULES["tight_flux"]


@formula(
    symbol="theta",
    expression="theta_i - (theta_i - theta_e) * x",
    unit="deg_c",
    inputs={"theta_i": "deg_c", "theta_e": "deg_c", "x": "fraction"},
    clause=_TEMPERATURE,
)
def plane_temperature(*, theta_i: float, theta_e: float, x: float) -> float:
    """Temperature of a plane by the share of resistance inside it."""
    return theta_i - (theta_i - theta_e) * x


@formula(symbol="p", expression="Min(p_a, p_sat)", unit="pa", inputs={"p_a": "pa", "p_sat": "pa"}, clause=_SURFACE)
def end_pressure(*, p_a: float, p_sat: float) -> float:
    """Vapour pressure where the section meets the air: that of the air, at most saturation."""
    return min(p_a, p_sat)


@formula(
    symbol="p",
    expression="p_a + (p_b - p_a) * ((s - s_a) / (s_b - s_a))",
    unit="pa",
    inputs={"p_a": "pa", "p_b": "pa", "s": "m", "s_a": "m", "s_b": "m"},
    clause=_PRESSURE,
)
def pressure_between(*, p_a: float, p_b: float, s: float, s_a: float, s_b: float) -> float:
    """Vapour pressure of a plane between two others, by its depth in still air."""
    return p_a + (p_b - p_a) * ((s - s_a) / (s_b - s_a))


@formula(
    symbol="g",
    expression="delta_0 * (p_a - p_b) / (s_b - s_a)",
    unit="kg_per_m2_s",
    inputs={"delta_0": "kg_per_m_s_pa", "p_a": "pa", "p_b": "pa", "s_a": "m", "s_b": "m"},
    clause=_FLUX,
)
def vapour_flux(*, delta_0: float, p_a: float, p_b: float, s_a: float, s_b: float) -> float:
    """Vapour that flows outwards between two planes."""
    return delta_0 * (p_a - p_b) / (s_b - s_a)


@formula(
    symbol="g_c",
    expression="g_in - g_out",
    unit="kg_per_m2_s",
    inputs={"g_in": "kg_per_m2_s", "g_out": "kg_per_m2_s"},
    clause=_RATE,
)
def condensation_rate(*, g_in: float, g_out: float) -> float:
    """What stays at a plane of the vapour that comes to it; negative: evaporation."""
    return g_in - g_out


@formula(
    symbol="dM",
    expression="g_c * t",
    unit="kg_per_m2",
    inputs={"g_c": "kg_per_m2_s", "t": "s"},
    clause=_RATE,
)
def condensed_amount(*, g_c: float, t: float) -> float:
    """What condenses in a period, or could dry."""
    return g_c * t


@formula(
    symbol="M_a",
    expression="Max(M_before + dM, M_least)",
    unit="kg_per_m2",
    inputs={"M_before": "kg_per_m2", "dM": "kg_per_m2", "M_least": "kg_per_m2"},
    clause=_ACCUMULATED,
)
def accumulated(*, M_before: float, dM: float, M_least: float) -> float:  # noqa: N803  symbols of the standard
    """Moisture at a plane at the end of a period."""
    return max(M_before + dM, M_least)


@dataclass(frozen=True, slots=True)
class Working:
    """Ids of the steps behind rows of the answer; empty when nothing is recorded."""

    planes: dict[tuple[int, int], str] = field(default_factory=dict)
    balances: dict[int, str] = field(default_factory=dict)


def working_of(
    section: Section, periods: Sequence[Period], course: Course, known: SaturationConstants, trace: Trace
) -> Working:
    """Record the course; ids by period and plane, and by period for all planes together."""
    made = Working()
    if not isinstance(trace, Recorder):
        return made
    writer = _Writer(section, known, trace, _DELTA.read(trace), _DRY.read(trace), _NO_FLUX.read(trace))
    held: dict[int, float] = {}
    for moment in course.moments:
        held = writer.write(moment, periods[moment.at], held, made)
    return made


@dataclass(frozen=True, slots=True)
class _Writer:
    """Records one period after the other."""

    section: Section
    known: SaturationConstants
    trace: Trace
    delta: float
    dry: float
    no_flux: float

    def write(self, moment: Moment, period: Period, held: Mapping[int, float], working: Working) -> dict[int, float]:
        """Steps of a period; gives the moisture that planes hold at its end, linked."""
        most = [self._saturation(at, period) for at in range(len(self.section.planes))]
        kept: dict[int, float] = {}
        for string in moment.strings:
            pressures = self._pressures(string, period, most)
            for plane, value in pressures.items():
                working.planes[moment.at, plane] = origin_of(value)
            flows = self._flows(string, pressures)
            for at, plane in enumerate(string.knots):
                if plane in moment.changes:
                    arrives = flows[at - 1] if at > 0 else self.no_flux
                    leaves = flows[at] if at < len(flows) else self.no_flux
                    kept[plane] = self._amount((arrives, leaves), held.get(plane, self.dry), period)
                    working.planes[moment.at, plane] = origin_of(kept[plane])
        if kept:
            total = self.trace.sum("M_a", "kg_per_m2", list(kept.values()), _ACCUMULATED)
            working.balances[moment.at] = origin_of(total)
        return kept

    def _saturation(self, at: int, period: Period) -> float:
        plane = self.section.planes[at]
        if plane.film:
            return (period.indoor if plane.inside is None else period.outdoor).saturation
        theta = self.trace.call(
            plane_temperature,
            theta_i=period.indoor.temperature,
            theta_e=period.outdoor.temperature,
            x=plane.share,
        )
        return saturation(theta, self.known, self.trace)

    def _pressures(self, string: Strung, period: Period, most: Sequence[float]) -> dict[int, float]:
        """Linked vapour pressure at every plane of a string."""
        compartment, depths = string.compartment, self.section.depths
        knots = {
            knot: self._at_knot(string, at, period, most[compartment.first : compartment.last + 1])
            for at, knot in enumerate(string.knots)
        }
        made = dict(knots)
        for start, end in zip(string.knots, string.knots[1:], strict=False):
            for plane in range(start + 1, end):
                ends = {"p_a": knots[start], "p_b": knots[end], "s_a": depths[start], "s_b": depths[end]}
                made[plane] = self.trace.call(pressure_between, s=depths[plane], **ends)
        return dict(sorted(made.items()))

    def _at_knot(self, string: Strung, at: int, period: Period, most: Sequence[float]) -> float:
        """Pressure of a knot: of the air at an open end, else the saturation that it has."""
        compartment, knot = string.compartment, string.knots[at]
        if knot == compartment.first and compartment.open_inside:
            return self.trace.call(end_pressure, p_a=period.indoor.pressure, p_sat=most[0])
        if knot == compartment.last and compartment.open_outside:
            return self.trace.call(end_pressure, p_a=period.outdoor.pressure, p_sat=most[-1])
        own = most[knot - compartment.first]
        if own == string.pressures[at]:
            return own
        # A string runs level to a vapour-tight end: its pressure there is that of the air or the plane that holds it.
        holders = (*most, period.indoor.pressure, period.outdoor.pressure)
        return next(value for value in holders if value == string.pressures[at])

    def _flows(self, string: Strung, pressures: Mapping[int, float]) -> list[float]:
        depths = self.section.depths
        return [
            self.trace.call(
                vapour_flux,
                delta_0=self.delta,
                p_a=pressures[start],
                p_b=pressures[end],
                s_a=depths[start],
                s_b=depths[end],
            )
            for start, end in zip(string.knots, string.knots[1:], strict=False)
        ]

    def _amount(self, flows: tuple[float, float], before: float, period: Period) -> float:
        rate = self.trace.call(condensation_rate, g_in=flows[0], g_out=flows[1])
        change = self.trace.call(condensed_amount, g_c=rate, t=period.seconds)
        return self.trace.call(accumulated, M_before=before, dM=change, M_least=self.dry)
