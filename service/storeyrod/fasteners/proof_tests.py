"""Proof tests of working fasteners: how many of an area, at what load, and which."""

import math
from dataclasses import dataclass
from typing import Final

from storeyrod.fasteners.face_fasteners import FaceFasteners
from storeyrod.fasteners.resistance_models import ProofTestArea, ProofTests
from storeyrod.fasteners.schedule import FastenerSchedule
from storeyrod.findings import Finding, finding, refuse
from storeyrod.geometry.ticks import ROUNDING_GUARD
from storeyrod.reference.documents import GEOMETRY, Clause
from storeyrod.trace import SILENT, Trace, formula

RULE: Final = Clause("BS 8539", "Annex B.3, as quoted by another text: not read itself", "memory")
_LIGHTER: Final = Clause(
    "BS 8539", f"{RULE.number}; its least number is not known here and taken twice that of heavier tests", "memory"
)
POINTER: Final = "/proof_tests"


@dataclass(frozen=True, slots=True)
class Regime:
    """Share of the fasteners of an area that is tested, the least number, and test load over characteristic action."""

    share: float
    least: float
    factor: float
    clause: Clause = RULE


REGIMES: Final = {
    "fewer_heavier": Regime(0.025, 3.0, 1.5),
    "more_lighter": Regime(0.05, 6.0, 1.25, _LIGHTER),
}


@formula(
    symbol="n_test",
    expression="Min(n, Max(n_least, ceiling(p*n - tolerance)))",
    unit="count",
    inputs={"n": "count", "n_least": "count", "p": "fraction", "tolerance": "count"},
    clause=RULE,
)
def share_tested(*, n: float, n_least: float, p: float, tolerance: float) -> float:
    """Tests of an area of n fasteners: a share rounded up, and a least number."""
    return min(n, max(n_least, math.ceil(p * n - tolerance)))


@formula(
    symbol="N_k",
    expression="F_d/(gamma*n)",
    unit="kn",
    inputs={"F_d": "kn", "gamma": "count", "n": "count"},
    clause=GEOMETRY,
)
def action_on_fastener(*, F_d: float, gamma: float, n: float) -> float:  # noqa: N803  symbol of the formula
    """Characteristic action on one of n fasteners that share a design action."""
    return F_d / (gamma * n)


@formula(symbol="N_test", expression="k*N_k", unit="kn", inputs={"k": "count", "N_k": "kn"}, clause=RULE)
def load_of_test(*, k: float, N_k: float) -> float:  # noqa: N803  symbol of the formula
    """Load of a proof test."""
    return k * N_k


def proof_tests_of(
    schedule: FastenerSchedule, wanted: ProofTests, trace: Trace = SILENT, *, named: bool = True
) -> list[ProofTestArea]:
    """Proof tests of every elevation that has fasteners; ``named`` lists which.

    Raises ``reference-unknown`` for failures on an elevation that is not there, ``failures-too-many`` for more than it has fasteners.
    """
    failures = _failures_by_elevation(schedule, wanted)
    regime = REGIMES[wanted.basis]
    return [
        _area(face, regime, failures.get(face.face.id, 0), schedule, trace, named=named)
        for face in schedule.faces
        if face.total
    ]


def failure_findings(wanted: ProofTests) -> list[Finding]:
    """Failures of proof tests, each elevation once."""
    first = {row.elevation: index for index, row in reversed(list(enumerate(wanted.failures)))}
    return [
        finding("proof-test-failed", {"pointer": f"{POINTER}/failures/{index}", "elevation": name})
        for name, index in sorted(first.items(), key=lambda item: item[1])
    ]


