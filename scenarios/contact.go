package scenarios

import (
	"math"

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
}

// join adds the joint of two faces under a bolt. It adds no resistance for the
// crowding through an overlap: the lengths of parts reach to the middle of
// their holes, and over half of an overlap a bar counts more than the crowding
// does.
func (r *resolver) join(a, b *contact, bolt int) {
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
	r.stack.Joints = append(r.stack.Joints, j)
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

// meet joins two neighbours, washers between them included, under the bolt of
// the one that has a stud.
func (r *resolver) meet(a, b *contact, washers []piece) {
	if a == nil || b == nil {
		return
	}
	bolt := max(a.bolt, b.bolt)
	if bolt < 0 || (a.bolt >= 0 && b.bolt >= 0) {
		return // told by arrange
	}
	last := a
	for _, w := range washers {
		r.join(last, w.entry, bolt)
		last = w.exit
	}
	r.join(last, b, bolt)
}

// connect joins all pieces in the order of the path.
func (r *resolver) connect(pieces []piece) {
	var before *piece
	var washers []piece
	for i := range pieces {
		p := &pieces[i]
		if isWasher(&r.file.Path[p.item]) {
			washers = append(washers, *p)
			continue
		}
		if before != nil {
			r.meet(before.exit, p.entry, washers)
		}
		before, washers = p, nil
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
