"""ICUMSA SPS-4 evaluated term by term in 50 digits, as printed, powers written out.

Run from the repository root:
python3 test/reference/make/icumsa-sps4-density.py > test/reference/data/icumsa-sps4-density.json
"""
import json
import platform

import mpmath
from mpmath import mpf

mpmath.mp.dps = 50
A = [
    ["385.1761", "135.3705", "40.9299", "-3.9643", "13.4853", "-17.2890"],
    ["-46.2720", "-7.1720", "1.1597", "5.1126", "17.5254"],
    ["59.7712", "7.2491", "12.3630", "-35.4791"],
    ["-47.2207", "-21.6977", "27.6301"],
    ["18.3184", "12.3081"],
]


def water(t):
    top = [("999.83952", 0), ("16.952577", 1), ("-7.9905127e-3", 2), ("-46.241757e-6", 3),
           ("105.84601e-9", 4), ("-281.03006e-12", 5)]
    return sum(mpf(c) * t**p for c, p in top) / (1 + mpf("16.887236e-3") * t)


def solution(brix, t):
    w, warm = mpf(brix) / 100, (mpf(t) - 20) / 100
    return water(mpf(t)) + sum(mpf(a) * w**j * warm**i for i, row in enumerate(A) for j, a in enumerate(row, 1))


cases = [{"brix": b, "celsius": t, "value": float(solution(b, t))}
         for b in range(0, 85, 7) for t in range(0, 81, 10)]
print(json.dumps({
    "source": "ICUMSA SPS-4, coefficients as printed in Bubnik et al. (1995), Sugar Technologists' Manual",
    "page": "density of sucrose solutions; two independent copies of the coefficients compared",
    "tool": "mpmath, 50 digits", "versions": {"python": platform.python_version(), "mpmath": mpmath.__version__},
    "script": "test/reference/make/icumsa-sps4-density.py", "made": "2026-11-25",
    "within": 1e-9, "cases": cases,
}, indent=1))
