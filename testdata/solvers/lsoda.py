"""Solves scenarios with LSODA (SciPy, Debian's python3-scipy).

    lsoda.py write [NAME...]   writes reference/NAME.csv
    lsoda.py check [NAME...]   solves again and compares with reference/NAME.csv

Without names: all scenarios.
"""
import csv
import os
import sys

import numpy as np
from scipy.integrate import solve_ivp

from equations import POOLS, equations, jumped, load, start, timeline

HERE = os.path.dirname(os.path.abspath(__file__))
RTOL, ATOL = 1e-9, 1e-12
SAME = 2e-5  # of peak: what a check allows; the files are rounded to 6 digits


def solve(problem, rtol=RTOL, atol=ATOL):
    """Returns the pools at each of the problem's days, and the evaluations it took."""
    days = np.array(problem["Days"])
    out = np.empty((len(days), len(POOLS)))
    y, calls = start(problem), 0
    for t0, t1, segment, jump in timeline(problem, max(days)):
        if jump:
            y = jumped(y, jump)
        if t1 <= t0:
            continue
        here = (days > t0) & (days <= t1)
        at = np.append(days[here], t1)
        r = solve_ivp(equations(problem, segment), (t0, t1), y, "LSODA", np.unique(at), rtol=rtol, atol=atol)
        if not r.success:
            raise RuntimeError(f"{problem['Name']}: day {r.t[-1]}: {r.message}")
        out[here] = r.y.T[:here.sum()]
        y, calls = list(r.y[:, -1]), calls + r.nfev
    return out, calls


def path(kind, name, ending):
    return os.path.join(HERE, kind, f"{name}.{ending}")


def write(name):
    problem = load(path("scenarios", name, "json"))
    out, calls = solve(problem)
    with open(path("reference", name, "csv"), "w", newline="") as f:
        w = csv.writer(f, lineterminator="\n")
        w.writerow(["day"] + POOLS)
        for day, y in zip(problem["Days"], out):
            w.writerow([f"{day:g}"] + [f"{v if abs(v) > 1e-11 else 0:.6g}" for v in y])
    print(f"{name}: {calls} evaluations")


def check(name):
    out, _ = solve(load(path("scenarios", name, "json")))
    kept = np.loadtxt(path("reference", name, "csv"), delimiter=",", skiprows=1)[:, 1:]
    peak = np.maximum(abs(kept).max(axis=0), 1e-9)
    off = (abs(out - kept).max(axis=0) / peak).max()
    print(f"{name}: differs from the kept reference by {off:.1e} of peak")
    return off <= SAME


def main(what, *names):
    names = names or sorted(n.removesuffix(".json") for n in os.listdir(os.path.join(HERE, "scenarios")))
    if what == "write":
        for name in names:
            write(name)
    elif not all([check(name) for name in names]):
        sys.exit("a reference file is not what LSODA makes of its scenario; run testdata/solvers/make")


if __name__ == "__main__":
    if len(sys.argv) < 2 or sys.argv[1] not in ("write", "check"):
        sys.exit(__doc__)
    main(*sys.argv[1:])
