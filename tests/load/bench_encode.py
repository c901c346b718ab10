"""Encoding of 2 000 placed board pieces by the service's encoder, beside orjson alone on tuples and on dicts.

    python tests/load/bench_encode.py [ROUNDS]

Goal: at most twice the tuples. CPU time, interleaved rounds, medians; the ratio is the median over rounds.
"""

import random
import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "service"))

import orjson

from storeyrod.api.envelope import encoded


def pieces(count=2000):
    """Board pieces as the rows that a layout gives."""
    chance = random.Random(1)
    return [
        {
            "id": f"B-{number // 50:02d}-{number % 50:02d}",
            "x_mm": round(chance.uniform(0, 6e4), 1),
            "y_mm": round(chance.uniform(0, 2e4), 1),
            "width_mm": 1200.0,
            "height_mm": 600.0,
            "row": number // 50,
        }
        for number in range(count)
    ]


def seconds(work, content, times=5):
    started = time.process_time()
    for _ in range(times):
        body = work(content)
    return (time.process_time() - started) / times, len(body)


def main(rounds):
    dicts = pieces()
    tuples = [tuple(row.values())[1:] for row in dicts]
    envelope = {"calculation": {}, "result": {"pieces": dicts}, "findings": [], "assumptions": [], "not_checked": []}
    cases = {
        "tuples, orjson": (orjson.dumps, tuples),
        "dicts, orjson": (orjson.dumps, dicts),
        "dicts, service": (encoded, envelope),
    }
    rows = [{name: seconds(*case) for name, case in cases.items()} for _ in range(rounds)]
    for name in cases:
        micros = [row[name][0] * 1e6 for row in rows]
        ratio = statistics.median(row[name][0] / row["tuples, orjson"][0] for row in rows)
        print(
            f"{name:16} {statistics.median(micros):7.0f} us [{min(micros):.0f}-{max(micros):.0f}]  {ratio:.2f} x tuples  {rows[0][name][1]} bytes"
        )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 31)
