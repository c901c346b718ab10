"""Moisture of a build-up: the internal surface, and condensation between its layers."""

from storeyrod.answer import Answer, assumptions_of, refuse_cautions
from storeyrod.moisture.assumed import method_rows
from storeyrod.moisture.cautions import findings_of, not_checked
from storeyrod.moisture.climate import periods_of
from storeyrod.moisture.course import blocks_of, year_of
from storeyrod.moisture.derivation import working_of
from storeyrod.moisture.humid_air import SaturationConstants, saturation_constants
from storeyrod.moisture.models import CondensationRequest, MonthlyClimate
from storeyrod.moisture.passed import passed_layers
from storeyrod.moisture.result_models import CondensationResult
from storeyrod.moisture.result_rows import result_of
from storeyrod.moisture.section import Section, section_through
from storeyrod.moisture.surface import surface_of
from storeyrod.moisture.working import MoistureWorking
from storeyrod.thermal.heat_layers import counted_layers, refuse_without_resistance
from storeyrod.thermal.resistance import HeatLayer
from storeyrod.thermal.surfaces import still_air
from storeyrod.thermal.surfaces import surface as surface_resistance
from storeyrod.trace import SILENT, Trace


def calculate(request: CondensationRequest, trace: Trace = SILENT) -> Answer[CondensationResult]:
    """Surface humidity and interstitial condensation of a build-up after ISO 13788.

    The section goes straight through the layers as far as the first well-ventilated air layer. Each month is taken as steady:
    temperatures by heat resistance, saturation pressures from them, vapour pressures as a string between the two airs that
    nowhere passes saturation; planes that hold moisture stay at saturation until they are dry.
    """
    known = saturation_constants(trace)
    heat, working = _worked(request, known, trace)
    answer = Answer(
        result_of(working, known, trace),
        findings_of(request, working),
        assumptions_of(request) + method_rows(request, heat, working.section),
        not_checked(request),
    )
    if request.options.strict:
        refuse_cautions(answer.findings)
    return answer


def moisture_working(request: CondensationRequest, trace: Trace = SILENT) -> MoistureWorking:
    """What the answer is written from: for pictures of pressures and temperatures across the section."""
    return _worked(request, saturation_constants(trace), trace)[1]


def _worked(
    request: CondensationRequest, known: SaturationConstants, trace: Trace
) -> tuple[tuple[HeatLayer, ...], MoistureWorking]:
    periods = periods_of(request.climate, "/climate", known, trace)
    heat, section = _section(request, trace)
    monthly = isinstance(request.climate, MonthlyClimate)
    course = year_of(section, periods) if monthly else blocks_of(section, periods)
    steps = working_of(section, periods, course, known, trace)
    mould = trace.given(request.climate.surface_internal_mould_m2_k_per_w, "/climate/surface_internal_mould_m2_k_per_w")
    surface = surface_of(section, periods, mould, known, trace)
    return heat, MoistureWorking(section, periods, course, surface, monthly or len(periods) > 1, steps)


def _section(request: CondensationRequest, trace: Trace) -> tuple[tuple[HeatLayer, ...], Section]:
    build_up = request.build_up
    heat = counted_layers(build_up, "/build_up", trace)
    refuse_without_resistance(heat, len(request.build_up.layers), "/build_up")
    internal = surface_resistance(build_up, "/build_up", "internal", trace)
    sheltered = len(heat) < len(build_up.layers)
    external = (
        still_air(build_up.element, trace)
        if sheltered
        else surface_resistance(build_up, "/build_up", "external", trace)
    )
    layers = passed_layers(heat, request.section_parts, request.tabulated_factors, trace)
    films = (
        trace.given(request.surface_vapour.internal_sd_m, "/surface_vapour/internal_sd_m"),
        trace.given(request.surface_vapour.external_sd_m, "/surface_vapour/external_sd_m"),
    )
    return heat, section_through(layers, internal, external, films, trace)
