"""Sealant: in movement joints, at abutments and internal corners, and round the frames of openings."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.geometry.intervals import Interval, difference, total
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.movement_joints.width import depth_by_rule, sealant_depth_of, sealant_volume
from storeyrod.quantities.frames import frame_length
from storeyrod.quantities.models import Sealant as SealantTotals
from storeyrod.quantities.models import SealantRun, SealedPlace
from storeyrod.reference.documents import GEOMETRY, HOUSE
from storeyrod.trace import Trace, origin_of
from storeyrod.units import LITRES_PER_CUBIC_METRE, METRES_PER_MILLIMETRE, MILLILITRES_PER_LITRE
from storeyrod.wall.face import SIDES, Face, Side
from storeyrod.wall.system import System
from storeyrod.wall.wall import Wall

FRAME_JOINT_MM: Final = 10.0
"""House default: width of the joint round a frame where no movement joint width is given."""

_PLACES: Final[tuple[SealedPlace, ...]] = ("movement_joint", "edge", "frame")


@dataclass(frozen=True, slots=True)
class Run:
    """A length to seal: place, length in m, width and depth in mm, volume in l."""

    place: SealedPlace
    length: float
    width: float
    depth: float
    volume: float


def sealed_runs(wall: Wall, face: Face, plan: JointPlan, trace: Trace) -> list[Run]:
    """Runs of one face, by place."""
    return [*_movement_joints(face, plan, wall.system, trace), *_edges(wall, face, trace), *_frames(wall, face, trace)]


def _run(place: SealedPlace, length: float, width: float, depth: float, trace: Trace) -> Run:
    volume = trace.call(
        sealant_volume,
        L=length,
        w=trace.given(width * METRES_PER_MILLIMETRE, origin_of(width)),
        d=trace.given(depth * METRES_PER_MILLIMETRE, origin_of(depth)),
        litres=trace.lookup("litres", LITRES_PER_CUBIC_METRE, "l_per_m3", GEOMETRY),
    )
    return Run(place, length, width, depth, volume)


def _plumb_length(symbol: str, face: Face, rows: Sequence[tuple[str, Sequence[Interval]]], trace: Trace) -> float:
    terms = [(what, millimetres(total(heights)) * METRES_PER_MILLIMETRE, face.pointer) for what, heights in rows]
    return trace.measure(symbol, "m", terms)


def _movement_joints(face: Face, plan: JointPlan, system: System, trace: Trace) -> Iterator[Run]:
    if not plan.slots:
        return
    rows = [(f"joint {number}", face.joint_heights(slot.centre)) for number, slot in enumerate(plan.slots, start=1)]
    width = trace.given(millimetres(plan.slots[0].width), face.pointer)
    length = _plumb_length("L_sealed", face, rows, trace)
    yield _run("movement_joint", length, width, sealant_depth_of(system, width, trace), trace)


def _edges(wall: Wall, face: Face, trace: Trace) -> Iterator[Run]:
    for side in SIDES:
        width = _edge_width(wall, face, side, trace)
        if width > 0.0:
            length = _plumb_length("L_edge", face, [(f"{side} end", _closed_heights(face, side))], trace)
            yield _run("edge", length, width, depth_by_rule(width, trace), trace)


def _closed_heights(face: Face, side: Side) -> list[Interval]:
    """Where the wall stands along an end and no opening meets it."""
    x = face.left if side == "left" else face.right
    openings = [jamb.heights for one in face.openings for jamb in one.jambs(side) if jamb.x == x]
    return difference(face.edge_heights(side), openings)


def _edge_width(wall: Wall, face: Face, side: Side, trace: Trace) -> float:
    """Width of the joint at an end; none at a free end, an external corner, and where the other face has the joint."""
    edge = face.edge(side)
    name = f"{face.id}:{side}"
    if edge.kind == "internal_corner":
        butts = any(corner.ends[-1].name == name for corner in wall.corners)
        return trace.given(wall.system.joint.perp_mm, "/system/joint/perp_mm") if butts else 0.0
    if edge.kind == "abutment" or (edge.kind == "movement_joint" and not _sealed_by_other(wall, name, edge.to)):
        return trace.given(edge.joint_mm, f"{face.edge_pointer(side)}/joint_mm")
    return 0.0


def _sealed_by_other(wall: Wall, name: str, to: str | None) -> bool:
    """Of two faces that meet at a movement joint, the one named first has it."""
    faces = {face.id: face for face in wall.faces}
    claims = {f"{face.id}:{side}" for face in wall.faces for side in SIDES if face.edge(side).to == name}
    partners = {to} if to is not None and to.rpartition(":")[0] in faces else set()
    return any(other < name for other in claims | partners)


def _frames(wall: Wall, face: Face, trace: Trace) -> Iterator[Run]:
    lengths = [length for opening in face.openings if (length := frame_length(face, opening, trace)) > 0.0]
    if lengths:
        width = _frame_width(wall.system, trace)
        length = trace.sum("L_frames", "m", lengths)
        depth = _frame_depth(wall.system, width, trace)
        yield _run("frame", length, width, depth, trace)


def _frame_width(system: System, trace: Trace) -> float:
    if system.movement_joint.width_mm is not None:
        return trace.given(system.movement_joint.width_mm, "/system/movement_joint/width_mm")
    return trace.lookup("w_frame", FRAME_JOINT_MM, "mm", HOUSE)


def _frame_depth(system: System, width: float, trace: Trace) -> float:
    """As in movement joints when they give the width, else by the rule."""
    if system.movement_joint.width_mm is not None:
        return sealant_depth_of(system, width, trace)
    return depth_by_rule(width, trace)


def frame_assumptions(wall: Wall) -> list[Assumption]:
    """What was taken for the joints round frames, where there are openings; width_mm has a row of its own for joints."""
    openings = [opening for face in wall.faces for opening in face.openings]
    if not openings:
        return []
    given = wall.system.movement_joint.width_mm
    note = "joints round frames are as wide as movement joints" if given is not None else "joints round frames"
    note = f"{note}; sealed all round, except where an opening meets the edge of the wall"
    width = FRAME_JOINT_MM if given is None else given
    return [stated("/system/movement_joint", width, Assumed("mm", HOUSE, note))]


def sealant_of(runs: Sequence[Run], system: System, trace: Trace) -> SealantTotals:
    """Runs of some faces, those alike added up, and what they hold."""
    alike: dict[tuple[int, float, float], list[Run]] = {}
    for run in runs:
        alike.setdefault((_PLACES.index(run.place), float(run.width), float(run.depth)), []).append(run)
    rows = [_row(alike[key], system, trace) for key in sorted(alike)]
    return {
        "runs": rows,
        "length_m": trace.sum("L_sealant", "m", [row["length_m"] for row in rows]),
        "volume_l": trace.sum("V_sealant", "l", [row["volume_l"] for row in rows]),
    }


def _row(runs: Sequence[Run], system: System, trace: Trace) -> SealantRun:
    first = runs[0]
    section = float(first.width) * float(first.depth)
    row: SealantRun = {
        "place": first.place,
        "length_m": trace.sum("L", "m", [run.length for run in runs]),
        "width_mm": first.width,
        "depth_mm": first.depth,
        "section_mm2": section,
        "volume_ml_per_m": section * METRES_PER_MILLIMETRE**2 * LITRES_PER_CUBIC_METRE * MILLILITRES_PER_LITRE,
        "volume_l": trace.sum("V", "l", [run.volume for run in runs]),
    }
    if system.packs.sealant_ml is not None:
        row["pack_run_length_m"] = system.packs.sealant_ml / row["volume_ml_per_m"]
    return row
