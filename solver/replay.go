package solver

import (
	"context"
	"fmt"
)

// pace is the end of a step, s, and whether the supply jumps there.
type pace struct {
	end  float64
	jump bool
}

// replay follows the system from time 0 with given steps, the last of which ends
// at a jump. The recorder, unless nil, takes what it wants of each. Where the
// start holds unknowns without mass it is made consistent.
func (s *Soaker) replay(ctx context.Context, start []float64, paces []pace, out *recorder) error {
	copy(s.x, start)
	s.book, s.stats = ledger{}, Stats{}
	if err := s.begin(0); err != nil {
		return err
	}
	copy(start, s.x)
	s.book.start(s.c, s.x[:s.n])
	if out != nil {
		out.start()
	}
	for k, p := range paces {
		if ctx.Err() != nil {
			return fmt.Errorf("a period stopped at %.6g s: %w", s.t, context.Cause(ctx))
		}
		s.h, s.end = p.end-s.t, p.end
		err := s.attempt(p.jump)
		if err-err != 0 || !s.accept(p.jump) {
			return s.tooSmall(s.h, err)
		}
		s.stats.Steps++
		if s.watch != nil {
			s.watch(p.jump)
		}
		if out != nil {
			out.step(p.jump)
		}
		s.x, s.z = s.z, s.x
		s.t = s.end
		if p.jump && k < len(paces)-1 {
			s.stats.Restarts++
			if err := s.begin(s.t); err != nil {
				return err
			}
			if out != nil {
				out.restart()
			}
		}
	}
	return nil
}
