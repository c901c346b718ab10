"""What is lifted and set down: packs, pallets on scaffolds, and published filter values beside them."""

from collections.abc import Mapping, Sequence
from typing import Final

from storeyrod.findings import FINDINGS, Finding, Where, finding, refuse
from storeyrod.geometry.ticks import ROUNDING_GUARD
from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.reference.tables import rows_of
from storeyrod.trace import Trace, formula
from storeyrod.weights.models import (
    Handling,
    LiftingFilter,
    PackMass,
    Pallet,
    PalletLoad,
    PieceMass,
    Role,
    ScaffoldLoad,
)
from storeyrod.weights.packs import mass_of_many

_CLASSES: Final = tuple(
    (row["load_class"], row["load_kn_per_m2"], Clause(row["document"], row["number"], row["status"]))
    for row in rows_of("scaffold_classes")
)


@formula(
    symbol="q",
    expression="M*g/(l*b)",
    unit="kn_per_m2",
    inputs={"M": "kg", "g": "kn_per_kg", "l": "m", "b": "m"},
    clause=GEOMETRY,
)
def pallet_load(*, M: float, g: float, l: float, b: float) -> float:  # noqa: N803, E741  symbols
    """Load of a mass on its footprint."""
    return M * g / (l * b)


def pallet_loads(
    handling: Handling, packs: Sequence[PackMass], lacking: Mapping[Role, str], gravity: float, trace: Trace
) -> tuple[list[PalletLoad], list[Finding]]:
    """Every pallet on its footprint; ``lacking`` says why a pack has no mass. Raises ``pallet-contradictory``."""
    by_role = {row["role"]: row["mass_kg"] for row in packs}
    loads, findings = [], []
    for index, pallet in enumerate(handling.pallets):
        pointer = f"/handling/pallets/{index}"
        pack = by_role.get(pallet.role, lacking.get(pallet.role, ""))
        load = _load(pallet, pointer, pack, gravity, trace)
        loads.append(load)
        findings += _overload(load, handling, pointer, trace)
    return loads, findings


def _load(pallet: Pallet, pointer: str, pack: float | str, gravity: float, trace: Trace) -> PalletLoad:
    mass = _mass(pallet, pointer, pack, trace)
    load = trace.call(
        pallet_load,
        M=mass,
        g=gravity,
        l=trace.given(pallet.length_m, f"{pointer}/length_m"),
        b=trace.given(pallet.width_m, f"{pointer}/width_m"),
    )
    made: PalletLoad = {"role": pallet.role, "mass_kg": mass, "load_kn_per_m2": load}
    least = next((number for number, limit, _ in _CLASSES if load <= limit), None)
    if least is not None:
        made["least_class"] = least
    return made


def _mass(pallet: Pallet, pointer: str, pack: float | str, trace: Trace) -> float:
    """Mass on a pallet; ``pack`` is the mass of one of its packs, or what has to be given before it is known."""
    if (pallet.mass_kg is None) == (pallet.packs_count is None):
        raise refuse("pallet-contradictory", pointer, "Give mass_kg or packs_count of a pallet, one of them.")
    if pallet.mass_kg is not None:
        return trace.given(pallet.mass_kg, f"{pointer}/mass_kg")
    if isinstance(pack, str):
        what = pallet.role.replace("_", " ")
        detail = f"The mass of a pack of {what} is not known; give {pack}, or mass_kg of the pallet."
        raise refuse("pallet-contradictory", f"{pointer}/packs_count", detail)
    number = trace.given(float(pallet.packs_count or 0), f"{pointer}/packs_count")
    return trace.call(mass_of_many, n=number, M_1=pack)


def _overload(load: PalletLoad, handling: Handling, pointer: str, trace: Trace) -> list[Finding]:
    """Over what the scaffold carries; where no scaffold is given, over the highest class."""
    limit, clause = _carried(handling, trace)
    value = load["load_kn_per_m2"]
    if trace.check("q", value, limit, "kn_per_m2", clause, holds=value <= limit * (1.0 + ROUNDING_GUARD)):
        return []
    where: Where = {"pointer": pointer}
    return [finding("scaffold-load", where, value=float(value), limit=float(limit), unit="kn_per_m2")]


def _carried(handling: Handling, trace: Trace) -> tuple[float, Clause]:
    """What the scaffold carries, and where that is said."""
    scaffold = handling.scaffold
    if isinstance(scaffold, ScaffoldLoad):
        return trace.given(scaffold.load_kn_per_m2, "/handling/scaffold/load_kn_per_m2"), GEOMETRY
    asked = _CLASSES[-1][0] if scaffold is None else scaffold.load_class
    carried, clause = next((carried, clause) for number, carried, clause in _CLASSES if number == asked)
    return trace.lookup("q", carried, "kn_per_m2", clause), clause


def lifting_filters(packs: Sequence[PackMass], singles: Sequence[PieceMass]) -> list[LiftingFilter]:
    """Published filter values, each with the packs and single things that are heavier."""
    things = _things(packs, singles)
    return [
        {
            "who": row["who"],
            "zone": row["zone"],
            "mass_kg": row["mass_kg"],
            "over": [what for what, mass in things.items() if mass > row["mass_kg"]],
            "source": str(Clause(row["document"], row["number"], row["status"])),
            "status": row["status"],
        }
        for row in rows_of("lifting_filters")
    ]


def lifting_findings(handling: Handling, packs: Sequence[PackMass], singles: Sequence[PieceMass]) -> list[Finding]:
    """Packs and single things over the caller's limit for one person, at the heaviest; the advice names them all."""
    limit = handling.lifting_limit_kg
    heavy = {} if limit is None else {what: mass for what, mass in _things(packs, singles).items() if mass > limit}
    if not heavy:
        return []
    advice = f"Over the limit: {', '.join(heavy)}. {FINDINGS['piece-heavy'].advice}"
    where: Where = {"pointer": "/handling/lifting_limit_kg"}
    return [finding("piece-heavy", where, value=float(max(heavy.values())), limit=limit, unit="kg", advice=advice)]


def _things(packs: Sequence[PackMass], singles: Sequence[PieceMass]) -> dict[str, float]:
    """What is lifted, by name."""
    things = {f"pack of {row['role'].replace('_', ' ')}": row["mass_kg"] for row in packs}
    return {**things, **{row["what"]: row["mass_kg"] for row in singles}}
