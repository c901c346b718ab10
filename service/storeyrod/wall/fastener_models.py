"""Fasteners that hold the boards to the substrate: pattern, lengths and resistance. Dimensions only, no products."""

from typing import Annotated, Literal

from pydantic import Field

from storeyrod.answer import Assumed, Closed
from storeyrod.reference.documents import COMMON_PRACTICE, HOUSE, Clause
from storeyrod.units import WHOLE, count, quantity

_ANCHOR_FACTOR = Clause("ETAG 014", "partial factor of the resistance, all substrates", "memory")
_SITE_TESTS = Clause("ETAG 014", "Annex D, tests on site", "memory")
_EDGE_OF_SUBSTRATE = Clause("ETAG 014", "edge distance in the substrate", "memory")

Category = Literal["A", "B", "C", "D", "E"]
"""Use categories of substrate: normal concrete, solid masonry, hollow masonry, lightweight concrete, aerated concrete."""


class PullOut(Closed):
    """Resistance of one fastener to being pulled out of the substrate: declared, or from tests on the site."""

    characteristic_kn: Annotated[
        float | None,
        quantity("kn", 0.001, 100.0, "Declared characteristic resistance; beside tests, what they may not exceed."),
    ] = None
    category: Annotated[
        Category | None,
        Field(description="Category of substrate for which the value is declared; absent: that of the substrate."),
    ] = None
    tests_kn: Annotated[
        list[Annotated[float, quantity("kn", 0.001, 1000.0, "Ultimate load of one test, above zero.")]],
        Field(max_length=1000, fail_fast=True, description="Ultimate loads of all pull-out tests on this substrate."),
    ] = []
    rule: Annotated[
        Literal["insulation_fixing", "general_fixing", "prediction", "tolerance"],
        Field(
            description="What tests come to. insulation_fixing: 0.6 of the mean of the five lowest of at least fifteen, at most 1.5 kN; "
            "general_fixing: 0.5 of that mean, at most the declared value; prediction: 5 % fractile by EN 1990 Annex D, scatter "
            "unknown; tolerance: 5 % fractile with confidence_fraction."
        ),
        Assumed("", _SITE_TESTS, "for fixings of insulation"),
    ] = "insulation_fixing"
    confidence_fraction: Annotated[
        float,
        quantity("fraction", 0.5, 0.999, "Confidence of the fractile by the rule tolerance."),
        Assumed("fraction", HOUSE),
    ] = 0.75
    gamma_m: Annotated[
        float,
        quantity("count", 1.0, 10.0, "Partial factor of the resistance."),
        Assumed("count", _ANCHOR_FACTOR),
    ] = 2.0

    def idle_members(self) -> frozenset[str]:
        """Without tests there is no rule for them; only one rule has a confidence."""
        idle = set() if self.rule == "tolerance" and self.tests_kn else {"confidence_fraction"}
        return frozenset(idle if self.tests_kn else {*idle, "rule"})


class PullThrough(Closed):
    """Resistance of the board round one head: declared from tests of this board with this head, never borrowed."""

    panel_kn: Annotated[float, quantity("kn", 0.001, 100.0, "For a head away from the edges of a piece.")]
    joint_kn: Annotated[
        float | None,
        quantity(
            "kn",
            0.001,
            100.0,
            "For a head near an edge, counted as panel_kn at most; absent: where there are such heads, it is not assessed.",
        ),
    ] = None
    joint_within_mm: Annotated[
        float,
        quantity("mm", 0.0, 1000.0, "Heads closer than this to an edge of their piece count as near an edge."),
        Assumed("mm", HOUSE),
    ] = 100.0
    gamma_m: Annotated[float, quantity("count", 1.0, 10.0, "Partial factor; national, so it has no default.")]


class Fastener(Closed):
    """Fasteners of the boards: their pattern, their lengths, and what they carry."""

    columns_count: Annotated[
        int, count(1, 50, "Fasteners across a full board."), WHOLE, Assumed("count", COMMON_PRACTICE)
    ] = 4
    every_nth_course: Annotated[
        int, count(1, 50, "One row of fasteners every so many courses."), WHOLE, Assumed("count", COMMON_PRACTICE)
    ] = 4
    edge_distance_mm: Annotated[
        float, quantity("mm", 0.0, 500.0, "Least distance from the edge of a piece."), Assumed("mm", HOUSE)
    ] = 50.0
    min_spacing_mm: Annotated[
        float,
        quantity("mm", 0.0, 1000.0, "Least distance between fasteners; under 20 counts as 20."),
        Assumed("mm", HOUSE),
    ] = 100.0
    min_per_piece_count: Annotated[
        int, count(1, 20, "Fasteners that every piece gets at least."), WHOLE, Assumed("count", HOUSE)
    ] = 2
    chi_w_per_k: Annotated[
        float | None, quantity("w_per_k", 0.0, 0.1, "Declared point thermal transmittance of one fastener.")
    ] = None
    substrate_edge_distance_mm: Annotated[
        float,
        quantity(
            "mm",
            0.0,
            1000.0,
            "Least distance from edges of the substrate. Kept at external corners; at openings, free ends, the top of the wall and joints "
            "of the structure as far as a piece has room for it, and named where it has none.",
        ),
        Assumed("mm", _EDGE_OF_SUBSTRATE),
    ] = 100.0
    embedment_mm: Annotated[
        float | None,
        quantity("mm", 5.0, 500.0, "Depth of anchorage in the substrate, behind all that does not count as substrate."),
    ] = None
    hole_beyond_mm: Annotated[
        float | None,
        quantity(
            "mm", 0.0, 100.0, "How far the hole goes beyond the fastener; absent: 10 mm, or 15 mm in hollow masonry."
        ),
    ] = None
    lengths_mm: Annotated[
        list[Annotated[float, quantity("mm", 10.0, 1000.0, "A length that is held.")]],
        Field(max_length=100, fail_fast=True, description="Lengths of fastener that are held, in any order."),
    ] = []
    pull_out: Annotated[
        PullOut | None, Field(description="What the substrate holds; absent: no need is calculated from wind.")
    ] = None
    pull_through: Annotated[
        PullThrough | None, Field(description="What the board holds at a head; absent: pull-through is not assessed.")
    ] = None

    @property
    def distance_from_end(self) -> float:
        """Distance in mm from the end of the substrate: that of the board's edge where it is the larger."""
        return max(self.edge_distance_mm, self.substrate_edge_distance_mm)
