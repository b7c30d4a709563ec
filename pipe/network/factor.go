package network

// A factor holds the matrix of a network and becomes its LDLᵀ factorization.
// The matrix is symmetric, and each diagonal is at least as large as the sum of
// the others in its row, so that no pivoting is needed. Beyond the unknowns it
// has room for one that is never solved for: what the branches add for nodes
// with given pressure goes there.
type factor struct {
	elimination
	n        int
	diagonal []float64 // n unknowns, then the nodes with given pressure
	below    []float64 // by position in rows, and one place for what is not in the pattern
	right    []float64 // right-hand side, then the solution
}

func newFactor(n, nodes int, e elimination) factor {
	return factor{
		elimination: e, n: n, diagonal: make([]float64, nodes),
		below: make([]float64, len(e.rows)+1), right: make([]float64, nodes),
	}
}

func (f *factor) clear() {
	clear(f.diagonal)
	clear(f.below)
}

// place returns where the entry of the unknowns i and j stands in below.
func (f *factor) place(i, j int32) int32 {
	if int(max(i, j)) >= f.n || i == j {
		return int32(len(f.rows))
	}
	c, r := min(i, j), max(i, j)
	k := f.start[c]
	for f.rows[k] != r {
		k++
	}
	return k
}

// solve factorizes the matrix and solves for right, in place: column by column,
// each taken off the columns of its rows, whose pattern contains its own.
func (f *factor) solve() {
	d, l, rows, start, y := f.diagonal, f.below, f.rows, f.start, f.right
	for c := range f.n {
		from, to := start[c], start[c+1]
		pivot := 1 / d[c]
		d[c] = pivot
		yc := y[c]
		for a := from; a < to; a++ {
			r := rows[a]
			whole := l[a]
			part := whole * pivot
			d[r] -= part * whole
			y[r] -= part * yc
			q := start[r]
			for b := a + 1; b < to; b++ {
				for rows[q] != rows[b] {
					q++
				}
				l[q] -= part * l[b]
				q++
			}
			l[a] = part
		}
	}
	for c := f.n - 1; c >= 0; c-- {
		x := y[c] * d[c]
		for a := start[c]; a < start[c+1]; a++ {
			x -= l[a] * y[rows[a]]
		}
		y[c] = x
	}
	clear(y[f.n:])
}
