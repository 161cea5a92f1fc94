"""Fine three-dimensional conduction solve of one lug - fuse - lug stack.

Why it exists: a lumped model gives every part one temperature and every joint
one resistance.  This solve does neither, so the difference between the two is
the error of lumping.  It shares no code and no formula with the model: it is
the steady current and heat equations on a voxel grid, by finite volumes.

    div(grad(phi)/rho) = 0                 current
    div(k grad(T)) + |grad(phi)|^2/rho = 0 heat

Geometry (mm, x along, y across, z through; the plane y = 0 mirrors):

    z 10 ---      25 [== cap ==] 55       95 [== cap ==] 125
                     [         ]=element=== [         ]
    z  5 --- 0 [== lug ==] 50                100 [== lug ==] 150
    z  0 ---

Lugs and caps are copper bars 25 x 5 mm.  Lug and cap overlap by 25 mm and
touch only inside a disc of 16 mm diameter at the middle of the overlap, where
the interface has an areal resistance; outside the disc the faces in the
overlap pass neither current nor heat.  No bolt, no hole.  Every face that
looks into air has the same film coefficient.  Each outer lug end carries a
long cable, as the end condition of a half-infinite fin with its own Joule
heat.  Properties are constant.  All dimensions are invented.

Run: python3 lug_fuse_lug_conduction.py   (numpy, scipy before 1.14; some minutes)
"""

import json
import pathlib

import numpy as np
import scipy.sparse as sp
import scipy.sparse.linalg as spla

MM = 1e-3
INPUTS = {
    "current_A": 140.0,
    "air_K": 298.15,
    "film_coefficient_W_m2K": 12.0,
    "bar_width_m": 25 * MM,
    "bar_thickness_m": 5 * MM,
    "lug_length_m": 50 * MM,
    "cap_length_m": 30 * MM,
    "overlap_m": 25 * MM,
    "clamped_disc_diameter_m": 16 * MM,
    "element_length_m": 40 * MM,
    "element_width_m": 25 * MM,
    "element_thickness_m": 1 * MM,
    "copper_k_W_mK": 390.0,
    "copper_rho_ohm_m": 2.0e-8,
    "element_k_W_mK": 60.0,
    "element_rho_ohm_m": 1.25e-7,
    "left_interface_areal_resistance_ohm_m2": 2.0e-9,
    "left_interface_areal_conductance_W_m2K": 3900.0,
    "right_interface_areal_resistance_ohm_m2": 8.0e-9,
    "right_interface_areal_conductance_W_m2K": 975.0,
    "cable_copper_area_m2": 50e-6,
    "cable_k_W_mK": 390.0,
    "cable_rho_ohm_m": 2.0e-8,
    "cable_outer_diameter_m": 13 * MM,
}

# Part boxes in mm: x0, x1, z0, z1.  The element lies in the middle of the
# caps' thickness.
PARTS = {
    "left_lug": (0, 50, 0, 5),
    "left_cap": (25, 55, 5, 10),
    "element": (55, 95, 7, 8),
    "right_cap": (95, 125, 5, 10),
    "right_lug": (100, 150, 0, 5),
}
NAMES = list(PARTS)
LENGTH, HALF_WIDTH, HEIGHT = 150, 12.5, 10  # mm
JOINTS = {"left": (25, 50), "right": (100, 125)}  # x range of each overlap


def cable_end():
    """Conductance [W/K] and resting temperature [K] of the half-infinite cable."""
    p = INPUTS
    loss = p["film_coefficient_W_m2K"] * np.pi * p["cable_outer_diameter_m"]
    conduct = p["cable_k_W_mK"] * p["cable_copper_area_m2"]
    heat = p["current_A"] ** 2 * p["cable_rho_ohm_m"] / p["cable_copper_area_m2"]
    return np.sqrt(loss * conduct), p["air_K"] + heat / loss


def disc_fraction(xc, yc, dx, dy, centre):
    """Share of each cell of the interface that lies inside the clamped disc."""
    m = 32
    sub = (np.arange(m) + 0.5) / m - 0.5
    xs = xc[:, None] + dx * sub[None, :]
    ys = yc[:, None] + dy * sub[None, :]
    r2 = (xs[:, None, :, None] - centre) ** 2 + ys[None, :, None, :] ** 2
    radius = INPUTS["clamped_disc_diameter_m"] / 2
    return np.mean(r2 <= radius**2, axis=(2, 3))


