"""Slip layouts of an invented block, and of walls that grow a hundredfold, beside plain columns of the same slips by numpy.

Run: python tests/load/bench_slip_layout.py
"""

import statistics
import sys
import time
import tracemalloc
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "service"))

import orjson

from storeyrod.api.memory import settle
from storeyrod.setting_out.calculation import calculate as set_out
from storeyrod.setting_out.models import SettingOutRequest
from storeyrod.slips.calculation import calculate
from storeyrod.slips.models import SlipLayoutRequest

SYSTEM = {
    "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100},
    "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
    "movement_joint": {"width_mm": 10},
}


def windows(columns, rows):
    return [
        {
            "id": f"w{column}-{row}", "kind": "rectangle", "head": "soldier",
            "x_mm": 900 + 2700 * column + 102.5, "y_mm": 900 + 2700 * row, "width_mm": 1135, "height_mm": 1200,
            "reveal": {"left": {"depth_mm": 102.5}, "right": {"depth_mm": 102.5}},
        }
        for column in range(columns)
        for row in range(rows)
    ]  # fmt: skip


def gable(width, eaves, ridge):
    points = [(0, 0), (width, 0), (width, eaves), (width / 2, ridge), (0, eaves)]
    return [{"x_mm": x, "y_mm": y} for x, y in points]


def block():
    """Eight faces of four storeys round a block, two of them gables and two corners internal, with 92 openings."""
    faces = []
    for index in range(8):
        face = {"id": f"face-{index}", "openings": windows(3, 4)}
        if index % 4 == 1:
            face["outline"] = gable(11_240, 11_250, 14_000)
        else:
            face |= {"width_mm": 11_240, "height_mm": 11_250}
        for side, other, corner in (("left", (index - 1) % 8, index), ("right", (index + 1) % 8, (index + 1) % 8)):
            kind = "internal_corner" if corner % 4 == 3 else "external_corner"
            face[f"{side}_edge"] = {"kind": kind, "to": f"face-{other}:{'right' if side == 'left' else 'left'}"}
        faces.append(face)
    faces[0]["openings"] = windows(2, 4)
    return faces


def timed(elevations, options, rounds):
    request = SlipLayoutRequest.model_validate({"elevations": elevations, "system": SYSTEM, "options": options})
    times = []
    for _ in range(rounds):
        start = time.process_time()
        answer = calculate(request)
        laid = time.process_time()
        body = orjson.dumps(answer.result, default=float)
        times.append((laid - start, time.process_time() - laid))
    pieces = answer.result["pieces"]["face_pieces_count"] + answer.result["soldiers_count"]
    return pieces, statistics.median(t for t, _ in times), statistics.median(t for _, t in times), len(body)


def floor_seconds(slips):
    """Columns of x, y and length of as many slips by numpy, no openings and no rules."""
    import numpy as np

    courses, per_course = 150, max(1, slips // 1500)
    times = []
    for _ in range(20):
        start = time.process_time()
        for _ in range(10):
            x = np.arange(per_course)[None, :] * 225.0 - (np.arange(courses) % 2)[:, None] * 112.5
            left = np.clip(x, 0, per_course * 225.0)
            right = np.clip(x + 215.0, 0, per_course * 225.0)
            keep = right - left > 1e-6
            y = np.broadcast_to((np.arange(courses) * 75.0)[:, None], x.shape)
            _ = left[keep], y[keep], (right - left)[keep]
        times.append(time.process_time() - start)
    return statistics.median(times)


def peak_memory(elevations):
    """Most bytes that Python objects of one calculation held at once."""
    request = SlipLayoutRequest.model_validate({"elevations": elevations, "system": SYSTEM})
    calculate(request)
    tracemalloc.start()
    calculate(request)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return peak


def main():
    # As in a process that serves requests.
    settle()
    for detail in ("summary", "pieces"):
        for perps in ("nominal", "equalised"):
            floor = floor_seconds(56_000)
            pieces, laying, encoding, size = timed(block(), {"detail": detail, "perps": perps}, 25)
            floor = min(floor, floor_seconds(pieces))
            print(
                f"block {detail:8} {perps:9} {pieces} slips: {laying * 1e3:.1f} ms laying, {encoding * 1e3:.1f} ms encoding, "
                f"{size / 1e3:.0f} kB, floor {floor * 1e3:.2f} ms, ratio {(laying + encoding) / floor:.0f}"
            )
    request = SettingOutRequest.model_validate(
        {"elevations": block(), "system": SYSTEM, "options": {"perps": "equalised"}}
    )
    start = time.process_time()
    set_out(request)
    print(f"setting out of the block: {(time.process_time() - start) * 1e3:.0f} ms")
    one = {"width_mm": 11_240, "height_mm": 11_250, "openings": windows(3, 4)}
    alone = timed([{"id": "0", **one}], {}, 25)[1]
    many = timed([{"id": f"{index}", **one} for index in range(100)], {}, 3)[1]
    print(f"1 wall {alone * 1e3:.1f} ms, 100 walls {many * 1e3:.0f} ms, ratio {many / alone:.0f}")
    peaks = [peak_memory([{"id": f"{index}", **one} for index in range(count)]) / 1e6 for count in (1, 10, 100)]
    print("peak memory of 1, 10 and 100 walls: " + ", ".join(f"{peak:.2f} MB" for peak in peaks))


if __name__ == "__main__":
    main()
