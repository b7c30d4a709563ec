package network

import (
	"fmt"
	"math"

	"example.com/hydronics"
)

// findHeld finds the nodes that open branches join to a given pressure; nil
// says that all are. One-way elements that are shut but stand at their opening
// pressure, as behind a pump at rest, count as open: the pressure follows there.
func (s *System) findHeld() []bool {
	shut := false
	for b := range s.laws {
		shut = shut || s.prescribed[b] || s.closed[b]
	}
	if !shut {
		return nil
	}
	near := 10 * coarse * s.drive()
	s.part.reset()
	for b, end := range s.ends {
		if s.prescribed[b] {
			continue
		}
		if s.closed[b] {
			f, _ := s.laws[b].at(0)
			if math.Abs(s.pressure[end[0]]-s.pressure[end[1]]-f) > near {
				continue
			}
		}
		s.part.join(int(end[0]), int(end[1]))
	}
	held := make([]bool, len(s.pressure))
	for k := s.f.n; k < len(held); k++ {
		held[s.part.of(k)] = true
	}
	for k := range held {
		held[k] = held[s.part.of(k)]
	}
	return held
}

// checkHeld refuses to ask for the pressure over a branch whose ends nothing
// joins to each other and to a given pressure. held is what findHeld has just found.
func (s *System) checkHeld(b int, held []bool) error {
	if held == nil {
		return nil
	}
	from, to := int(s.ends[b][0]), int(s.ends[b][1])
	if s.part.of(from) == s.part.of(to) || held[from] && held[to] {
		return nil
	}
	if held[from] {
		from = to
	}
	return s.net.inBranch(b, fmt.Errorf("nothing says which pressure stands over it: only this and other branches that are shut or have their flow given lead to node %s: %w",
		s.net.nodeName(s.node(from)), hydronics.ErrNoSolution))
}
