"""A season by position against the same balance in a spreadsheet people have.

Where a free office suite with its Python bridge is installed: every cell is a formula,
the document is open, and all of it is calculated anew. Elsewhere it says so.
"""

import shutil
import statistics
import subprocess
import tempfile
import time
from functools import partial
from pathlib import Path

import numpy as np
import xlsxwriter

from scheduler.watering.season_run import SeasonInput, season_run
from scheduler.watering.season_run.lanes import season_lanes
from tests.bench.balance import N_DAYS, N_POSITIONS, _season
from tests.bench.harness import Ratio, at_least, at_most, cpu_seconds, report

BRIDGE = "/usr/bin/python3"
FIRST = 4  # row of the first day, as spreadsheets count
# runs in the suite's own Python: opens the document, calculates it anew, reads sums
DRIVER = """
import sys, time, uno
from com.sun.star.beans import PropertyValue
port, path, rounds = sys.argv[1], sys.argv[2], int(sys.argv[3])
local = uno.getComponentContext()
find = local.ServiceManager.createInstanceWithContext(
    "com.sun.star.bridge.UnoUrlResolver", local)
for _ in range(100):
    try:
        context = find.resolve(
            "uno:socket,host=127.0.0.1,port=%s;urp;StarOffice.ComponentContext" % port)
        break
    except Exception:
        time.sleep(0.2)
desktop = context.ServiceManager.createInstanceWithContext(
    "com.sun.star.frame.Desktop", context)
hidden = PropertyValue("Hidden", 0, True, 0)
book = desktop.loadComponentFromURL("file://" + path, "_blank", 0, (hidden,))
book.calculateAll()
for _ in range(rounds):
    begin = time.perf_counter()
    book.calculateAll()
    print("s", time.perf_counter() - begin)
sheets = book.Sheets
for name in sheets.ElementNames:
    print("drained", sheets.getByName(name).getCellByPosition(1, 0).Value)
book.close(True)
try:
    desktop.terminate()
except Exception:
    pass
"""


def _column(index: int) -> str:
    name = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        name = chr(65 + rest) + name
    return name


def _workbook(season: SeasonInput, path: Path) -> None:
    """One sheet a zone: depletion, drained water and stress of every position."""
    book = xlsxwriter.Workbook(str(path))
    for zone in range(season.n_zones):
        _sheet(book.add_worksheet(f"zone{zone + 1}"), season, zone)
    book.close()


def _sheet(
    sheet: "xlsxwriter.worksheet.Worksheet", season: SeasonInput, z: int
) -> None:
    last = FIRST + N_DAYS - 1
    # A1 words, B1 the sum that is read back; row 2 the zone's constants
    constants = (season.total_mm, season.allowed_mm, season.served_share,
                 season.min_per_mm, season.start_mm)  # fmt: skip
    for i, one in enumerate(constants):
        sheet.write_number(1, i, float(one[z]))
    taw, raw, served, per_mm, start = (f"${_column(i)}$2" for i in range(5))
    dep, drain, stress = 5, 6 + N_POSITIONS, 7 + 2 * N_POSITIONS
    shares = [*season.share[0, :, z].tolist(), float(season.served_share[z])]
    for p, share in enumerate(shares):
        sheet.write_number(2, dep + p, share)
    for day in range(N_DAYS):
        row = FIRST + day
        sheet.write_number(row - 1, 0, float(season.etc_mm_per_day[day, z]))
        sheet.write_number(row - 1, 1, float(season.rain_mm[day, z]))
        was = start if day == 0 else f"{_column(dep + N_POSITIONS)}{row - 1}"
        due = f"{was}+A{row}>{raw}"
        sheet.write_formula(
            row - 1, 2, f"=IF({due},ROUND({was}/{served}*{per_mm},0)/{per_mm},0)"
        )
        for p in range(N_POSITIONS + 1):
            cell = _column(dep + p)
            before = start if day == 0 else f"{cell}{row - 1}"
            left = f"{before}-{cell}$3*$C{row}-$B{row}"
            early = f"MAX({left},0)"
            use = f"MIN(MIN(({taw}-{early})/({taw}-{raw}),1)*$A{row},{taw}-{early})"
            sheet.write_formula(row - 1, dep + p, f"={early}+{use}")
            if p < N_POSITIONS:
                sheet.write_formula(row - 1, drain + p, f"=MAX(-({left}),0)")
                dry = f"=IF({taw}-{early}<{taw}-{raw},1,0)"
                sheet.write_formula(row - 1, stress + p, dry)
    area = f"{_column(drain)}{FIRST}:{_column(drain + N_POSITIONS - 1)}{last}"
    sheet.write_formula(0, 1, f"=SUM({area})")


def _recalculated_s(season: SeasonInput, port: int) -> tuple[float, list[float]]:
    """Median time of a full recalculation, and the drained water of each zone."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "season.xlsx"
        _workbook(season, path)
        office = subprocess.Popen(
            ["soffice", "--headless", "--norestore", "--nologo",
             f"-env:UserInstallation=file://{folder}/profile",
             f"--accept=socket,host=127.0.0.1,port={port};urp;"],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        try:
            done = subprocess.run(
                [BRIDGE, "-c", DRIVER, str(port), str(path), "5"],
                capture_output=True, text=True, check=True, timeout=300,
            )  # fmt: skip
        finally:
            office.kill()
            office.wait()
    lines = [line.split() for line in done.stdout.splitlines()]
    times = [float(one[1]) for one in lines if one[0] == "s"]
    return statistics.median(times), [float(x[1]) for x in lines if x[0] == "drained"]


def _wall_s(season: SeasonInput, *, zones: int) -> float:
    run = season_run if zones == 1 else season_lanes
    call = partial(run, season)
    call()
    times = []
    for _ in range(9):
        begin = time.perf_counter()
        call()
        times.append(time.perf_counter() - begin)
    return statistics.median(times)


def _has_bridge() -> bool:
    if shutil.which("soffice") is None or not Path(BRIDGE).exists():
        return False
    found = subprocess.run([BRIDGE, "-c", "import uno"], check=False,
                           capture_output=True)  # fmt: skip
    return found.returncode == 0


def run(*, json: bool) -> None:
    if not _has_bridge():
        report("spreadsheet", [Ratio("not installed here: n/a", 0.0, "", True)],
               as_json=json)  # fmt: skip
        return
    rows: list[Ratio] = []
    for zones, target in ((1, 25), (10, 80)):
        season = _season(zones, 0)
        spent_s, drained = _recalculated_s(season, 2002 + zones)
        ours = season_run(season).percolation_mm.sum(axis=0)
        rows.append(
            at_most(
                f"largest difference in drained water, {zones} zones, relative",
                float(np.max(np.abs(np.array(drained) / ours - 1.0))),
                1e-6,
            )
        )
        gain = spent_s / _wall_s(season, zones=zones)
        rows.append(at_least(f"recalculation over ours, {zones} zones", gain, target))
        rows.append(at_least(f"recalculation, {zones} zones, ms", spent_s * 1e3, 0))
    alone = _season(1, 0)
    ms = cpu_seconds(partial(season_run, alone)) * 1e3
    rows.append(at_most("one zone, ms CPU", ms, 10))
    report("spreadsheet", rows, as_json=json)
