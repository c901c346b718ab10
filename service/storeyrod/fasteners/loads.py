"""What a request says of what acts on the fasteners and of what they are driven into."""

from dataclasses import dataclass
from typing import Final

from storeyrod.wall.substrate_models import PartialFactors, Substrate
from storeyrod.wind.site_models import AnyWind

USUAL_FACTORS: Final = PartialFactors()


@dataclass(frozen=True, slots=True)
class Loads:
    """Wind, substrate and partial factors; without wind fasteners follow the common pattern alone."""

    wind: AnyWind | None = None
    substrate: Substrate | None = None
    factors: PartialFactors = USUAL_FACTORS


NO_LOADS: Final = Loads()
