# SPDX-License-Identifier: MIT
"""agreement.py: the statistics of agreement by a library of its own.

Each line of standard input is the pairs of one comparison, FIRST SECOND FIRST SECOND ...; each line of
standard output: bias and its 95 % interval, sd, the 95 % intervals of the lower and of the upper limit
of agreement, ICC(2,1) and its 95 % interval, slope of the differences on the means and its p.

The limits' intervals come from integrating the noncentral t distribution over chi-square, ICC from
variance components, its interval as McGraw & Wong 1996 write it. Exit code 77 when the library is not
installed."""

import sys

try:
    import numpy as np
    from scipy import integrate, optimize, stats
except ImportError:
    sys.exit(77)

Z = stats.norm.ppf(0.975)


def noncentral_t_cdf(t, freedom, delta):
    middle, wide = np.sqrt(freedom), 12.0
    return integrate.quad(
        lambda root: stats.norm.cdf(t * root / np.sqrt(freedom) - delta) * stats.chi.pdf(root, freedom),
        max(0.0, middle - wide), middle + wide, epsabs=1e-12, epsrel=1e-10, limit=400)[0]


def limit_factor(tail, n):
    delta = Z * np.sqrt(n)
    return optimize.brentq(lambda t: noncentral_t_cdf(t, n - 1, delta) - tail, 0, 60 * delta) / np.sqrt(n)


def icc(ratings):
    n, k = ratings.shape
    rows = stats.f_oneway(*ratings.T)  # only to be sure that scipy takes it as a table
    assert np.isfinite(rows.statistic)
    msr = k * np.var(ratings.mean(axis=1), ddof=1)
    msc = n * np.var(ratings.mean(axis=0), ddof=1)
    rest = ratings - ratings.mean(axis=1, keepdims=True) - ratings.mean(axis=0) + ratings.mean()
    mse = (rest**2).sum() / ((n - 1) * (k - 1))
    of_rows, of_columns = (msr - mse) / k, (msc - mse) / n
    r = of_rows / (of_rows + of_columns + mse)
    a = k * r / (n * (1 - r))
    b = 1 + k * r * (n - 1) / (n * (1 - r))
    v = (a * msc + b * mse)**2 / ((a * msc)**2 / (k - 1) + (b * mse)**2 / ((n - 1) * (k - 1)))
    low, high = stats.f.ppf(0.975, n - 1, v), stats.f.ppf(0.975, v, n - 1)
    return [r, n * (msr - low * mse) / (low * (k * msc + (k * n - k - n) * mse) + n * msr),
            n * (high * msr - mse) / (k * msc + (k * n - k - n) * mse + n * high * msr)]


def compared(pairs):
    first, second = pairs.T
    differences, n = second - first, len(pairs)
    bias, sd = differences.mean(), differences.std(ddof=1)
    low, high = stats.ttest_1samp(differences, 0).confidence_interval(0.95)
    near, far = limit_factor(0.025, n), limit_factor(0.975, n)
    line = stats.linregress((first + second) / 2, differences)
    return [bias, low, high, sd, bias - far * sd, bias - near * sd, bias + near * sd, bias + far * sd,
            *icc(pairs), line.slope, line.pvalue]


for text in sys.stdin:
    print(*(repr(float(value)) for value in compared(np.array(text.split(), dtype=float).reshape(-1, 2))))
