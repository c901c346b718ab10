"""Mass of a square metre of cladding, layer by layer."""

from dataclasses import dataclass
from typing import Final

from storeyrod.findings import refuse
from storeyrod.quantities.beads import Bead, bead_of
from storeyrod.reference.documents import COMMON_PRACTICE, GEOMETRY, Clause
from storeyrod.trace import Trace, formula
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.system import System

_WEIGHT: Final = Clause("EN 1991-1-1", "self-weight from density and volume", "memory")
NEWTONS_PER_KILONEWTON: Final = 1000.0

_AGREE: Final = 0.01
"""House limit: a board's mass may differ by so much from density times thickness before the request contradicts itself."""


@formula(
    symbol="a_slip",
    expression="l*h/((l + p)*(h + b))",
    unit="fraction",
    inputs={"l": "m", "h": "m", "p": "m", "b": "m"},
    clause=GEOMETRY,
)
def slip_share(*, l: float, h: float, p: float, b: float) -> float:  # noqa: E741  symbol of the formula
    """Share of the face that slips of length l and height h cover between perps p and beds b."""
    return l * h / ((l + p) * (h + b))


@formula(
    symbol="a_joint",
    expression="one - a_slip",
    unit="fraction",
    inputs={"one": "fraction", "a_slip": "fraction"},
    clause=GEOMETRY,
)
def joint_share(*, one: float, a_slip: float) -> float:
    """Share of the face that joints take."""
    return one - a_slip


@formula(
    symbol="m",
    expression="a*t*rho",
    unit="kg_per_m2",
    inputs={"a": "fraction", "t": "m", "rho": "kg_per_m3"},
    clause=_WEIGHT,
)
def layer_mass(*, a: float, t: float, rho: float) -> float:
    """Mass of a layer that covers a share of the face."""
    return a * t * rho


@formula(
    symbol="m",
    expression="n*S*a_slip/h*rho",
    unit="kg_per_m2",
    inputs={"n": "count", "S": "m2", "a_slip": "fraction", "h": "m", "rho": "kg_per_m3"},
    clause=COMMON_PRACTICE,
)
def bead_mass(*, n: float, S: float, a_slip: float, h: float, rho: float) -> float:  # noqa: N803  symbols
    """Mass of n beads of section S behind every slip of height h."""
    return n * S * a_slip / h * rho


@dataclass(frozen=True, slots=True)
class Layers:
    """Masses in kg/m2; the board's is absent where it is not known. ``slip_share`` is the slips' share of the face."""

    slips: float
    pointing: float
    adhesive: float
    board: float | None
    bonding: float | None
    face: float
    cladding: float | None
    bead: Bead
    slip_share: float


@formula(
    symbol="g_k",
    expression="m*g",
    unit="kn_per_m2",
    inputs={"m": "kg_per_m2", "g": "kn_per_kg"},
    clause=_WEIGHT,
)
def weight(*, m: float, g: float) -> float:
    """Weight of a mass on a square metre."""
    return m * g


def weight_on_area(mass: float, gravity: float, trace: Trace) -> float:
    """Characteristic weight in kN/m2 of a mass in kg/m2."""
    return trace.call(weight, m=mass, g=gravity)


def layers_of(system: System, bonding: float | None, trace: Trace) -> Layers:
    """Layers of a system; raises ``board-mass-contradictory``."""
    slip, joint = system.slip, system.joint
    one = trace.lookup("one", 1.0, "fraction", GEOMETRY)
    share = trace.call(
        slip_share,
        l=metres(slip.length_mm, "/system/slip/length_mm", trace),
        h=metres(slip.height_mm, "/system/slip/height_mm", trace),
        p=metres(joint.perp_mm, "/system/joint/perp_mm", trace),
        b=metres(joint.bed_mm, "/system/joint/bed_mm", trace),
    )
    slips = trace.call(
        layer_mass,
        a=share,
        t=metres(slip.thickness_mm, "/system/slip/thickness_mm", trace),
        rho=trace.given(slip.density_kg_per_m3, "/system/slip/density_kg_per_m3"),
    )
    pointing = trace.call(
        layer_mass,
        a=trace.call(joint_share, one=one, a_slip=share),
        t=metres(joint.depth_mm, "/system/joint/depth_mm", trace),
        rho=mortar_density(system, trace),
    )
    bead = bead_of(system, trace)
    adhesive = _adhesive(system, bead, share, one, trace)
    board = _board(system, one, trace)
    behind = None if bonding is None else trace.given(bonding, "/bonding_kg_per_m2")
    face = trace.sum("m_face", "kg_per_m2", [slips, pointing, adhesive])
    more = [] if behind is None else [behind]
    cladding = (
        None if board is None else trace.sum("m_cladding", "kg_per_m2", [slips, pointing, adhesive, board, *more])
    )
    return Layers(slips, pointing, adhesive, board, behind, face, cladding, bead, share)


def metres(length_mm: float, pointer: str, trace: Trace) -> float:
    """A length of the request in m."""
    return trace.given(length_mm * METRES_PER_MILLIMETRE, pointer)


def mortar_density(system: System, trace: Trace) -> float:
    """Density of hardened mortar in joints; where only that of the dry mix is given, it stands for both."""
    hardened = system.mortar.hardened_density_kg_per_m3
    if hardened is None:
        return trace.given(system.mortar.density_kg_per_m3, "/system/mortar/density_kg_per_m3")
    return trace.given(hardened, "/system/mortar/hardened_density_kg_per_m3")


def _adhesive(system: System, bead: Bead, share: float, one: float, trace: Trace) -> float:
    density = trace.given(system.adhesive.density_kg_per_m3, "/system/adhesive/density_kg_per_m3")
    if bead.bed is not None:
        return trace.call(layer_mass, a=one, t=bead.bed, rho=density)
    return trace.call(bead_mass, n=bead.beads, S=bead.section, a_slip=share, h=bead.slip_height, rho=density)


def _board(system: System, one: float, trace: Trace) -> float | None:
    board, pointer = system.board, "/system/board"
    if board.density_kg_per_m3 is None:
        return None if board.mass_kg_per_m2 is None else trace.given(board.mass_kg_per_m2, f"{pointer}/mass_kg_per_m2")
    mass = trace.call(
        layer_mass,
        a=one,
        t=metres(board.thickness_mm, f"{pointer}/thickness_mm", trace),
        rho=trace.given(board.density_kg_per_m3, f"{pointer}/density_kg_per_m3"),
    )
    if board.mass_kg_per_m2 is not None and abs(board.mass_kg_per_m2 - mass) > _AGREE * mass:
        detail = (
            f"The board is given as {board.mass_kg_per_m2:g} kg/m2, and its density and thickness come to {float(mass):g} kg/m2; give "
            "one of them."
        )
        raise refuse("board-mass-contradictory", f"{pointer}/mass_kg_per_m2", detail)
    return mass
