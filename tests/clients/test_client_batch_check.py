"""The worked script: every line comes back, and a bad one spoils no other."""

import csv
import functools
import importlib.util
import socket
import subprocess
import sys
from pathlib import Path
from unittest import mock

import pytest
from hypothesis import given
from hypothesis import strategies as st

from storeyrod_client import Client

EXAMPLES = Path(__file__).parents[2] / "clients" / "python" / "examples"
HEADER = "reference,elevation,width_mm,height_mm,openings,billed_m2"
GOOD = "1,north,5400,2700,1800 900 1135 1200,13.218"


def loaded():
    spec = importlib.util.spec_from_file_location("batch_check", EXAMPLES / "batch_check.py")
    module = importlib.util.module_from_spec(spec)
    sys.modules["batch_check"] = module
    spec.loader.exec_module(module)
    return module


batch_check = loaded()


@pytest.fixture
def check(served, tmp_path):
    """Status and rows for lines of text or bytes."""

    def run(*lines, header=HEADER, address=served, options=()):
        walls, verdicts = tmp_path / "walls.csv", tmp_path / "verdicts.csv"
        walls.write_bytes(
            b"\n".join(line if isinstance(line, bytes) else line.encode() for line in (header, *lines)) + b"\n"
        )
        status = batch_check.main([str(walls), str(verdicts), "--base-url", address, "--replace", *options])
        with verdicts.open(encoding="utf-8", newline="") as text:
            return status, list(csv.DictReader(text))

    return run


def test_the_invented_walls_get_their_verdicts(served, tmp_path):
    verdicts = tmp_path / "verdicts.csv"
    command = [
        sys.executable,
        "-W",
        "error",
        EXAMPLES / "batch_check.py",
        EXAMPLES / "walls.csv",
        verdicts,
        "--base-url",
        served,
    ]
    run = subprocess.run(command, capture_output=True, text=True, check=False, timeout=60)
    assert (run.returncode, run.stdout) == (1, "")
    assert "3 agrees, 2 not_measured, 2 over_billed, 1 under_billed" in run.stderr
    with verdicts.open(encoding="utf-8", newline="") as text:
        rows = list(csv.DictReader(text))
    # Width times height less openings, by hand.
    assert [(row["reference"], row["verdict"], row["measured_m2"], row["difference_m2"]) for row in rows] == [
        ("1.1", "agrees", "13.218", "0.002"),
        ("1.2", "agrees", "13.995", "0.005"),
        ("1.3", "agrees", "11.475", "0.005"),
        ("1.4", "over_billed", "10.113", "1.367"),
        ("1.5", "over_billed", "9.360", "1.000"),
        ("1.6", "not_measured", "", ""),
        ("1.7", "not_measured", "", ""),
        ("1.8", "under_billed", "16.200", "-3.600"),
    ]
    assert rows[3]["note"] == "openings may not have been deducted"
    assert rows[5]["note"].startswith("opening 1, height_mm: '2,100'")
    assert rows[6]["note"].startswith("opening-outside-outline: /elevations/0/openings/0")
    assert all(row["request_id"] for row in rows if row["verdict"] != "not_measured")


@pytest.mark.parametrize(
    "line",
    [
        "",
        "2,b",
        "2,b,1,2,,3,too many",
        '2,"b,5400,2700,,14.58',
        b"2,\xff,5400,2700,,14.58",
        "2,b,nan,2700,,14.58",
        "2,b,1e5,2700,,14.58",
        "2,b,5400,2700,1 2 3,14.58",
        "2,b,5400,2700,,",
        "2,b\0,5400,2700,,14.58",
        "2,,5400,2700,,14.58",
        "2,b,-5400,2700,,14.58",
        "2,b,5400,2700,0 0 9000 100,14.58",
        f"2,{'b' * 200_000},5400,2700,,14.58",
    ],
    ids=[
        "empty", "few cells", "many cells", "open quotation", "not UTF-8", "nan", "exponent", "opening", "no bill", "NUL", "no id",
        "negative", "outside", "long",
    ],
)  # fmt: skip
def test_a_bad_line_gets_its_problem_and_spoils_no_other(check, line):
    status, rows = check(GOOD, line, GOOD)
    assert status == 1
    assert [row["verdict"] for row in rows] == ["agrees", "not_measured", "agrees"]
    assert rows[1]["note"]


