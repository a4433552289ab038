# SPDX-License-Identifier: MIT
"""two_views.py: points from two pictures each, by a library of its own.

Each line of standard input holds 28 numbers: a 3 x 4 camera matrix, another, and the point's place in
the two pictures (x, y, x, y). Each line of standard output is the point (x, y, z) at which the sum of
squared distances in the pictures is least: linear triangulation (Hartley and Zisserman, Multiple View
Geometry, 2nd ed. 2003, 12.2), then refined. Exit code 77 when the libraries are not installed.
"""

import sys

try:
    import numpy
    from scipy.optimize import least_squares
except ImportError:
    sys.exit(77)


def linear(cameras, places):
    rows = []
    for camera, (x, y) in zip(cameras, places):
        rows += [x * camera[2] - camera[0], y * camera[2] - camera[1]]
    # Rows of one size each: pixels and metres are far apart.
    rows = [row / numpy.linalg.norm(row) for row in rows]
    point = numpy.linalg.svd(numpy.array(rows))[2][-1]
    return point[:3] / point[3]


def residuals(point, cameras, places):
    seen = [camera @ numpy.append(point, 1) for camera in cameras]
    return numpy.concatenate([s[:2] / s[2] - place for s, place in zip(seen, places)])


for line in sys.stdin:
    numbers = numpy.array([float(word) for word in line.split()])
    cameras = numbers[:24].reshape(2, 3, 4)
    places = numbers[24:].reshape(2, 2)
    refined = least_squares(residuals, linear(cameras, places), args=(cameras, places),
                            method="lm", xtol=1e-14, ftol=1e-14, gtol=1e-14)
    print(*(repr(float(value)) for value in refined.x))
