"""Masses of single things and of packs of them: slips, corner slips, boards, mortar, adhesive."""

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Final

from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.slips.layout import SlipLayout
from storeyrod.trace import Trace, formula, origin_of
from storeyrod.units import LITRES_PER_CUBIC_METRE, MILLILITRES_PER_LITRE
from storeyrod.wall.grid import header_of
from storeyrod.wall.system import System
from storeyrod.weights.face_shares import metres
from storeyrod.weights.layers import Layers
from storeyrod.weights.models import Handling, PackMass, PieceMass, Role

_WEIGHT: Final = Clause("EN 1991-1-1", "self-weight from density and volume", "memory")


_COUNTED: Final[Mapping[Role, tuple[str, str]]] = MappingProxyType(
    {
        "slips": ("slip_count", "slip"),
        "header_slips": ("header_slip_count", "header slip"),
        "corner_slips": ("corner_slip_count", "corner slip"),
        "boards": ("board_count", "board"),
    }
)
"""Packs of counted things: member of system.packs, and what is counted."""

_CONTENTS: Final[Mapping[Role, str]] = MappingProxyType(
    {**{role: member for role, (member, _) in _COUNTED.items()}, "mortar": "mortar_kg", "adhesive": "adhesive_count"}
)
"""Member of system.packs that says what is in a pack."""


@formula(
    symbol="M",
    expression="l*h*t*rho",
    unit="kg",
    inputs={"l": "m", "h": "m", "t": "m", "rho": "kg_per_m3"},
    clause=_WEIGHT,
)
def mass_of_slip(*, l: float, h: float, t: float, rho: float) -> float:  # noqa: E741  symbol of the formula
    """Mass of a slip."""
    return l * h * t * rho


@formula(
    symbol="M",
    expression="(s + r - t)*h*t*rho",
    unit="kg",
    inputs={"s": "m", "r": "m", "h": "m", "t": "m", "rho": "kg_per_m3"},
    clause=_WEIGHT,
)
def mass_of_corner_slip(*, s: float, r: float, h: float, t: float, rho: float) -> float:
    """Mass of an L slip: its two legs, the corner counted once."""
    return (s + r - t) * h * t * rho


@formula(
    symbol="M",
    expression="l*h*m",
    unit="kg",
    inputs={"l": "m", "h": "m", "m": "kg_per_m2"},
    clause=_WEIGHT,
)
def mass_of_board(*, l: float, h: float, m: float) -> float:  # noqa: E741  symbol of the formula
    """Mass of a whole board by what it covers."""
    return l * h * m


@formula(
    symbol="M",
    expression="V*rho/litres",
    unit="kg",
    inputs={"V": "l", "rho": "kg_per_m3", "litres": "l_per_m3"},
    clause=_WEIGHT,
)
def mass_of_volume(*, V: float, rho: float, litres: float) -> float:  # noqa: N803  symbol of the formula
    """Mass of a volume in litres."""
    return V * rho / litres


@formula(symbol="M", expression="n*M_1", unit="kg", inputs={"n": "count", "M_1": "kg"}, clause=GEOMETRY)
def mass_of_many(*, n: float, M_1: float) -> float:  # noqa: N803  symbol of the formula
    """Mass of n equal things."""
    return n * M_1


def single_masses(system: System, layers: Layers, trace: Trace) -> list[PieceMass]:
    """A slip, a header slip, a corner slip and, where its mass is known, a whole board."""
    height = metres(system.slip.height_mm, "/system/slip/height_mm", trace)
    thickness = metres(system.slip.thickness_mm, "/system/slip/thickness_mm", trace)
    density = trace.given(system.slip.density_kg_per_m3, "/system/slip/density_kg_per_m3")
    length = metres(system.slip.length_mm, "/system/slip/length_mm", trace)
    longer, shorter = _legs(system, trace)
    header = header_of(system, trace)
    slip = trace.call(mass_of_slip, l=length, h=height, t=thickness, rho=density)
    corner = trace.call(mass_of_corner_slip, s=longer, r=shorter, h=height, t=thickness, rho=density)
    made: list[PieceMass] = [{"what": "slip", "mass_kg": slip}, {"what": "corner slip", "mass_kg": corner}]
    if header > 0.0:
        short = trace.call(mass_of_slip, l=metres(header, origin_of(header), trace), h=height, t=thickness, rho=density)
        made.insert(1, {"what": "header slip", "mass_kg": short})
    if layers.board is not None:
        board = trace.call(
            mass_of_board,
            l=metres(system.board.cover_length_mm, "/system/board/cover_length_mm", trace),
            h=metres(system.board.cover_height_mm, "/system/board/cover_height_mm", trace),
            m=layers.board,
        )
        made.append({"what": "board", "mass_kg": board})
    return made


