package scenarios

import (
	"errors"
	"math"
	"reflect"
	"strings"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios/quantity"
)

// This file turns a file into a stack: the room, the supply, and one part
// after the other.

// resolver makes one stack of one file.
type resolver struct {
	ledger
	file     *File
	stack    *model.Stack
	partItem []int       // of each part of the stack, the item
	boltItem []int       // of each bolt
	jointWay []int       // of each joint, the way whose current it passes
	drawOf   map[int]int // of each circuit its draw
	order    *arrangement
	names    naming
	cases    map[string]sharedBody // by name, of posts
	bases    map[string]sharedBase // by name, of holders
	touches  []Touch
	problems []Problem
	// partial: the file has mistakes already. What rests on a value that may
	// only be missing because of them is not told again.
	partial bool
	// err is what is no mistake of the file: a fault of the data.
	err  error
	used map[Pos]bool
}

func newResolver(f *File, vary map[string]float64) *resolver {
	return &resolver{ledger: ledger{vary: vary}, file: f, stack: &model.Stack{}, used: map[Pos]bool{}, cases: map[string]sharedBody{}, bases: map[string]sharedBase{}, drawOf: map[int]int{}}
}

func (r *resolver) complain(p Problem) { r.problems = append(r.problems, p) }

// fail keeps the first fault.
func (r *resolver) fail(err error) {
	if r.err == nil {
		r.err = err
	}
}

// use notes that a value of the file has had its effect.
func (r *resolver) use(pos Pos) { r.used[pos] = true }

// run resolves the file.
func (r *resolver) run() {
	f := r.file
	r.stack.Title = f.Title.Text
	r.room()
	r.supply()
	order, problems := f.arrange()
	if !f.dropped {
		r.problems = append(r.problems, problems...)
	}
	r.order = order
	r.names = f.names()
	pieces := make([]piece, len(f.Path))
	for i := range f.Path {
		if f.taken[f.Path[i].Way] {
			continue
		}
		o := r.owner(i)
		before := len(r.stack.Parts)
		pieces[i] = o.place(order.places[i])
		for range len(r.stack.Parts) - before {
			r.partItem = append(r.partItem, i)
		}
		r.settle(i)
	}
	if len(problems) > 0 || r.partial {
		return
	}
	r.connect(pieces)
	r.measured()
	r.cover()
	r.box()
	r.circuit(pieces)
	r.limits()
	r.unusedKeys()
}

// settle turns the fault of an item whose words lead to a row that no table has
// into a mistake at its place.
func (r *resolver) settle(item int) {
	var unknown *materials.UnknownError
	if r.partial || !errors.As(r.err, &unknown) {
		return
	}
	r.err = nil
	r.complain(r.file.wordProblem(r.file.Path[item].Pos, "the "+unknown.Kind+" that follows from these words,", unknown))
}

func hasMistake(problems []Problem) bool {
	for _, p := range problems {
		if p.Kind == Mistake {
			return true
		}
	}
	return false
}

// place makes the parts of an item.
func (o owner) place(p place) piece {
	if !o.item.Of.Set {
		return piece{item: o.index, label: o.label} // the reader told why
	}
	switch {
	case isPost(o.item):
		return o.post(p)
	case isWasher(o.item):
		return o.washer()
	}
	switch o.item.Kind {
	case "compact holder":
		return o.compactHolder(p)
	case "high-capacity holder":
		return o.boltedHolder(o.sides())
	case "battery switch", "shunt":
		return o.twoStud(o.sides())
	case "cable":
		return o.cable(p)
	case "block":
		return o.block()
	case "bus bar":
		return o.busBar()
	}
	return o.bar()
}

// unnamedSides tell two sides apart where the neighbours do not.
var unnamedSides = [2]string{"first side", "second side"}

// sides names the two sides of a part by its neighbours: "cable side", "link
// bar side".
func (o owner) sides() [2]string {
	var names [2]string
	for side := range 2 {
		if across := o.order.across(o.index, side); len(across) > 0 {
			names[side] = o.file.Path[across[0].item].Kind + " side"
		}
	}
	if names[0] == names[1] || names[0] == "" || names[1] == "" {
		return unnamedSides
	}
	return names
}

// addPart adds a part to the stack and returns its index.
func (r *resolver) addPart(p model.Part) int {
	r.stack.Parts = append(r.stack.Parts, p)
	return len(r.stack.Parts) - 1
}

