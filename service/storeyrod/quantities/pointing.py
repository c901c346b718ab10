"""Pointing mortar: joints by area and depth, less what the tooled profile leaves hollow."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from storeyrod.findings import refuse
from storeyrod.geometry.arc import arc_radius, segment_area
from storeyrod.geometry.ticks import millimetres, square_metres
from storeyrod.quantities.models import PointingMortar
from storeyrod.reference.documents import GEOMETRY
from storeyrod.slips.face_slips import FaceSlips
from storeyrod.trace import Trace, formula, origin_of
from storeyrod.units import LITRES_PER_CUBIC_METRE, METRES_PER_MILLIMETRE, SQUARE_METRES_PER_SQUARE_MILLIMETRE
from storeyrod.wall.system import ConcaveProfile, System


@formula(
    symbol="V_profile",
    expression="(S_bed*L_bed + S_perp*L_perp)*litres",
    unit="l",
    inputs={"S_bed": "m2", "L_bed": "m", "S_perp": "m2", "L_perp": "m", "litres": "l_per_m3"},
    clause=GEOMETRY,
)
def profile_volume(*, S_bed: float, L_bed: float, S_perp: float, L_perp: float, litres: float) -> float:  # noqa: N803
    """What tooling takes off flush joints: section of the hollow by length, for beds and perps."""
    return (S_bed * L_bed + S_perp * L_perp) * litres


@formula(
    symbol="V_mortar",
    expression="Max(V_least, A*d*litres - V_profile)",
    unit="l",
    inputs={"A": "m2", "d": "m", "litres": "l_per_m3", "V_profile": "l", "V_least": "l"},
    clause=GEOMETRY,
)
def joint_volume(*, A: float, d: float, litres: float, V_profile: float, V_least: float) -> float:  # noqa: N803  symbols
    """Mortar in joints of area A and depth d, less the hollow; slivers of beds at an edge may hold less than their hollow."""
    return max(V_least, A * d * litres - V_profile)


@formula(
    symbol="m",
    expression="V/litres*rho",
    unit="kg",
    inputs={"V": "l", "litres": "l_per_m3", "rho": "kg_per_m3"},
    clause=GEOMETRY,
)
def mortar_mass(*, V: float, litres: float, rho: float) -> float:  # noqa: N803  symbol of the formula
    """Dry mortar for a volume of filled joint."""
    return V / litres * rho


@formula(symbol="v", expression="V/A_net", unit="l_per_m2", inputs={"V": "l", "A_net": "m2"}, clause=GEOMETRY)
def volume_per_area(*, V: float, A_net: float) -> float:  # noqa: N803  symbols of the formula
    """Mortar for each square metre of net wall that slips cover."""
    return V / A_net


@dataclass(frozen=True, slots=True)
class Pointing:
    """How joints are filled: depth in m, hollows of bed and perp in m2, dry density, litres in a cubic metre."""

    depth: float
    bed_hollow: float
    perp_hollow: float
    density: float
    litres: float


def pointing_of(system: System, trace: Trace) -> Pointing:
    """Depth and profile of a system; raises ``profile-too-deep`` when the tooled hollow does not fit its joint."""
    joint = system.joint
    return Pointing(
        trace.given(joint.depth_mm * METRES_PER_MILLIMETRE, "/system/joint/depth_mm"),
        _hollow(system, "bed_mm", trace),
        _hollow(system, "perp_mm", trace),
        trace.given(system.mortar.density_kg_per_m3, "/system/mortar/density_kg_per_m3"),
        trace.lookup("litres", LITRES_PER_CUBIC_METRE, "l_per_m3", GEOMETRY),
    )


def _hollow(system: System, field: str, trace: Trace) -> float:
    """Section of the hollow in a joint: the circular segment over the joint's width."""
    profile, width = system.joint.profile, getattr(system.joint, field)
    if not isinstance(profile, ConcaveProfile) or width == 0.0:
        return trace.lookup("S", 0.0, "m2", GEOMETRY)
    limit = min(width / 2.0, system.joint.depth_mm)
    if profile.sagitta_mm > limit:
        over = f"sagitta_mm {profile.sagitta_mm:g} is over {limit:g} mm: half of {field} {width:g}, or the depth of pointing"
        detail = f"{over}; give at most that, or profile flush."
        raise refuse("profile-too-deep", "/system/joint/profile/sagitta_mm", detail)
    sagitta = trace.given(profile.sagitta_mm, "/system/joint/profile/sagitta_mm")
    radius = trace.call(arc_radius, w=trace.given(width, f"/system/joint/{field}"), h=sagitta)
    area = trace.call(segment_area, R=radius, h=sagitta)
    return trace.given(area * SQUARE_METRES_PER_SQUARE_MILLIMETRE, origin_of(area))


