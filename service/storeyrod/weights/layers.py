"""Mass of a square metre of cladding, layer by layer."""

from dataclasses import dataclass
from typing import Final

from storeyrod.findings import refuse
from storeyrod.quantities.beads import Bead, bead_of
from storeyrod.quantities.pointing import Pointing, pointing_of
from storeyrod.reference.documents import COMMON_PRACTICE, GEOMETRY, Clause
from storeyrod.trace import Trace, formula
from storeyrod.wall.system import System
from storeyrod.weights.face_shares import face_shares, metres

_WEIGHT: Final = Clause("EN 1991-1-1", "self-weight from density and volume", "memory")
NEWTONS_PER_KILONEWTON: Final = 1000.0

_AGREE: Final = 0.01
"""House limit: a board's mass may differ by so much from density times thickness before the request contradicts itself."""


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
    expression="(a*d - d_hollow)*rho",
    unit="kg_per_m2",
    inputs={"a": "fraction", "d": "m", "d_hollow": "m", "rho": "kg_per_m3"},
    clause=_WEIGHT,
)
def pointing_mass(*, a: float, d: float, d_hollow: float, rho: float) -> float:
    """Mass of mortar in joints of depth d that take a share of the face, less what tooling leaves hollow."""
    return (a * d - d_hollow) * rho


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


@formula(
    symbol="a",
    expression="c*a_slip",
    unit="fraction",
    inputs={"c": "fraction", "a_slip": "fraction"},
    clause=GEOMETRY,
)
def bonded_area_share(*, c: float, a_slip: float) -> float:
    """Bonded area on a square metre of wall: covered share of the slips' backs times the slips' share of the wall."""
    return c * a_slip


@dataclass(frozen=True, slots=True)
class Layers:
    """Masses in kg/m2; the board's is absent where it is not known, and ``known`` is that of all the others then.

    ``bonded`` is the bonded share of the face; ``joints`` and ``bead`` say how joints and the backs of slips are filled.
    """

    slips: float
    pointing: float
    adhesive: float
    board: float | None
    bonding: float | None
    face: float
    cladding: float | None
    known: float
    joints: Pointing
    bead: Bead
    bonded: float


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
    """Layers of a system; raises ``board-mass-contradictory``, and ``profile-too-deep`` for a hollow that does not fit its joint."""
    one = trace.lookup("one", 1.0, "fraction", GEOMETRY)
    joints, bead = pointing_of(system, trace), bead_of(system, trace)
    shares = face_shares(system, joints, trace)
    slips = trace.call(
        layer_mass,
        a=shares.slips,
        t=metres(system.slip.thickness_mm, "/system/slip/thickness_mm", trace),
        rho=trace.given(system.slip.density_kg_per_m3, "/system/slip/density_kg_per_m3"),
    )
    density = mortar_density(system, trace)
    pointing = trace.call(pointing_mass, a=shares.joints, d=joints.depth, d_hollow=shares.hollow, rho=density)
    adhesive = _adhesive(system, bead, shares.slips, one, trace)
    board = _board(system, one, trace)
    behind = None if bonding is None else trace.given(bonding, "/bonding_kg_per_m2")
    face = trace.sum("m_face", "kg_per_m2", [slips, pointing, adhesive])
    parts = [mass for mass in (slips, pointing, adhesive, board, behind) if mass is not None]
    known = trace.sum("m_cladding" if board is not None else "m_known", "kg_per_m2", parts)
    cladding = known if board is not None else None
    bonded = _bonded(bead, shares.slips, trace)
    return Layers(slips, pointing, adhesive, board, behind, face, cladding, known, joints, bead, bonded)


def _bonded(bead: Bead, slips: float, trace: Trace) -> float:
    """Bonded share of the face: a bed over all holds slips at their backs alone, adhesive under perps and beds carries none."""
    covered = bead.share if bead.bed is None else trace.lookup("c", bead.share, "fraction", GEOMETRY)
    return trace.call(bonded_area_share, c=covered, a_slip=slips)


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
