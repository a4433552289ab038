# SPDX-License-Identifier: MIT
"""by_hand.py INBOX [COUNT]: what one would write instead, with numpy and scipy.

Takes two films of 33 points a submission, the picture where the golfer stands stillest, and finds the
body in three dimensions that fits both: joints, two cameras and stature, by scipy's least_squares with
its own defaults, from reprojection, lengths of bones and a usual address. Prints each measure with a
standard uncertainty from the covariance as CSV. It knows none of rangecheck's cares (no other people,
no sides exchanged, no biases of estimators, no swing, no reports), and nothing of rangecheck is in it.
"""

import csv
import json
import pathlib
import sys

import numpy as np
import yaml
from scipy.optimize import least_squares

# The 33 points by index, of a right-hander: lead is left.
POINTS = {
    "nose": 0, "lead_eye": 2, "trail_eye": 5, "lead_ear": 7, "trail_ear": 8,
    "lead_shoulder": 11, "trail_shoulder": 12, "lead_elbow": 13, "trail_elbow": 14,
    "lead_wrist": 15, "trail_wrist": 16, "lead_little": 17, "trail_little": 18,
    "lead_index": 19, "trail_index": 20, "lead_thumb": 21, "trail_thumb": 22,
    "lead_hip": 23, "trail_hip": 24, "lead_knee": 25, "trail_knee": 26,
    "lead_ankle": 27, "trail_ankle": 28, "lead_heel": 29, "trail_heel": 30,
    "lead_toe": 31, "trail_toe": 32}
NAMES = list(POINTS)
AT = {name: index for index, name in enumerate(NAMES)}

# A usual address in shares of stature: toward the target, up, toward the ball. No source.
USUAL = {"nose": (0, .787, .248), "eye": (.018, .81, .24), "ear": (.047, .84, .195),
         "shoulder": (.1, .745, .11), "elbow": (.065, .595, .14), "wrist": (.028, .46, .175),
         "little": (.015, .415, .175), "index": (.015, .41, .19), "thumb": (.01, .41, .19),
         "hip": (.06, .505, -.036), "knee": (.104, .283, .06), "ankle": (.116, .041, .035),
         "heel": (.108, .012, 0), "toe": (.151, .012, .14)}
USUAL_PLACES = np.array([
    np.array(USUAL[name.split("_")[-1]]) * ((-1, 1, 1) if name.startswith("trail") else (1, 1, 1))
    for name in NAMES])

# Segments in shares of stature: Drillis & Contini 1966, via Winter 2009, fig. 4.1, from memory.
SEGMENTS = [(side + a, side + b, share) for side in ("lead_", "trail_") for a, b, share in (
    ("hip", "knee", .245), ("knee", "ankle", .246), ("shoulder", "elbow", .186),
    ("elbow", "wrist", .146), ("heel", "toe", .152), ("hip", "shoulder", .288))]
SEGMENTS += [("lead_shoulder", "trail_shoulder", .21), ("lead_hip", "trail_hip", .114),
             ("lead_ear", "trail_ear", .096), ("lead_wrist", "trail_wrist", .05)]
FROM = np.array([AT[a] for a, b, share in SEGMENTS])
TO = np.array([AT[b] for a, b, share in SEGMENTS])
SHARES = np.array([share for a, b, share in SEGMENTS])

AXES = {"face-on": np.array([[1, 0, 0], [0, -1, 0], [0, 0, -1]], float),
        "down-the-line": np.array([[0, 0, 1], [0, -1, 0], [1, 0, 0]], float)}


def still_picture(film, width, height):
    """Points (pixels) and their visibility in the half second that moves least."""
    frames = [[(p["x"] * width, p["y"] * height, p["visibility"]) for p in frame["poseLandmarks"]]
              for frame in film if frame]
    points = np.array(frames)[:, [POINTS[name] for name in NAMES]]
    moved = np.linalg.norm(np.diff(points[:, :, :2], axis=0), axis=2).sum(axis=1)
    window = min(30, len(moved))
    start = int(np.argmin(np.convolve(moved, np.ones(window), mode="valid")))
    middle = np.median(points[start:start + window], axis=0)
    return middle[:, :2] - (width / 2, height / 2), middle[:, 2]


