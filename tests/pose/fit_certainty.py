#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""The weights in lib/pose/choose.cpp, from made-up films with known golfers.

  crowd_table signs 300 100001 | fit_certainty.py

Conditional logit: the probability that a person is the golfer is proportional to
exp(weights . answers). Half of the films fit, the other half says how honest it is.
"""
import collections
import sys

import numpy as np
from scipy.optimize import minimize

PENALTY = 0.02


def read(stream):
    films = collections.defaultdict(list)
    for line in stream:
        fields = line.split()
        number, golfer, frames = int(fields[0]), int(fields[1]), int(fields[2])
        answers = []
        for field in fields[3:]:
            try:
                answers.append(float(field))
            except ValueError:
                break
        films[number].append((golfer, frames, answers, line.split(None, 3 + len(answers))[-1].strip()))
    out = []
    for people in films.values():
        # A golfer in two pieces is known by the longer one.
        golfers = [i for i, p in enumerate(people) if p[0]]
        if not golfers:
            continue
        golfer = max(golfers, key=lambda i: people[i][1])
        answers = np.array([p[2] for i, p in enumerate(people) if i == golfer or not p[0]])
        out.append((answers, sum(1 for i in range(golfer) if not people[i][0]), people[0][3]))
    return out


def chances(weights, answers):
    score = answers @ weights
    score = np.exp(score - score.max())
    return score / score.sum()


def loss(weights, films):
    return (-sum(np.log(max(1e-12, chances(weights, a)[g])) for a, g, _ in films) / len(films)
            + PENALTY * 0.01 * weights @ weights)


def fit(films):
    count = films[0][0].shape[1]
    return minimize(loss, np.zeros(count), args=(films,), method="BFGS").x


def report(weights, films):
    bins = collections.defaultdict(list)
    kinds = collections.defaultdict(list)
    for answers, golfer, kind in films:
        chance = chances(weights, answers)
        best = int(chance.argmax())
        edge = max(e for e in (0, 0.5, 0.7, 0.8, 0.9, 0.95, 0.99) if chance[best] >= e)
        bins[edge].append((chance[best], best == golfer))
        kinds[kind].append((chance[best] >= 0.9, best == golfer))
    print("stated from   films   mean stated   right")
    for edge in sorted(bins):
        stated, right = np.array(bins[edge]).T
        print(f"{edge:11.2f}{len(stated):8d}{stated.mean():14.3f}{right.mean():8.3f}")
    print("kind                     sure   of these right")
    for kind, rows in kinds.items():
        sure, right = np.array(rows).T
        print(f"{kind:22s}{sure.mean():7.3f}{right[sure].mean() if sure.any() else 1:10.4f}")


def main():
    films = read(sys.stdin)
    half = fit(films[::2])
    print("fitted on one half, told of the other:")
    report(half, films[1::2])
    print("all:", ", ".join(f"{w:.2f}" for w in fit(films)))


main()
