# SPDX-License-Identifier: MIT
"""filters.py: filters by a library of its own.

Each line of standard input is a name and numbers; each line of standard output the numbers that came out:

  butter CUTOFF                   b0 b1 b2 a1 a2 of a second-order Butterworth low-pass
  filtfilt CUTOFF SAMPLE...       the samples after that filter forward and backward
  slope STEP SAMPLE...            their derivative: of the parabola through each three

Exit code 77 when the library is not installed.
"""

import sys

try:
    from scipy.signal import butter, filtfilt, savgol_filter
except ImportError:
    sys.exit(77)


def butter_2(numbers):
    b, a = butter(2, numbers[0])
    return [*b, *a[1:]]


def forward_backward(numbers):
    return filtfilt(*butter(2, numbers[0]), numbers[1:])


def slope(numbers):
    return savgol_filter(numbers[1:], 3, 2, deriv=1, delta=numbers[0])


ways = {"butter": butter_2, "filtfilt": forward_backward, "slope": slope}

for line in sys.stdin:
    way, *numbers = line.split()
    print(*(repr(float(value)) for value in ways[way]([float(number) for number in numbers])))