class Grid:
    """Voxels of 1/n mm along and through, 12.5/(12 n) mm across."""

    def __init__(self, n):
        self.n = n
        self.shape = (LENGTH * n, 12 * n, HEIGHT * n)
        self.d = (MM / n, HALF_WIDTH * MM / (12 * n), MM / n)
        part = np.full(self.shape, -1, dtype=np.int8)
        for i, (x0, x1, z0, z1) in enumerate(PARTS.values()):
            part[x0 * n : x1 * n, :, z0 * n : z1 * n] = i
        self.part = part
        self.solid = part >= 0
        self.index = np.full(self.shape, -1, dtype=np.int64)
        self.cells = int(self.solid.sum())
        self.index[self.solid] = np.arange(self.cells)
        self.of = part[self.solid]
        p = INPUTS
        element = self.of == NAMES.index("element")
        self.k = np.where(element, p["element_k_W_mK"], p["copper_k_W_mK"])
        self.rho = np.where(element, p["element_rho_ohm_m"], p["copper_rho_ohm_m"])

    def area(self, axis):
        return np.prod([self.d[a] for a in range(3) if a != axis])

    def inner_faces(self):
        """Faces between cells: indices, share of area open, interface resistances."""
        for axis in range(3):
            lo = [slice(None)] * 3
            hi = [slice(None)] * 3
            lo[axis], hi[axis] = slice(None, -1), slice(1, None)
            a, b = self.index[tuple(lo)], self.index[tuple(hi)]
            both = (a >= 0) & (b >= 0)
            share = np.ones(a.shape)
            electric = np.zeros(a.shape)
            thermal = np.zeros(a.shape)
            if axis == 2:  # the lug-cap interfaces lie at z = 5 mm
                iz = 5 * self.n - 1
                for side, (x0, x1) in JOINTS.items():
                    xs = slice(x0 * self.n, x1 * self.n)
                    xc = (np.arange(x0 * self.n, x1 * self.n) + 0.5) * self.d[0]
                    yc = (np.arange(self.shape[1]) + 0.5) * self.d[1]
                    centre = (x0 + x1) / 2 * MM
                    share[xs, :, iz] = disc_fraction(xc, yc, self.d[0], self.d[1], centre)
                    electric[xs, :, iz] = INPUTS[f"{side}_interface_areal_resistance_ohm_m2"]
                    thermal[xs, :, iz] = 1 / INPUTS[f"{side}_interface_areal_conductance_W_m2K"]
            use = both & (share > 0)
            yield axis, a[use], b[use], share[use], electric[use], thermal[use]

    def outer_faces(self):
        """Faces towards air: axis and cell index; mirror, interfaces and cable ends left out."""
        padded = np.pad(self.index, 1, constant_values=-1)
        core = [slice(1, -1)] * 3
        for axis in range(3):
            for step in (-1, 1):
                s = list(core)
                s[axis] = slice(2, None) if step > 0 else slice(0, -2)
                bare = self.solid & (padded[tuple(s)] < 0)
                if axis == 1 and step < 0:
                    continue  # mirror plane
                if axis == 0:
                    bare[0 if step < 0 else -1] = False  # cable ends
                yield axis, self.index[bare]


def system(cells, a, b, g):
    """Graph Laplacian of conductances g between cells a and b."""
    rows = np.concatenate([a, b, a, b])
    cols = np.concatenate([a, b, b, a])
    vals = np.concatenate([g, g, -g, -g])
    return sp.csr_matrix((vals, (rows, cols)), shape=(cells, cells))


def solve(matrix, right):
    """Conjugate gradients, scaled by the diagonal; a tighter stop is below rounding."""
    scale = 1 / np.sqrt(matrix.diagonal())
    scaled = sp.diags(scale) @ matrix @ sp.diags(scale)
    y, info = spla.cg(scaled.tocsr(), right * scale, tol=1e-9, maxiter=50000)
    if info != 0:
        raise RuntimeError(f"conjugate gradients stopped with {info}")
    return y * scale


