// Package cli is the program as a function: arguments and streams in, an exit
// status out. Flags become the options of a study, the study's result goes to
// a writer (text, CSV, JSON, chart), and nothing is computed in between.
//
// Results go to stdout, everything else to stderr. Exit status:
//
//	0  fine
//	1  a limit is passed, a limit asked for is unknown, or a check missed
//	2  bad input or usage
//	3  no answer
//	4  could not write
package cli
