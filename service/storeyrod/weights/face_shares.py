"""How slips and joints share a square metre of face, by the bond: areas, and what tooling leaves hollow."""

from dataclasses import dataclass
from typing import Final

from storeyrod.quantities.pointing import Pointing
from storeyrod.reference.documents import COMMON_PRACTICE, GEOMETRY
from storeyrod.setting_out.bond import BONDS
from storeyrod.trace import Trace, formula, origin_of
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.grid import header_of
from storeyrod.wall.system import System

_WHOLE: Final = 1.0


@formula(
    symbol="a_slip",
    expression="(n_s*l + n_h*l_h)*h/((l + p)*(h + b))",
    unit="fraction",
    inputs={"n_s": "count", "l": "m", "n_h": "count", "l_h": "m", "h": "m", "p": "m", "b": "m"},
    clause=GEOMETRY,
)
def slip_share(*, n_s: float, l: float, n_h: float, l_h: float, h: float, p: float, b: float) -> float:  # noqa: E741  symbol
    """Share of the face that slips cover: in a module, l and a perp p long, stand n_s stretchers and n_h headers over a bed b."""
    return (n_s * l + n_h * l_h) * h / ((l + p) * (h + b))


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
    symbol="d_hollow",
    expression="(S_bed*(l + p) + S_perp*n*h)/((l + p)*(h + b))",
    unit="m",
    inputs={"S_bed": "m2", "S_perp": "m2", "n": "count", "l": "m", "h": "m", "p": "m", "b": "m"},
    clause=GEOMETRY,
)
def hollow_depth(*, S_bed: float, S_perp: float, n: float, l: float, h: float, p: float, b: float) -> float:  # noqa: E741, N803  symbols
    """What tooling leaves hollow, spread over the face: in a module lie a bed and n perps, one behind each unit."""
    return (S_bed * (l + p) + S_perp * n * h) / ((l + p) * (h + b))


@dataclass(frozen=True, slots=True)
class FaceShares:
    """Shares of a face without openings that slips and joints take, and the depth in m that tooling takes off all of it."""

    slips: float
    joints: float
    hollow: float


def face_shares(system: System, pointing: Pointing, trace: Trace) -> FaceShares:
    """Shares on average over the courses of the bond, with units and joints as they are given."""
    bond = BONDS[system.bond]
    stretchers, headers = bond.per_module("stretcher"), bond.per_module("header")
    header = header_of(system, trace)
    length = metres(system.slip.length_mm, "/system/slip/length_mm", trace)
    height = metres(system.slip.height_mm, "/system/slip/height_mm", trace)
    perp = metres(system.joint.perp_mm, "/system/joint/perp_mm", trace)
    bed = metres(system.joint.bed_mm, "/system/joint/bed_mm", trace)
    slips = trace.call(
        slip_share,
        n_s=trace.lookup("n_s", float(stretchers), "count", COMMON_PRACTICE),
        l=length,
        n_h=trace.lookup("n_h", float(headers), "count", COMMON_PRACTICE),
        l_h=metres(header, origin_of(header), trace),
        h=height,
        p=perp,
        b=bed,
    )
    hollow = trace.call(
        hollow_depth,
        S_bed=pointing.bed_hollow,
        S_perp=pointing.perp_hollow,
        n=trace.lookup("n", float(stretchers + headers), "count", COMMON_PRACTICE),
        l=length,
        h=height,
        p=perp,
        b=bed,
    )
    one = trace.lookup("one", _WHOLE, "fraction", GEOMETRY)
    return FaceShares(slips, trace.call(joint_share, one=one, a_slip=slips), hollow)


def metres(length_mm: float, pointer: str, trace: Trace) -> float:
    """A length of the request in m."""
    return trace.given(length_mm * METRES_PER_MILLIMETRE, pointer)
