"""A junction solved by quadratic elements of a general finite-element library, on a mesh of its own: the second opinion."""

from itertools import pairwise
from math import pi

import numpy as np
import skfem
from skfem.helpers import dot, grad


def graded(lines, finest, growth=1.5):
    """Lines with others between them, closest at each."""
    made = [lines[0]]
    for start, end in pairwise(lines):
        sizes = [finest]
        while sum(sizes) < (end - start) / 2:
            sizes.append(sizes[-1] * growth)
        steps = np.cumsum(sizes) * (end - start) / 2 / sum(sizes)
        made += [*(start + steps), *(end - steps[-2::-1]), end]
    return np.array(made)


class Elements:
    """Rectangles and boundaries as an answer lists them, later rectangles over earlier ones; lengths in m inside."""

    def __init__(self, rectangles, boundaries, *, turned=False, finest=0.0005):
        self.turned = turned
        sides = [
            tuple(
                value / 1000
                for value in (one["x_mm"], one["y_mm"], one["x_mm"] + one["width_mm"], one["y_mm"] + one["height_mm"])
            )
            for one in rectangles
        ]
        xs = sorted({round(value, 9) for left, _, right, _ in sides for value in (left, right)})
        ys = sorted({round(value, 9) for _, bottom, _, top in sides for value in (bottom, top)})
        whole = skfem.MeshQuad.init_tensor(graded(xs, finest), graded(ys, finest))
        x, y = whole.p[:, whole.t].mean(axis=1)
        conductivity = np.zeros(len(x))
        for (left, bottom, right, top), one in zip(sides, rectangles, strict=True):
            conductivity[(x > left) & (x < right) & (y > bottom) & (y < top)] = one["conductivity_w_per_m_k"]
        self.mesh = whole.restrict(np.flatnonzero(conductivity > 0))
        self.conductivity = conductivity[conductivity > 0]
        self.basis = skfem.Basis(self.mesh, skfem.ElementQuad2())
        self.open = [one for one in boundaries if not one["adiabatic"]]
        self.surfaces = [self._surface(one) for one in self.open]

    def _surface(self, boundary):
        low = np.array([boundary["x_from_mm"], boundary["y_from_mm"]]) / 1000 - 1e-9
        high = np.array([boundary["x_to_mm"], boundary["y_to_mm"]]) / 1000 + 1e-9
        middles = self.mesh.p[:, self.mesh.facets].mean(axis=1).T
        on = np.all(np.clip(middles, low, high) == middles, axis=1)
        facets = np.intersect1d(np.flatnonzero(on), self.mesh.boundary_facets())
        return skfem.FacetBasis(self.mesh, skfem.ElementQuad2(), facets=facets)

    def _round(self, w):
        return 2 * pi * w.x[0] if self.turned else 1.0

    def solved(self):
        """Field with the inside at 1 and the outside at 0, and the heat that enters from the inside."""
        k = np.repeat(self.conductivity[:, None], self.basis.dx.shape[1], axis=1)
        matrix = skfem.BilinearForm(lambda u, v, w: self._round(w) * w.k * dot(grad(u), grad(v))).assemble(
            self.basis, k=k
        )
        load = np.zeros(self.basis.N)
        for boundary, surface in zip(self.open, self.surfaces, strict=True):
            r = boundary["surface_resistance_m2_k_per_w"]
            matrix = matrix + skfem.BilinearForm(lambda u, v, w, r=r: self._round(w) * u * v / r).assemble(surface)
            if boundary["environment"] == "inside":
                load += skfem.LinearForm(lambda v, w, r=r: self._round(w) * v / r).assemble(surface)
        field = skfem.solve(matrix, load)
        return field, float(load.sum() - load @ field)

    def at(self, field, x_mm, y_mm):
        """Value of the field at the node that lies at a point."""
        places = self.basis.doflocs.T
        (found,) = np.flatnonzero(np.all(np.isclose(places, [x_mm / 1000, y_mm / 1000], atol=1e-9), axis=1))
        return float(field[found])
