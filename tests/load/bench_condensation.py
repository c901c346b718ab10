"""CPU of a year of moisture in CAL, one plain float multiply-add of the same run; goal: at most 5 600 for 40 sub-layers.

Run: python tests/load/bench_condensation.py [ROUNDS]

The kernel is twelve months through a section of 41 planes: temperatures, saturation pressures, strings and what they carry from
month to month, with nothing recorded. Rounds of the kernel and of the loop alternate; a figure is the median over rounds. Below
it, for comparison: the whole answer without and with its working.
"""

import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "service"))
sys.path.insert(0, str(Path(__file__).parents[1]))

from moisture_requests import SLIPS_ON_WOOL, body, by_class, monthly, resistance, solid
from storeyrod.api.memory import settle
from storeyrod.moisture.calculation import calculate, moisture_working
from storeyrod.moisture.course import year_of
from storeyrod.moisture.models import CondensationRequest
from storeyrod.trace import SILENT, Recorder

ITERATIONS = 200_000
TIMES = 60
WALLS = {
    "dries out": body([*SLIPS_ON_WOOL[:2], solid(281, 0.036, 1), *SLIPS_ON_WOOL[3:]]),
    "remains": body(
        [*SLIPS_ON_WOOL[:2], solid(281, 0.036, 1), resistance(0.01, 40.0), SLIPS_ON_WOOL[4]], monthly(by_class(4))
    ),
    "stays dry": body([solid(215, 0.18, 60), solid(281, 0.036, 1), *SLIPS_ON_WOOL[3:]], monthly(by_class(1))),
}


def loop():
    total = 0.0
    for index in range(ITERATIONS):
        total += index * 0.5
    return total


def seconds(run, times):
    start = time.process_time()
    for _ in range(times):
        run()
    return (time.process_time() - start) / times


def main(rounds):
    settle()
    for name, document in WALLS.items():
        request = CondensationRequest.model_validate(document)
        made = moisture_working(request)
        section, periods = made.section, made.periods
        runs = {
            "kernel": lambda section=section, periods=periods: year_of(section, periods),
            "answer": lambda request=request: calculate(request, SILENT),
            "answer with its working": lambda request=request: calculate(request, Recorder()),
        }
        print(f"{name}: {len(section.planes)} planes, verdict {made.course.verdict}, {made.course.greatest:.4f} kg/m2")
        for label, run in runs.items():
            rows = []
            for _ in range(rounds):
                cal = seconds(loop, 1) / ITERATIONS
                rows.append((seconds(run, TIMES if label == "kernel" else 5), cal))
            micros = statistics.median(row[0] for row in rows) * 1e6
            cals = [row[0] / row[1] for row in rows]
            print(f"  {label:24} {micros:9.1f} us {statistics.median(cals):9.0f} CAL [{min(cals):.0f}-{max(cals):.0f}]")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15)