def test_line_ends_and_byte_order_mark_of_a_spreadsheet_are_read(check):
    status, rows = check(GOOD + "\r", header="\ufeff" + HEADER + "\r")
    assert (status, [row["verdict"] for row in rows]) == (0, ["agrees"])


def test_semicolons_may_separate_cells(check):
    line = '1;north;5400;2700;"1800 900 1135 1200; 4000 0 910 2100";11.307'
    status, rows = check(line, header=HEADER.replace(",", ";"), options=("--delimiter", ";"))
    assert (status, rows[0]["measured_m2"]) == (0, "11.307")


def test_the_tolerance_is_a_share_of_the_measured_area(check):
    line = "1,north,5000,2000,,10.2"
    assert check(line, options=("--tolerance-percent", "2"))[1][0]["verdict"] == "agrees"
    assert check(line, options=("--tolerance-percent", "1.9"))[1][0]["verdict"] == "over_billed"


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r"])
def test_text_that_a_spreadsheet_would_run_is_neutralised(check, start):
    rows = check(f'"{start}1+1",north,5400,2700,1800 900 1135 1200,13.218')[1]
    assert rows[0]["reference"] == f"'{start}1+1"
    assert rows[0]["verdict"] == "agrees"


def test_a_negative_difference_stays_a_number(check):
    assert check("1,a,5000,2000,,4")[1][0]["difference_m2"] == "-6.000"


@given(st.lists(st.binary(max_size=40).filter(lambda line: b"\n" not in line), max_size=8))
def test_as_many_rows_as_lines_whatever_the_lines(lines):
    class Nobody:
        def compute_take_off(self, _request):
            raise batch_check.StoreyrodError("nobody asked")

    header = HEADER.split(",")
    chosen = batch_check._parser().parse_args(["a", "b", "--base-url", "c"])
    with mock.patch.object(batch_check, "_with_progress", iter):
        rows = list(batch_check._checked(Nobody(), {}, chosen, header, lines))
    assert [row["verdict"] for row in rows] == ["not_measured"] * len(lines)


def test_once_the_service_is_gone_the_rest_is_not_asked_but_kept(check, monkeypatch):
    with socket.create_server(("127.0.0.1", 0)) as unused:
        port = unused.getsockname()[1]
    monkeypatch.setattr(batch_check, "Client", functools.partial(Client, sleep=lambda _seconds: None))
    status, rows = check(GOOD, GOOD, address=f"http://127.0.0.1:{port}")
    assert (status, len(rows)) == (1, 2)
    assert rows[1]["note"] == "not asked: the service cannot be reached"


@pytest.mark.parametrize(
    ("header", "address"),
    [("reference,width_mm", "http://127.0.0.1:1"), (HEADER + ",verdict", "http://127.0.0.1:1"), (HEADER, "nowhere")],
    ids=["column missing", "column taken", "address"],
)
def test_what_cannot_start_says_so_and_writes_nothing(tmp_path, capsys, header, address):
    walls, verdicts = tmp_path / "walls.csv", tmp_path / "verdicts.csv"
    walls.write_text(f"{header}\n{GOOD}\n", encoding="utf-8")
    assert batch_check.main([str(walls), str(verdicts), "--base-url", address]) == 2
    assert capsys.readouterr().err.startswith("batch_check: ")
    assert not verdicts.exists()


def test_an_existing_file_is_not_written_over(tmp_path):
    walls, verdicts = tmp_path / "walls.csv", tmp_path / "verdicts.csv"
    walls.write_text(f"{HEADER}\n{GOOD}\n", encoding="utf-8")
    verdicts.write_text("mine", encoding="utf-8")
    assert batch_check.main([str(walls), str(verdicts), "--base-url", "http://127.0.0.1:1"]) == 2
    assert verdicts.read_text(encoding="utf-8") == "mine"
