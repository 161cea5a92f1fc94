package study

import (
	"clampheat/materials"
	"clampheat/model/network"
	"clampheat/scenarios/quantity"
)

// celsius is 0 °C in K.
const celsius = materials.ZeroCelsius

func temp(k float64) quantity.Temp { return quantity.Temp(k) }

func nodeID(i int) network.NodeID { return network.NodeID(i) }
