package solver

import "slices"

// schedule cuts trees, whose nodes are given ends first and lie in one place,
// into chains and sorts them into rounds.
func (f *forest) schedule(order []int, place int) []round {
	links := f.s.Links
	turned := func(i int) bool { return links[f.link[i]][0] != i }
	chainOf := f.chains // −1 outside the place
	var chains []chain
	for _, i := range order {
		if chainOf[i] >= 0 {
			continue
		}
		c := chain{first: i, step: 1, length: 1, parent: f.parent[i], link: f.link[i], linkStep: 1}
		if c.parent >= 0 {
			c.turned = turned(i)
		}
		chainOf[i] = len(chains)
		for c.parent >= 0 {
			last, next := c.last(), c.parent
			step := next - last
			// Only the way straight on: a side branch must not take over its
			// trunk.
			if f.place[next] != place || chainOf[next] >= 0 || f.parent[next] < 0 || f.parent[next] != next+step || turned(next) != c.turned {
				break
			}
			linkStep := f.link[next] - f.link[last]
			if c.length == 1 {
				c.step, c.linkStep = step, linkStep
			} else if c.step != step || c.linkStep != linkStep {
				break
			}
			chainOf[next] = len(chains)
			c.length++
			c.parent = f.parent[next]
		}
		chains = append(chains, c)
	}
	// A chain waits for those that hang on its nodes. The peeling order puts
	// every node behind all that hang on it.
	height := make([]int, len(chains))
	top := 0
	for _, i := range order {
		c := chainOf[i]
		if chains[c].last() != i || chains[c].parent < 0 {
			continue
		}
		if q := chainOf[chains[c].parent]; q >= 0 {
			height[q] = max(height[q], height[c]+1)
			top = max(top, height[q])
		}
	}
	if len(chains) == 0 {
		return nil
	}
	rounds := make([]round, top+1)
	// A chain without a partner in its round waits for one as long as the
	// chain that it hangs on allows.
	byHeight := make([]int, len(chains))
	for k := range byHeight {
		byHeight[k] = k
	}
	slices.SortStableFunc(byHeight, func(a, b int) int { return height[a] - height[b] })
	var single *chain
	due := 0
	alone := func() {
		if single != nil {
			rounds[due].solos = append(rounds[due].solos, *single)
			single = nil
		}
	}
	for _, k := range byHeight {
		c, h := &chains[k], height[k]
		if single != nil && due < h {
			alone()
		}
		r := &rounds[h]
		switch {
		case c.length == 1:
			r.leaves = append(r.leaves, leaf{c.first, c.parent, c.link, c.turned})
		case single != nil:
			r.pairs = append(r.pairs, [2]chain{*single, *c})
			single = nil
		default:
			single, due = c, top
			if q := chainOf[c.parent]; q >= 0 {
				due = height[q] - 1
			}
		}
	}
	alone()
	for _, i := range order {
		chainOf[i] = -1
	}
	return rounds
}
