"""Step response of a conductor in its jacket: the radial heat equation, 200 shells.

Why it exists: a cable model with two nodes splits the jacket's heat capacity
between conductor and surface.  Here the jacket is 200 thin shells, so the
split's error can be read as a difference of temperatures.

The conductor is one temperature (copper against plastic), makes a constant
heat per metre from t = 0 and starts, like the jacket, at the air's
temperature.  The outer film coefficient is constant.  Shells are equally
thick; the resistance between two shell middles is ln(r2/r1)/(2 pi k), exact
for a ring.  Time: Radau IIA of order 5; beside it the exact matrix exponential
by eigenvectors of the symmetrised system.  All dimensions are invented (about
a 1/0 AWG cable).

Run: python3 jacket_step.py   (numpy, scipy; seconds)
"""

import json
import pathlib

import numpy as np
import scipy.integrate
import scipy.linalg
import scipy.sparse as sp

INPUTS = {
    "conductor_radius_m": 4.75e-3,
    "jacket_outer_radius_m": 6.75e-3,
    "copper_area_m2": 53.48e-6,
    "copper_density_kg_m3": 8890.0,
    "copper_heat_capacity_J_kgK": 385.0,
    "jacket_k_W_mK": 0.20,
    "jacket_capacity_J_m3K": 1.8e6,
    "film_coefficient_W_m2K": 12.0,
    "heat_per_metre_W_m": 12.0,
}
TIMES = [5, 10, 20, 30, 60, 120, 180, 300, 450, 600, 900, 1200, 1800, 2700, 3600, 5400, 7200]


def matrices(shells):
    """Capacities [J/(m K)], symmetric conductance matrix [W/(m K)], surface gain."""
    p = INPUTS
    r = np.linspace(p["conductor_radius_m"], p["jacket_outer_radius_m"], shells + 1)
    mid = (r[1:] + r[:-1]) / 2
    capacity = np.empty(shells + 1)
    capacity[0] = p["copper_area_m2"] * p["copper_density_kg_m3"] * p["copper_heat_capacity_J_kgK"]
    capacity[1:] = p["jacket_capacity_J_m3K"] * np.pi * np.diff(r**2)
    ring = 2 * np.pi * p["jacket_k_W_mK"]
    link = ring / np.log(mid / np.concatenate([r[:1], mid[:-1]]))
    to_surface = ring / np.log(r[-1] / mid[-1])
    film = p["film_coefficient_W_m2K"] * 2 * np.pi * r[-1]
    out = 1 / (1 / to_surface + 1 / film)
    diagonal = np.concatenate([link, [0]]) + np.concatenate([[0], link])
    diagonal[-1] += out
    g = np.diag(diagonal) - np.diag(link, 1) - np.diag(link, -1)
    return capacity, g, out / film


def exact(shells):
    """Rises at TIMES by eigenvectors: conductor and surface."""
    c, g, surface = matrices(shells)
    root = 1 / np.sqrt(c)
    rate, vectors = scipy.linalg.eigh(root[:, None] * g * root[None, :])
    heat = np.zeros(shells + 1)
    heat[0] = INPUTS["heat_per_metre_W_m"]
    modal = vectors.T @ (root * heat)
    t = np.array(TIMES)[:, None]
    rise = (modal * -np.expm1(-rate * t) / rate) @ vectors.T * root
    return rise[:, 0], rise[:, -1] * surface, 1 / rate[:2]


def radau(shells):
    """The same by Radau IIA, order 5."""
    c, g, surface = matrices(shells)
    jac = sp.csc_matrix(-g / c[:, None])
    heat = np.zeros(shells + 1)
    heat[0] = INPUTS["heat_per_metre_W_m"] / c[0]
    run = scipy.integrate.solve_ivp(
        lambda _, y: heat + jac @ y, (0, TIMES[-1]), np.zeros(shells + 1), method="Radau",
        jac=jac, rtol=1e-10, atol=1e-12, t_eval=TIMES)
    return run.y[0], run.y[-1] * surface


def main():
    conductor, surface, constants = exact(200)
    other = radau(200)
    fewer = exact(100)
    p = INPUTS
    film = p["film_coefficient_W_m2K"] * 2 * np.pi * p["jacket_outer_radius_m"]
    jacket = np.log(p["jacket_outer_radius_m"] / p["conductor_radius_m"]) / (2 * np.pi * p["jacket_k_W_mK"])
    out = {
        "how": "Radial heat equation, 200 shells, exact in time by eigenvectors; made by jacket_step.py",
        "inputs": INPUTS,
        "final_rise_K": {
            "conductor": p["heat_per_metre_W_m"] * (jacket + 1 / film),
            "surface": p["heat_per_metre_W_m"] / film,
        },
        "slowest_time_constants_s": [round(float(v), 4) for v in constants],
        "time_s": TIMES,
        "conductor_rise_K": [round(float(v), 8) for v in conductor],
        "surface_rise_K": [round(float(v), 8) for v in surface],
        "largest_difference_K": {
            "radau_iia": float(f"{max(np.abs(other[0] - conductor).max(), np.abs(other[1] - surface).max()):.1e}"),
            "100_shells": float(f"{max(np.abs(fewer[0] - conductor).max(), np.abs(fewer[1] - surface).max()):.1e}"),
        },
    }
    path = pathlib.Path(__file__).with_suffix(".json")
    path.write_text(json.dumps(out, indent=1) + "\n")


if __name__ == "__main__":
    main()
