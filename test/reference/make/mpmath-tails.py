# Points off the checked-in grids, with 50 digits. Run: python3 mpmath-tails.py > ../data/mpmath-tails.json
import json, random, sys, datetime
import mpmath as mp
mp.mp.dps = 50
random.seed(20261125)

def fraction(term, most=2000000):
    """modified Lentz for 1 + term(1)/(1 + term(2)/(1 + ...))"""
    c, d, value = mp.mpf(1), mp.mpf(0), mp.mpf(1)
    for k in range(1, most):
        t = term(k)
        d = 1 / (1 + t * d); c = 1 + t / c
        value *= c * d
        if abs(c * d - 1) < mp.mpf(10) ** -45: return value
    raise ValueError('no convergence')

def ibeta(x, a, b):
    """both tails of the regularized incomplete beta function (DLMF 8.17.22), x an mpf"""
    a, b, x = mp.mpf(a), mp.mpf(b), mp.mpf(x)
    if x > (a + 1) / (a + b + 2):
        up, low = ibeta(1 - x, b, a)
        return low, up
    def term(k):
        m = k // 2
        return m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)) if k % 2 == 0 else -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
    front = mp.exp(a * mp.log(x) + b * mp.log(1 - x) - mp.loggamma(a) - mp.loggamma(b) + mp.loggamma(a + b)) / a
    low = front / fraction(term)
    return low, 1 - low

def igamma(a, x):
    """both tails of the regularized incomplete gamma function, by the series of the lower one and 60 spare digits"""
    with mp.workdps(120):
        a, x = mp.mpf(a), mp.mpf(x)
        if x > 5 * a + 200: return 1 - mp.gammainc(a, x, mp.inf, regularized=True), mp.gammainc(a, x, mp.inf, regularized=True)
        total = term = 1 / a
        k = 0
        while term > total * mp.mpf(10) ** -110:
            k += 1
            term *= x / (a + k)
            total += term
        low = total * mp.exp(a * mp.log(x) - x - mp.loggamma(a))
        return low, 1 - low

def f(v): return float(v) if abs(v) > mp.mpf('1e-305') else 0.0

out = {'source': 'mpmath, 50 digits', 'page': 'betainc, gammainc, erfc, quad', 'tool': 'python3-mpmath',
       'versions': 'mpmath ' + mp.__version__ + ', Python ' + sys.version.split()[0], 'script': 'make/mpmath-tails.py',
       'made': str(datetime.date.today()), 'tolerance': 1e-9}

t = []
for df in [0.5, 1, 1.7, 3, 8.3, 37, 212.6, 5000.5, 1e6, 3e8]:
    for x in [1e-6, 0.2, 1.1, 2.5, 6, 17, 300]:
        y = mp.mpf(df) / (mp.mpf(df) + mp.mpf(x) ** 2)
        up = ibeta(y, mp.mpf(df) / 2, mp.mpf(1) / 2)[0] / 2 if x > 1 else mp.mpf(1) / 2 - ibeta(1 - y, mp.mpf(1) / 2, mp.mpf(df) / 2)[0] / 2
        if mp.mpf(10) ** -40 < up or df < 5000: t.append([x, df, f(1 - up), f(up)])
out['student'] = t

F = []
for d1, d2 in [(1, 9.4), (3, 40.2), (5, 1e5), (11, 3), (2, 0.5), (250, 400), (0.5, 12), (1000, 1e6)]:
    for x in [1e-9, 1e-3, 0.3, 0.97, 1.4, 3.3, 12, 90]:
        y = mp.mpf(d1) * x / (mp.mpf(d1) * x + d2)
        low, up = ibeta(y, mp.mpf(d1) / 2, mp.mpf(d2) / 2)
        F.append([x, d1, d2, f(low), f(up)])
out['f'] = F

c = []
for df in [0.5, 1, 4.4, 19, 260, 1e4]:
    for r in [1e-5, 0.1, 0.7, 0.98, 1.05, 1.9, 7]:
        x = r * df
        low, up = igamma(mp.mpf(df) / 2, mp.mpf(x) / 2)
        if up > mp.mpf(10) ** -100: c.append([x, df, f(low), f(up)])
out['chiSquared'] = c

b = []
for n in [1, 7, 30, 250, 4000, 100000]:
    for p in [0.003, 0.31, 0.5, 0.87]:
        for k in sorted({0, int(n * p), min(n, int(n * p + 3 * (n * p) ** 0.5) + 1), n - 1, n}):
            P = mp.mpf(p)
            mass = mp.binomial(n, k) * P ** k * (1 - P) ** (n - k)
            low, up = ((mp.mpf(1), mp.mpf(0)) if k == n else tuple(reversed(ibeta(P, k + 1, n - k))))
            b.append([k, n, p, f(mass), f(low), f(up)])
out['binomial'] = b

out['logBeta'] = [[a, q, f(mp.log(mp.beta(a, q)))] for a, q in [(0.5, 0.5), (2.5, 17), (0.5, 5e5), (300, 4000), (1e6, 1e6), (0.01, 1e9), (15.5, 16.5)]]

nq = []
for df, delta in [(3, 1), (12.5, -2), (60, 4.5)]:
    for x in [-1.5, 1.2, 3.9]:
        D, T, V = mp.mpf(delta), mp.mpf(x), mp.mpf(df)
        dens = lambda s: 2 * (V / 2) ** (V / 2) / mp.gamma(V / 2) * s ** (V - 1) * mp.e ** (-V * s * s / 2)
        mp.mp.dps = 25
        lower = mp.quad(lambda s: dens(s) * mp.ncdf(T * s - D), [0, 0.5, 1, 1.5, 2, 3, 5, 9])
        mp.mp.dps = 50
        nq.append([x, df, delta, f(lower)])
out['noncentralStudent'] = nq

any_ = []
for x, n, level in [(18, 30, 0.95), (0, 12, 0.95), (12, 12, 0.9), (1, 40, 0.99), (260, 500, 0.95)]:
    def gap(p): return mp.log(mp.beta(1 + x, 1 + n - x)) - (x * mp.log(p) if x else 0) - ((n - x) * mp.log(1 - p) if n > x else 0) + mp.log(1 - mp.mpf(str(level)))
    e = mp.mpf('1e-40'); m = mp.mpf(x) / n
    low = mp.mpf(0) if x == 0 else mp.findroot(gap, (e, m if x < n else 1 - e), solver='anderson' if False else 'bisect', tol=1e-45, maxsteps=2000)
    high = mp.mpf(1) if x == n else mp.findroot(gap, (m if x > 0 else e, 1 - e), solver='bisect', tol=1e-45, maxsteps=2000)
    any_.append([x, n, level, f(low), f(high)])
out['anytime'] = any_
print(json.dumps(out, indent=1))
