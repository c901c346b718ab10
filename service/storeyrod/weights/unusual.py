"""What is unusual about a system: densities outside the range of their material, and slips that adhesive hardly covers."""

from collections.abc import Iterator
from typing import Final

from storeyrod.findings import Finding, finding
from storeyrod.quantities.beads import Bead
from storeyrod.reference.tables import rows_of
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.system import System

_USUAL: Final = {row["key"]: row for row in rows_of("unit_weights")}

_COVERED: Final = 0.25
"""House limit: least share of the backs of slips that adhesive should cover. No source for slips in beads is known; one bead of
10 mm pressed to 3 mm behind a slip of 65 mm, the default, covers 0.40.
"""


def coverage_findings(bead: Bead) -> Iterator[Finding]:
    """Adhesive that covers little of the slips, whether or not a bond is declared."""
    if bead.share < _COVERED:
        where = "/system/adhesive"
        yield finding("coverage-low", {"pointer": where}, value=float(bead.share), limit=_COVERED, unit="fraction")


def density_findings(system: System) -> Iterator[Finding]:
    """Densities outside the usual range of their material."""
    given = {
        "slip": (system.slip.density_kg_per_m3, "/system/slip/density_kg_per_m3"),
        "mortar": _mortar(system),
        "adhesive": (system.adhesive.density_kg_per_m3, "/system/adhesive/density_kg_per_m3"),
        "board": _board(system),
    }
    for key, (value, pointer) in given.items():
        low, high = _USUAL[key]["low"], _USUAL[key]["high"]
        if value is not None and not low <= value <= high:
            limit = low if value < low else high
            yield finding("density-unusual", {"pointer": pointer}, value=value, limit=limit, unit="kg_per_m3")


def _mortar(system: System) -> tuple[float, str]:
    """Density by which mortar is weighed, and its member."""
    hardened = system.mortar.hardened_density_kg_per_m3
    if hardened is None:
        return system.mortar.density_kg_per_m3, "/system/mortar/density_kg_per_m3"
    return hardened, "/system/mortar/hardened_density_kg_per_m3"


def _board(system: System) -> tuple[float | None, str]:
    """Density of the board, given or from its mass, and the member that says it."""
    board = system.board
    if board.density_kg_per_m3 is not None or board.mass_kg_per_m2 is None:
        return board.density_kg_per_m3, "/system/board/density_kg_per_m3"
    return board.mass_kg_per_m2 / (board.thickness_mm * METRES_PER_MILLIMETRE), "/system/board/mass_kg_per_m2"
