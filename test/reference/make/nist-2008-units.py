"""Exact size of each unit from its NIST definition, in rational arithmetic.

Run from the repository root: python3 test/reference/make/nist-2008-units.py > test/reference/data/nist-2008-units.json
"""
import json
import platform
from fractions import Fraction as F

inch = F(254, 100)  # cm, exact
us_gallon = 231 * inch**3  # ml, exact
imperial_gallon = F(454609, 100)  # ml, exact
pound = F(45359237, 100000)  # g, exact
sizes = {
    "g": F(1), "kg": F(1000), "mg": F(1, 1000), "avoirdupois-oz": pound / 16, "lb": pound,
    "ml": F(1), "l": F(1000),
    "us-fl-oz": us_gallon / 128, "us-tbsp": us_gallon / 256, "us-tsp": us_gallon / 768,
    "us-cup": us_gallon / 16, "us-pint": us_gallon / 8, "us-gallon": us_gallon,
    "imp-fl-oz": imperial_gallon / 160, "imp-pint": imperial_gallon / 8,
    "metric-tsp": F(5), "metric-tbsp": F(15),
}
mass = {"g", "kg", "mg", "avoirdupois-oz", "lb"}
density = F(1227, 1000)
cases = []
for a, x in sizes.items():
    for b, y in sizes.items():
        out = F(473, 10) * x / y
        if (a in mass) != (b in mass):
            out = out * density if a not in mass else out / density
        cases.append({"amount": 47.3, "from": a, "to": b, "density": 1.227, "value": float(out)})
print(json.dumps({
    "source": "NIST Handbook 44, Appendix C; NIST SP 811 (2008), Appendix B: definitions of inch, gallon, pound",
    "page": "Appendix C, tables of units; exact values",
    "tool": "python3 fractions", "versions": {"python": platform.python_version()},
    "script": "test/reference/make/nist-2008-units.py", "made": "2026-11-25",
    "within": 1e-12, "cases": cases,
}, indent=1))
