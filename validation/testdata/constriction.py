"""Constriction resistance of a spot in a round column, by an axisymmetric solve.

Why it exists: the joint's formula rho/(4a) (1 - a/b)^1.5, one side of a round
spot of radius a in a column of radius b, is an approximation.  Here the field
is solved, the column's own resistance taken off, and the rest compared.

One side only, the other is its mirror image: the spot is an equipotential at
z = 0, the rest of that face insulated, the far end an equipotential.  Finite
volumes with cells graded towards the spot's rim, where the current density is
singular; three levels, extrapolated.  Lengths in units of b, rho = 1.

Run: python3 constriction.py   (numpy, scipy; about a minute)
"""

import json
import pathlib

import numpy as np
import scipy.sparse as sp
import scipy.sparse.linalg as spla

LENGTH = 4.0  # column length in radii: exp(-3.83 * 4) of the constriction is left


def graded(length, n, smallest):
    """Edges from 0 to length, cells growing geometrically from the given size."""
    lo, hi = 1.0 + 1e-9, 3.0
    for _ in range(200):
        q = (lo + hi) / 2
        lo, hi = (q, hi) if smallest * (q**n - 1) / (q - 1) < length else (lo, q)
    edges = smallest * (q ** np.arange(n + 1) - 1) / (q - 1)
    return edges * length / edges[-1]


def constriction(a, n):
    """4 a R / rho of one side, n cells from the rim each way."""
    smallest = a * 1e-3 * 20 / n
    inner = a - graded(a, n, smallest)[::-1]
    outer = a + graded(1 - a, n, smallest)
    r = np.concatenate([inner, outer[1:]])
    z = graded(LENGTH, 2 * n, smallest)
    nr, nz = len(r) - 1, len(z) - 1
    ring = np.pi * np.diff(r**2)
    dz = np.diff(z)
    rc, zc = (r[1:] + r[:-1]) / 2, (z[1:] + z[:-1]) / 2
    index = np.arange(nr * nz).reshape(nr, nz)

    # Radial: the exact resistance of a ring between the cells' middle radii.
    g_r = 2 * np.pi * dz[None, :] / np.log(rc[1:] / rc[:-1])[:, None]
    g_z = ring[:, None] / np.diff(zc)[None, :]
    i = np.concatenate([index[:-1].ravel(), index[:, :-1].ravel()])
    j = np.concatenate([index[1:].ravel(), index[:, 1:].ravel()])
    g = np.concatenate([g_r.ravel(), g_z.ravel()])
    cells = nr * nz
    matrix = sp.csc_matrix(
        (np.concatenate([g, g, -g, -g]),
         (np.concatenate([i, j, i, j]), np.concatenate([i, j, j, i]))), shape=(cells, cells))
    spot = np.zeros(cells)
    inside = rc < a
    spot[index[inside, 0]] = ring[inside] / (dz[0] / 2)
    far = np.zeros(cells)
    far[index[:, -1]] = ring / (dz[-1] / 2)
    phi = spla.spsolve(matrix + sp.diags(spot + far, format="csc"), far)  # far end at 1, spot at 0
    current = np.sum(spot * phi)
    return 4 * a * (1 / current - LENGTH / np.pi)


def main():
    levels = (40, 80, 160)
    rows = []
    for a in (0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6):
        v = [constriction(a, n) for n in levels]
        observed = np.log2((v[1] - v[0]) / (v[2] - v[1]))
        power = min(max(observed, 1.0), 2.0) if np.isfinite(observed) else 1.0
        solved = v[2] + (v[2] - v[1]) / (2**power - 1)
        formula = (1 - a) ** 1.5
        rows.append({
            "spot_over_column_radius": a,
            "solved": round(solved, 5),
            "last_change": float(f"{v[2] - v[1]:.1e}"),
            "observed_order": round(float(observed), 2),
            "formula": round(formula, 5),
            "formula_error_percent": round(100 * (formula / solved - 1), 2),
            "series": round(1 - 1.40925 * a + 0.33801 * a**3 + 0.06790 * a**5, 5),
        })
    out = {
        "how": "Axisymmetric finite volumes, cells graded to the rim, three levels; made by constriction.py",
        "quantity": "resistance of one side divided by rho/(4 a)",
        "formula": "(1 - a/b)^1.5 = (1 - sqrt(A_c/A_a))^1.5",
        "series": "1 - 1.40925 e + 0.33801 e^3 + 0.06790 e^5, Gibson, Applied Energy 2 (1976); quoted from memory",
        "rows": rows,
    }
    path = pathlib.Path(__file__).with_suffix(".json")
    path.write_text(json.dumps(out, indent=1) + "\n")


if __name__ == "__main__":
    main()
