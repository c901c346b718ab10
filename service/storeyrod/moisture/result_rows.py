"""The answer of a moisture check, row by row from its working."""

from collections.abc import Iterator
from math import fsum

from storeyrod.moisture.climate import Air, Period
from storeyrod.moisture.humid_air import SaturationConstants, dew_point
from storeyrod.moisture.result_models import (
    AirResult,
    ClimatePeriod,
    Condensation,
    CondensationResult,
    InPeriod,
    Interface,
    InterfacePeriod,
    SectionLayer,
    SurfacePeriod,
    VapourBalance,
)
from storeyrod.moisture.surface import SurfaceState
from storeyrod.moisture.vapour_string import end_flows
from storeyrod.moisture.working import MoistureWorking
from storeyrod.trace import Trace


def result_of(working: MoistureWorking, known: SaturationConstants, trace: Trace) -> CondensationResult:
    """The whole result."""
    section = working.section
    made: CondensationResult = {
        "condensation": _condensation(working),
        "r_total_m2_k_per_w": float(section.total),
        "layers": list(_layers(working)),
        "climate": [_climate(period, known, trace) for period in working.periods],
    }
    if section.sd_total is not None:
        made["vapour_sd_total_m"] = float(section.sd_total)
    return made


def _condensation(working: MoistureWorking) -> Condensation:
    course, surface = working.course, working.surface
    made: Condensation = {
        "surface_verdict": working.surface_verdict,
        "greatest_accumulated_kg_per_m2": course.greatest,
        "remaining_kg_per_m2": course.remaining,
        "interfaces": list(_interfaces(working)),
        "balances": [_balance(working, at) for at in range(len(working.periods))],
        "surface_factor": float(surface.factor),
        "surface_months": [
            _surface(period, state) for period, state in zip(working.periods, surface.states, strict=True)
        ],
    }
    if course.verdict == "none" or working.dries:
        made["verdict"] = course.verdict
    if surface.critical is not None and surface.required is not None:
        made["surface_factor_required"] = float(surface.required)
    if working.steps.remaining is not None:
        made["remaining_working"] = working.steps.remaining
    _name_months(made, working)
    return made


def _name_months(made: Condensation, working: MoistureWorking) -> None:
    """Months by their number: from which the wettest plane is summed up, when there is most, when the surface asks for most."""
    if not working.monthly:
        return
    course, critical = working.course, working.surface.critical
    if course.condenses:
        fullest = max(course.moments, key=lambda moment: fsum(moment.held.values()))
        wettest = max(working.greatest, key=working.greatest.__getitem__)
        made["start_month"] = course.start_of(wettest) + 1
        made["greatest_month"] = fullest.at + 1
    if critical is not None:
        made["critical_month"] = critical + 1


def _layers(working: MoistureWorking) -> Iterator[SectionLayer]:
    for layer in working.section.layers:
        row: SectionLayer = {
            "index": layer.index,
            "name": layer.name,
            "resistance_m2_k_per_w": float(layer.resistance),
            "vapour_tight": layer.sd is None,
            "sublayers_count": layer.sublayers,
        }
        if layer.part is not None:
            row["part"] = layer.part
        if layer.sd is not None:
            row["vapour_sd_m"] = float(layer.sd)
        yield row


def _climate(period: Period, known: SaturationConstants, trace: Trace) -> ClimatePeriod:
    row: ClimatePeriod = {
        "days": float(period.days),
        "outdoor": _air(period.outdoor, known, trace),
        "indoor": _air(period.indoor, known, trace),
    }
    _label(row, period)
    return row


def _air(air: Air, known: SaturationConstants, trace: Trace) -> AirResult:
    row: AirResult = {
        "temperature_deg_c": float(air.temperature),
        "humidity_fraction": float(air.humidity),
        "vapour_pressure_pa": float(air.pressure),
    }
    if air.pressure > 0.0:
        row["dew_point_deg_c"] = float(dew_point(air.pressure, known, trace))
    return row


def _interfaces(working: MoistureWorking) -> Iterator[Interface]:
    for at, plane in enumerate(working.section.planes):
        if plane.film or (plane.within is not None and at not in working.greatest):
            continue
        row: Interface = {
            "greatest_accumulated_kg_per_m2": working.greatest.get(at, 0.0),
            "months": [_interface_period(working, at, month) for month in range(len(working.periods))],
        }
        if plane.inside is not None:
            row["inside_layer"] = plane.inside
        if plane.outside is not None:
            row["outside_layer"] = plane.outside
        if plane.within is not None:
            row["depth_fraction"] = plane.within
        if at in working.steps.depths:
            row["depth_working"] = working.steps.depths[at]
        if working.monthly and at in working.greatest:
            row["start_month"] = working.course.start_of(at) + 1
        yield row


def _interface_period(working: MoistureWorking, plane: int, month: int) -> InterfacePeriod:
    profile, moment = working.course.profiles[month], working.moments[month]
    row: InterfacePeriod = {
        "temperature_deg_c": profile.temperatures[plane],
        "saturation_pressure_pa": profile.saturations[plane],
        "condensed_kg_per_m2": moment.changes.get(plane, 0.0),
        "accumulated_kg_per_m2": moment.held.get(plane, 0.0),
    }
    pressure = working.pressures[month][plane]
    if pressure is not None:
        row["vapour_pressure_pa"] = pressure
    if (month, plane) in working.steps.planes:
        row["working"] = working.steps.planes[month, plane]
    if (month, plane) in working.steps.condensed:
        row["condensed_working"] = working.steps.condensed[month, plane]
    _label(row, working.periods[month])
    return row


def _balance(working: MoistureWorking, month: int) -> VapourBalance:
    moment = working.moments[month]
    flows = end_flows(moment.strings, working.section.depths)
    row: VapourBalance = {
        "flux_in_kg_per_m2_s": flows[0],
        "flux_out_kg_per_m2_s": flows[1],
        "condensed_kg_per_m2": fsum(moment.changes.values()),
        "accumulated_kg_per_m2": fsum(moment.held.values()),
    }
    if month in working.steps.totals:
        row["condensed_working"], row["working"] = working.steps.totals[month]
    if month in working.steps.flows:
        row["flux_in_working"], row["flux_out_working"] = working.steps.flows[month]
    _label(row, working.periods[month])
    return row


def _surface(period: Period, state: SurfaceState) -> SurfacePeriod:
    row: SurfacePeriod = {
        "surface_temperature_deg_c": float(state.temperature),
        "surface_humidity_fraction": float(state.humidity),
    }
    if state.required is not None and state.required_temperature is not None:
        row["surface_factor_required"] = float(state.required)
        row["surface_temperature_required_deg_c"] = float(state.required_temperature)
    _label(row, period)
    return row


def _label(row: InPeriod, period: Period) -> None:
    if isinstance(period.label, int):
        row["month"] = period.label
    else:
        row["block"] = period.label
