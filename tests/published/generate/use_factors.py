"""Writes use_factors.json: readings of a few trips, and what they say of the factors of use.

  apt-get install python3-numpy python3-scipy
  python3 use_factors.py DIRECTORY

Two ways, neither of them the library's:
 - the most probable factors with every error of a reading as an unknown of its own, by scipy's
   general minimizer, and the range from the inverse of a Hessian taken by differences;
 - the exact distribution: factors drawn evenly from the prior (Sobol), each weighed by how well it
   explains the readings, and quantiles of that.

Reads nothing and draws from fixed sequences, so it writes the same bytes every time.
"""

import json
import os
import sys

import numpy as np
import scipy
from scipy.optimize import minimize
from scipy.stats import norm, qmc

ODD_FROM = 3.0  # where an error begins to count by its size and no more by its square
NORMAL_95 = norm.ppf(0.975)


def interval(expected, used, begin_error, end_error, shares_begin, scatter):
    return dict(expected=expected, used=used, begin_error=begin_error, end_error=end_error,
                shares_begin=shares_begin, scatter=scatter)


def chain(expected, used, error, scatter, first_error=0.0):
    """Intervals that follow one another, with one error for all readings but the first."""
    return [interval(e, u, first_error if i == 0 else error, error, i > 0, scatter)
            for i, (e, u) in enumerate(zip(expected, used))]


CASES = [
    dict(name='one interval, one factor', common_sd=0.25, part_sd=[0.0], mix=[1.0],
         intervals=[interval([100.0], 118.0, 0.0, 4.0, False, 5.0)]),
    dict(name='five evenings, one factor', common_sd=0.25, part_sd=[0.0], mix=[1.0],
         intervals=chain([[12.0], [15.0], [9.0], [14.0], [13.0]], [13.1, 19.0, 8.2, 17.5, 14.0],
                         1.5, 1.0)),
    dict(name='two trips, one factor', common_sd=0.2, part_sd=[0.0], mix=[1.0],
         intervals=chain([[60.0], [55.0]], [52.0, 50.0], 3.0, 3.0)
         + chain([[70.0], [40.0]], [61.0, 39.0], 3.0, 3.0, 2.0)),
    dict(name='three surfaces', common_sd=0.2, part_sd=[0.03, 0.12, 0.2], mix=[30.0, 10.0, 40.0],
         intervals=chain([[40.0, 5.0, 0.0], [10.0, 25.0, 5.0], [0.0, 10.0, 30.0], [0.0, 5.0, 35.0],
                          [30.0, 10.0, 0.0]], [47.0, 45.0, 52.0, 55.0, 43.0], 2.0, 2.0)),
    dict(name='own consumption, mostly sand', common_sd=0.06, part_sd=[0.03, 0.08, 0.25],
         mix=[5.0, 5.0, 50.0],
         intervals=chain([[20.0, 10.0, 0.0], [0.0, 5.0, 40.0], [0.0, 0.0, 45.0]],
                         [31.0, 38.0, 36.0], 3.0, 2.5)),
    dict(name='poor readings', common_sd=0.25, part_sd=[0.0, 0.2], mix=[1.0, 1.0],
         intervals=chain([[20.0, 10.0], [15.0, 20.0]], [37.0, 42.0], 8.0, 4.0, 8.0)),
    dict(name='one reading far out', common_sd=0.2, part_sd=[0.1], mix=[1.0], odd=True,
         intervals=chain([[30.0]] * 6, [33.0, 33.0, 18.0, 48.0, 33.0, 32.0], 1.0, 1.0)),
]


def layout(case):
    """Standard errors of all readings, and which of them begin and end each interval."""
    sds, places = [], []
    for one in case['intervals']:
        if one['shares_begin']:
            begin = places[-1][1]
        else:
            begin = len(sds)
            sds.append(one['begin_error'])
        places.append((begin, len(sds)))
        sds.append(one['end_error'])
    return np.array(sds), places


def penalty(z, robust):
    if not robust:
        return 0.5 * z * z
    size = np.abs(z)
    return np.where(size <= ODD_FROM, 0.5 * z * z, ODD_FROM * (size - 0.5 * ODD_FROM))


