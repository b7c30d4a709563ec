"""Evaluates a list of points with general-purpose libraries.

Reads {"what": [[argument, ...], ...], ...} on standard input, writes the same
shape with lists of results. One function per kind of point.
"""

import json
import sys

import fluids
import iapws


def water(temperature, pressure):
    """Liquid water by IF97: K and MPa to SI."""
    s = iapws.IAPWS97(T=temperature, P=pressure)
    return [s.rho, s.h * 1e3, s.cp * 1e3, s.mu, s.k]


def saturation(temperature):
    """Saturation pressure in Pa by IF97 region 4."""
    return [iapws.iapws97._PSat_T(temperature) * 1e6]


def friction(reynolds, roughness):
    """Darcy factor: the exact Colebrook equation, and 64/Re below 2000."""
    if reynolds < 2000:
        return [64 / reynolds]
    return [fluids.Colebrook(reynolds, roughness)]


KINDS = {f.__name__: f for f in (water, saturation, friction)}

if __name__ == "__main__":
    points = json.load(sys.stdin)
    json.dump({what: [KINDS[what](*p) for p in rows] for what, rows in points.items()}, sys.stdout)
