package study

import (
	"context"
	"errors"
	"fmt"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios"
)

// This file makes one joint worse in the ways in which joints are met.

// settledShare is what a joint may keep of its clamp force when soft plates
// have crept and plastic has given way. Common practice, no source.
const settledShare = 0.70

const noSource = "common practice, no source"

// spoiler is one way of spoiling a joint. Its stack is nil where it does not
// apply.
type spoiler struct {
	name, source string
	stack        *model.Stack
}

// spoil solves every way of spoiling the joint at the stated torque.
func (q *torqueQuestion) spoil(ctx context.Context, out *Torque, own *materials.FaceState) error {
	list, err := q.spoilers(out, own)
	if err != nil {
		return err
	}
	base := out.OwnCurve().Stated()
	out.Spoiled = make([]SpoiledJoint, len(list))
	return abreast(len(list), func(i int) error {
		s := SpoiledJoint{Name: list[i].name, Source: list[i].source}
		p, err := q.try(ctx, list[i].stack)
		var yield *model.YieldError
		switch {
		case errors.As(err, &yield):
			s.Breaks = "the thread yields"
			p.Torque = yield.Torque
		case err != nil:
			return err
		case p.Share > 1:
			s.Breaks = fmt.Sprintf("the thread likely yields: %.0f %% of what it holds", 100*p.Share)
		}
		s.Point = p
		if s.Breaks == "" && p.Lasts() && base.Lasts() {
			s.Change = float64(p.Hottest - base.Hottest)
		}
		out.Spoiled[i] = s
		return nil
	})
}

func (q *torqueQuestion) spoilers(out *Torque, own *materials.FaceState) ([]spoiler, error) {
	var list []spoiler
	washer, err := q.washer()
	if err != nil {
		return nil, err
	}
	if washer != nil {
		list = append(list, spoiler{"steel washer between two faces", noSource, changedNut(washer, q.bolt, nil, own)})
	}
	list = append(list, spoiler{fmt.Sprintf("settled: clamp kept %.0f %%", settledShare*100), noSource,
		q.with(q.bolt, func(b *model.Bolt) { b.Kept = materials.Exactly(settledShare) }, own)})
	for _, name := range []string{"dry", "lubricated"} {
		thread, err := materials.LookupThreadCondition(name)
		if err != nil {
			return nil, err
		}
		if thread.Name == out.Thread {
			continue
		}
		list = append(list, spoiler{"thread " + thread.Name + ", same wrench setting", thread.Source.Cite,
			q.with(q.bolt, func(b *model.Bolt) { b.Thread = thread }, own)})
	}
	worse, err := q.dirtier(own)
	if err != nil {
		return nil, err
	}
	half := func(b *model.Bolt) { b.Torque /= 2 }
	if tarnished, ok := worse["tarnished"]; ok {
		list = append(list, spoiler{"half torque and tarnished", filmSource(tarnished), q.with(q.bolt, half, tarnished)})
	} else {
		list = append(list, spoiler{"half torque", noSource, q.with(q.bolt, half, own)})
	}
	if corroded, ok := worse["corroded"]; ok {
		list = append(list, spoiler{"corroded", filmSource(corroded), q.with(q.bolt, nil, corroded)})
	}
	return list, nil
}

// dirtier are the states with more film than all faces under the nut have.
func (q *torqueQuestion) dirtier(own *materials.FaceState) (map[string]*materials.FaceState, error) {
	film := 0.0
	if own != nil {
		film = own.Film.Likely
	} else {
		for _, j := range q.stack.Joints {
			if j.Kind == model.Bolted && j.Bolt == q.bolt {
				film = max(film, j.Face.State.Film.Likely)
			}
		}
	}
	worse := map[string]*materials.FaceState{}
	for _, name := range []string{"tarnished", "corroded"} {
		state, err := materials.LookupFaceState(name)
		if err != nil {
			return nil, err
		}
		if state.Film.Likely > film {
			worse[name] = &state
		}
	}
	return worse, nil
}

func filmSource(s *materials.FaceState) string { return s.Source.Cite + "; " + s.Ground }

// washer is the stack with a steel washer between two faces under the nut, on
// the lug's side where there is one: the last pair of faces that belong to two
// items of the path. It is nil where there is no such pair.
func (q *torqueQuestion) washer() (*model.Stack, error) {
	at := -1
	for _, j := range q.stack.Joints {
		if j.Kind != model.Bolted || j.Bolt != q.bolt {
			continue
		}
		a, b := q.sc.PartItems[j.A.Part], q.sc.PartItems[j.B.Part]
		// Where one way ends on another there is no place for it in the file.
		if a != b && q.sc.File.Path[a].Way == q.sc.File.Path[b].Way {
			at = max(at, a, b)
		}
	}
	if at < 0 {
		return nil, nil
	}
	spoiled := q.sc.WithItem(at, scenarios.Item{Kind: "steel washer",
		Of: scenarios.Word{Text: q.stack.Bolts[q.bolt].Fastener.Name, Set: true}})
	return leftOn(spoiled, nil)
}
