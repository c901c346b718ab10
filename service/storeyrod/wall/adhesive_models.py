"""Adhesive that holds the slips."""

from typing import Annotated, Literal

from pydantic import Field

from storeyrod.answer import Assumed, Closed
from storeyrod.reference.documents import COMMON_PRACTICE, HOUSE
from storeyrod.units import WHOLE, count, quantity


class BeadTriangle(Closed):
    """Section of a bead from a V-notched nozzle."""

    width_mm: Annotated[float, quantity("mm", 1.0, 50.0, "Width at the board.")]
    height_mm: Annotated[float, quantity("mm", 1.0, 50.0, "Height of the bead.")]


class Adhesive(Closed):
    """Adhesive behind the slips: beads, round ones by diameter or triangular ones from a V-notched nozzle, or a bed over all."""

    laid: Annotated[
        Literal["beads", "bed"],
        Field(
            description="beads: as the bead members say; bed: spread over the whole face, compressed_thickness_mm thick, perps and beds "
            "included."
        ),
        Assumed("", COMMON_PRACTICE, "beads"),
    ] = "beads"

    bead_diameter_mm: Annotated[
        float, quantity("mm", 1.0, 50.0, "Diameter of a round bead."), Assumed("mm", COMMON_PRACTICE, "10 to 12 mm")
    ] = 10.0
    bead_triangle: BeadTriangle | None = None
    beads_per_course_count: Annotated[
        int, count(1, 20, "Beads along each course."), WHOLE, Assumed("count", COMMON_PRACTICE)
    ] = 1
    compressed_thickness_mm: Annotated[
        float, quantity("mm", 0.5, 30.0, "Thickness once the slip is pressed home."), Assumed("mm", HOUSE)
    ] = 3.0
    pack_ml: Annotated[
        float,
        quantity("ml", 10.0, 30_000.0, "Contents of one cartridge, foil pack or tub."),
        Assumed("ml", COMMON_PRACTICE),
    ] = 600.0
    density_kg_per_m3: Annotated[
        float, quantity("kg_per_m3", 200.0, 4000.0, "Density of the hardened adhesive."), Assumed("kg_per_m3", HOUSE)
    ] = 1500.0

    def idle_members(self) -> frozenset[str]:
        """A bed over all has no beads."""
        return frozenset({"bead_diameter_mm", "beads_per_course_count"}) if self.laid == "bed" else frozenset()
