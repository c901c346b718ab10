"""Blanks given back: where all pieces of an offcut or a board find room in what the others leave, it need not be cut."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.cutting.filling import beside
from storeyrod.cutting.job import Job
from storeyrod.cutting.lie import Part, lie
from storeyrod.cutting.pattern import Cutting, Pattern
from storeyrod.cutting.plan import Place
from storeyrod.cutting.sawing import sawing_of

MOST_TRIED: Final = 20
"""Kinds of blanks tried, those with least in them first: few that are full can be given back."""


@dataclass(frozen=True, slots=True)
class _Host:
    """A pattern, and the parts that it leaves."""

    pattern: Pattern
    free: tuple[Part, ...]


def gathered(cutting: Cutting, job: Job, bound: int) -> Cutting:
    """The same pieces from fewer blanks: offcuts are given back where that goes, boards only while there are more than the bound."""
    hosts: dict[_Host, int] = {}
    for pattern, count in cutting.used:
        host = _Host(pattern, _free(pattern, job))
        hosts[host] = hosts.get(host, 0) + count
    bought = cutting.bought
    for host in sorted(hosts, key=lambda host: (host.pattern.blank == 0, _area(host.pattern, job)))[:MOST_TRIED]:
        while hosts.get(host) and (host.pattern.blank or bought > bound):
            others = _without(hosts, host)
            if not all(_moved(place.item, others, job) for place in _largest_first(host.pattern, job)):
                break
            hosts = others
            bought -= host.pattern.blank == 0
    return Cutting([(host.pattern, count) for host, count in hosts.items()])


def _free(pattern: Pattern, job: Job) -> tuple[Part, ...]:
    pieces = [Part(p.x, p.y, job.shapes[p.item].width, job.shapes[p.item].height) for p in pattern.places]
    rests = sawing_of(job.blanks[pattern.blank], pieces, job.saw.kerf).rests
    return tuple(Part(rest.x, rest.y, rest.width, rest.height) for rest in rests)


def _area(pattern: Pattern, job: Job) -> float:
    return sum(job.shapes[place.item].width * job.shapes[place.item].height for place in pattern.places)


def _largest_first(pattern: Pattern, job: Job) -> Sequence[Place]:
    return sorted(pattern.places, key=lambda place: place.item)


def _without(hosts: dict[_Host, int], host: _Host) -> dict[_Host, int]:
    """All blanks but one."""
    others = dict(hosts)
    others[host] -= 1
    if not others[host]:
        del others[host]
    return others


def _moved(shape: int, hosts: dict[_Host, int], job: Job) -> bool:
    """Whether a piece found room: in the part that it fills best."""
    item = job.shapes[shape]
    options = [
        (part.width * part.height, number, host, part, spot)
        for number, host in enumerate(hosts)
        for part in host.free
        if (spot := lie(item, part, job.blanks[host.pattern.blank], job.saw)) is not None
    ]
    if not options:
        return False
    _, _, host, part, spot = min(options, key=lambda option: option[:2])
    rest = beside(part, Part(*spot, item.width, item.height), job.saw.kerf, "larger")
    free = tuple(other for other in host.free if other != part)
    fuller = _Host(Pattern(host.pattern.blank, (*host.pattern.places, Place(shape, *spot))), (*free, *rest))
    hosts[host] -= 1
    if not hosts[host]:
        del hosts[host]
    hosts[fuller] = hosts.get(fuller, 0) + 1
    return True
