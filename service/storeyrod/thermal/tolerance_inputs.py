"""Tolerances of a request as inputs that move: from one end, through their value, to the other end."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final

from storeyrod.findings import Refusal, refuse
from storeyrod.thermal.air_layers import THICKEST_MM as THICKEST_AIR_MM
from storeyrod.thermal.evaluation import BUILD_UP, Evaluation
from storeyrod.thermal.models import BridgedLayer
from storeyrod.thermal.parts_in_proportion import with_share
from storeyrod.thermal.question_models import LayerTolerance, Tolerances
from storeyrod.thermal.tapered import EVERY_PART, thickness_unused
from storeyrod.units import METRES_PER_MILLIMETRE

_HERE: Final = "/tolerances"
_SURFACES: Final = ("surface_internal_m2_k_per_w", "surface_external_m2_k_per_w")
_FASTENER_HEAT: Final = ("chi_w_per_k", "conductivity_w_per_m_k")


@dataclass(frozen=True, slots=True)
class Movement:
    """One input inside its tolerance: its pointer, and values by pointer, in SI, at a place from -1 to 1 or at many."""

    pointer: str
    values: Callable[[Any], dict[str, Any]]


def movements(evaluation: Evaluation, tolerances: Tolerances) -> list[Movement]:
    """Every input with a tolerance; refuses one that nothing is calculated from, or that reaches past what can be."""
    inputs = evaluation.inputs()
    made: list[Movement] = []
    seen: set[int] = set()
    for at, row in enumerate(tolerances.layers):
        if row.layer in seen:
            raise _wrong(f"{_HERE}/layers/{at}/layer", f"layer {row.layer} has two rows; merge them")
        seen.add(row.layer)
        made += _of_layer(evaluation, row, inputs, f"{_HERE}/layers/{at}")
    build_up = [f"{BUILD_UP}/{name}" for name in _SURFACES]
    made += _shares(tolerances.surfaces_fraction, build_up, inputs, f"{_HERE}/surfaces_fraction")
    fasteners = "/corrections/fasteners"
    number, heat = tolerances.fastener_count_fraction, tolerances.fastener_heat_fraction
    made += _shares(number, [f"{fasteners}/count_per_m2"], inputs, f"{_HERE}/fastener_count_fraction")
    heats = [f"{fasteners}/{name}" for name in _FASTENER_HEAT]
    made += _shares(heat, heats, inputs, f"{_HERE}/fastener_heat_fraction")
    return made


def _of_layer(
    evaluation: Evaluation, row: LayerTolerance, inputs: Mapping[str, float], pointer: str
) -> Iterator[Movement]:
    layer = f"{BUILD_UP}/layers/{row.layer}"
    parts = [
        name.rpartition("/")[0] for name in inputs if name.startswith(f"{layer}/parts/") and name.endswith("/fraction")
    ]
    if row.thickness_mm is not None:
        tapered = evaluation.request.tapered
        if tapered is not None and tapered.layer == row.layer and thickness_unused(tapered):
            raise _wrong(f"{pointer}/thickness_mm", f"{EVERY_PART}, which no tolerance moves; leave it out")
        yield _thickness(row.thickness_mm, f"{layer}/thickness_mm", inputs, f"{pointer}/thickness_mm")
    names = ("conductivity_w_per_m_k", "conductivity_declared_w_per_m_k")
    members = [f"{place}/{name}" for place in (layer, *parts) for name in names]
    yield from _shares(row.conductivity_fraction, members, inputs, f"{pointer}/conductivity_fraction")
    members = [f"{place}/resistance_m2_k_per_w" for place in (layer, *parts)]
    yield from _shares(row.resistance_fraction, members, inputs, f"{pointer}/resistance_fraction")
    if row.part_fraction is not None:
        yield _part(evaluation, row, inputs, f"{pointer}/part_fraction")


def _shares(share: float | None, members: list[str], inputs: Mapping[str, float], pointer: str) -> Iterator[Movement]:
    """Inputs that move by a share of their value, each by itself."""
    if share is None:
        return
    found = [member for member in members if member in inputs]
    if not found:
        raise _wrong(pointer, "the U-value takes no such value from the request; leave the tolerance out")
    for member in found:
        yield Movement(member, _around(member, inputs[member], share * inputs[member]))


def _thickness(half_mm: float, member: str, inputs: Mapping[str, float], pointer: str) -> Movement:
    if member not in inputs:
        raise _wrong(pointer, "the U-value takes no thickness of this layer from the request; leave the tolerance out")
    value, half = inputs[member], half_mm * METRES_PER_MILLIMETRE
    if half >= value:
        raise _wrong(
            pointer,
            f"{half_mm:g} mm would leave nothing of the layer; give half the tolerance, less than its thickness",
        )
    is_air = f"{member.rpartition('/')[0]}/emissivity_inner" in inputs
    if is_air and value + half > THICKEST_AIR_MM * METRES_PER_MILLIMETRE:
        raise _wrong(pointer, f"the air layer could be thicker than {THICKEST_AIR_MM:g} mm; give a smaller tolerance")
    return Movement(member, _around(member, value, half))


def _around(member: str, value: float, half: float) -> Callable[[Any], dict[str, Any]]:
    return lambda place: {member: value + half * place}


def _part(evaluation: Evaluation, row: LayerTolerance, inputs: Mapping[str, float], pointer: str) -> Movement:
    layers = evaluation.request.build_up.layers
    layer = layers[row.layer] if row.layer < len(layers) else None
    member = f"{BUILD_UP}/layers/{row.layer}/parts/0/fraction"
    if not isinstance(layer, BridgedLayer) or layer.in_line_with is not None or member not in inputs:
        raise _wrong(
            pointer,
            "this is no bridged layer that counts by itself; name the innermost of layers in line, or leave it out",
        )
    share, half = layer.parts[0].fraction, row.part_fraction or 0.0
    if half >= min(share, 1.0 - share):
        raise _wrong(
            pointer, f"the first part is {share:g} of the area, and {half:g} would leave nothing of it or of the others"
        )
    return Movement(member, lambda place: with_share(layers, row.layer, 0, share + half * place, f"{BUILD_UP}/layers"))


def _wrong(pointer: str, why: str) -> Refusal:
    return refuse("tolerance-wrong", pointer, why)