def run(n):
    g = Grid(n)
    p = INPUTS
    current = p["current_A"] / 2  # half the width is solved
    h = p["film_coefficient_W_m2K"]

    a, b, ge, gt = [], [], [], []
    loss_a, loss_b, joint = [], [], []  # how a face's heat splits; interface faces
    for axis, i, j, share, re, rt in g.inner_faces():
        area, half = g.area(axis) * share, g.d[axis] / 2
        ra, rb = half * g.rho[i], half * g.rho[j]
        a.append(i)
        b.append(j)
        ge.append(area / (ra + re + rb))
        gt.append(area / (half / g.k[i] + rt + half / g.k[j]))
        loss_a.append((ra + re / 2) / (ra + re + rb))
        loss_b.append((rb + re / 2) / (ra + re + rb))
        joint.append(re / (ra + re + rb))
    a, b, ge, gt = map(np.concatenate, (a, b, ge, gt))
    loss_a, loss_b, joint = map(np.concatenate, (loss_a, loss_b, joint))

    left = g.index[0][g.index[0] >= 0]
    right = g.index[-1][g.index[-1] >= 0]
    end_area = g.area(0)
    faces = len(left)

    # Current: even inflow at the left end, the right end at zero potential.
    ge_end = end_area / (g.d[0] / 2 * p["copper_rho_ohm_m"])
    matrix = system(g.cells, a, b, ge)
    matrix = matrix + sp.csr_matrix((np.full(faces, ge_end), (right, right)), shape=matrix.shape)
    source = np.zeros(g.cells)
    source[left] = current / faces
    phi = solve(matrix, source)
    drop_left = np.mean(phi[left] + current / faces / ge_end)

    # Joule heat, face by face, put into the cells on either side.
    flow = ge * (phi[a] - phi[b])
    heat_face = flow * (phi[a] - phi[b])
    heat = np.bincount(a, heat_face * loss_a, g.cells) + np.bincount(b, heat_face * loss_b, g.cells)
    heat[left] += (current / faces) ** 2 / ge_end
    heat[right] += (phi[right] * ge_end) ** 2 / ge_end
    made = heat.sum()
    made_in_joint = {}
    middle_x = g.part.shape[0] // 2
    at = np.argwhere(g.solid)
    for side in JOINTS:
        here = (at[a, 0] < middle_x) if side == "left" else (at[a, 0] >= middle_x)
        made_in_joint[side] = float(np.sum((heat_face * joint)[here]))

    # Heat: film on every face in air, cable as an end conductance.
    g_end, t_end = cable_end()
    matrix = system(g.cells, a, b, gt)
    film = np.zeros(g.cells)
    film_area = np.zeros(g.cells)
    for axis, i in g.outer_faces():
        u = g.area(axis) / (1 / h + g.d[axis] / 2 / g.k[i])
        film += np.bincount(i, u, g.cells)
        film_area += np.bincount(i, np.full(len(i), g.area(axis)), g.cells)
    end = np.zeros(g.cells)
    per_area = (g_end / 2) / (faces * end_area)
    u_end = end_area / (1 / per_area + g.d[0] / 2 / p["copper_k_W_mK"])
    end[left] = u_end
    end[right] = u_end
    matrix = matrix + sp.diags(film + end)
    rise_end = t_end - p["air_K"]
    rise = solve(matrix, heat + end * rise_end)

    out = {}
    for i, name in enumerate(NAMES):
        cells = g.of == i
        out[f"{name}_mean_rise_K"] = rise[cells].mean()
        out[f"{name}_max_rise_K"] = rise[cells].max()
        out[f"{name}_heat_W"] = 2 * heat[cells].sum()
        out[f"{name}_surface_loss_W"] = 2 * (film * rise)[cells].sum()
        out[f"{name}_exposed_area_m2"] = 2 * film_area[cells].sum()

    full = np.full(g.shape, np.nan)
    full[g.solid] = rise
    volts = np.full(g.shape, np.nan)
    volts[g.solid] = phi

    def section(field, x, part):
        """Mean of a field over the cross-section of a part at x [mm]."""
        _, _, z0, z1 = PARTS[part]
        i = x * n
        return field[i - 1 : i + 1, :, z0 * n : z1 * n].mean()

    for side, (x0, x1) in JOINTS.items():
        lug, cap = f"{side}_lug", f"{side}_cap"
        enter, leave = (x0, x1) if side == "left" else (x1, x0)
        _, _, z0, z1 = PARTS[lug]
        out[f"{lug}_palm_mean_rise_K"] = full[x0 * n : x1 * n, :, z0 * n : z1 * n].mean()
        _, _, z0, z1 = PARTS[cap]
        out[f"{cap}_overlap_mean_rise_K"] = full[x0 * n : x1 * n, :, z0 * n : z1 * n].mean()
        drop = abs(section(volts, enter, lug) - section(volts, leave, cap))
        out[f"{side}_overlap_drop_V"] = drop
        out[f"{side}_overlap_resistance_ohm"] = drop / p["current_A"]
        out[f"{side}_interface_heat_W"] = 2 * made_in_joint[side]
    out["left_cable_flow_out_W"] = 2 * u_end * np.sum(rise[left] - rise_end)
    out["right_cable_flow_out_W"] = 2 * u_end * np.sum(rise[right] - rise_end)
    for side in JOINTS:
        out[f"{side}_lug_end_face_rise_K"] = rise_end + out[f"{side}_cable_flow_out_W"] / g_end
    out["total_drop_V"] = drop_left
    out["total_heat_W"] = 2 * made
    lost = 2 * np.sum(film * rise) + out["left_cable_flow_out_W"] + out["right_cable_flow_out_W"]
    books = {
        "cells": g.cells,
        "heat_made_minus_lost_W": float(2 * made - lost),
        "heat_made_minus_volts_times_amps_W": float(2 * made - p["current_A"] * drop_left),
    }
    return {k: float(v) for k, v in out.items()}, books


