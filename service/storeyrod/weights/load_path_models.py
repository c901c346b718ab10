"""The load path from slip to structure: links as the request declares them, and how far each is used."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.answer import Closed
from storeyrod.units import figure, quantity

LinkName = Literal[
    "slip_bond",
    "adhesive",
    "board_face",
    "board_core",
    "board_bond",
    "head_pull_through",
    "fastener_shank",
    "pull_out",
    "substrate",
    "structure",
]
"""From outside to inside; ``board_bond`` is the adhesive between boards and substrate, beside the fasteners."""

ActionName = Literal["suction", "weight"]


class ResistanceOfLink(Closed):
    """Characteristic resistance of a link, on a square metre of wall; of slip bond and adhesive on a square metre of bonded area.

    Bonded area is what adhesive covers of the backs of slips; in a bed over all, all of them, and nothing under the joints. That of the bond of boards counts their bonded share already. Pull-out and pull-through are not declared here: they come
    from the fasteners.
    """

    link: Annotated[
        Literal[
            "slip_bond",
            "adhesive",
            "board_face",
            "board_core",
            "board_bond",
            "fastener_shank",
            "substrate",
            "structure",
        ],
        Field(description="Which link holds that much; board_bond: adhesive between boards and substrate."),
    ]
    action: Annotated[ActionName, Field(description="suction: pulled off by wind; weight: sheared down by its load.")]
    resistance_kn_per_m2: Annotated[float, quantity("kn_per_m2", 0.001, 100_000.0, "Characteristic resistance.")]
    gamma_m: Annotated[
        float, quantity("count", 1.0, 10.0, "Partial factor; it depends on the link, so it has no default.")
    ]


class Link(TypedDict):
    """One link under one action."""

    link: Annotated[LinkName, Field(description="Its name.")]
    action: Annotated[ActionName, Field(description="What acts on it.")]
    status: Annotated[
        Literal["assessed", "not_assessed"], Field(description="not_assessed: data is missing; never read as no load.")
    ]
    missing: NotRequired[Annotated[str, Field(description="What is missing; beside a use, what that use leaves out.")]]
    action_kn_per_m2: NotRequired[Annotated[float, figure("kn_per_m2", "Design action on a square metre of wall.")]]
    resistance_kn_per_m2: NotRequired[
        Annotated[float, figure("kn_per_m2", "Design resistance of a square metre of wall.")]
    ]
    piece: NotRequired[Annotated[str, Field(description="Piece of board with the highest use, for fasteners.")]]
    action_kn: NotRequired[Annotated[float, figure("kn", "Design action on that piece.")]]
    resistance_kn: NotRequired[Annotated[float, figure("kn", "Design resistance of its fasteners.")]]
    utilisation_fraction: NotRequired[Annotated[float, figure("fraction", "Action over resistance.")]]


class LoadPath(TypedDict):
    """All links, and the one that is used most of those assessed."""

    links: Annotated[list[Link], Field(description="From outside to inside.")]
    governing_link: NotRequired[
        Annotated[LinkName, Field(description="Highest use of the links assessed; absent where none is.")]
    ]
    governing_action: NotRequired[Annotated[ActionName, Field(description="Its action.")]]
    utilisation_fraction: NotRequired[Annotated[float, figure("fraction", "Its use.")]]
    assessed_count: Annotated[int, Field(description="Links and actions assessed.")]
    partly_assessed_count: Annotated[
        int, Field(description="Those of them whose use leaves something out: it stands in `missing`.")
    ]
    not_assessed_count: Annotated[int, Field(description="Those that were not; the path is only as known as they are.")]
