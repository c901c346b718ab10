"""What a request says of the site."""

from typing import Annotated

from storeyrod.answer import Closed
from storeyrod.units import quantity, words


class Site(Closed):
    """Where the building stands and what it is used for; what is missing is taken as the strictest."""

    jurisdiction: Annotated[str | None, words(80, "Whose building code holds.")] = None
    top_storey_height_m: Annotated[
        float | None, quantity("m", 0.0, 1000.0, "Height of the top storey by the rule of the local code.")
    ] = None
    boundary_distance_m: Annotated[
        float | None, quantity("m", 0.0, 100_000.0, "Distance from the nearest boundary.")
    ] = None
    use: Annotated[str | None, words(80, "What the building is used for.")] = None