def most_probable(case):
    """Unknowns: logarithms over their prior deviations, then errors of readings over theirs."""
    prior = np.array([case['common_sd']] + case['part_sd'])
    sds, places = layout(case)
    free = np.flatnonzero(sds)
    expected = np.array([one['expected'] for one in case['intervals']])
    used = np.array([one['used'] for one in case['intervals']])
    scatter = np.array([one['scatter'] for one in case['intervals']])

    def improbability(x):
        logs = prior * x[:len(prior)]
        errors = np.zeros(len(sds))
        errors[free] = sds[free] * x[len(prior):]
        left = used - expected @ np.exp(logs[0] + logs[1:])
        left -= np.array([errors[b] - errors[e] for b, e in places])
        return (0.5 * np.sum(x[:len(prior)] ** 2) + np.sum(penalty(x[len(prior):], True))
                + np.sum(penalty(left / scatter, True)))

    start = np.zeros(len(prior) + len(free))
    for _ in range(4):
        start = minimize(improbability, start, method='BFGS', options=dict(gtol=1e-9)).x
    start = minimize(improbability, start, method='Nelder-Mead',
                     options=dict(xatol=1e-9, fatol=1e-13, maxiter=200000, maxfev=200000,
                                  adaptive=True)).x
    at, step, n = start, 2e-3, len(start)
    hessian = np.zeros((n, n))
    for i in range(n):
        for j in range(n):
            ei, ej = np.eye(n)[i] * step, np.eye(n)[j] * step
            hessian[i, j] = (improbability(at + ei + ej) - improbability(at + ei - ej)
                             - improbability(at - ei + ej) + improbability(at - ei - ej)
                             ) / (4 * step * step)
    covariance = np.linalg.inv(hessian)[:len(prior), :len(prior)] * np.outer(prior, prior)
    return prior * at[:len(prior)], covariance


def exact(case, draws=2 ** 20):
    prior = np.array([case['common_sd']] + case['part_sd'])
    moving = np.flatnonzero(prior)
    even = qmc.Sobol(len(moving), scramble=False).random(draws)
    logs = np.zeros((draws, len(prior)))
    logs[:, moving] = norm.ppf(np.clip(even, 1e-12, 1 - 1e-12)) * prior[moving]
    sds, places = layout(case)
    which = np.zeros((len(places), len(sds)))
    for i, (begin, end) in enumerate(places):
        which[i, begin], which[i, end] = 1, -1
    scatter = np.array([one['scatter'] for one in case['intervals']])
    precision = np.linalg.inv(which @ np.diag(sds ** 2) @ which.T + np.diag(scatter ** 2))
    expected = np.array([one['expected'] for one in case['intervals']])
    used = np.array([one['used'] for one in case['intervals']])
    left = used - np.exp(logs[:, :1] + logs[:, 1:]) @ expected.T
    fit = -0.5 * np.einsum('ki,ij,kj->k', left, precision, left)
    weight = np.exp(fit - fit.max())

    def quantiles(values):
        order = np.argsort(values, kind='stable')
        sums = np.cumsum(weight[order])
        return [round(float(values[order][np.searchsorted(sums, q * sums[-1])]), 5)
                for q in (0.5, 0.025, 0.975)]

    mix = np.array(case['mix'])
    parts = np.exp(logs[:, :1] + logs[:, 1:])
    return dict(parts=[quantiles(parts[:, i]) for i in range(parts.shape[1])],
                mix=quantiles(parts @ mix / mix.sum()))


def ranges(logs, covariance, mix):
    def one(log, gradient):
        half = NORMAL_95 * np.sqrt(gradient @ covariance @ gradient)
        return [round(float(np.exp(x)), 6) for x in (log, log - half, log + half)]

    parts = []
    for i in range(1, len(logs)):
        gradient = np.zeros(len(logs))
        gradient[[0, i]] = 1
        parts.append(one(logs[0] + logs[i], gradient))
    amounts = np.array(mix) * np.exp(logs[0] + logs[1:])
    gradient = np.concatenate([[1.0], amounts / amounts.sum()])
    return dict(parts=parts, mix=one(np.log(amounts.sum() / sum(mix)), gradient))


def main():
    if len(sys.argv) != 2:
        sys.exit('usage: python3 use_factors.py DIRECTORY')
    recorded = []
    for case in CASES:
        logs, covariance = most_probable(case)
        row = dict(case, most_probable=ranges(logs, covariance, case['mix']))
        if not row.pop('odd', False):
            row['exact'] = exact(case)
        recorded.append(row)
    with open(os.path.join(sys.argv[1], 'use_factors.json'), 'w', encoding='utf-8') as file:
        json.dump(dict(made_by='numpy %s, scipy %s' % (np.__version__, scipy.__version__),
                       each='median, and ends of the range of 95 %', cases=recorded), file,
                  indent=1)
        file.write('\n')


main()
