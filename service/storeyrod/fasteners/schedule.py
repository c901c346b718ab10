"""The schedule of fasteners: every position of every piece with its stage, and what wind asks of it."""

from dataclasses import dataclass, replace

from storeyrod.boards.layout import BoardLayout
from storeyrod.boards.rows import row_origin
from storeyrod.fasteners.demand import Demand, heads_of
from storeyrod.fasteners.face_fasteners import FaceFasteners
from storeyrod.fasteners.findings import piece_findings
from storeyrod.fasteners.kinds import Known, Placing
from storeyrod.fasteners.lengths import hollow_findings
from storeyrod.fasteners.loads import NO_LOADS, Loads
from storeyrod.fasteners.pattern import Pattern, pattern_of
from storeyrod.fasteners.resistance import Resistance, resistance_of
from storeyrod.findings import Finding
from storeyrod.geometry.ticks import ticks
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.flatness import flatness_findings, flatness_row
from storeyrod.wall.system import System
from storeyrod.wall.wall import Wall
from storeyrod.wind.findings import area_findings
from storeyrod.wind.plan import WindWorking, wind_working


@dataclass(frozen=True, slots=True)
class FastenerSchedule:
    """Fasteners of a wall: faces in request order, the system, what was found, and the loads that they answer."""

    faces: tuple[FaceFasteners, ...]
    system: System
    findings: tuple[Finding, ...]
    wind: WindWorking | None = None
    resistance: Resistance | None = None
    loads: Loads = NO_LOADS

    @property
    def total(self) -> int:
        """Number of fasteners."""
        return sum(face.total for face in self.faces)


def set_fasteners(wall: Wall, layout: BoardLayout, loads: Loads = NO_LOADS, trace: Trace = SILENT) -> FastenerSchedule:
    """Fasteners of every piece of a layout; raises the refusals of wind."""
    patterns = _patterns(wall)
    wind = wind_working(wall.faces, loads.wind, trace) if loads.wind is not None else None
    resistance = resistance_of(wall.system, loads.substrate, trace) if _is_asked(wall.system, loads) else None
    demand = _demand(wall.system, loads, resistance, trace) if wind is not None else None
    known, deeper = Known(), _before_the_wall(loads)
    faces, findings = [], [*(wind.plan.findings if wind else ()), *(resistance.findings if resistance else ())]
    for index, boards in enumerate(layout.faces):
        placing = Placing(boards, patterns, wind.plan.faces[index] if wind is not None else None, demand, known, deeper)
        made = FaceFasteners(boards, placing.kinds())
        faces.append(made)
        findings += piece_findings(made, patterns[0])
    findings += [*_flatness_findings(loads), *hollow_findings(wall.system, loads.substrate)]
    findings += area_findings(wall.system, loads.wind) if loads.wind else []
    return FastenerSchedule(tuple(faces), wall.system, tuple(findings), wind, resistance, loads)


def _before_the_wall(loads: Loads) -> float:
    """Levelling and old render between boards and the wall, in ticks."""
    return ticks(loads.substrate.levelling_mm + loads.substrate.render_mm) if loads.substrate is not None else 0.0


def _flatness_findings(loads: Loads) -> list[Finding]:
    flatness = loads.substrate.flatness if loads.substrate is not None else None
    return [] if flatness is None else flatness_findings(flatness_row(flatness, SILENT))


def _patterns(wall: Wall) -> list[Pattern]:
    """The pattern over the lowest row of boards, and over each level joint."""
    pattern = pattern_of(wall.system, row_origin(wall))
    return [pattern, *(replace(pattern, foot=joint.top) for joint in wall.storey_joints if joint.top > pattern.foot)]


def _is_asked(system: System, loads: Loads) -> bool:
    """Whether anything is said of what the fasteners carry, or of what they are driven into."""
    return loads.wind is not None or system.fastener.pull_out is not None


def _demand(system: System, loads: Loads, resistance: Resistance | None, trace: Trace) -> Demand:
    gamma = trace.given(loads.factors.wind, "/partial_factors/wind")
    return Demand(gamma, resistance.design if resistance else None, heads_of(system), trace)
