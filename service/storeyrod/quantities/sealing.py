"""Sealant: in plumb and level movement joints, at abutments and internal corners, and round the frames of openings."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.geometry.intervals import Interval, difference, total
from storeyrod.geometry.ticks import millimetres
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.movement_joints.sealant import Seal, seal_by_rule, seal_of, sealed_volume
from storeyrod.movement_joints.storey_rows import sealed_length, storey_seal
from storeyrod.movement_joints.storey_strips import storey_strips
from storeyrod.movement_joints.width_working import rod_row, section_volume
from storeyrod.quantities.frames import frame_length
from storeyrod.quantities.lines import Need
from storeyrod.quantities.models import Sealant as SealantTotals
from storeyrod.quantities.models import SealantRun, SealedPlace
from storeyrod.reference.documents import HOUSE
from storeyrod.trace import Trace
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.face import SIDES, Face, Side
from storeyrod.wall.system import System
from storeyrod.wall.wall import Wall

FRAME_JOINT_MM: Final = 10.0
"""House default: width of the joint round a frame where no movement joint width is given."""

_PLACES: Final[tuple[SealedPlace, ...]] = ("movement_joint", "storey_joint", "edge", "frame")


@dataclass(frozen=True, slots=True)
class Run:
    """A length to seal: place, length in m, what fills it, volume in l."""

    place: SealedPlace
    length: float
    seal: Seal
    volume: float


def sealed_runs(wall: Wall, face: Face, plan: JointPlan, trace: Trace) -> list[Run]:
    """Runs of one face, by place."""
    return [
        *_movement_joints(face, plan, wall.system, trace),
        *_level_joints(wall, face, trace),
        *_edges(wall, face, trace),
        *_frames(wall, face, trace),
    ]


def _run(place: SealedPlace, length: float, seal: Seal, trace: Trace) -> Run:
    return Run(place, length, seal, sealed_volume(seal, length, trace))


def _plumb_length(symbol: str, face: Face, rows: Sequence[tuple[str, Sequence[Interval]]], trace: Trace) -> float:
    terms = [(what, millimetres(total(heights)) * METRES_PER_MILLIMETRE, face.pointer) for what, heights in rows]
    return trace.measure(symbol, "m", terms)


def _movement_joints(face: Face, plan: JointPlan, system: System, trace: Trace) -> Iterator[Run]:
    if not plan.slots:
        return
    rows = [(f"joint {number}", face.joint_heights(slot.centre)) for number, slot in enumerate(plan.slots, start=1)]
    width = trace.given(millimetres(plan.slots[0].width), face.pointer)
    length = _plumb_length("L_sealed", face, rows, trace)
    yield _run("movement_joint", length, seal_of(system, width, trace), trace)


def _level_joints(wall: Wall, face: Face, trace: Trace) -> Iterator[Run]:
    strips = storey_strips(face, wall.storey_joints)
    if not strips:
        return
    terms = [(f"level joint under course {strip.joint.course}", sealed_length(strip), face.pointer) for strip in strips]
    length = trace.measure("L_level", "m", terms)
    yield _run("storey_joint", length, storey_seal(wall.system, trace), trace)


def _edges(wall: Wall, face: Face, trace: Trace) -> Iterator[Run]:
    for side in SIDES:
        width = _edge_width(wall, face, side, trace)
        if width > 0.0:
            length = _plumb_length("L_edge", face, [(f"{side} end", _closed_heights(face, side))], trace)
            yield _run("edge", length, seal_by_rule(wall.system, width, trace), trace)


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
        length = trace.sum("L_frames", "m", lengths)
        yield _run("frame", length, _frame_seal(wall.system, trace), trace)


def _frame_seal(system: System, trace: Trace) -> Seal:
    """As in movement joints when they give the width, else by the rules."""
    given = system.movement_joint.width_mm
    if given is not None:
        return seal_of(system, trace.given(given, "/system/movement_joint/width_mm"), trace)
    return seal_by_rule(system, trace.lookup("w_frame", FRAME_JOINT_MM, "mm", HOUSE), trace)


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
    alike: dict[tuple[float, ...], list[Run]] = {}
    for run in runs:
        alike.setdefault(_likeness(run), []).append(run)
    rows = [_row(alike[key], system, trace) for key in sorted(alike)]
    return {
        "runs": rows,
        "length_m": trace.sum("L_sealant", "m", [row["length_m"] for row in rows]),
        "volume_l": trace.sum("V_sealant", "l", [row["volume_l"] for row in rows]),
    }


def rod_needs(sealant: SealantTotals, trace: Trace) -> Iterator[Need]:
    """Backer rod behind the sealant, one need for each diameter, the thinnest first."""
    lengths: dict[float, list[float]] = {}
    for row in sealant["runs"]:
        rod = row["backer_rod"]
        lengths.setdefault(float(rod["diameter_mm"]), []).append(rod["length_m"])
    for diameter in sorted(lengths):
        length = trace.sum("L_rod", "m", lengths[diameter])
        yield Need("backer_rod", length, length, diameter)


def _likeness(run: Run) -> tuple[float, ...]:
    """Runs with the same are alike: place, section and rod."""
    seal = run.seal
    return (_PLACES.index(run.place), float(seal.width), float(seal.depth), float(seal.rod.diameter))


def _row(runs: Sequence[Run], system: System, trace: Trace) -> SealantRun:
    seal, length = runs[0].seal, trace.sum("L", "m", [run.length for run in runs])
    row: SealantRun = {
        "place": runs[0].place,
        "length_m": length,
        "width_mm": seal.width,
        "depth_mm": seal.depth,
        "section_mm2": seal.area,
        "volume_ml_per_m": section_volume(seal.area),
        "volume_l": trace.sum("V", "l", [run.volume for run in runs]),
        "backer_rod": rod_row(seal, length),
    }
    if system.packs.sealant_ml is not None:
        row["pack_run_length_m"] = system.packs.sealant_ml / row["volume_ml_per_m"]
    return row