// limits hands the user's own limits on.
func (r *resolver) limits() {
	for i := range r.file.Limits {
		for part := range r.partItem {
			r.limit(r.file.Limits[i], part)
		}
		r.touch(r.file.Limits[i], -1)
	}
	for i := range r.file.Path {
		for _, l := range r.file.Path[i].Limit {
			for part, item := range r.partItem {
				if item == i {
					r.limit(l, part)
				}
			}
			r.touch(l, i)
		}
	}
}

// OwnLimit is the source that limits of the file carry.
const OwnLimit = "the scenario file"

func (r *resolver) limit(l Limit, part int) {
	own := model.Limit{Source: OwnLimit, Temp: l.Temp, Rise: l.Rise}
	switch {
	case l.Temp > 0:
		own.Name = "own limit, " + quantity.Format(quantity.Temperature, l.Temp, l.Unit, 0)
	case l.Rise > 0:
		own.Name = "own limit, " + quantity.Format(quantity.Rise, l.Rise, l.Unit, 0) + " rise"
	default:
		return
	}
	r.stack.Limits = append(r.stack.Limits, model.PartLimit{Part: part, Limit: own})
}

func (r *resolver) touch(l Limit, item int) {
	if l.Touch > 0 {
		r.touches = append(r.touches, Touch{Item: item, Contact: l.Touch, Pos: l.Pos})
	}
}

// passedOn are the keys of an item that do not shape the stack.
var passedOn = map[string]bool{"name": true, "limit": true, "price": true, "size": true, "mass": true}

// unusedKeys complains about values that had no effect: the file would be
// taken for more than what is computed.
func (r *resolver) unusedKeys() {
	for i := range r.file.Path {
		item := &r.file.Path[i]
		if r.file.taken[item.Way] {
			continue
		}
		v := reflect.ValueOf(item).Elem()
		for _, f := range itemFields() {
			value := v.Field(f.index)
			if passedOn[f.key] || value.Kind() != reflect.Struct || !value.FieldByName("Set").Bool() {
				continue
			}
			pos := value.FieldByName("Pos").Interface().(Pos)
			if !r.used[pos] {
				r.complain(r.file.problemAt(pos, "%q has no effect here: the generic %s has no such figure", f.key, item.Kind).
					hint("leave it out"))
			}
		}
	}
}

// coarse is a mesh for trying whether a stack can be put together.
var coarse = model.Mesh{Cell: 1}

// checkFigures works out joints, fuses and the whole once, so that what they
// cannot be made from is told at its place.
func (r *resolver) checkFigures() {
	for i := range r.stack.Joints {
		if _, err := r.stack.JointFigures(i); err != nil {
			r.misfit(r.partItem[r.stack.Joints[i].B.Part], err)
		}
	}
	for i, p := range r.stack.Parts {
		if fuse, ok := p.(*model.Fuse); ok {
			item := r.partItem[i]
			if _, err := fuse.FuseFigures(); err != nil && r.file.Path[item].FuseDrop.Set {
				r.complain(r.file.problemAt(r.file.Path[item].FuseDrop.Pos, "%v", err))
			} else if err != nil {
				r.misfit(item, err)
			}
		}
	}
	for _, c := range []model.Condition{model.Likely, model.Careful, model.Careless} {
		if hasMistake(r.problems) {
			return
		}
		if _, err := r.stack.Assemble(c, coarse); err != nil {
			r.misfit(r.itemOf(err), err)
		}
	}
}

// itemOf finds the item that an error of the model names, the first where it
// names none.
func (r *resolver) itemOf(err error) int {
	var stack *model.StackError
	if !errors.As(err, &stack) {
		return 0
	}
	for i, p := range r.stack.Parts {
		if strings.HasPrefix(stack.Where, p.Name()) {
			return r.partItem[i]
		}
	}
	return 0
}

// misfit tells an error of the model at the item that it comes from.
func (r *resolver) misfit(item int, err error) {
	var yield *model.YieldError
	if errors.As(err, &yield) {
		return // told with the torque
	}
	r.complain(r.file.problemAt(r.file.Path[item].Pos, "%v", err))
}

// mapped takes a range through a function that rises or falls all the way.
func mapped(r materials.Range, f func(float64) float64) materials.Range {
	low, likely, high := f(r.Low), f(r.Likely), f(r.High)
	return materials.Range{Low: math.Min(low, high), Likely: likely, High: math.Max(low, high)}
}
