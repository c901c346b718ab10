"""More mortar or adhesive than there is room for: joints deeper than slip and adhesive, beads larger than the gap behind slips."""

from collections.abc import Iterator

from storeyrod.findings import Finding, finding
from storeyrod.geometry.ticks import ROUNDING_GUARD
from storeyrod.quantities.beads import Bead
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.system import System


def filling_findings(system: System, bead: Bead) -> Iterator[Finding]:
    """What of joints and adhesive does not fit: it is weighed and bought all the same, and never cut off in silence."""
    yield from _pointing(system)
    yield from _beads(system, bead)


def _pointing(system: System) -> Iterator[Finding]:
    """Behind the slips lies the board, and before it a bed of adhesive where one is laid over all."""
    depth, adhesive = system.joint.depth_mm, system.adhesive
    behind = 0.0 if adhesive.laid == "bed" else adhesive.compressed_thickness_mm
    room = system.slip.thickness_mm + behind
    if depth > room + ROUNDING_GUARD:
        yield finding("pointing-too-deep", {"pointer": "/system/joint/depth_mm"}, value=depth, limit=room, unit="mm")


def _beads(system: System, bead: Bead) -> Iterator[Finding]:
    """Sections of all beads of a course against slip height by compressed thickness."""
    gap = bead.slip_height * system.adhesive.compressed_thickness_mm * METRES_PER_MILLIMETRE
    filled = float(bead.beads * bead.section / gap)
    if filled > 1.0 + ROUNDING_GUARD:
        yield finding("beads-overfull", {"pointer": "/system/adhesive"}, value=filled, limit=1.0, unit="fraction")