def chosen(number: int, tests: int) -> list[int]:
    """Indices of fasteners to test among ``number`` in order: any two neighbours are less than twice the even step apart.

    A larger number of tests keeps those of a smaller one: indices follow the fractions 0, 1/2, 1/4, 3/4, 1/8 and so on, whose
    binary digits are those of 0, 1, 2, 3, 4 reversed.
    """
    digits = max(number - 1, 1).bit_length()
    found: dict[int, None] = {}
    for turn in range(2**digits):
        if len(found) >= min(tests, number):
            break
        reversed_turn = int(f"{turn:0{digits}b}"[::-1], 2)
        found[reversed_turn * number >> digits] = None
    return sorted(found)


def _failures_by_elevation(schedule: FastenerSchedule, wanted: ProofTests) -> dict[str, int]:
    known = {face.face.id: face.total for face in schedule.faces}
    totals: dict[str, int] = {}
    for index, row in enumerate(wanted.failures):
        if row.elevation not in known:
            pointer = f"{POINTER}/failures/{index}/elevation"
            raise refuse("reference-unknown", pointer, "No elevation of this request has this id; use one of them.")
        totals[row.elevation] = totals.get(row.elevation, 0) + row.failures_count
        if totals[row.elevation] > known[row.elevation]:
            pointer = f"{POINTER}/failures/{index}/failures_count"
            detail = (
                f"{totals[row.elevation]} failures on {row.elevation}, which has {known[row.elevation]} fasteners in all; a fastener fails "
                "once: count it once."
            )
            raise refuse("failures-too-many", pointer, detail)
    return totals


def _area(
    face: FaceFasteners, regime: Regime, failures: int, schedule: FastenerSchedule, trace: Trace, *, named: bool
) -> ProofTestArea:
    tests = _tests(face, regime, failures, trace)
    row: ProofTestArea = {
        "elevation": face.face.id,
        "document": regime.clause.document,
        "rule": regime.clause.number,
        "status": regime.clause.status,
        "fasteners_count": face.total,
        "failures_count": failures,
        "tests_count": tests,
        "load_factor": regime.factor,
    }
    action = _greatest_action(face, schedule, trace)
    if action is not None:
        factor = trace.lookup("k", regime.factor, "count", regime.clause)
        row["action_kn"] = action
        row["test_load_kn"] = trace.call(load_of_test, k=factor, N_k=action)
    if named:
        ids = _by_zone(face)
        row["fasteners"] = [ids[index] for index in chosen(len(ids), tests)]
    return row


def _tests(face: FaceFasteners, regime: Regime, failures: int, trace: Trace) -> int:
    """One failure doubles share and least number; after more all are tested."""
    times = float(failures + 1)
    share, least = (regime.share * times, regime.least * times) if failures <= 1 else (1.0, float(face.total))
    return int(
        trace.call(
            share_tested,
            n=trace.count("n", [("fasteners", face.total, face.face.pointer)]),
            n_least=trace.lookup("n_least", least, "count", regime.clause),
            p=trace.lookup("p", share, "fraction", regime.clause),
            tolerance=trace.lookup("tolerance", ROUNDING_GUARD, "count", GEOMETRY),
        )
    )


def _greatest_action(face: FaceFasteners, schedule: FastenerSchedule, trace: Trace) -> float | None:
    """Characteristic action on a fastener of the piece where it is greatest."""
    held = [(kind.need.action / kind.total, kind) for kind in face.different if kind.need is not None and kind.total]
    if not held:
        return None
    _, kind = max(held, key=lambda item: item[0])
    return trace.call(
        action_on_fastener,
        F_d=kind.need.action if kind.need is not None else 0.0,
        gamma=trace.given(schedule.loads.factors.wind, "/partial_factors/wind"),
        n=trace.count("n", [(f"fasteners of {kind.piece.id}", kind.total, face.face.pointer)]),
    )


def _by_zone(face: FaceFasteners) -> list[str]:
    """Ids of fasteners, zone by zone from A, within a zone in the order of the schedule."""
    pieces = sorted(face.pieces, key=lambda one: one.need.patch.zone if one.need is not None else _NOT_ASSESSED)
    return [name for one in pieces for name in one.ids]


_NOT_ASSESSED: Final = "~"
"""Sorts behind all names of zones."""
