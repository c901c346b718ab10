"""Inside and outside of a drawn section, and what is odd about its environments and flanks."""

from collections.abc import Iterator, Mapping
from math import hypot
from typing import Final

from storeyrod.findings import Finding, finding, refuse
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.junctions.models import Junction, JunctionSides
from storeyrod.junctions.posed import INSIDE, OUTSIDE
from storeyrod.junctions.section import Section

JUNCTION: Final = "/junction"
_BETWEEN: Final = f"{JUNCTION}/between"


def sides_of(between: JunctionSides | None, temperatures: Mapping[str, float]) -> tuple[int, int]:
    """Positions of inside and outside: as named, else the warmest and the coldest environment.

    Refuses ``environment-unknown``, and ``no-temperature-difference`` where those named are at one temperature.
    """
    names = list(temperatures)
    if between is None:
        return names.index(max(names, key=temperatures.__getitem__)), names.index(
            min(names, key=temperatures.__getitem__)
        )
    for member, name in (("inside", between.inside), ("outside", between.outside)):
        if name not in temperatures:
            raise refuse(
                "environment-unknown",
                f"{_BETWEEN}/{member}",
                f"no boundary faces {name}; the environments are {', '.join(names)}",
            )
    if temperatures[between.inside] == temperatures[between.outside]:
        raise refuse(
            "no-temperature-difference",
            _BETWEEN,
            "inside and outside are at one temperature; name two environments that differ",
        )
    return names.index(between.inside), names.index(between.outside)


def drawn_findings(junction: Junction, section: Section, sides: tuple[int, int]) -> Iterator[Finding]:
    """Names that temperatures contradict, figures that three environments leave out, and flanks longer than the section."""
    names = section.environments
    if junction.between is None and any(
        word in names and names[side] != word for word, side in zip((INSIDE, OUTSIDE), sides, strict=True)
    ):
        yield finding("inside-by-temperature", {"pointer": f"{JUNCTION}/boundaries"})
    if len(names) > len(sides):
        yield finding(
            "temperature-factors-left-out",
            {"pointer": f"{JUNCTION}/boundaries"},
            value=len(names),
            limit=len(sides),
            unit="count",
        )
        if junction.flanks and junction.between is None:
            yield finding("transmittance-left-out", {"pointer": f"{JUNCTION}/flanks"})
    yield from _long_flanks(junction, section)


def _long_flanks(junction: Junction, section: Section) -> Iterator[Finding]:
    longest = _longest(section)
    for at, flank in enumerate(junction.flanks):
        for member in ("internal_length_mm", "external_length_mm"):
            length = getattr(flank, member)
            if ticks(length) > longest:
                pointer = f"{JUNCTION}/flanks/{at}/{member}"
                limit = round(millimetres(longest), 4)
                yield finding("flank-beyond-section", {"pointer": pointer}, value=length, limit=limit, unit="mm")


def _longest(section: Section) -> float:
    """The greatest length that a section could have drawn, in ticks: from corner to corner, or its radius."""
    right, top = max(one.right for one in section.patches), max(one.top for one in section.patches)
    if section.geometry == "axisymmetric":
        return right
    return hypot(right - min(one.left for one in section.patches), top - min(one.bottom for one in section.patches))
