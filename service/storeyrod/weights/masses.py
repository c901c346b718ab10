"""Masses of the wall as it is laid, and of what is lifted piece by piece."""

from collections.abc import Iterator, Sequence
from typing import Final

from storeyrod.boards.layout import BoardLayout, FaceBoards
from storeyrod.geometry.ticks import square_metres
from storeyrod.quantities.pointing import volume_on_face
from storeyrod.reference.documents import Clause
from storeyrod.slips.face_slips import FaceSlips
from storeyrod.slips.layout import SlipLayout
from storeyrod.trace import SILENT, Trace, formula
from storeyrod.wall.system import System
from storeyrod.weights.face_shares import metres
from storeyrod.weights.layers import Layers, mortar_density
from storeyrod.weights.models import ElevationMass, LayerName, MassLayer, PieceMass
from storeyrod.weights.packs import mass_of_volume

_WEIGHT: Final = Clause("EN 1991-1-1", "self-weight from density and volume", "memory")

HEAVIEST: Final = 5
"""Pieces of board named among the heaviest things."""


@formula(symbol="M", expression="A*t*rho", unit="kg", inputs={"A": "m2", "t": "m", "rho": "kg_per_m3"}, clause=_WEIGHT)
def mass_of_area(*, A: float, t: float, rho: float) -> float:  # noqa: N803  symbol of the formula
    """Mass of an area of a thickness."""
    return A * t * rho


@formula(symbol="M", expression="A*m", unit="kg", inputs={"A": "m2", "m": "kg_per_m2"}, clause=_WEIGHT)
def mass_on_area(*, A: float, m: float) -> float:  # noqa: N803  symbol of the formula
    """Mass of an area with so much on a square metre."""
    return A * m


@formula(
    symbol="M",
    expression="n*S*A/h*rho",
    unit="kg",
    inputs={"n": "count", "S": "m2", "A": "m2", "h": "m", "rho": "kg_per_m3"},
    clause=_WEIGHT,
)
def mass_of_beads(*, n: float, S: float, A: float, h: float, rho: float) -> float:  # noqa: N803  symbols
    """Mass of n beads of section S behind slips of height h with the face area A."""
    return n * S * A / h * rho


def layer_rows(layers: Layers, system: System) -> list[MassLayer]:
    """Layers of a square metre from outside to inside, as far as their mass is known."""
    rows: tuple[tuple[LayerName, float | None, float | None], ...] = (
        ("slips", layers.slips, system.slip.density_kg_per_m3),
        ("pointing", layers.pointing, mortar_density(system, SILENT)),
        ("adhesive", layers.adhesive, system.adhesive.density_kg_per_m3),
        ("board", layers.board, system.board.density_kg_per_m3),
        ("bonding", layers.bonding, None),
    )
    made: list[MassLayer] = []
    for layer, mass, density in rows:
        if mass is not None:
            row: MassLayer = {"layer": layer, "mass_kg_per_m2": mass}
            made.append(row if density is None else {**row, "density_kg_per_m3": density})
    return made


def elevation_masses(
    boards: BoardLayout, slips: SlipLayout, layers: Layers, system: System, trace: Trace
) -> list[ElevationMass]:
    """Masses of every elevation."""
    return [
        _elevation(board_face, slip_face, layers, system, trace)
        for board_face, slip_face in zip(boards.faces, slips.faces, strict=True)
    ]


def _elevation(boards: FaceBoards, slips: FaceSlips, layers: Layers, system: System, trace: Trace) -> ElevationMass:
    pointer = boards.face.pointer
    slip_area = trace.measure("A_slip", "m2", [("slips", square_metres(slips.slip_area), pointer)])
    joint_area = trace.measure("A_joint", "m2", [("joints", square_metres(slips.joint_area), pointer)])
    made: ElevationMass = {
        "elevation": boards.face.id,
        "slips_kg": trace.call(
            mass_of_area,
            A=slip_area,
            t=metres(system.slip.thickness_mm, "/system/slip/thickness_mm", trace),
            rho=trace.given(system.slip.density_kg_per_m3, "/system/slip/density_kg_per_m3"),
        ),
        "pointing_kg": trace.call(
            mass_of_volume,
            V=volume_on_face(joint_area, slips, layers.joints, trace),
            rho=mortar_density(system, trace),
            litres=layers.joints.litres,
        ),
        "adhesive_kg": _adhesive(slip_area, joint_area, layers, system, trace),
        "net_area_m2": square_metres(boards.face.net_area),
    }
    terms = [("pieces of board", square_metres(sum(piece.part.area for piece in boards.pieces)), pointer)]
    board_area = trace.measure("A_board", "m2", terms)
    parts = [made["slips_kg"], made["pointing_kg"], made["adhesive_kg"]]
    if layers.bonding is not None:
        made["bonding_kg"] = trace.call(mass_on_area, A=board_area, m=layers.bonding)
        parts.append(made["bonding_kg"])
    if layers.board is not None:
        made["boards_kg"] = trace.call(mass_on_area, A=board_area, m=layers.board)
        made["total_kg"] = trace.sum("M", "kg", [*parts, made["boards_kg"]])
    return made


def _adhesive(slip_area: float, joint_area: float, layers: Layers, system: System, trace: Trace) -> float:
    bead = layers.bead
    density = trace.given(system.adhesive.density_kg_per_m3, "/system/adhesive/density_kg_per_m3")
    if bead.bed is not None:
        area = trace.sum("A_bed", "m2", [slip_area, joint_area])
        return trace.call(mass_of_area, A=area, t=bead.bed, rho=density)
    return trace.call(mass_of_beads, n=bead.beads, S=bead.section, A=slip_area, h=bead.slip_height, rho=density)


def piece_masses(boards: BoardLayout, layers: Layers) -> Iterator[PieceMass]:
    """Every piece of board, in the order of the layout."""
    if layers.board is not None:
        for face in boards.faces:
            for piece in face.pieces:
                yield {"what": piece.id, "mass_kg": square_metres(piece.part.area) * layers.board}


def heaviest(singles: Sequence[PieceMass], pieces: Sequence[PieceMass]) -> list[PieceMass]:
    """Single things and the heaviest pieces of board, from the heaviest."""
    few = sorted(pieces, key=_by_mass)[:HEAVIEST]
    return sorted([*singles, *few], key=_by_mass)


def _by_mass(piece: PieceMass) -> tuple[float, str]:
    return -piece["mass_kg"], piece["what"]
