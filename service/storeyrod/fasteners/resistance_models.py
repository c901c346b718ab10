"""Lengths and proof tests of fasteners: what a request says of them, and the rows of the answer."""

from typing import Annotated, Literal, NotRequired

from pydantic import Field
from typing_extensions import TypedDict

from storeyrod.answer import Assumed, Closed
from storeyrod.reference.documents import HOUSE
from storeyrod.units import WHOLE, count, figure, identifier


class FastenerLength(TypedDict):
    """Length of the fasteners and the holes for them; the depths are those of the length chosen, or of the one required where none is held."""

    required_mm: Annotated[
        float, figure("mm", "Thickness of board, levelling and old render, and the depth of anchorage.")
    ]
    chosen_mm: NotRequired[
        Annotated[float, figure("mm", "Shortest length held that is long enough; absent where no lengths are given.")]
    ]
    embedment_mm: Annotated[
        float,
        figure("mm", "Depth in the substrate where it lies deepest; elsewhere up to the levelling more."),
    ]
    hole_depth_mm: Annotated[
        float, figure("mm", "Depth of hole in the substrate where it lies deepest; elsewhere up to the levelling more.")
    ]
    drilling_depth_mm: Annotated[float, figure("mm", "Depth to drill from the face of the board.")]
    drilling: Annotated[str, Field(description="How to drill, by the category of the substrate.")]


class ProofTestFailures(Closed):
    """Fasteners of an elevation that failed their proof test."""

    elevation: Annotated[str, identifier("Id of the elevation.")]
    failures_count: Annotated[int, count(1, 100_000, "Fasteners that failed; rows of one elevation add up."), WHOLE]


class ProofTests(Closed):
    """Proof tests of working fasteners; every elevation is an area of its own."""

    basis: Annotated[
        Literal["fewer_heavier", "more_lighter"],
        Field(
            description="fewer_heavier: 2.5 % and at least 3 of an area at 1.5 times the characteristic action; more_lighter: 5 % and at "
            "least 6 at 1.25 times."
        ),
        Assumed("", HOUSE),
    ] = "fewer_heavier"
    failures: Annotated[
        list[ProofTestFailures],
        Field(
            max_length=1000,
            fail_fast=True,
            description="What failed so far: one failure in an area doubles its tests, two ask for all its fasteners.",
        ),
    ] = []


class ProofTestArea(TypedDict):
    """Proof tests of one elevation. A load is absent where wind was not assessed."""

    elevation: Annotated[str, Field(description="Name of the elevation.")]
    document: Annotated[str, Field(description="Document of the rule.")]
    rule: Annotated[str, Field(description="The rule.")]
    status: Annotated[str, Field(description="How sure the rule is.")]
    fasteners_count: Annotated[int, Field(description="Fasteners of the area.")]
    failures_count: Annotated[int, Field(description="Failures so far, as given.")]
    tests_count: Annotated[int, Field(description="Fasteners to test, those already tested included.")]
    load_factor: Annotated[float, figure("count", "Test load over the characteristic action.")]
    action_kn: NotRequired[
        Annotated[
            float,
            figure("kn", "Characteristic action of wind on the most loaded fastener of the pieces that were assessed."),
        ]
    ]
    test_load_kn: NotRequired[Annotated[float, figure("kn", "Load of each test.")]]
    fasteners: NotRequired[
        Annotated[
            list[str],
            Field(
                description="Ids of those to test, spread over zones and over the elevation: more tests keep those chosen for fewer. "
                "Absent with options.detail summary."
            ),
        ]
    ]
