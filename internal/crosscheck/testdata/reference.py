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


def change(small, large):
    """Sudden enlargement, contraction by Crane and by Rennels, on the smaller bore."""
    return [
        fluids.diffuser_sharp(small, large, method="Rennels"),
        fluids.contraction_sharp(large, small, method="Crane"),
        fluids.contraction_sharp(large, small, method="Rennels"),
    ]


def two_k(name, bore, reynolds):
    """Hooper's coefficient by the library's own constants; it takes the bore in inches."""
    return [fluids.Hooper2K(Di=bore / 0.0254, Re=reynolds, name=name)]


def three_k(name, bore, reynolds):
    """Darby's coefficient by the library's own constants; the bore stands for the nominal size in inches."""
    return [fluids.Darby3K(NPS=bore / 0.0254, Re=reynolds, name=name)]


def valve(kv, bore):
    """Loss coefficient and Cv of a Kv, and the Kv of that loss coefficient."""
    k = fluids.Kv_to_K(kv, bore)
    return [k, fluids.Kv_to_Cv(kv), fluids.K_to_Kv(k, bore), fluids.Cv_to_Kv(kv)]


KINDS = {f.__name__: f for f in (water, saturation, friction, change, two_k, three_k, valve)}

if __name__ == "__main__":
    points = json.load(sys.stdin)
    json.dump({what: [KINDS[what](*p) for p in rows] for what, rows in points.items()}, sys.stdout)
