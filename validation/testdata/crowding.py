"""Crowding of 60 Hz in bars side by side: alternating over direct resistance.

Each bar is cut into filaments along the current. A filament of sides a, b has
the geometric mean distance 0.2235 (a + b) from itself (Grover, Inductance
Calculations, 1946), two at a distance d have d. With the voltage along all of them the same,

    (R_k + j w L_kk) I_k + j w sum_m L_km I_m = V,   L_km = -(mu0/2 pi) ln d_km

gives the currents, and the ratio is sum |I_k|^2 R_k over that of even currents. The
return is far away, as the ratings take it. Both mirror symmetries are used.
Plain Python 3: python3 crowding.py
"""
import json
import math

MU0 = 4e-7 * math.pi
FREQUENCY = 60.0


def solve(a, b):
    """Gaussian elimination with partial pivoting, in place."""
    n = len(b)
    for k in range(n):
        p = max(range(k, n), key=lambda i: abs(a[i][k]))
        a[k], a[p], b[k], b[p] = a[p], a[k], b[p], b[k]
        row, pivot = a[k], a[k][k]
        for i in range(k + 1, n):
            f = a[i][k] / pivot
            if f != 0:
                ri = a[i]
                for j in range(k + 1, n):
                    ri[j] -= f * row[j]
                b[i] -= f * b[k]
    for k in reversed(range(n)):
        s = b[k] - sum(a[k][j] * b[j] for j in range(k + 1, n))
        b[k] = s / a[k][k]
    return b


def ratio(bars, width, thickness, gap, rho, across, through):
    """across and through are filaments of a bar; both even."""
    edges = [width / 2 * (1 - math.cos(math.pi * i / across)) for i in range(across + 1)]
    cells = []  # x through the bars, y across, sides
    for n in range(bars):
        for i in range(through):
            for j in range(across):
                cells.append((n * (thickness + gap) + (i + 0.5) * thickness / through,
                              (edges[j] + edges[j + 1]) / 2, thickness / through, edges[j + 1] - edges[j]))
    depth = bars * thickness + (bars - 1) * gap
    own = [c for c in cells if c[0] < depth / 2 and c[1] < width / 2]
    assert 4 * len(own) == len(cells)

    def log_distance(c, x, y):
        d = math.hypot(c[0] - x, c[1] - y)
        return math.log(d if d > 1e-9 else 0.2235 * (c[2] + c[3]))

    w = 2 * math.pi * FREQUENCY
    a, r = [], []
    for c in own:
        row = []
        for o in own:
            s = sum(log_distance(c, x, y) for x in (o[0], depth - o[0]) for y in (o[1], width - o[1]))
            row.append(-1j * w * MU0 / (2 * math.pi) * s)
        a.append(row)
        r.append(rho / (c[2] * c[3]))
    for k in range(len(own)):
        a[k][k] += r[k]
    current = solve(a, [1 + 0j] * len(own))
    total = 4 * sum(current)
    heat = 4 * sum(abs(i) ** 2 * x for i, x in zip(current, r)) / abs(total) ** 2
    return heat * bars * width * thickness / rho


def resistivity(share, celsius):
    """Copper of a share of 100 % IACS, IEC 60028."""
    return 1 / 58e6 / share * (1 + 0.00393 * share * (celsius - 20))


def main():
    out = []
    for bars, width, thickness, gap, share, celsius in (
            [(n, 101.6, 6.35, 6.35, 0.99, 40 + rise) for n in (1, 2, 3, 4) for rise in (30, 50, 65)] +
            [(n, w, t, t, 56 / 58, 65) for w, t in ((20, 5), (30, 5), (40, 10), (60, 10), (100, 10)) for n in (1, 2)]):
        args = bars, width / 1e3, thickness / 1e3, gap / 1e3, resistivity(share, celsius)
        coarse, fine = ratio(*args, 24, 4), ratio(*args, 36, 6)
        out.append({"bars": bars, "width_mm": width, "thickness_mm": thickness, "gap_mm": gap, "celsius": celsius,
                    "ratio": round(fine, 4), "last_change": round(fine - coarse, 5)})
        print(out[-1], flush=True)
    with open("crowding.json", "w") as f:
        json.dump({"how": "Filaments, 24 by 4 and 36 by 6 to a bar, mirrored; made by crowding.py",
                   "unit": "1", "frequency_Hz": FREQUENCY, "rows": out}, f, indent=1)
        f.write("\n")


main()
