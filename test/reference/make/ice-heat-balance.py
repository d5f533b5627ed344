"""Ice in a drink by another route: enthalpy as a function of temperature, its root found by Brent's method.

Run from the repository root:
python3 test/reference/make/ice-heat-balance.py > test/reference/data/ice-heat-balance.json
"""
import json
import platform

import scipy
from scipy.optimize import brentq

L, CW, CI = 333.55, 4.186, 2.05


def settle(liquids, ice, cold):
    """liquids (g, C, J/gK): melted grams and end temperature."""
    start = sum(m * c * t for m, t, c in liquids) - ice * (L + CI * -cold)  # water at 0 C is zero

    def at(t, melted):
        return sum(m * c * t for m, _, c in liquids) + melted * CW * t - (ice - melted) * L

    if at(0, ice) <= start:  # all melted: find the temperature
        return ice, brentq(lambda t: at(t, ice) - start, -1e-9, 200, xtol=1e-13, rtol=1e-14)
    if at(0, 0) >= start:
        return 0.0, 0.0
    return brentq(lambda x: at(0, x) - start, 0, ice, xtol=1e-12, rtol=1e-14), 0.0


ROOM, LEAK = 25, 0.35


def stood(liquids, ice, cold, minutes):
    """grams melted in all once the room has let its heat in: the same enthalpy, with that heat in it, while ice is left."""
    start = sum(m * c * t for m, t, c in liquids) - ice * (L + CI * -cold) + 60 * minutes * LEAK * ROOM
    at = lambda x: -(ice - x) * L - start
    return 0.0 if at(0) >= 0 else ice if at(ice) <= 0 else brentq(at, 0, ice, xtol=1e-12, rtol=1e-14)


cases = []
for coffee in (5, 22, 40, 60, 85, 95):
    for cold in (0, -4, -10, -18):
        for ice in (20, 60, 100, 200, 300, 500):
            liquids = [[120, coffee, 4.186], [63.9, 5, 3.85], [73.8, 22, 3.0]]
            melted, end = settle(liquids, ice, cold)
            cases.append({"liquids": liquids, "ice": ice, "cold": cold, "melted": melted, "celsius": end,
                          "stood": [[t, max(melted, stood(liquids, ice, cold, t))] for t in (5, 10, 20)]})
print(json.dumps({
    "source": "first law of thermodynamics; latent heat 333.55 J/g, water 4.186, ice 2.05 J/(g K)",
    "page": "constants as in food-engineering handbooks",
    "tool": "scipy.optimize.brentq", "versions": {"python": platform.python_version(), "scipy": scipy.__version__},
    "script": "test/reference/make/ice-heat-balance.py", "made": "2026-11-27",
    "within": 1e-8, "cases": cases,
}, indent=1))
