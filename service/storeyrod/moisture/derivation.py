"""The working of a course: every temperature, pressure, flux and amount again, by formulas that link to their inputs.

The course itself is worked out on plain numbers. What is recorded here repeats its arithmetic term by term, so that each
step has the value that the answer shows.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from storeyrod.moisture.climate import Period
from storeyrod.moisture.course import Course
from storeyrod.moisture.humid_air import SaturationConstants, saturation
from storeyrod.moisture.passage import Moment
from storeyrod.moisture.rules import MOISTURE_RULES
from storeyrod.moisture.section import Section
from storeyrod.moisture.vapour_string import Strung
from storeyrod.reference.documents import Clause
from storeyrod.trace import Recorder, Trace, formula, origin_of

_SUBLAYERS = Clause("ISO 13788", "6.4.3, sub-layers of insulation", "memory")
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


@formula(
    symbol="x_d",
    expression="k / n",
    unit="fraction",
    inputs={"k": "count", "n": "count"},
    clause=_SUBLAYERS,
)
def depth_within(*, k: float, n: float) -> float:
    """Share of a layer's thickness inside a plane between its sub-layers."""
    return k / n


@dataclass(slots=True)
class Working:
    """Ids of the steps behind rows of the answer, by period and plane, by plane, and by period; empty when nothing is recorded.

    ``planes`` gives what a plane holds, or its vapour pressure where it is dry.
    """

    planes: dict[tuple[int, int], str] = field(default_factory=dict)
    condensed: dict[tuple[int, int], str] = field(default_factory=dict)
    depths: dict[int, str] = field(default_factory=dict)
    flows: dict[int, tuple[str, str]] = field(default_factory=dict)
    totals: dict[int, tuple[str, str]] = field(default_factory=dict)
    remaining: str | None = None


def working_of(
    section: Section, periods: Sequence[Period], course: Course, known: SaturationConstants, trace: Trace
) -> Working:
    """Record the course: each period by itself, then what each plane holds, from the period from which it is summed up."""
    made = Working()
    if not isinstance(trace, Recorder):
        return made
    writer = _Writer(section, known, trace, _DELTA.read(trace), _DRY.read(trace), _NO_FLUX.read(trace), made)
    changes = {moment.at: writer.write(moment, periods[moment.at]) for moment in course.moments}
    writer.add_up(course, changes)
    return made


@dataclass(frozen=True, slots=True)
class _Writer:
    """Records periods and planes, and notes which step gave what."""

    section: Section
    known: SaturationConstants
    trace: Trace
    delta: float
    dry: float
    no_flux: float
    working: Working

    def write(self, moment: Moment, period: Period) -> dict[int, float]:
        """Steps of a period; gives what condenses at planes or could dry, linked."""
        most = [self._saturation(at, period) for at in range(len(self.section.planes))]
        changes: dict[int, float] = {}
        ends: list[list[float]] = []
        for string in moment.strings:
            pressures = self._pressures(string, period, most)
            for plane, value in pressures.items():
                self.working.planes[moment.at, plane] = origin_of(value)
            flows = self._flows(string, pressures)
            ends.append(flows or [self.no_flux])
            for at, plane in enumerate(string.knots):
                if plane in moment.changes:
                    arrives = flows[at - 1] if at > 0 else self.no_flux
                    leaves = flows[at] if at < len(flows) else self.no_flux
                    changes[plane] = self._change(arrives, leaves, period)
                    self.working.condensed[moment.at, plane] = origin_of(changes[plane])
        self.working.flows[moment.at] = origin_of(ends[0][0]), origin_of(ends[-1][-1])
        return changes

    def add_up(self, course: Course, changes: Mapping[int, Mapping[int, float]]) -> None:
        """Steps of what each plane holds at the end of each period, of all planes together, and of what is left."""
        count = len(course.moments)
        held: dict[int, dict[int, float]] = {at: {} for at in changes}
        for plane in sorted({plane for rows in changes.values() for plane in rows}):
            self._depth(plane)
            start, before = course.start_of(plane), self.dry
            for at in (*range(start, count), *range(start)):
                if plane in changes[at]:
                    before = held[at][plane] = self.trace.call(
                        accumulated, M_before=before, dM=changes[at][plane], M_least=self.dry
                    )
                    self.working.planes[at, plane] = origin_of(before)
        for at, rows in held.items():
            if rows:
                self.working.totals[at] = self._sum("dM", changes[at]), self._sum("M_a", rows)
        left = [held[at][plane] for at, plane in course.lasting()]
        if left:
            self.working.remaining = origin_of(self.trace.sum("M_left", "kg_per_m2", left, _ACCUMULATED))

    def _sum(self, symbol: str, rows: Mapping[int, float]) -> str:
        return origin_of(self.trace.sum(symbol, "kg_per_m2", list(rows.values()), _ACCUMULATED))

    def _depth(self, plane: int) -> None:
        """Step of where in its layer a plane lies, if it lies within one."""
        where = self.section.planes[plane]
        if where.within is not None:
            layer = next(layer for layer in self.section.layers if layer.index == where.inside)
            n = self.trace.lookup("n", float(layer.sublayers), "count", _SUBLAYERS)
            k = self.trace.lookup("k", float(round(where.within * layer.sublayers)), "count", _SUBLAYERS)
            self.working.depths[plane] = origin_of(self.trace.call(depth_within, k=k, n=n))

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

    def _change(self, arrives: float, leaves: float, period: Period) -> float:
        rate = self.trace.call(condensation_rate, g_in=arrives, g_out=leaves)
        return self.trace.call(condensed_amount, g_c=rate, t=period.seconds)
