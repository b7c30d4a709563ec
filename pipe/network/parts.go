package network

// parts says which nodes are joined: disjoint sets with path halving.
type parts []int32

func newParts(n int) parts {
	p := make(parts, n)
	p.reset()
	return p
}

func (p parts) reset() {
	for i := range p {
		p[i] = int32(i)
	}
}

// of returns the node that stands for the part of node i.
func (p parts) of(i int) int {
	k := int32(i)
	for p[k] != k {
		p[k] = p[p[k]]
		k = p[k]
	}
	return int(k)
}

// join makes one part of two and reports whether they were apart.
func (p parts) join(i, j int) bool {
	a, b := p.of(i), p.of(j)
	if a == b {
		return false
	}
	p[max(a, b)] = int32(min(a, b))
	return true
}
