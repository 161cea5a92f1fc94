package validation

// Cases gathers the cases of all groups.
func Cases() ([]Case, error) { return ladderCases() }