def in_the_job(singles: Sequence[PieceMass], slips: SlipLayout) -> list[PieceMass]:
    """Those single things that a layout uses; it has boards always."""
    used = {
        "slip": slips.slips_consumed_count,
        "header slip": slips.headers.consumed,
        "corner slip": slips.corner_slips_count + slips.return_slips_count,
    }
    return [row for row in singles if used.get(row["what"], 1)]


def _legs(system: System, trace: Trace) -> tuple[float, float]:
    """Legs of a corner slip in m; those that are not given follow from the slip."""
    given = system.corner_slip
    if given.stretcher_mm is None:
        longer = metres(system.slip.length_mm, "/system/slip/length_mm", trace)
    else:
        longer = metres(given.stretcher_mm, "/system/corner_slip/stretcher_mm", trace)
    if given.return_mm is not None:
        return longer, metres(given.return_mm, "/system/corner_slip/return_mm", trace)
    header = header_of(system, trace)
    return longer, metres(header, origin_of(header), trace)


def pack_masses(system: System, singles: Sequence[PieceMass], handling: Handling, trace: Trace) -> list[PackMass]:
    """Packs of the system whose content and mass are known."""
    by_name = {row["what"]: row["mass_kg"] for row in singles}
    made: list[PackMass] = [{"role": role, "mass_kg": mass} for role, mass in _packs(system, by_name, trace)]
    if handling.lifting_limit_kg is not None:
        for row in made:
            row["over_limit"] = row["mass_kg"] > handling.lifting_limit_kg
    return made


def lacking_of_packs(system: System, layers: Layers) -> dict[Role, str]:
    """Members to give before a pack of a role can be weighed: its content, what is in it, or both; roles in want of none left out."""
    lacking: dict[Role, str] = {}
    for role, member in _CONTENTS.items():
        wanted = [] if getattr(system.packs, member) is not None else [f"system.packs.{member}"]
        if role == "boards" and layers.board is None:
            wanted.append("system.board.mass_kg_per_m2 (or density_kg_per_m3)")
        if role == "header_slips" and header_of(system) <= 0.0:
            wanted.append("a slip that is longer than a perp")
        if wanted:
            lacking[role] = " and ".join(wanted)
    return lacking


def _packs(system: System, singles: Mapping[str, float], trace: Trace) -> Iterator[tuple[Role, float]]:
    packs = system.packs
    for role, (member, what) in _COUNTED.items():
        number: int | None = getattr(packs, member)
        if number is not None and what in singles:
            count = trace.given(float(number), f"/system/packs/{member}")
            yield role, trace.call(mass_of_many, n=count, M_1=singles[what])
    if packs.mortar_kg is not None:
        yield "mortar", trace.given(packs.mortar_kg, "/system/packs/mortar_kg")
    if packs.adhesive_count is not None:
        count = trace.given(float(packs.adhesive_count), "/system/packs/adhesive_count")
        yield "adhesive", trace.call(mass_of_many, n=count, M_1=_tube(system, trace))


def _tube(system: System, trace: Trace) -> float:
    """Mass of the adhesive in one cartridge, foil pack or tub."""
    return trace.call(
        mass_of_volume,
        V=trace.given(system.adhesive.pack_ml / MILLILITRES_PER_LITRE, "/system/adhesive/pack_ml"),
        rho=trace.given(system.adhesive.density_kg_per_m3, "/system/adhesive/density_kg_per_m3"),
        litres=trace.lookup("litres", LITRES_PER_CUBIC_METRE, "l_per_m3", GEOMETRY),
    )
