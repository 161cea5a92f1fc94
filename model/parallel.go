package model

import "clampheat/model/network"

// This file holds bars that stand side by side and carry the current together:
// one conductor of as many sections. Their outer faces and narrow edges are to
// the air what those of one bar are. Between each two the air rises through a
// channel (Channel of the network), and of the radiation only what finds the way
// out of it is lost (GrooveEmissivity).

// mostBars is how many bars one may ask for: more are not built side by side
// (common practice, no source).
const mostBars = 10

// bars is how many the conductor has; a count of 0 means 1.
func (p *Bar) bars() int { return max(1, p.Count) }

func (p *Bar) checkBars(c *checks) {
	if p.Count < 0 || p.Count > mostBars {
		c.fail("number of bars", "must be 1 to %d, not %d", mostBars, p.Count)
	}
	if p.bars() == 1 {
		return
	}
	c.positive("gap between the bars", p.Gap)
	if p.Lies == Flat {
		c.fail("way it lies", "must be on edge or upright for bars side by side: air does not rise between level ones")
	}
}

// section is the metal of all bars, m².
func (p *Bar) section() float64 { return float64(p.bars()) * (p.Width * p.Thickness) }

// outside is the perimeter of the bars, m, that does not face another of them.
func (p *Bar) outside() float64 { return 2 * (p.Width + float64(p.bars())*p.Thickness) }

// channels are the faces that look at one another, per metre: the sides of the
// gaps. Air that is driven over the bars is not counted on to find its way in.
func (p *Bar) channels() (exposure, bool) {
	gaps := p.bars() - 1
	if gaps == 0 {
		return exposure{}, false
	}
	height := p.Width
	if p.Lies == Vertical {
		height = p.Length
	}
	return exposure{
		area:       2 * float64(gaps) * p.Width,
		emissivity: network.GrooveEmissivity(p.Finish.Emissivity.Likely, p.Width, p.Gap),
		shape:      network.Channel{Gap: p.Gap, Height: height},
		sheltered:  true,
		depth:      p.Thickness / 2, conductivity: p.Metal.Conductivity,
	}, true
}

// exposeChannels gives a node the inner faces of its width [m] of the bars. A
// cover stops the air between them, and they do not see it.
func (b *builder) exposeChannels(part int, n network.NodeID, p *Bar, width float64) {
	if e, ok := p.channels(); ok && b.cover[part] < 0 {
		e.area *= width * p.Exposed
		b.expose(part, n, p.Label+", between the bars", e)
	}
}
