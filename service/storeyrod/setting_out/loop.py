"""The way round the building: whether the bond of its faces closes, and what closes it.

After the joints at its internal corners and abutments a face is a number of half modules long. Each corner changes the unit once,
so the bond closes when every face is a whole number of half modules, and corners and half modules together are even.
"""

from collections.abc import Mapping, Sequence
from typing import Final, Literal

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.ticks import TICKS_PER_MM, millimetres
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.options import Options
from storeyrod.reference.documents import GEOMETRY
from storeyrod.setting_out.bays import FaceSetOut
from storeyrod.setting_out.bond_models import BondLoop, LoopChange, LoopFace
from storeyrod.setting_out.course_grid import HAIRLINE, module_lengths
from storeyrod.setting_out.turning import turns
from storeyrod.setting_out.ways import Way, other_side, ways_round
from storeyrod.trace import SILENT, Trace, formula
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


Bays = Mapping[str, Sequence[Interval]]
Laid = Mapping[str, FaceSetOut]


def bond_loops(
    wall: Wall, plans: Sequence[JointPlan], outs: Sequence[FaceSetOut], options: Options, trace: Trace
) -> tuple[list[BondLoop], list[Finding]]:
    """Every way round with its residuals, and a finding for each loop whose bond does not close.

    With nominal perps the lengths must close as they stand; equalised ones may take up the residuals.
    """
    bays = {face.id: plan.bays for face, plan in zip(wall.faces, plans, strict=True)}
    laid = {out.face.id: out for out in outs}
    loops, findings = [], []
    for way in ways_round(wall):
        loop = _loop(way, wall.system, bays, laid, trace)
        if options.perps == "equalised" and loop.get("closes_as_laid"):
            # A closing bond may close what perps alone cannot; then there is nothing to hide.
            loop.pop("hide_at", None)
        loops.append(loop)
        good = loop.get("closes_as_laid") if options.perps == "equalised" else loop.get("closes")
        if way.closed and not good:
            findings.append(_not_closed(way, loop))
    return loops, findings


def _loop(way: Way, system: System, bays: Bays, laid: Laid, trace: Trace) -> BondLoop:
    faces = [_face(face, bays[face.id], system, trace) for face, _ in way.steps]
    loop: BondLoop = {
        "elevations": [face.id for face, _ in way.steps],
        "closed": way.closed,
        "corners_count": len(way.steps) if way.closed else len(way.steps) - 1,
        "faces": faces,
        "residual_mm": sum(abs(row["residual_mm"]) for row in faces),
    }
    if way.closed:
        _close(loop, way, system, bays, laid)
    return loop


def _close(loop: BondLoop, way: Way, system: System, bays: Bays, laid: Laid) -> None:
    faces = loop["faces"]
    parity = (loop["corners_count"] + sum(row["half_modules_count"] for row in faces)) % 2
    change = closing_change(way, bays, laid, system) if parity else None
    if change is not None:
        loop["change"] = change
    unchanged = [row for row in faces if change is None or row["elevation"] != change["elevation"]]
    loop["parity"] = parity
    loop["closes"] = parity == 0 and all(abs(row["residual_mm"]) <= WHOLE_MM for row in faces)
    loop["closes_with_perps"] = (parity == 0 or change is not None) and all(row["perp_within"] for row in unchanged)
    loop["closes_as_laid"] = turns(way, laid, module_lengths(system))
    if not loop["closes_with_perps"]:
        loop["hide_at"] = _least_seen(way)


def _clear_lengths(face: Face, bays: Sequence[Interval], system: System) -> list[float]:
    """Lengths of the bays of a face in mm, less the joints at its ends."""
    lengths = [millimetres(right - left) for left, right in bays]
    lengths[0] -= _end_joint_mm(face, "left", system)
    lengths[-1] -= _end_joint_mm(face, "right", system)
    return lengths


def _end_joint_mm(face: Face, side: Side, system: System) -> float:
    match face.edge(side).kind:
        case "internal_corner":
            return system.joint.perp_mm
        case "abutment":
            return face.edge(side).joint_mm
        case _:
            return 0.0


def _face(face: Face, bays: Sequence[Interval], system: System, trace: Trace) -> LoopFace:
    module = module_of(system, trace)
    lengths = _clear_lengths(face, bays, system)
    half_modules = trace.call(
        half_modules_of,
        L=trace.given(millimetres(face.length), face.pointer),
        J=trace.given(millimetres(face.length) - sum(lengths), face.pointer),
        n_bays=trace.given(float(len(bays)), face.pointer),
        j=trace.given(system.joint.perp_mm, "/system/joint/perp_mm"),
        m=module,
    )
    counts = [round(_half_modules(length, system)) for length in lengths]
    nearest = trace.lookup("n", float(sum(counts)), "count", GEOMETRY)
    perps = [_perp(length, count, system, trace) for length, count in zip(lengths, counts, strict=True)]
    kinds = [face.edge(side).kind for side in SIDES]
    conventions: tuple[Literal["CO-", "CO", "CO+"], ...] = ("CO-", "CO", "CO+")
    return {
        "elevation": face.id,
        "edge_convention": conventions[sum(kind in ("internal_corner", "abutment") for kind in kinds)],
        "half_modules": half_modules,
        "half_modules_count": int(nearest),
        "residual_mm": trace.call(residual, h=half_modules, n=nearest, m=module),
        "perp_mm": max(perps, key=lambda perp: abs(perp - system.joint.perp_mm)),
        "perp_within": all(_within(perp, system) for perp in perps),
    }


def _half_modules(length: float, system: System) -> float:
    return 2.0 * (length + system.joint.perp_mm) / module_of(system)


def _perp(length: float, halves: int, system: System, trace: Trace = SILENT) -> float:
    """Equal perp that brings a bay to a number of half modules; of its two courses the one with fewer perps gives more.

    That course has (halves - 1)/2 perps, rounded down. A bay without perps keeps its residual.
    """
    perps = max(0, halves - 1) // 2
    left_over = (_half_modules(length, system) - halves) * module_of(system) / 2.0
    perp = trace.given(system.joint.perp_mm, "/system/joint/perp_mm")
    if perps == 0:
        return perp + left_over
    return trace.call(
        perp_for_residual,
        j=perp,
        r=trace.given(left_over, "/elevations"),
        k=trace.lookup("k", float(perps), "count", GEOMETRY),
    )


def _within(perp: float, system: System) -> bool:
    tolerance = HAIRLINE / TICKS_PER_MM
    return system.joint.perp_min_mm - tolerance <= perp <= system.joint.perp_max_mm + tolerance


def closing_change(way: Way, bays: Bays, laid: Laid, system: System) -> LoopChange | None:
    """The face that takes one half module more or fewer in its last bay with the least change of perps inside their limits."""
    found: list[tuple[float, str, LoopChange]] = []
    for face, _ in way.steps:
        lengths = _clear_lengths(face, bays[face.id], system)
        last = lengths[-1] if laid[face.id].start.side == "left" else lengths[0]
        whole = sum(round(_half_modules(length, system)) for length in lengths)
        nearest = round(_half_modules(last, system))
        for step in (-1, 1):
            perp = _perp(last, nearest + step, system)
            if nearest + step > 1 and _within(perp, system):
                change: LoopChange = {"elevation": face.id, "half_modules_count": whole + step, "perp_mm": perp}
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
