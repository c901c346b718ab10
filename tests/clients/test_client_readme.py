"""The README's example is run, and prints what stands under it."""

import re
import subprocess
import sys
from pathlib import Path

README = Path(__file__).parents[2] / "clients" / "python" / "README.md"


def block(language):
    return re.search(rf"^```{language}\n(.*?)^```", README.read_text(encoding="utf-8"), re.DOTALL | re.MULTILINE)[1]


def test_the_example_prints_what_stands_under_it(served):
    program = block("python").replace("http://127.0.0.1:8080", served)
    run = subprocess.run(
        [sys.executable, "-W", "error", "-c", program], capture_output=True, text=True, check=False, timeout=60
    )
    assert (run.stdout, run.stderr) == (block("text"), "")
