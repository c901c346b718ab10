"""A take-off that stands inside another request: its pointers begin where it stands."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager

from storeyrod.findings import Fault, Finding, Refusal


@contextmanager
def refusals_within(place: str) -> Iterator[None]:
    """Refusals raised inside point into the request that was sent, not into the part of it."""
    try:
        yield
    except Refusal as refusal:
        faults = tuple(Fault(place + fault.pointer, fault.code, fault.detail) for fault in refusal.faults)
        raise Refusal(refusal.slug, refusal.detail, faults) from None


def findings_within(place: str, findings: Sequence[Finding]) -> list[Finding]:
    """The findings with their pointers moved likewise."""
    return [_within(place, item) for item in findings]


def _within(place: str, item: Finding) -> Finding:
    if "pointer" not in item["where"]:
        return item
    moved = item.copy()
    moved["where"] = {**item["where"], "pointer": place + item["where"]["pointer"]}
    return moved
