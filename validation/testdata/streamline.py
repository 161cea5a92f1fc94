"""Spreading factor of two overlapping bars by a plane current solve.

Why it exists: the current of one bar crowds into the overlap, so the overlap
of length l has not the resistance of two bars in parallel.  The factor is

    e = R_overlap / (rho l / (w t)),

R_overlap what remains after both bars' own length outside the overlap is
taken off.  Bars are equal, of thickness t = 1, the face between them is
perfect.  Finite volumes on square cells, three levels, extrapolated with the
4/3 order that the re-entrant corners of 270 degrees leave.

Run: python3 streamline.py   (numpy, scipy; under a minute)
"""

import json
import pathlib

import numpy as np
import scipy.sparse as sp
import scipy.sparse.linalg as spla

ARM = 4  # bar length outside the overlap, in thicknesses: exp(-4 pi) of crowding is left


def factor(overlap, n):
    """Spreading factor for a whole-numbered overlap l/t with n cells through a bar."""
    lower = (slice(0, (ARM + overlap) * n), slice(0, n))
    upper = (slice(ARM * n, (2 * ARM + overlap) * n), slice(n, 2 * n))
    index = np.full(((2 * ARM + overlap) * n, 2 * n), -1)
    index[lower] = 0
    index[upper] = 0
    solid = index == 0
    cells = int(solid.sum())
    index[solid] = np.arange(cells)
    a, b = [], []
    for lo, hi in (((slice(None, -1), slice(None)), (slice(1, None), slice(None))),
                   ((slice(None), slice(None, -1)), (slice(None), slice(1, None)))):
        i, j = index[lo], index[hi]
        use = (i >= 0) & (j >= 0)
        a.append(i[use])
        b.append(j[use])
    a, b = np.concatenate(a), np.concatenate(b)
    ones = np.ones(len(a))
    matrix = sp.csc_matrix(
        (np.concatenate([ones, ones, -ones, -ones]),
         (np.concatenate([a, b, a, b]), np.concatenate([a, b, b, a]))), shape=(cells, cells))
    inlet = index[0][index[0] >= 0]
    outlet = index[-1][index[-1] >= 0]
    ground = np.zeros(cells)
    ground[outlet] = 2.0  # half a cell to the end face
    source = np.zeros(cells)
    source[inlet] = 1.0 / n  # unit current, even
    phi = spla.spsolve(matrix + sp.diags(ground, format="csc"), source)
    resistance = np.mean(phi[inlet]) + 0.5 / n  # half a cell to the inlet face
    return (resistance - 2 * ARM) / overlap


def main():
    levels = (10, 20, 40)
    rows = []
    for overlap in (1, 2, 5, 10):
        e = [factor(overlap, n) for n in levels]
        last = (e[2] - e[1]) / (2 ** (4 / 3) - 1)
        previous = (e[1] - e[0]) / (2 ** (4 / 3) - 1)
        rows.append({
            "overlap_over_thickness": overlap,
            "factor": round(e[2] + last, 5),
            "extrapolation_change": float(f"{e[2] + last - e[1] - previous:.1e}"),
            "levels": [round(v, 6) for v in e],
        })
    out = {
        "how": "Plane finite volumes, 10, 20 and 40 cells through a bar, extrapolated; made by streamline.py",
        "unit": "1",
        "rows": rows,
    }
    path = pathlib.Path(__file__).with_suffix(".json")
    path.write_text(json.dumps(out, indent=1) + "\n")


if __name__ == "__main__":
    main()
