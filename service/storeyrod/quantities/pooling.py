"""Findings on packs: sizes that are not known, and packs that one order for all elevations saves."""

from collections.abc import Iterator
from typing import Final

from storeyrod.findings import Finding, finding
from storeyrod.quantities.models import OrderLine, QuantitiesResult
from storeyrod.quantities.roles import ROLES, SINGLE
from storeyrod.wall.system import System

_UNIT_WORDS: Final = {"count": "single pieces", "l": "litres", "kg": "kilograms", "m": "metres"}


def line_findings(result: QuantitiesResult, system: System) -> Iterator[Finding]:
    """What the lines of an order ask for, by role."""
    for line in result["lines"]:
        if line["order"] > 0.0 and line.get("pack_unit", SINGLE) == SINGLE:
            yield _unknown(line, system)
        elif "packs_count" in line and len(result["elevations"]) > 1:
            yield from _saved(line, result)


def _unknown(line: OrderLine, system: System) -> Finding:
    field = ROLES[line["role"]].pack
    pointer = "/system/packs" if "packs" in system.model_fields_set else "/system"
    advice = f"Give packs.{field} to have whole packs; the line of {line['role']} is in {_UNIT_WORDS[line['unit']]}."
    return finding("pack-unknown", {"pointer": pointer}, advice=advice)


def _saved(pooled: OrderLine, result: QuantitiesResult) -> Iterator[Finding]:
    apart = sum(
        line["packs_count"]
        for elevation in result["elevations"]
        for line in elevation["lines"]
        if line["role"] == pooled["role"] and line.get("diameter_mm") == pooled.get("diameter_mm")
    )
    saved = apart - pooled["packs_count"]
    if saved > 0:
        role = pooled["role"]
        advice = f"{role}: {pooled['packs_count']} packs in one order, {apart} in one order for each elevation; deliver by elevation."
        yield finding("pooling-saves", {"pointer": "/elevations"}, value=float(saved), unit="count", advice=advice)
