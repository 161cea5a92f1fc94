package validation

import (
	"context"
	"embed"
	"fmt"
	"math"
	"math/rand/v2"
	"sync"

	"clampheat/model"
	"clampheat/scenarios"
	"clampheat/scenarios/study"
	"clampheat/solver"
)

// This file holds the two generic holders against what is usual in practice:
// at the same place, 140 A and 25 °C, both warm from an earlier run, the
// hottest terminal of a high-capacity holder reads some 60 to 63 °C after a
// quarter of an hour and that of a compact one some 75 °C. Nobody measured the
// resistances, so this checks order and band and not a number. The generic
// parts and their grounds were set before the case first ran.

//go:embed testdata/practice_high_capacity.yaml testdata/practice_compact.yaml
var practiceFiles embed.FS

const (
	practiceSource = "common practice, no source"
	practiceDraws  = 1000
	quarterHour    = 900.0

	compactReading      = 75.0 // °C
	highCapacityReading = 61.5 // °C, the middle of 60 … 63
)

// practice is one holder in its place.
type practice struct {
	sc     *scenarios.Scenario
	spread []scenarios.Assumption // what is drawn
}

// shared are the values that are drawn, the same for both holders: those of
// fuse and switch resistance, faces, nut factor and kept clamp. The cover and
// the room are drawn besides.
var shared = []string{
	"fuse.drop", "fuse.rig caps", "fuse.element rise", "battery switch.across", "joints.clamp kept", "supply.none",
}

// roomSpread is how far a room's air is from its thermometer's reading, K:
// common practice, no source.
const roomSpread = 3.0

func openPractice(name string) (*practice, error) {
	data, err := practiceFiles.ReadFile("testdata/" + name)
	if err != nil {
		return nil, err
	}
	sc, err := scenarios.Read(name, data)
	if err != nil {
		return nil, fmt.Errorf("practice case: %w", err)
	}
	return &practice{sc: sc}, nil
}

var _ = []any{context.Background, math.Abs, rand.New, (*sync.WaitGroup)(nil), model.Likely, study.RunSoak, solver.Soak, practiceSource, practiceDraws, quarterHour, compactReading, highCapacityReading, shared, roomSpread, openPractice}
