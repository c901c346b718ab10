"""What is bought, in the order of the answer: what it is called, its share for loss, and its pack."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from storeyrod.quantities.models import OrderUnit, Role
from storeyrod.reference.documents import GEOMETRY
from storeyrod.trace import Trace, formula
from storeyrod.units import MILLILITRES_PER_LITRE
from storeyrod.wall.system import System


@dataclass(frozen=True, slots=True)
class RoleTerms:
    """How a role is bought: unit, noun for its needs, field of its allowance, field of its pack, and what a pack is called."""

    unit: OrderUnit
    noun: str
    allowance: str
    pack: str
    pack_unit: str


ROLES: Final[Mapping[Role, RoleTerms]] = MappingProxyType(
    {
        "board": RoleTerms("count", "boards", "board", "board_count", "pack"),
        "slip": RoleTerms("count", "slips", "slip", "slip_count", "box"),
        "header_slip": RoleTerms("count", "header slips", "slip", "header_slip_count", "box"),
        "corner_slip": RoleTerms("count", "corner slips", "corner_slip", "corner_slip_count", "box"),
        "fastener": RoleTerms("count", "fasteners", "fastener", "fastener_count", "box"),
        "adhesive": RoleTerms("l", "l", "adhesive", "adhesive_count", "box"),
        "mortar": RoleTerms("kg", "kg", "mortar", "mortar_kg", "bag"),
        "sealant": RoleTerms("l", "l", "sealant", "sealant_ml", "cartridge"),
        "backer_rod": RoleTerms("m", "m", "backer_rod", "backer_rod_m", "roll"),
        "base_trim": RoleTerms("count", "lengths of base trim", "base_trim", "base_trim_count", "pack"),
    }
)


SINGLE: Final = "single"
"""What the pack of a counted thing is called when the request gives no pack size."""


@dataclass(frozen=True, slots=True)
class Pack:
    """Contents of a pack in the unit of its line, and what it is called."""

    size: float
    name: str


@formula(symbol="q_pack", expression="n*V", unit="l", inputs={"n": "count", "V": "l"}, clause=GEOMETRY)
def box_contents(*, n: float, V: float) -> float:  # noqa: N803  symbol of the formula
    """Contents of a box of n cartridges of V litres."""
    return n * V


def share_of(role: Role, system: System, trace: Trace) -> float:
    """Share for breakage and loss of a role."""
    field = ROLES[role].allowance
    return trace.given(getattr(system.allowances, field), f"/system/allowances/{field}")


def pack_of(role: Role, system: System, trace: Trace) -> Pack | None:
    """Pack of a role, or none when a weight, volume or length has no pack size.

    What is counted is sold singly without one, and adhesive by the cartridge.
    """
    terms = ROLES[role]
    size: float | None = getattr(system.packs, terms.pack)
    pointer = f"/system/packs/{terms.pack}"
    if role == "adhesive":
        return _adhesive_pack(system, trace)
    if size is None:
        return Pack(trace.lookup("q_pack", 1.0, "count", GEOMETRY), SINGLE) if terms.unit == "count" else None
    if role == "sealant":
        return Pack(trace.given(size / MILLILITRES_PER_LITRE, pointer), terms.pack_unit)
    return Pack(trace.given(float(size), pointer), terms.pack_unit)


def _adhesive_pack(system: System, trace: Trace) -> Pack:
    cartridge = trace.given(system.adhesive.pack_ml / MILLILITRES_PER_LITRE, "/system/adhesive/pack_ml")
    count = system.packs.adhesive_count
    if count is None:
        return Pack(cartridge, "cartridge")
    contents = trace.call(box_contents, n=trace.given(float(count), "/system/packs/adhesive_count"), V=cartridge)
    return Pack(contents, "box")
