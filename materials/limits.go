package materials

// This file holds the limits that the trade checks against: what skin bears,
// and the currents that published tables allow a cable.

import (
	"fmt"
	"strconv"
	"strings"
	"sync"
)

// TouchThreshold is the surface temperature at which skin burns after a time of contact.
type TouchThreshold struct {
	Surface     string  // what is touched
	ContactTime float64 // s
	Low, High   float64 // K, below Low no burn, above High a burn is to be expected
	Provenance
}

var touchThresholds = sync.OnceValues(func() ([]TouchThreshold, error) {
	return readTable("touch.csv", func(r *row) TouchThreshold {
		return TouchThreshold{
			Surface: r.text("surface"), ContactTime: r.number("contact time"),
			Low: r.number("low"), High: r.number("high"), Provenance: r.provenance(),
		}
	})
})

// TouchThresholds lists the burn thresholds by surface, then by growing time of contact.
//
// Source: ISO 13732-1:2006.
func TouchThresholds() []TouchThreshold {
	list, _ := touchThresholds()
	return append([]TouchThreshold(nil), list...)
}

// BurnTime is how long skin bore bare metal of a temperature before it burnt.
type BurnTime struct {
	Temp float64 // K
	Time float64 // s
	Provenance
}

var burnTimes = sync.OnceValues(func() ([]BurnTime, error) {
	return readTable("burns.csv", func(r *row) BurnTime {
		return BurnTime{Temp: r.number("temperature"), Time: r.number("time"), Provenance: r.provenance()}
	})
})

// BurnTimes lists times to a burn on bare metal by growing temperature: a
// second opinion beside TouchThresholds, of unknown origin and less safe.
func BurnTimes() []BurnTime {
	list, _ := burnTimes()
	return append([]BurnTime(nil), list...)
}

// AmpacityRow is the current that a table allows one single conductor in free air.
type AmpacityRow struct {
	Table          string  // the table's name
	Size           string  // as the table writes it
	Area           float64 // m², metal
	InsulationTemp float64 // K, rating of the insulation
	Current        float64 // A
	Ambient        float64 // K, air for which the table holds
	Provenance
}

var ampacities = sync.OnceValues(func() ([]AmpacityRow, error) {
	rows, err := readRows("ampacities.csv")
	if err != nil {
		return nil, err
	}
	var list []AmpacityRow
	for i := range rows {
		r := &rows[i]
		p := r.provenance()
		for c, unit := range r.units {
			if unit != "A" || r.cells[c] == "" {
				continue
			}
			list = append(list, AmpacityRow{
				Table: r.text("table"), Size: r.text("size"), Area: r.area(),
				InsulationTemp: r.rating(c), Current: r.number(r.names[c]),
				Ambient: r.number("ambient"), Provenance: p,
			})
		}
		if r.err != nil {
			return nil, r.err
		}
	}
	return list, nil
})

// Ampacities lists the published currents of single copper conductors in free
// air, by table, then size, then rating of the insulation.
func Ampacities() []AmpacityRow {
	list, _ := ampacities()
	return append([]AmpacityRow(nil), list...)
}

// rating reads the heading of a column of currents, "105 °C", as a temperature [K].
func (r *row) rating(column int) float64 {
	theta, err := strconv.ParseFloat(strings.TrimSuffix(r.names[column], " °C"), 64)
	if err != nil {
		r.fail(r.names[column], fmt.Errorf("read the heading as a rating: %w", err))
	}
	return theta + ZeroCelsius
}