def seen_by(camera, axes, joints):
    """Where a pinhole camera (log of the focal length, place, turn) shows the joints."""
    from_camera = (joints - camera[1:4]) @ axes.T
    g = camera[4:7]
    crossed = np.cross(g, from_camera)
    turned = from_camera + 2 / (1 + g @ g) * (crossed + np.cross(g, crossed))
    return np.exp(camera[0]) * turned[:, :2] / turned[:, 2:]


def residuals(x, films, stature_m):
    joints = x[:3 * len(NAMES)].reshape(-1, 3)
    stature = x[3 * len(NAMES)]
    parts = [[(stature - stature_m) / .015]]
    for number, (axes, seen, sigma, size) in enumerate(films):
        camera = x[3 * len(NAMES) + 1 + 7 * number:][:7]
        parts.append(((seen_by(camera, axes, joints) - seen) / sigma[:, None]).ravel())
        ahead = axes @ (np.array([0, .9, .1]) - camera[1:4])
        parts.append([(camera[0] - np.log(.79 * size)) / .11, (camera[2] - 1) / .28,
                      np.arctan2(ahead[0], ahead[2]) / .1,
                      (np.log(np.hypot(ahead[0], ahead[2])) - 1.16) / .25,
                      2 * camera[4] / .2, 2 * camera[5] / .2, 2 * camera[6] / .025])
    lengths = np.linalg.norm(joints[FROM] - joints[TO], axis=1)
    parts.append((lengths / stature - SHARES) / .015)
    parts.append(((joints / stature - USUAL_PLACES) / .1).ravel())
    for name in ("lead_heel", "trail_heel", "lead_toe", "trail_toe"):
        parts.append([(joints[AT[name], 1] - .02) / .008])
    heels = joints[AT["lead_heel"]] + joints[AT["trail_heel"]]
    parts.append(heels[[0, 2]] / 2 / .001)
    return np.concatenate([np.ravel(part) for part in parts])


def body_of(films, stature_m):
    """Joints (m), and their covariance."""
    start = [(USUAL_PLACES * stature_m).ravel(), [stature_m]]
    for axes, seen, sigma, size in films:
        start.append([np.log(.79 * size), *(np.array([0, 1, .1]) - 3.5 * axes[2]), 0, 0, 0])
    found = least_squares(residuals, np.concatenate(start), args=(films, stature_m))
    covariance = np.linalg.inv(found.jac.T @ found.jac)
    n = 3 * len(NAMES)
    return found.x[:n].reshape(-1, 3), covariance[:n, :n]


def angle(a, b):
    return np.degrees(np.arctan2(np.linalg.norm(np.cross(a, b)), a @ b))


def flexion(a, joint, b):
    return angle(joint - a, b - joint)


def open_angle(lead, trail):
    return np.degrees(np.arctan2(trail[2] - lead[2], lead[0] - trail[0]))


def tilt(lead, trail):
    return np.degrees(np.arctan2(lead[1] - trail[1], np.hypot(*(lead - trail)[[0, 2]])))


