"""What is lifted and set down: packs, pallets on scaffolds, and published filter values beside them."""

from collections.abc import Iterator, Sequence
from typing import Final

from storeyrod.findings import Finding, Where, finding, refuse
from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.reference.tables import rows_of
from storeyrod.trace import Trace, formula
from storeyrod.units import LITRES_PER_CUBIC_METRE, MILLILITRES_PER_LITRE
from storeyrod.wall.system import System
from storeyrod.weights.layers import NEWTONS_PER_KILONEWTON, Layers
from storeyrod.weights.masses import board_mass, corner_slip_mass, slip_mass
from storeyrod.weights.models import (
    Handling,
    LiftingFilter,
    PackMass,
    Pallet,
    PalletLoad,
    PieceMass,
    Role,
    ScaffoldClass,
)

_CLASSES: Final = tuple(
    (row["load_class"], row["load_kn_per_m2"], Clause(row["document"], row["number"], row["status"]))
    for row in rows_of("scaffold_classes")
)


@formula(
    symbol="q",
    expression="M*g/(l*b*kilo)",
    unit="kn_per_m2",
    inputs={"M": "kg", "g": "m_per_s2", "l": "m", "b": "m", "kilo": "count"},
    clause=GEOMETRY,
)
def pallet_load(*, M: float, g: float, l: float, b: float, kilo: float) -> float:  # noqa: N803, E741  symbols
    """Load of a mass on its footprint."""
    return M * g / (l * b * kilo)


def pack_masses(system: System, layers: Layers, handling: Handling) -> list[PackMass]:
    """Packs of the system whose content and mass are known."""
    masses = {role: mass for role, mass in _packs(system, layers) if mass is not None}
    made: list[PackMass] = [{"role": role, "mass_kg": mass} for role, mass in masses.items()]
    if handling.lifting_limit_kg is not None:
        for row in made:
            row["over_limit"] = row["mass_kg"] > handling.lifting_limit_kg
    return made


def _packs(system: System, layers: Layers) -> Iterator[tuple[Role, float | None]]:
    packs = system.packs
    yield "slips", _times(packs.slip_count, slip_mass(system))
    yield "corner_slips", _times(packs.corner_slip_count, corner_slip_mass(system))
    yield "boards", _times(packs.board_count, None if layers.board is None else board_mass(system, layers.board))
    yield "mortar", packs.mortar_kg
    litres = system.adhesive.pack_ml / MILLILITRES_PER_LITRE
    yield "adhesive", _times(packs.adhesive_count, litres / LITRES_PER_CUBIC_METRE * system.adhesive.density_kg_per_m3)


def _times(number: int | None, mass: float | None) -> float | None:
    return None if number is None or mass is None else number * mass


def pallet_loads(
    handling: Handling, packs: Sequence[PackMass], gravity: float, trace: Trace
) -> tuple[list[PalletLoad], list[Finding]]:
    """Every pallet on its footprint; raises ``pallet-contradictory``."""
    by_role = {row["role"]: row["mass_kg"] for row in packs}
    loads, findings = [], []
    for index, pallet in enumerate(handling.pallets):
        pointer = f"/handling/pallets/{index}"
        load = _load(pallet, pointer, by_role.get(pallet.role), gravity, trace)
        loads.append(load)
        findings += _overload(load, handling, pointer, trace)
    return loads, findings


def _load(pallet: Pallet, pointer: str, pack: float | None, gravity: float, trace: Trace) -> PalletLoad:
    mass = _mass(pallet, pointer, pack, trace)
    load = trace.call(
        pallet_load,
        M=mass,
        g=gravity,
        l=trace.given(pallet.length_m, f"{pointer}/length_m"),
        b=trace.given(pallet.width_m, f"{pointer}/width_m"),
        kilo=trace.lookup("kilo", NEWTONS_PER_KILONEWTON, "count", GEOMETRY),
    )
    made: PalletLoad = {"role": pallet.role, "mass_kg": mass, "load_kn_per_m2": load}
    least = next((number for number, limit, _ in _CLASSES if load <= limit), None)
    if least is not None:
        made["least_class"] = least
    return made


def _mass(pallet: Pallet, pointer: str, pack: float | None, trace: Trace) -> float:
    if (pallet.mass_kg is None) == (pallet.packs_count is None):
        raise refuse("pallet-contradictory", pointer, "Give mass_kg or packs_count of a pallet, one of them.")
    if pallet.mass_kg is not None:
        return trace.given(pallet.mass_kg, f"{pointer}/mass_kg")
    if pack is None:
        detail = f"The content of a pack of {pallet.role} is not known; give it in system.packs, or give mass_kg."
        raise refuse("pallet-contradictory", f"{pointer}/packs_count", detail)
    terms = [(f"packs of {pallet.role}", pack, "/system/packs")] * (pallet.packs_count or 0)
    return trace.measure("M", "kg", terms)


def _overload(load: PalletLoad, handling: Handling, pointer: str, trace: Trace) -> list[Finding]:
    """Over what the scaffold carries; where no scaffold is given, over the highest class."""
    scaffold = handling.scaffold
    if scaffold is None:
        limit, clause = _CLASSES[-1][1], _CLASSES[-1][2]
    elif isinstance(scaffold, ScaffoldClass):
        limit, clause = next((carried, clause) for number, carried, clause in _CLASSES if number == scaffold.load_class)
    else:
        limit, clause = scaffold.load_kn_per_m2, _CLASSES[-1][2]
    value = load["load_kn_per_m2"]
    if trace.check("q", value, limit, "kn_per_m2", clause, holds=value <= limit):
        return []
    where: Where = {"pointer": pointer}
    return [finding("scaffold-load", where, value=float(value), limit=limit, unit="kn_per_m2")]


def lifting_filters(packs: Sequence[PackMass], singles: Sequence[PieceMass]) -> list[LiftingFilter]:
    """Published filter values, each with the packs and single things that are heavier."""
    things = [(f"pack of {row['role'].replace('_', ' ')}", row["mass_kg"]) for row in packs]
    things += [(row["what"], row["mass_kg"]) for row in singles]
    return [
        {
            "who": row["who"],
            "zone": row["zone"],
            "mass_kg": row["mass_kg"],
            "over": [what for what, mass in things if mass > row["mass_kg"]],
            "source": str(Clause(row["document"], row["number"], row["status"])),
            "status": row["status"],
        }
        for row in rows_of("lifting_filters")
    ]


def lifting_findings(handling: Handling, packs: Sequence[PackMass], singles: Sequence[PieceMass]) -> list[Finding]:
    """Packs and single things over the caller's limit for one person, at the heaviest."""
    limit = handling.lifting_limit_kg
    if limit is None:
        return []
    heavy = [row["mass_kg"] for row in (*packs, *singles) if row["mass_kg"] > limit]
    if not heavy:
        return []
    return [finding("piece-heavy", {"pointer": "/handling/lifting_limit_kg"}, value=max(heavy), limit=limit, unit="kg")]
