// Command clampheat predicts how hot a bolted DC terminal stack gets: how far
// each part rises, how fast, where the heat is made and where it goes.
//
// The program is the package cli; this file only hands it the process, whose
// memory it sets up.
package main

import (
	"context"
	"os"
	"os/signal"
	"runtime/debug"

	"clampheat/cmd/clampheat/internal/cli"
)

// collectAt is how much garbage, as % of what is in use, starts a collection. A
// run of the program is over soon and holds some megabytes: at Go's own 100 a
// quarter of its time would go into collecting them.
const collectAt = 400

func main() {
	if os.Getenv("GOGC") == "" { // who sets it knows why
		debug.SetGCPercent(collectAt)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := cli.Run(ctx, os.Args, os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}
