"""The README's commands and snippets, executed as they stand against a running service."""

import functools
import http.server
import json
import os
import re
import shutil
import subprocess
import sys
import threading
from collections.abc import Iterator
from itertools import product
from pathlib import Path

import pytest

from storeyrod.api.settings import Settings
from storeyrod.demo import served

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
PRINTED_ADDRESS = "http://127.0.0.1:8080"
CHROMIUM = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)


def snippets(language: str) -> list[str]:
    return re.findall(rf"```{language}\n(.*?)```", README, flags=re.DOTALL)


@pytest.fixture(scope="module")
def page_origin(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, Path]]:
    """A merchant's web server: an origin of its own, serving one folder."""
    folder = tmp_path_factory.mktemp("shop")
    handler = functools.partial(_QuietHandler, directory=str(folder))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}", folder
        server.shutdown()


class _QuietHandler(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        """Say nothing."""


@pytest.fixture(scope="module")
def address(page_origin: tuple[str, Path]) -> Iterator[str]:
    with served(Settings(allowed_origins=(page_origin[0],), workers=0, log_requests=False)) as running:
        yield running


def test_the_first_paragraph_states_the_job_before_anything_else() -> None:
    paragraphs = README.split("\n\n")
    assert paragraphs[0].startswith("# ")
    assert "wall" in paragraphs[1]
    assert "order" in paragraphs[1]


def test_the_two_commands_name_files_that_exist() -> None:
    for lock in re.findall(r"--require-hashes -r (\S+)", README):
        assert (ROOT / lock).is_file()


def test_the_demo_prints_the_order_and_writes_the_drawings_of_every_elevation(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "storeyrod", "demo", "--folder", str(tmp_path)]
    printed = subprocess.run(command, capture_output=True, text=True, timeout=120, check=True).stdout
    for role in ("board", "slip", "corner slip", "fastener", "adhesive", "mortar", "sealant", "base trim"):
        assert role in printed
    for kind, name in product(("elevation", "setting-out", "slips", "wind"), ("rear", "left", "right")):
        assert (tmp_path / f"{kind}-{name}.svg").read_text(encoding="utf-8").startswith("<")
        assert f"{kind}-{name}.svg" in printed
    for name in ("load-path.svg", "isotherms-jamb.svg"):
        assert (tmp_path / name).read_text(encoding="utf-8").startswith("<")
    assert re.search(r"jamb of a window: -?0\.\d{3} W/\(m\.K\)", printed)


def test_the_curl_snippet_answers_the_u_value(address: str) -> None:
    (command,) = [block for block in snippets("sh") if "curl" in block]
    assert shutil.which("curl"), "install curl to run this test"
    printed = subprocess.run(
        ["sh", "-c", command.replace(PRINTED_ADDRESS, address)], capture_output=True, timeout=60, check=True
    )
    result = json.loads(printed.stdout)["result"]
    resistance = 0.13 + 0.013 / 0.57 + 0.190 / 1.13 + 0.100 / 0.034 + 0.020 / 0.84 + 0.04
    assert result["u_value_uncorrected_w_per_m2_k"] == pytest.approx(1 / resistance, rel=1e-12)


def test_the_python_snippet_prints_the_slips(address: str) -> None:
    (code,) = snippets("python")
    printed = subprocess.run(
        [sys.executable, "-c", code.replace(PRINTED_ADDRESS, address)],
        capture_output=True,
        text=True,
        timeout=60,
        check=True,
    ).stdout
    assert re.match(r"\d{3} slips\n", printed)


@pytest.mark.skipif(CHROMIUM is None and not os.environ.get("CI"), reason="no Chromium on this machine")
def test_the_html_snippet_fills_in_the_packs(address: str, page_origin: tuple[str, Path], tmp_path: Path) -> None:
    origin, folder = page_origin
    (page,) = snippets("html")
    (folder / "shop.html").write_text(
        f"<!doctype html><meta charset=utf-8>{page.replace(PRINTED_ADDRESS, address)}", encoding="utf-8"
    )
    assert CHROMIUM is not None, "the gate installs Chromium"
    quiet = ["--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-sync"]
    quiet += ["--disable-component-update", "--no-sandbox", f"--user-data-dir={tmp_path}"]
    command = [CHROMIUM, "--headless", *quiet, "--virtual-time-budget=20000", "--dump-dom", f"{origin}/shop.html"]
    dom = subprocess.run(command, capture_output=True, text=True, timeout=120, check=True).stdout
    packs = re.search(r'<output id="packs">(\d+)</output>', dom)
    assert packs is not None
    least = 5.4 * 2.7 * 59.2593 * 1.05 / 50
    assert least <= int(packs.group(1)) <= least + 2
