package validation

// groups are the makers of the cases, in the order in which they are shown.
var groups = []func() ([]Case, error){
	airCases,
	conductorCases,
	fastenerCases,
	contactCases,
	torqueCases,
	heatTransferCases,
	solidCases,
	limitCases,
	ratingCases,
	barCases,
	cableCases,
	bundleCases,
	conduitCases,
	parallelCases,
	analyticCases,
	modelFormCases,
	soakCases,
	ladderCases,
	circuitCases,
	boxCases,
	dutyCases,
	installationCases,
	leverCases,
	compareCases,
	practiceCases,
}

// Cases gathers the cases of all groups.
func Cases() ([]Case, error) {
	var cases []Case
	for _, group := range groups {
		more, err := group()
		if err != nil {
			return nil, err
		}
		cases = append(cases, more...)
	}
	return cases, nil
}