def measures_of(joints):
    p = {name: joints[index] for name, index in AT.items()}
    mid = {what: (p["lead_" + what] + p["trail_" + what]) / 2
           for what in ("hip", "shoulder", "knee", "wrist", "heel", "toe", "ear", "elbow", "ankle")}
    trunk = mid["shoulder"] - mid["hip"]
    stance = open_angle(p["lead_toe"], p["trail_toe"])
    out = {"stance-width": np.hypot(*(p["lead_heel"] - p["trail_heel"])[[0, 2]]),
           "hip-hinge": flexion(mid["shoulder"], mid["hip"], mid["knee"]),
           "forward-bend": np.degrees(np.arctan2(trunk[2], trunk[1])),
           "side-bend": np.degrees(np.arctan2(-trunk[0], trunk[1])),
           "stance-line": stance,
           "heel-line": open_angle(p["lead_heel"], p["trail_heel"]),
           "trail-toe-setback": p["lead_toe"][2] - p["trail_toe"][2],
           "hand-height": mid["wrist"][1]}
    for what in ("hip", "shoulder", "knee"):
        line = open_angle(p["lead_" + what], p["trail_" + what])
        out[what + "-line-to-target"] = line
        out[what + "-line-to-stance"] = line - stance
        if what != "knee":
            out[what + "-tilt"] = tilt(p["lead_" + what], p["trail_" + what])
    for side, out_of in (("lead", 1), ("trail", -1)):
        knee, hip, ankle = (p[f"{side}_{what}"] for what in ("knee", "hip", "ankle"))
        heel, toe = p[side + "_heel"], p[side + "_toe"]
        out[side + "-knee-flexion"] = flexion(hip, knee, ankle)
        out[side + "-knee-inset"] = out_of * (ankle[0] - knee[0])
        foot = (toe - heel)[[0, 2]]
        out[side + "-knee-over-foot"] = (knee - heel)[[0, 2]] @ foot / (foot @ foot)
        out[side + "-foot-flare"] = np.degrees(np.arctan2(out_of * foot[0], foot[1]))
        out[side + "-elbow-flexion"] = flexion(p[side + "_shoulder"], p[side + "_elbow"],
                                               p[side + "_wrist"])
    thigh = (p["lead_knee"] - p["lead_hip"])[1:]
    hands = (mid["wrist"] - p["lead_hip"])[1:]
    out["hands-from-lead-thigh"] = (hands[0] * thigh[1] - hands[1] * thigh[0]) / np.hypot(*thigh)
    mass = (.056 * (.564 * mid["shoulder"] + .436 * mid["elbow"]) +
            .044 * (.318 * mid["elbow"] + .682 * mid["wrist"]) +
            .578 * (.34 * mid["hip"] + .66 * mid["shoulder"]) +
            .2 * (.567 * mid["hip"] + .433 * mid["knee"]) +
            .093 * (.567 * mid["knee"] + .433 * mid["ankle"]) +
            .029 * (mid["heel"] + mid["toe"]) / 2)
    for name, start, end in (("balance-along-stance", p["trail_heel"], p["lead_heel"]),
                             ("balance-along-feet", mid["heel"], mid["toe"])):
        way = (end - start)[[0, 2]]
        out[name] = (mass - start)[[0, 2]] @ way / (way @ way)
    return out


def with_uncertainty(joints, covariance):
    values = measures_of(joints)
    base = np.array(list(values.values()))
    step = 1e-6
    gradient = np.empty((len(base), joints.size))
    for i in range(joints.size):
        moved = joints.ravel().copy()
        moved[i] += step
        gradient[:, i] = (np.array(list(measures_of(moved.reshape(-1, 3)).values())) - base) / step
    sigma = np.sqrt(np.einsum("ij,jk,ik->i", gradient, covariance, gradient))
    return zip(values, base, sigma)


def graded(folder):
    told = yaml.safe_load((folder / "submission.yaml").read_text())
    films = []
    for view in told["views"]:
        width, height = view["image"]["width"], view["image"]["height"]
        film = json.loads((folder / view["landmarks"]).read_text())
        seen, visibility = still_picture(film, width, height)
        tall = np.ptp(seen[:, 1]) / 1.6  # pixels a metre, about
        films.append((AXES[view["view"]], seen, tall * .012 * (2 - visibility), max(width, height)))
    stature_m = float(told["golfer"]["stature"].split()[0]) / 100
    return with_uncertainty(*body_of(films, stature_m))


def main():
    folders = sorted(path for path in pathlib.Path(sys.argv[1]).iterdir() if path.is_dir())
    if len(sys.argv) > 2:
        folders = folders[:int(sys.argv[2])]
    table = csv.writer(sys.stdout)
    table.writerow(["submission", "check", "value", "u"])
    for folder in folders:
        for name, value, sigma in graded(folder):
            table.writerow([folder.name, name, f"{value:.4f}", f"{sigma:.4f}"])


main()
