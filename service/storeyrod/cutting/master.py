"""The master problem of column generation: how much of each pattern covers what is wanted with fewest boards, solved by HiGHS."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np
from numpy.typing import NDArray

from storeyrod.cutting.job import Job, Wanted
from storeyrod.cutting.pattern import Cutting, Pattern

if TYPE_CHECKING:
    from highspy import Highs

Floats = NDArray[np.float64]

_SETTINGS: Final[dict[str, bool | int | float | str]] = {
    "output_flag": False,
    "threads": 1,
    "random_seed": 1,
    "solver": "simplex",
    "presolve": "off",
}
"""One thread and a fixed seed, so that equal requests get equal answers."""

_DUAL: Final = 1
_PRIMAL: Final = 4
"""Ways of the simplex method (HiGHS, simplex_strategy): dual after a change of what is wanted, primal after patterns have come in."""

_LESS_THAN_A_BOARD: Final = 1.0 - 1.0e-6
"""Gap at which the integer search may stop: boards are whole."""


@dataclass(frozen=True, slots=True)
class Relaxed:
    """Answer of the master in fractions: boards, the value of one piece of each shape and of one more offcut, and shares of patterns."""

    boards: float
    pieces: Floats
    offcuts: Floats
    shares: Floats


class Master:
    """Patterns found so far, and the linear programme over them."""

    def __init__(self, job: Job) -> None:
        self.patterns: list[Pattern] = []
        self.cells = 0
        self._known: set[tuple[int, tuple[tuple[int, int], ...]]] = set()
        self._shapes = len(job.shapes)
        self._rows = self._shapes + len(job.blanks) - 1
        self._engine = _engine()
        self._strategy = _DUAL
        lower, upper = _limits(job.all_wanted)
        nothing = np.zeros(0, np.int32)
        self._engine.addRows(self._rows, lower, upper, 0, np.zeros(self._rows, np.int32), nothing, np.zeros(0))

    def add(self, patterns: Iterable[Pattern]) -> int:
        """Add patterns that give other pieces than those known; how many there were."""
        new: list[Pattern] = []
        for pattern in patterns:
            if (pattern.blank, pattern.uses) not in self._known:
                self._known.add((pattern.blank, pattern.uses))
                new.append(pattern)
        if new:
            self.patterns += new
            _add(self._engine, new, self._shapes)
        return len(new)

    def want(self, wanted: Wanted) -> None:
        """Cover this from now on."""
        self._strategy = _DUAL
        for row, (lower, upper) in enumerate(zip(*(limit.tolist() for limit in _limits(wanted)), strict=True)):
            self._engine.changeRowBounds(row, lower, upper)

    def solve(self) -> Relaxed:
        """The least boards in fractions of patterns."""
        self._engine.setOptionValue("simplex_strategy", self._strategy)
        self._engine.run()
        self.cells += self._rows * len(self.patterns)
        self._strategy = _PRIMAL
        solution = self._engine.getSolution()
        duals = np.array(solution.row_dual)
        boards = float(self._engine.getInfo().objective_function_value)
        pieces, offcuts = np.maximum(duals[: self._shapes], 0.0), np.minimum(duals[self._shapes :], 0.0)
        return Relaxed(boards, pieces, offcuts, np.array(solution.col_value))

    def whole(self, wanted: Wanted, nodes: int) -> tuple[Cutting | None, int]:
        """Whole numbers of patterns by branch and bound with a limit of nodes, and the nodes it took."""
        from highspy import HighsVarType  # noqa: PLC0415  loaded by those alone who solve

        engine = _engine()
        engine.setOptionValue("presolve", "on")
        engine.setOptionValue("mip_max_nodes", nodes)
        engine.setOptionValue("mip_abs_gap", _LESS_THAN_A_BOARD)
        lower, upper = _limits(wanted)
        nothing = np.zeros(0, np.int32)
        engine.addRows(self._rows, lower, upper, 0, np.zeros(self._rows, np.int32), nothing, np.zeros(0))
        _add(engine, self.patterns, self._shapes)
        count = len(self.patterns)
        kinds = np.full(count, int(HighsVarType.kInteger), np.uint8)
        engine.changeColsIntegrality(count, np.arange(count, dtype=np.int32), kinds)
        engine.run()
        info = engine.getInfo()
        if info.primal_solution_status != _FEASIBLE:
            return None, int(info.mip_node_count)
        counts = np.rint(np.array(engine.getSolution().col_value)).astype(int)
        used = [(self.patterns[index], int(counts[index])) for index in np.flatnonzero(counts)]
        return Cutting(used).trimmed(wanted.pieces), int(info.mip_node_count)


_FEASIBLE: Final = 2
"""Status of a solution that keeps all constraints (HiGHS, SolutionStatus)."""


def _engine() -> "Highs":
    """A solver that writes nothing: the constructor of the package itself prints a line as it sets up callbacks, which are not used."""
    from highspy import Highs  # noqa: PLC0415  loaded by those alone who solve

    class Quiet(Highs):
        def __init__(self) -> None:
            super(Highs, self).__init__()

    engine = Quiet()
    for name, value in _SETTINGS.items():
        engine.setOptionValue(name, value)
    return engine


def _limits(wanted: Wanted) -> tuple[Floats, Floats]:
    """Pieces to be covered, and offcuts not to be exceeded."""
    offcuts = [float(count or 0) for count in wanted.blanks[1:]]
    lower = [*map(float, wanted.pieces), *(-np.inf for _ in offcuts)]
    upper = [*(np.inf for _ in wanted.pieces), *offcuts]
    return np.array(lower), np.array(upper)


def _add(engine: "Highs", patterns: list[Pattern], shapes: int) -> None:
    rows: list[int] = []
    counts: list[float] = []
    starts: list[int] = []
    for pattern in patterns:
        starts.append(len(rows))
        rows += [shape for shape, _ in pattern.uses]
        counts += [float(count) for _, count in pattern.uses]
        if pattern.blank:
            rows.append(shapes + pattern.blank - 1)
            counts.append(1.0)
    costs = np.array([0.0 if pattern.blank else 1.0 for pattern in patterns])
    most = np.full(len(patterns), np.inf)
    index = (np.array(starts, np.int32), np.array(rows, np.int32), np.array(counts))
    engine.addCols(len(patterns), costs, np.zeros(len(patterns)), most, len(rows), *index)
