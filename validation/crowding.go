package validation

import (
	"encoding/json"
	"fmt"
	"math"
)

// This file reads how much more resistance copper bars have to an alternating
// current of 60 Hz, for which most tables are printed, than to a direct one. It
// is solved apart, from the geometry alone: testdata/crowding.py.

// crowded is a group of bars, mm, at a temperature, °C.
type crowded struct {
	Bars      int     `json:"bars"`
	Width     float64 `json:"width_mm"`
	Thickness float64 `json:"thickness_mm"`
	Celsius   float64 `json:"celsius"`
}

type crowding map[crowded]float64

// openCrowding reads the ratios.
func openCrowding() (crowding, error) {
	data, err := tables.ReadFile("testdata/crowding.json")
	if err != nil {
		return nil, fmt.Errorf("validation table crowding: %w", err)
	}
	var solved struct {
		Rows []struct {
			crowded
			Ratio float64 `json:"ratio"`
		} `json:"rows"`
	}
	if err := json.Unmarshal(data, &solved); err != nil {
		return nil, fmt.Errorf("validation table crowding: %w", err)
	}
	ratios := crowding{}
	for _, r := range solved.Rows {
		ratios[r.crowded] = r.Ratio
	}
	return ratios, nil
}

// share is the current of 60 Hz that makes the heat of a direct one of 1 A.
func (c crowding) share(bars crowded) (float64, error) {
	ratio, ok := c[bars]
	if !ok {
		return 0, fmt.Errorf("validation table crowding has no %d bars of %g × %g mm at %g °C", bars.Bars, bars.Width, bars.Thickness, bars.Celsius)
	}
	return 1 / math.Sqrt(ratio), nil
}
