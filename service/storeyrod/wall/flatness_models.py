"""How the answer shows the flatness of the wall behind."""

from typing import Annotated

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.units import figure


class FlatnessRow(TypedDict):
    """A surveyed gap beside published limits: information for levelling, never a verdict."""

    gap_mm: Annotated[float, figure("mm", "As surveyed.")]
    limit_unfinished_mm: Annotated[float, figure("mm", "For unfinished walls at that spacing.")]
    limit_finished_mm: Annotated[float, figure("mm", "For claddings with raised requirements at that spacing.")]
    gap_mm_per_m: Annotated[float, figure("mm_per_m", "The gap on a metre; of shorter spacings the gap itself.")]
    fixing: Annotated[str, Field(description="The way of fixing boards for which a wall of that evenness is usual.")]
    source: Annotated[str, Field(description="Documents of the limits.")]
