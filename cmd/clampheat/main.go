// Command clampheat predicts how hot a bolted DC terminal stack gets: how far
// each part rises, how fast, where the heat is made and where it goes.
//
// The program is the package cli; this file only hands it the process.
package main

import (
	"context"
	"os"
	"os/signal"

	"clampheat/cmd/clampheat/internal/cli"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := cli.Run(ctx, os.Args, os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}
