package validation

import (
	"encoding/csv"
	"strconv"

	"clampheat/model/network"
)

// vary makes the rod the k-th variant of the reference table: another joint
// and another current.
func (l *ladder) vary(k int) {
	joint := ladderJointOhm * (0.5 + float64(k)/ladderVariants)
	current := ladderCurrent * (0.9 + 0.2*float64((k*7919)%ladderVariants)/ladderVariants)
	if err := l.SetResistor(l.joint, joint, 0); err != nil {
		panic(err)
	}
	l.SetSupply(network.Constant(current), 0)
}

func readVariants() ([][]float64, error) {
	file, err := ladderData.Open("testdata/ladder_throughput_reference.csv")
	if err != nil {
		return nil, err
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		return nil, err
	}
	table := make([][]float64, len(rows)-1)
	for i, row := range rows[1:] {
		for _, cell := range row {
			v, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				return nil, err
			}
			table[i] = append(table[i], v)
		}
	}
	return table, nil
}
