package study

import (
	"clampheat/model/network"
	"clampheat/scenarios/quantity"
)

// celsius is 0 °C in K (SI brochure, 2019, section 2.3.1).
const celsius = 273.15

func temp(k float64) quantity.Temp { return quantity.Temp(k) }

func nodeID(i int) network.NodeID { return network.NodeID(i) }
