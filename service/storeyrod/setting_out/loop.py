"""The way round the building: whether the bond of its faces closes, and what closes it.

After the joints at its internal corners and abutments a face is a number of half modules long. Each corner changes the unit once,
so the bond closes when every face is a whole number of half modules, and corners and half modules together are even.
"""

from collections.abc import Mapping, Sequence
from typing import Final, Literal

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.reference.documents import GEOMETRY
from storeyrod.setting_out.bond_rows import BondLoop, LoopChange, LoopFace
from storeyrod.setting_out.ways import Way, other_side, ways_round
from storeyrod.trace import Trace, formula
from storeyrod.wall.face import SIDES, Face, Side
from storeyrod.wall.grid import module_of
from storeyrod.wall.system import System
from storeyrod.wall.wall import Wall

WHOLE_MM: Final = 0.05
"""House limit: a residual up to this is rounding of the survey."""


@formula(
    symbol="h",
    expression="2*(L - J + n_bays*j)/m",
    unit="count",
    inputs={"L": "mm", "J": "mm", "n_bays": "count", "j": "mm", "m": "mm"},
    clause=GEOMETRY,
)
def half_modules_of(*, L: float, J: float, n_bays: float, j: float, m: float) -> float:  # noqa: N803  symbols
    """Half modules of a face L long with joints J at its ends and between its bays; each bay lacks its last perp."""
    return 2 * (L - J + n_bays * j) / m


@formula(
    symbol="r",
    expression="(h - n)*m/2",
    unit="mm",
    inputs={"h": "count", "n": "count", "m": "mm"},
    clause=GEOMETRY,
)
def residual(*, h: float, n: float, m: float) -> float:
    """Length by which a face misses n half modules."""
    return (h - n) * m / 2


@formula(
    symbol="j_face",
    expression="j + r/k",
    unit="mm",
    inputs={"j": "mm", "r": "mm", "k": "count"},
    clause=GEOMETRY,
)
def perp_for_residual(*, j: float, r: float, k: float) -> float:
    """Equal perp that spreads a residual over k perps."""
    return j + r / k


def bond_loops(wall: Wall, plans: Sequence[JointPlan], trace: Trace) -> tuple[list[BondLoop], list[Finding]]:
    """Every way round with its residuals, and a finding for each loop whose bond does not close as it stands."""
    bays = {face.id: plan.bays for face, plan in zip(wall.faces, plans, strict=True)}
    loops, findings = [], []
    for way in ways_round(wall):
        loop = _loop(way, wall, bays, trace)
        loops.append(loop)
        if loop.get("closes") is False:
            findings.append(_not_closed(way, loop))
    return loops, findings


def _loop(way: Way, wall: Wall, bays: Mapping[str, Sequence[tuple[float, float]]], trace: Trace) -> BondLoop:
    faces = [_face(face, len(bays[face.id]), _joints(face, bays[face.id]), wall.system, trace) for face, _ in way.steps]
    corners = len(way.steps) if way.closed else len(way.steps) - 1
    loop: BondLoop = {
        "elevations": [face.id for face, _ in way.steps],
        "closed": way.closed,
        "corners_count": corners,
        "faces": faces,
        "residual_mm": sum(abs(row["residual_mm"]) for row in faces),
    }
    if not way.closed:
        return loop
    parity = (corners + sum(row["half_modules_count"] for row in faces)) % 2
    whole = all(abs(row["residual_mm"]) <= WHOLE_MM for row in faces)
    change = _change(way, faces, bays, wall.system, trace) if parity else None
    loop["parity"] = parity
    loop["closes"] = whole and parity == 0
    unchanged = [row for row in faces if change is None or row["elevation"] != change["elevation"]]
    loop["closes_with_perps"] = (parity == 0 or change is not None) and all(row["perp_within"] for row in unchanged)
    if change is not None:
        loop["change"] = change
    if not loop["closes_with_perps"]:
        loop["hide_at"] = _least_seen(way)
    return loop


def _joints(face: Face, bays: Sequence[tuple[float, float]]) -> float:
    """Movement joints between the bays of a face in ticks."""
    return face.length - sum(right - left for left, right in bays)