def main():
    levels = (1, 2, 4)
    runs = [run(n) for n in levels]
    coarse, middle, fine = (r[0] for r in runs)
    results, change, order = {}, {}, {}
    for key in fine:
        first, second = middle[key] - coarse[key], fine[key] - middle[key]
        # The corners and the disc's rim leave an error that falls with about
        # the power 4/3 of the cell.  Where three levels show no such steady
        # fall (a largest value moves with its cell) the finest level stands.
        observed = np.log2(first / second) if first * second > 0 else np.nan
        steady = 0.8 <= observed <= 2.2
        results[key] = fine[key] + (second / (2**observed - 1) if steady else 0.0)
        change[key] = second
        order[key] = round(float(observed), 2) if steady else None
    g_end, t_end = cable_end()
    out = {
        "how": (
            "Steady electric and heat conduction, constant properties, three-dimensional finite "
            "volumes of 1, 1/2 and 1/4 mm (1.04, 0.52 and 0.26 mm across the width), half the width by "
            "symmetry, conjugate gradients to 1e-9; made by lug_fuse_lug_conduction.py."
        ),
        "meaning": {
            "results": "extrapolated from the three levels where they fall steadily, else the finest level",
            "last_change": "finest minus middle level",
            "rise": "temperature above the air",
            "mean": "mean over the part's volume; palm and overlap: over the overlapped length only",
            "max": "hottest cell of the part",
            "heat": "Joule heat in the part with half of the interface's heat on either side",
            "overlap_drop": "mean potential of the lug's section where the overlap begins less that of "
            "the cap's section where it ends",
            "interface_heat": "heat made in the contact disc's areal resistance alone",
            "cable_flow_out": "heat that leaves the lug's end face into the cable; the face's temperature is "
            "the resting temperature plus this over the end conductance",
        },
        "geometry_mm": {name: dict(zip(("x0", "x1", "z0", "z1"), box)) for name, box in PARTS.items()},
        "inputs": INPUTS,
        "derived": {
            "cable_end_conductance_W_K": float(g_end),
            "cable_resting_temperature_K": float(t_end),
            "clamped_area_m2": float(np.pi / 4 * INPUTS["clamped_disc_diameter_m"] ** 2),
            "element_resistance_ohm": INPUTS["element_rho_ohm_m"] * INPUTS["element_length_m"]
            / INPUTS["element_width_m"] / INPUTS["element_thickness_m"],
            **{
                f"{side}_interface_resistance_ohm": INPUTS[f"{side}_interface_areal_resistance_ohm_m2"]
                / (np.pi / 4 * INPUTS["clamped_disc_diameter_m"] ** 2)
                for side in JOINTS
            },
        },
        "results": results,
        "last_change": change,
        "observed_order": order,
        "levels": [{"cells_per_mm": n, **r[1], "results": r[0]} for n, r in zip(levels, runs)],
    }
    path = pathlib.Path(__file__).with_suffix(".json")
    path.write_text(json.dumps(out, indent=1) + "\n")


if __name__ == "__main__":
    main()
