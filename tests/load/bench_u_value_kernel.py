"""CPU of the U-value kernel, in plain multiply-adds; goal: at most 150 for eight layers, two of them bridged.

    python tests/load/bench_u_value_kernel.py [ROUNDS]

From thicknesses and conductivities to the U-value with fasteners: resistances, both limits over four heat paths, their
mean, and the 3 % rule, by the functions that every answer without a working passes through. The same wall through the
whole room, with its pointers, findings and assumptions, is printed beside it. The unit is one float multiply-add of a
plain loop, measured in every round, so that the figure carries over to another machine.
"""

import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "service"))

from storeyrod.thermal import kernel
from storeyrod.thermal.calculation import calculate
from storeyrod.thermal.combined import mean_resistance, transmittance
from storeyrod.thermal.corrections import fasteners_by_shank, ignored_below
from storeyrod.thermal.models import UValueRequest
from storeyrod.thermal.resistance import homogeneous

INTERNAL, EXTERNAL = 0.13, 0.04
PLAIN = ((0.0125, 0.25), (0.190, 1.13), (0.005, 0.8), (0.100, 0.034), (0.003, 0.25), (0.020, 0.84))
BRIDGED = ((0.050, ((0.1, 0.13), (0.9, 0.035))), (0.140, ((0.15, 0.13), (0.85, 0.04))))
INSULATION = 3
SHANK = {"lambda_f": 17.0, "A_f": 2e-5, "n_f": 6.0}
CALLS = 20_000
GOAL = 150.0

resistance_of, mean, inverse = homogeneous.function, mean_resistance.function, transmittance.function
fasteners, limit_of = fasteners_by_shank.function, ignored_below.function


def u_value():
    plain = [resistance_of(d=d, lambda_=lambda_) for d, lambda_ in PLAIN]
    bridged = [[(share, resistance_of(d=d, lambda_=lambda_)) for share, lambda_ in parts] for d, parts in BRIDGED]
    common = [INTERNAL, *plain, EXTERNAL]
    lower = kernel.lower_limit([*common, *[kernel.parallel(sections) for sections in bridged]])
    total = mean(R_upper=kernel.upper_limit(kernel.lower_limit(common), bridged), R_lower=lower)
    u = inverse(R_T=total)
    added = fasteners(alpha=0.8, d_0=PLAIN[INSULATION][0], R_1=plain[INSULATION], R_T=total, **SHANK)
    return u + added if added >= limit_of(share=0.03, U=u) else u


def request():
    layers = [
        {"kind": "solid", "name": "layer", "thickness_mm": d * 1000, "conductivity_w_per_m_k": lambda_}
        for d, lambda_ in PLAIN
    ]
    for d, parts in BRIDGED:
        rows = [{"name": "part", "fraction": share, "conductivity_w_per_m_k": lambda_} for share, lambda_ in parts]
        layers.append({"kind": "bridged", "name": "studs", "thickness_mm": d * 1000, "parts": rows})
    shank = {"kind": "calculated", "conductivity_w_per_m_k": 17, "area_mm2": 20, "count_per_m2": 6}
    return UValueRequest.model_validate(
        {
            "build_up": {"element": "wall", "layers": layers},
            "corrections": {"insulation_layer": INSULATION, "fasteners": shank},
        }
    )


def multiply_add():
    x = 0.0
    for i in range(1_000_000):
        x += i * 0.5
    return x


def seconds(function, times):
    started = time.process_time()
    for _ in range(times):
        function()
    return (time.process_time() - started) / times


def main(rounds):
    wall = request()
    answered = calculate(wall).result["u_value_w_per_m2_k"]
    assert abs(answered - u_value()) < 1e-12, (answered, u_value())
    kernels, rooms = [], []
    for _ in range(rounds):
        unit = seconds(multiply_add, 1) / 1_000_000
        kernels.append(seconds(u_value, CALLS) / unit)
        rooms.append(seconds(lambda: calculate(wall), CALLS // 20) / unit)
    print(f"unit   {unit * 1e9:8.1f} ns")
    print(f"kernel {statistics.median(kernels):8.1f} units [{min(kernels):.1f}-{max(kernels):.1f}], goal {GOAL:g}")
    print(f"room   {statistics.median(rooms):8.1f} units [{min(rooms):.1f}-{max(rooms):.1f}]")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 9)
