"""Options that every operation takes, by the same names."""

from typing import Annotated, Literal

from pydantic import Field

from storeyrod.answer import Closed


class Options(Closed):
    """How to answer: amount of working and detail, treatment of perps, and whether cautions refuse the request."""

    trace: Annotated[
        Literal["none", "steps"], Field(description="steps: the working of every figure comes back as a linked list.")
    ] = "none"
    detail: Annotated[
        Literal["summary", "pieces"],
        Field(
            description="pieces: every piece with its position; summary: totals and lists only. Setting out places no pieces and "
            "answers alike."
        ),
    ] = "pieces"
    perps: Annotated[
        Literal["nominal", "equalised"],
        Field(
            description="nominal: perps as given, cuts where they fall; equalised: as it is to be built, with equal perps inside "
            "their limits, a closing bond where those do not come out, and the bond carried round the corners."
        ),
    ] = "nominal"
    effort: Annotated[
        Literal["quick", "standard", "thorough"],
        Field(
            description="How far a search goes. For fewer boards, quick: a heuristic and bounds by area and by large pieces; standard: "
            "patterns by column generation, with a bound for any guillotine cutting; thorough: the same with more patterns and more tries at "
            "rounding. For heat through a junction: how little the heat flow may still change when the mesh is doubled, 1 % (quick), 0.2 % "
            "(standard), 0.05 % (thorough). Limits are numbers of patterns, pricings and nodes, never time: equal requests get equal "
            "answers."
        ),
    ] = "standard"
    strict: Annotated[bool, Field(strict=True, description="true: any caution refuses the request.")] = False
