"""Vapour resistance of every layer of a section, as an equivalent layer of still air."""

from dataclasses import dataclass
from typing import Final, cast

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.findings import Refusal, refuse
from storeyrod.moisture.rules import MOISTURE_RULES
from storeyrod.reference.documents import Clause, Status
from storeyrod.thermal.materials import MATERIALS
from storeyrod.thermal.models import AirLayer, BridgedLayer, BridgedPart, Layer, MaterialLayer, ResistanceLayer
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE

_THICKNESS = Clause("ISO 13788", "3.1, equivalent air layer thickness", "memory")

_AIR_LAYER: Final = MOISTURE_RULES["air_layer_sd"]

THINNEST_SD_M: Final = 1e-6
"""House limit: less than this is no layer; what resists heat holds some air, at least its own thickness."""


@dataclass(frozen=True, slots=True)
class Holder:
    """A layer, or a part of one, whose vapour data counts: where it stands and its thickness, absent where none is given."""

    data: Layer | BridgedPart
    pointer: str
    thickness_mm: float | None
    thickness_pointer: str


@dataclass(frozen=True, slots=True)
class Vapour:
    """Equivalent air layer in m, none when vapour-tight, and what was assumed for it."""

    sd: float | None
    assumed: tuple[Assumption, ...] = ()


@formula(symbol="s_d", expression="mu * d", unit="m", inputs={"mu": "count", "d": "m"}, clause=_THICKNESS)
def equivalent_air_layer(*, mu: float, d: float) -> float:
    """Layer of still air that resists vapour as much as a layer of a material."""
    return mu * d


def holder_of(layer: Layer, pointer: str, part: int | None) -> Holder:
    """Where the vapour data of a layer stands: of a bridged one in its parts or in the layer as a whole, never in both."""
    if isinstance(layer, BridgedLayer):
        thickness, at = layer.thickness_mm, f"{pointer}/thickness_mm"
        if not _says_something(layer):
            return Holder(layer.parts[part or 0], f"{pointer}/parts/{part}", thickness, at)
        _refuse_layer_and_parts(layer, pointer)
        return Holder(layer, pointer, thickness, at)
    thickness_mm = None if isinstance(layer, ResistanceLayer) else layer.thickness_mm
    return Holder(layer, pointer, thickness_mm, f"{pointer}/thickness_mm")


def vapour_of(holder: Holder, *, resists_heat: bool, takes_dry: bool, trace: Trace) -> Vapour:
    """Vapour resistance of what a holder describes; refuses when it says nothing, or two things.

    ``takes_dry`` says which of a material's two tabulated factors counts.
    """
    _refuse_contradiction(holder)
    data = holder.data
    if not isinstance(data, AirLayer) and data.vapour_tight:
        return Vapour(None)
    if data.vapour_sd_m is not None:
        return Vapour(_given_sd(holder, data.vapour_sd_m, trace, resists_heat=resists_heat))
    if isinstance(data, AirLayer):
        row = stated(f"{holder.pointer}/vapour_sd_m", _AIR_LAYER.value, Assumed("m", _AIR_LAYER.clause))
        return Vapour(_AIR_LAYER.read(trace), (row,))
    factor = _factor(data)
    if factor is not None and holder.thickness_mm is not None:
        mu = trace.given(factor, f"{holder.pointer}/vapour_resistance_factor")
        return Vapour(trace.call(equivalent_air_layer, mu=mu, d=_thickness(holder, holder.thickness_mm, trace)))
    if isinstance(data, MaterialLayer):
        return _tabulated(data, holder, trace, takes_dry=takes_dry)
    raise _missing(holder)


def _tabulated(layer: MaterialLayer, holder: Holder, trace: Trace, *, takes_dry: bool) -> Vapour:
    row = MATERIALS[layer.material]
    clause = Clause("ISO 10456", "tables 3 and 4, vapour resistance", cast(Status, row.get("vapour_status", "memory")))
    if row.get("vapour_tight"):
        return Vapour(None, (stated(f"{holder.pointer}/vapour_tight", True, Assumed("", clause)),))
    factor = row.get("vapour_factor_dry" if takes_dry else "vapour_factor_wet")
    if not isinstance(factor, int | float):
        raise _missing(holder)
    note = "factor of the dry material" if takes_dry else "factor of the wet material"
    if "vapour" in row.get("note", ""):
        note = f"{note}; {row['note']}"
    assumed = stated(f"{holder.pointer}/vapour_resistance_factor", float(factor), Assumed("count", clause, note))
    mu = trace.lookup("mu", float(factor), "count", clause)
    return Vapour(trace.call(equivalent_air_layer, mu=mu, d=_thickness(holder, layer.thickness_mm, trace)), (assumed,))


def _thickness(holder: Holder, thickness_mm: float, trace: Trace) -> float:
    return trace.given(thickness_mm * METRES_PER_MILLIMETRE, holder.thickness_pointer)


def _given_sd(holder: Holder, sd: float, trace: Trace, *, resists_heat: bool) -> float:
    if resists_heat and sd < THINNEST_SD_M:
        raise refuse(
            "vapour-resistance-none",
            f"{holder.pointer}/vapour_sd_m",
            f"a layer that resists heat cannot let vapour through like no layer at all: give at least {THINNEST_SD_M:g} m; still air "
            "counts with its own thickness",
        )
    return trace.given(sd, f"{holder.pointer}/vapour_sd_m")


def _factor(data: Layer | BridgedPart) -> float | None:
    return None if isinstance(data, AirLayer | ResistanceLayer) else data.vapour_resistance_factor


def _says_something(data: BridgedLayer | BridgedPart) -> bool:
    return data.vapour_tight or data.vapour_sd_m is not None or data.vapour_resistance_factor is not None


def _refuse_layer_and_parts(layer: BridgedLayer, pointer: str) -> None:
    for at, part in enumerate(layer.parts):
        if _says_something(part):
            raise refuse(
                "vapour-data-contradictory",
                pointer,
                f"how vapour passes is given for the layer and for its part {at}; give it for the layer as a whole, or for its parts",
            )


def _refuse_contradiction(holder: Holder) -> None:
    data = holder.data
    tight = not isinstance(data, AirLayer) and data.vapour_tight
    if tight + (data.vapour_sd_m is not None) + (_factor(data) is not None) > 1:
        raise refuse(
            "vapour-data-contradictory",
            holder.pointer,
            "give one of vapour_resistance_factor, vapour_sd_m and vapour_tight, not two",
        )


def _missing(holder: Holder) -> Refusal:
    ways = "vapour_sd_m" if isinstance(holder.data, ResistanceLayer) else "vapour_resistance_factor, vapour_sd_m"
    return refuse(
        "vapour-data-missing",
        holder.pointer,
        f"how vapour passes here is not known; give {ways} or vapour_tight from the supplier's declaration",
    )
