"""Bays of a face: the clear lengths between its ends and movement joints, and the perps of each."""

from collections.abc import Sequence
from dataclasses import dataclass

from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.ticks import TICKS_PER_MM, exact_ticks, millimetres, ticks
from storeyrod.options import Options
from storeyrod.setting_out.arrangements import Patterns, PerpLimits, RunBond, is_wanted
from storeyrod.setting_out.bond import BONDS
from storeyrod.setting_out.closing import ways_to_close
from storeyrod.setting_out.course_grid import HAIRLINE, Arrangement, BayPerps, Module, Stretch, end_piece, half_modules
from storeyrod.setting_out.perps import equal_perps, nominal_grids
from storeyrod.wall.face import SIDES, Face, Side
from storeyrod.wall.system import System


@dataclass(frozen=True, slots=True)
class BondStart:
    """Where the bond of a face starts: the end from which it is set out, the place of the first unit in ticks, whether it
    begins with the other unit, the edge from which that was carried, and whether the face takes an odd half module so that
    the bond closes round the building.
    """

    side: Side
    origin: float
    half: bool
    carried_from: str | None = None
    odd_half: bool = False


@dataclass(frozen=True, slots=True)
class FaceSetOut:
    """One face set out: where its bond starts, the joints at its ends, its bays with their perps, and what was found."""

    face: Face
    start: BondStart
    joints: tuple[Interval, Interval]
    bays: tuple[BayPerps, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Closed:
    """How a bay was made to come out, and the perps it would have needed where nothing fits its limits."""

    patterns: Patterns
    arrangement: Arrangement
    needed: tuple[float, ...] = ()


def bond_origin(face: Face, side: Side, system: System) -> float:
    """Where the first unit of a face starts: given, or at its end; at an internal corner one perp in from it."""
    if face.elevation.bond_origin_x_mm is not None:
        return ticks(face.elevation.bond_origin_x_mm)
    inwards = exact_ticks(system.joint.perp_mm) if face.edge(side).kind == "internal_corner" else 0.0
    return face.left + inwards if side == "left" else face.right - inwards


def end_joints(face: Face, bays: Sequence[Interval], system: System, options: Options) -> tuple[Interval, Interval]:
    """Strips that joints at the ends take from the first and last bay; nominal perps take none off.

    An abutment takes the joint of its edge, an internal corner a perp on either face: the two butt in turn. A strip takes no
    more than the bay has.
    """
    left, right = (_end_joint(face, side, system) if options.perps == "equalised" else 0.0 for side in SIDES)
    (start, near), (far, end) = bays[0], bays[-1]
    first = start, min(start + left, near)
    return first, (max(end - right, far, first[1] if len(bays) == 1 else far), end)


def _end_joint(face: Face, side: Side, system: System) -> float:
    match face.edge(side).kind:
        case "abutment":
            return ticks(face.edge(side).joint_mm)
        case "internal_corner":
            return exact_ticks(system.joint.perp_mm)
        case _:
            return 0.0


def set_out_face(
    face: Face, start: BondStart, bays: Sequence[Interval], system: System, module: Module, options: Options
) -> FaceSetOut:
    """Set out one face: nominal perps continue over the whole face, equalised ones come out in each bay.

    ``start.odd_half`` asks the last bay for one half module more or fewer, where its perps allow it.
    """
    joints = end_joints(face, bays, system, options)
    clear = _clear(bays, joints)
    if start.side == "left":
        made, findings = _bays(face, start.origin, clear, start, system, module, options)
        return FaceSetOut(face, start, joints, tuple(made), tuple(findings))
    mirrored = [(-right, -left) for left, right in reversed(clear)]
    made, findings = _bays(face, -start.origin, mirrored, start, system, module, options)
    return FaceSetOut(face, start, joints, tuple(bay.mirrored() for bay in reversed(made)), tuple(findings))


def _clear(bays: Sequence[Interval], joints: tuple[Interval, Interval]) -> list[Interval]:
    """The bays less the joints at the ends of the face; a bay of no length stays in its place."""
    clear = list(bays)
    clear[0] = joints[0][1], clear[0][1]
    clear[-1] = clear[-1][0], joints[1][0]
    return clear


def _bays(
    face: Face,
    origin: float,
    bays: Sequence[Interval],
    start: BondStart,
    system: System,
    module: Module,
    options: Options,
) -> tuple[list[BayPerps], list[Finding]]:
    courses = BONDS[system.bond].started(half=start.half)
    nominal = nominal_grids(courses, module, origin)
    made, findings = [], []
    for bay in bays:
        drawn = tuple((Stretch(*bay, grid),) for grid in nominal)
        best = Closed(drawn, "nominal")
        if options.perps == "equalised" and bay[1] - bay[0] > HAIRLINE:
            run = RunBond(courses, module, bay, half_modules(bay[0] - origin, module), perp_limits(system))
            best = _closed(run, drawn)
            if start.odd_half and bay == bays[-1]:
                best = _with_odd_half(run, best)
        made.append(BayPerps(*bay, best.patterns, best.arrangement))
        if best.needed:
            findings.append(_out_of_range(face, start.side, bay, best.needed, system))
    return made, findings


def _closed(run: RunBond, drawn: Patterns) -> Closed:
    """The best way for a run to come out; what is drawn, with the perps that it would have needed, where none is good.

    Equal perps inside their limits and without slivers are always the best, so no other way is worked out beside them.
    """
    equal = equal_perps(run)
    if equal is not None and equal.within and equal.shortest >= run.shortest_wanted - HAIRLINE:
        return Closed(tuple((Stretch(*run.run, grid),) for grid in equal.grids), "equalised")
    ways = ways_to_close(run, drawn)
    spread = next((one for one in ways if one.arrangement == "equalised" and not one.within), None)
    needed = spread.perps if spread is not None and not is_wanted(run, ways[0]) else ()
    if ways[0].within:
        return Closed(ways[0].patterns, ways[0].arrangement, needed)
    return Closed(drawn, "nominal", needed)


def _with_odd_half(run: RunBond, best: Closed) -> Closed:
    """The run by equal perps with its last unit in course 0 exchanged for the other one, if they keep their limits."""
    for parity in (0, 1):
        equal = equal_perps(run, parity)
        if equal is None or not equal.within:
            continue
        made = tuple((Stretch(*run.run, grid),) for grid in equal.grids)
        lengths = [end_piece(patterns[0][-1], "right", run.module) for patterns in (made, best.patterns)]
        if abs(lengths[0] - lengths[1]) > run.module.length / 4.0:
            return Closed(made, "equalised")
    return best


def perp_limits(system: System) -> PerpLimits:
    """Limits of the perps and of cut units."""
    joint = system.joint
    return PerpLimits(ticks(joint.perp_min_mm), ticks(joint.perp_max_mm), ticks(system.minimum_cut_mm))


def _out_of_range(face: Face, side: Side, bay: Interval, perps: Sequence[float], system: System) -> Finding:
    low, high = system.joint.perp_min_mm, system.joint.perp_max_mm
    perp = max((perp / TICKS_PER_MM for perp in perps), key=lambda one: max(low - one, one - high))
    left = bay[0] if side == "left" else -bay[1]
    where: Where = {"pointer": face.pointer, "elevation": face.id, "x_mm": millimetres(left)}
    return finding("perp-out-of-range", where, value=perp, limit=low if perp < low else high, unit="mm")