def _face(face: Face, bays_count: int, joints: float, system: System, trace: Trace) -> LoopFace:
    module = module_of(system, trace)
    perp = trace.given(system.joint.perp_mm, "/system/joint/perp_mm")
    kinds = [face.edge(side).kind for side in SIDES]
    at_ends = sum(_end_joint_mm(face, side, system) for side in SIDES)
    half_modules = trace.call(
        half_modules_of,
        L=trace.given(millimetres(face.length), face.pointer),
        J=trace.given(millimetres(joints) + at_ends, face.pointer),
        n_bays=trace.given(float(bays_count), face.pointer),
        j=perp,
        m=module,
    )
    nearest = trace.lookup("n", float(round(half_modules)), "count", GEOMETRY)
    left_over = trace.call(residual, h=half_modules, n=nearest, m=module)
    adjusted = _perp(system, nearest, bays_count, left_over, trace)
    conventions: tuple[Literal["CO-", "CO", "CO+"], ...] = ("CO-", "CO", "CO+")
    return {
        "elevation": face.id,
        "edge_convention": conventions[sum(kind in ("internal_corner", "abutment") for kind in kinds)],
        "half_modules": half_modules,
        "half_modules_count": int(nearest),
        "residual_mm": left_over,
        "perp_mm": adjusted,
        "perp_within": _within(adjusted, system),
    }


def _end_joint_mm(face: Face, side: Side, system: System) -> float:
    match face.edge(side).kind:
        case "internal_corner":
            return system.joint.perp_mm
        case "abutment":
            return face.edge(side).joint_mm
        case _:
            return 0.0


def _perp(system: System, halves: float, bays_count: int, left_over: float, trace: Trace) -> float:
    """Equal perp that removes a residual; of the two courses the one with fewer perps, which must give more.

    A bay of h half modules has (h - 1)/2 perps there, rounded down. A face without perps keeps its residual.
    """
    perps = max(0, int(halves) - bays_count) // 2
    perp = trace.given(system.joint.perp_mm, "/system/joint/perp_mm")
    if perps == 0:
        return perp + left_over
    return trace.call(perp_for_residual, j=perp, r=left_over, k=trace.lookup("k", float(perps), "count", GEOMETRY))


def _within(perp: float, system: System) -> bool:
    return system.joint.perp_min_mm - WHOLE_MM <= perp <= system.joint.perp_max_mm + WHOLE_MM


def _change(
    way: Way,
    rows: Sequence[LoopFace],
    bays: Mapping[str, Sequence[tuple[float, float]]],
    system: System,
    trace: Trace,
) -> LoopChange | None:
    """The face that takes one half module more or fewer with the least change of its perps, inside their limits."""
    found: list[tuple[float, str, LoopChange]] = []
    module = module_of(system)
    for (face, _), row in zip(way.steps, rows, strict=True):
        for halves in (row["half_modules_count"] - 1, row["half_modules_count"] + 1):
            left_over = (row["half_modules"] - halves) * module / 2.0
            perp = _perp(system, float(halves), len(bays[face.id]), left_over, trace)
            if halves > 1 and _within(perp, system):
                change: LoopChange = {"elevation": face.id, "half_modules_count": halves, "perp_mm": perp}
                found.append((abs(perp - system.joint.perp_mm), face.id, change))
    return min(found, key=lambda one: one[:2])[2] if found else None


def _least_seen(way: Way) -> str:
    """The corner at which a broken bond is seen least: an internal one, then the one between the shortest faces."""
    steps = way.steps
    corners = []
    for index, (face, side) in enumerate(steps):
        onwards, entered = steps[(index + 1) % len(steps)]
        kind = face.edge(other_side(side)).kind
        corners.append((kind != "internal_corner", face.length + onwards.length, f"{onwards.id}:{entered}"))
    return min(corners)[2]


def _not_closed(way: Way, loop: BondLoop) -> Finding:
    worst = max(loop["faces"], key=lambda row: (abs(row["residual_mm"]), row["elevation"]))
    face = next(face for face, _ in way.steps if face.id == worst["elevation"])
    where: Where = {"pointer": face.pointer, "elevation": face.id}
    return finding("loop-not-closed", where, value=loop["residual_mm"], limit=WHOLE_MM, unit="mm", advice=_advice(loop))


def _advice(loop: BondLoop) -> str:
    change = loop.get("change")
    if loop.get("hide_at"):
        return f"No perps inside their limits close the bond; break it at {loop['hide_at']}, the least seen corner, or change a length."
    if change is not None:
        return (
            f"Lay {change['elevation']} to {change['half_modules_count']} half modules with perps of "
            f"{change['perp_mm']:.2f} mm, and the other faces with the perps given; options.perps equalised does so."
        )
    return "Lay every face with the perp given for it; options.perps equalised does so."
