package scenarios

import (
	"math"
	"slices"

	"clampheat/materials"
	"clampheat/model"
)

// This file joins the parts of a path: which faces press on each other, under
// which bolt.

// contact is a face of a part, and the bolt of its own where it has a stud.
type contact struct {
	port    model.Port
	item    int    // index in File.Path
	name    string // of the side, for the joint's name
	metal   materials.Metal
	plating materials.Plating
	face    float64 // m², the hole included
	across  float64 // m, its least width
	depth   float64 // m, of metal below the face
	bolt    int     // index in Stack.Bolts; −1 for none
}

// piece is what an item has become: its two outer faces. A face is nil where
// nothing can be joined.
type piece struct {
	item        int
	label       string
	entry, exit *contact
	studs       []*contact    // of a bus bar
	outer       [2]model.Port // where the current comes from and goes to, of a side that meets nothing
}

// on is the face that a piece has in a meeting.
func (p *piece) on(s seat) *contact {
	switch {
	case p.studs != nil:
		return p.studs[s.stud]
	case s.side == 0:
		return p.entry
	}
	return p.exit
}

// join adds the joint of two faces under a bolt. It adds no resistance for the
// crowding through an overlap: the lengths of parts reach to the middle of
// their holes, and over half of an overlap a bar counts more than the crowding
// does.
func (r *resolver) join(a, b *contact, bolt, way int) {
	at := &r.file.Path[b.item]
	f := r.stack.Bolts[bolt].Fastener
	net := math.Min(a.face, b.face) - disc(f.HoleDiameter)
	if !(net > 0 && math.Min(a.across, b.across) > f.HoleDiameter) {
		r.complain(r.file.problemAt(at.Pos, "no face is left around the hole for %s between %s and %s", f.Name, a.name, b.name).
			hint("a smaller thread, or a wider part"))
		return
	}
	j := model.Joint{
		Name: a.name + " to " + b.name, A: a.port, B: b.port, Kind: model.Bolted, Bolt: bolt,
		Face: model.Face{
			Metals:   [2]materials.Metal{a.metal, b.metal},
			Platings: [2]materials.Plating{a.plating, b.plating},
			State:    r.faces(bolt, &r.file.Path[a.item], at),
			Area:     net,
			Depth:    [2]float64{a.depth, b.depth},
		},
	}
	r.addJoint(j, way)
}

// addJoint adds a joint that passes the current of a way.
func (r *resolver) addJoint(j model.Joint, way int) {
	r.stack.Joints = append(r.stack.Joints, j)
	r.jointWay = append(r.jointWay, way)
}

// faces is the state of a pair of faces: what their parts or the owner of the
// stud say; of several words the dirtier.
func (r *resolver) faces(bolt int, items ...*Item) materials.FaceState {
	var state materials.FaceState
	said := false
	for _, item := range append(items, &r.file.Path[r.boltItem[bolt]]) {
		if !item.Faces.Set {
			continue
		}
		r.use(item.Faces.Pos)
		if s := r.faceState(item.Faces.Text); !said || s.Film.Likely > state.Film.Likely {
			state = s
		}
		said = true
	}
	if !said {
		state = r.unsaidFaces()
	}
	return state
}

// connect joins what meets, in the order of the path.
func (r *resolver) connect(pieces []piece) {
	for _, m := range r.order.meetings {
		r.meet(m, pieces)
	}
}

// meet joins all that lies under one nut: on the part with the stud the first of
// the others in the order of the path, on that the next, and so on, washers
// between them included. The current of an outer lug so passes the faces of
// those below it.
func (r *resolver) meet(m meeting, pieces []piece) {
	seats := m.seats()
	owner := -1
	for k, s := range seats {
		c := pieces[s.item].on(s)
		if c == nil {
			return // told by the reader
		}
		if c.bolt >= 0 {
			owner = k
		}
	}
	if owner < 0 {
		return // told by the reader, which has no torque
	}
	stud := seats[owner]
	last := pieces[stud.item].on(stud)
	bolt := last.bolt
	// Washers from the stud outwards: those of its own way, then those before
	// all others.
	fromBefore := owner < len(m.before)
	pending := slices.Clone(stud.washers)
	between := slices.Clone(m.between)
	if !fromBefore {
		slices.Reverse(pending)
		slices.Reverse(between)
	}
	pending = append(pending, between...)
	for k, s := range seats {
		if k == owner {
			continue
		}
		own := slices.Clone(s.washers)
		isBefore := k < len(m.before)
		if isBefore {
			slices.Reverse(own)
		}
		outwards := append(pending, own...)
		pending = nil
		step := func(c *contact) {
			way := r.file.Path[c.item].Way
			if isBefore {
				r.join(c, last, bolt, way)
			} else {
				r.join(last, c, bolt, way)
			}
		}
		for _, w := range outwards {
			washer := &pieces[w]
			if washer.entry == nil {
				return // told by the reader
			}
			inner, outer := washer.entry, washer.exit
			if isBefore {
				inner, outer = outer, inner
			}
			step(inner)
			last = outer
		}
		face := pieces[s.item].on(s)
		step(face)
		last = face
	}
}

// measured gives the faces under each nut the resistance that a meter showed.
// The meter stands on the two outermost parts under the nut, so that several
// faces share its reading; how, it does not tell, so they do as predicted.
func (r *resolver) measured() {
	for bolt, item := range r.boltItem {
		m := r.file.Path[item].MeasuredAt
		if !m.Set {
			continue
		}
		r.use(m.Pos)
		var faces []int
		var predicted []float64
		sum := 0.0
		for i := range r.stack.Joints {
			if j := &r.stack.Joints[i]; j.Kind != model.Bolted || j.Bolt != bolt {
				continue
			}
			figures, err := r.stack.JointFigures(i)
			if err != nil {
				return // told by checkFigures
			}
			faces, predicted = append(faces, i), append(predicted, figures.Resistance.Likely)
			sum += figures.Resistance.Likely
		}
		for k, i := range faces {
			r.stack.Joints[i].Measured = &model.Measured{Resistance: m.Resistance * predicted[k] / sum}
		}
	}
}
