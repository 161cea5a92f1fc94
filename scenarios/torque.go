package scenarios

import (
	"errors"
	"fmt"
	"slices"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios/quantity"
)

// This file makes the bolts and asks whether each torque can be meant.

// studs gives the torque of each nut of an item, and complains where there
// are not as many as studs.
func (r *resolver) torques(item *Item, studs int) []Quantity {
	given := item.Nuts
	if item.Nut.Set {
		given = []Quantity{item.Nut}
	}
	for _, q := range given {
		r.use(q.Pos)
		if !q.Set {
			return nil // the reader told why
		}
	}
	switch {
	case len(given) == studs:
		return given
	case len(given) == 1:
		return slices.Repeat(given, studs)
	case len(given) == 0:
		if !r.partial {
			r.complain(r.file.problemAt(item.Pos, "the torque on the nut of this %s is missing", item.Kind).
				hint("an installer knows it: write \"nut: 12 N·m\""))
		}
		return nil
	}
	r.complain(r.file.problemAt(given[0].Pos, "a %s has %s, but %d torques stand here", item.Kind, studWord(studs), len(given)).
		hint("one torque for all nuts, or one for each stud in the order of the path"))
	return nil
}

func studWord(n int) string {
	switch n {
	case 1:
		return "one stud"
	case 2:
		return "two studs"
	}
	return fmt.Sprintf("%d studs", n)
}

// addBolt adds a bolt with a torque and returns its index, −1 where it cannot
// be.
func (r *resolver) addBolt(o owner, name, thread, class string, torque Quantity) int {
	f, err := materials.LookupFastener(thread)
	if err != nil {
		r.fail(err)
		return -1
	}
	c, err := materials.LookupPropertyClass(class)
	if err != nil {
		r.fail(err)
		return -1
	}
	b := model.Bolt{
		Name: name, Fastener: f, Class: c,
		Thread: r.thread(r.wordOr("joints", "joints", "thread", o.item.Thread)),
		Torque: torque.Value,
	}
	if how := o.item.Tightened; how.Set {
		r.use(how.Pos)
		b.Tightening = r.tightening(how.Text)
	} else {
		b.Tightening = r.unsaidTightening()
	}
	if kept := o.item.ClampKept; kept.Set {
		r.use(kept.Pos)
		b.Kept = materials.Exactly(kept.Value)
	} else {
		b.Kept = r.spanOf("joints", "joints", "clamp kept", quantity.Share)
	}
	r.defaultWord("joints", "joints", "under the nut")
	if !(torque.Value > 0) {
		return -1 // the reader told why
	}
	r.stack.Bolts = append(r.stack.Bolts, b)
	r.boltItem = append(r.boltItem, o.index)
	i := len(r.stack.Bolts) - 1
	r.checkTorque(i, torque)
	return i
}

// usual bounds, as shares of the torque at which the thread yields, a torque
// that may be meant; below unlikely another unit is looked for. Common
// practice, no source: torques of catalogues lie at a quarter to all of what a
// steel thread holds, and holders and posts of soft metal ask for down to a
// sixth.
const (
	unlikelyShare   = 0.10
	leastUsualShare = 0.15
	mostUsualShare  = 1.00
)

// checkTorque complains about a torque past what the thread holds, and warns
// of one near it or so low that another unit may have been meant.
//
// A torque is judged as the file has it: where assumptions are varied, it is
// the model that says whether the thread still holds.
func (r *resolver) checkTorque(i int, torque Quantity) {
	if len(r.vary) > 0 {
		return
	}
	b := &r.stack.Bolts[i]
	figures, err := r.stack.BoltFigures(i)
	var yields *model.YieldError
	switch {
	case errors.As(err, &yields):
		p := r.file.problemAt(torque.Pos, "%s would break %s: its thread (class %s, %s) yields at %s even at the highest friction",
			show(torque), b.Fastener.Name, b.Class.Name, b.Thread.Name, quantity.Format(quantity.Torque, yields.Yield, torque.Unit, 2))
		if other, si, ok := otherUnit(torque, yields.Yield); ok {
			p = p.hint("was %s meant? That is %s", other, quantity.Format(quantity.Torque, si, torque.Unit, 2))
		}
		r.complain(p)
		return
	case err != nil:
		r.fail(err)
		return
	}
	for _, w := range figures.Warnings {
		r.complain(r.file.warningAt(torque.Pos, "%s", w.Text).hint("the maker of the part may allow less than the bolt"))
	}
	share := torque.Value / figures.Yield
	if share >= unlikelyShare {
		return
	}
	if other, _, ok := otherUnit(torque, figures.Yield); ok {
		r.complain(r.file.warningAt(torque.Pos, "%s is %s, %.0f %% of what %s holds; %s would be usual for it",
			show(torque), inNewtonMetres(torque), 100*share, b.Fastener.Name, other))
		return
	}
	r.complain(r.file.warningAt(torque.Pos, "%s is %s %% of what %s holds: hardly any force clamps the faces",
		show(torque), quantity.Number(100*share, 1), b.Fastener.Name))
}

func show(q Quantity) string { return quantity.Format(quantity.Torque, q.Value, q.Unit, 0) }

// inNewtonMetres writes a torque in the unit that it was not written in.
func inNewtonMetres(q Quantity) string {
	if q.Unit == "N·m" {
		return quantity.Format(quantity.Torque, q.Value, "in·lb", 2)
	}
	return quantity.Format(quantity.Torque, q.Value, "N·m", 2)
}

// otherUnit finds a unit in which the same number would be a usual torque for
// a thread that yields at a torque of yield [N·m].
func otherUnit(torque Quantity, yield float64) (text string, si float64, ok bool) {
	n, err := quantity.Convert(quantity.Torque, torque.Value, torque.Unit)
	if err != nil {
		return "", 0, false
	}
	for _, unit := range quantity.Units(quantity.Torque) {
		text = fmt.Sprintf("%s %s", quantity.Number(n, 0), unit)
		v, err := quantity.Parse(quantity.Torque, text)
		if err != nil || v.Unit == torque.Unit {
			continue
		}
		if share := v.SI / yield; share >= leastUsualShare && share <= mostUsualShare {
			return text, v.SI, true
		}
	}
	return "", 0, false
}