def mortar_on(face: FaceSlips, pointing: Pointing, trace: Trace) -> PointingMortar:
    """Mortar in the joints of one face and its lined reveals."""
    pointer = face.face.pointer
    joints = trace.measure("A_joint", "m2", [("joints of the face", square_metres(face.joint_area), pointer)])
    reveals = trace.measure(
        "A_reveal_joint",
        "m2",
        [
            (
                f"{jamb.side} reveal of {jamb.opening.id}",
                square_metres(jamb.area - jamb.slip_area),
                jamb.opening.pointer,
            )
            for jamb in face.returns
        ],
    )
    beds = _length("L_bed", face, face.bed_length, [jamb.depth * jamb.count for jamb in face.returns], trace)
    perps = _length("L_perp", face, face.perp_length, [jamb.perp_length for jamb in face.returns], trace)
    area = trace.sum("A_joints", "m2", [joints, reveals])
    profile, volume = _volumes(area, beds, perps, pointing, trace)
    net = trace.measure("A_net", "m2", list(_slipped([face])))
    return _row(joints, reveals, profile, volume, net, pointing, trace)


def volume_on_face(joint_area: float, face: FaceSlips, pointing: Pointing, trace: Trace) -> float:
    """Mortar in l in the joints of one face, of that area in m2, its reveals apart."""
    beds = _length("L_bed", face, face.bed_length, [], trace)
    perps = _length("L_perp", face, face.perp_length, [], trace)
    return _volumes(joint_area, beds, perps, pointing, trace)[1]


def _volumes(area: float, beds: float, perps: float, pointing: Pointing, trace: Trace) -> tuple[float, float]:
    """What tooling takes off joints of an area and of lengths of beds and perps, and the mortar that stays in them."""
    profile = trace.call(
        profile_volume,
        S_bed=pointing.bed_hollow,
        L_bed=beds,
        S_perp=pointing.perp_hollow,
        L_perp=perps,
        litres=pointing.litres,
    )
    volume = trace.call(
        joint_volume,
        A=area,
        d=pointing.depth,
        litres=pointing.litres,
        V_profile=profile,
        V_least=trace.lookup("V_least", 0.0, "l", GEOMETRY),
    )
    return profile, volume


def _length(symbol: str, face: FaceSlips, on_face: float, in_reveals: Sequence[float], trace: Trace) -> float:
    terms = [("joints of the face", on_face), ("joints of reveals", sum(in_reveals))]
    return trace.measure(
        symbol, "m", [(what, millimetres(length) * METRES_PER_MILLIMETRE, face.face.pointer) for what, length in terms]
    )


def mortar_together(
    rows: Sequence[PointingMortar], faces: Sequence[FaceSlips], pointing: Pointing, trace: Trace
) -> PointingMortar:
    """Mortar of all faces."""
    return _row(
        trace.sum("A_joint", "m2", [row["joint_area_m2"] for row in rows]),
        trace.sum("A_reveal_joint", "m2", [row["reveal_joint_area_m2"] for row in rows]),
        trace.sum("V_profile", "l", [row["profile_volume_l"] for row in rows]),
        trace.sum("V_mortar", "l", [row["volume_l"] for row in rows]),
        trace.measure("A_net", "m2", list(_slipped(faces))),
        pointing,
        trace,
    )


def _slipped(faces: Sequence[FaceSlips]) -> Iterator[tuple[str, float, str]]:
    """Net area of faces, less their features."""
    for face in faces:
        yield "outline less openings", square_metres(face.face.net_area), face.face.pointer
        if face.face.features:
            yield "features", -square_metres(face.face.feature_area), face.face.pointer


def _row(
    joints: float, reveals: float, profile: float, volume: float, net: float, pointing: Pointing, trace: Trace
) -> PointingMortar:
    return {
        "joint_area_m2": joints,
        "reveal_joint_area_m2": reveals,
        "profile_volume_l": profile,
        "volume_l": volume,
        "volume_l_per_m2": trace.call(volume_per_area, V=volume, A_net=net),
        "mass_kg": trace.call(mortar_mass, V=volume, litres=pointing.litres, rho=pointing.density),
    }
