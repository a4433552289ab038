# SPDX-License-Identifier: MIT
"""What a test does where something that it needs is not there: it says so, and ctest counts it as skipped."""

import shutil
import sys


def skip(why):
    print("skipped:", why)
    sys.exit(77)


def need(*tools):
    for tool in tools:
        if not shutil.which(tool):
            skip(f"there is no {tool} here")
