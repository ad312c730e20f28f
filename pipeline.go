// Roundmill turns a season of golf shot logs into decisions: enriched shots in
// Parquet, figures, charts and the coaching page.
//
// The files pipeline*.go wire the stages, and this one says how a run ends: the
// order of work is in pipeline_mill.go. What a stage could own, it owns.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime"
	"runtime/debug"
	"syscall"

	"roundmill/ingest/ordered"
)

// version is that of the program, in --version, run.json and every Parquet file.
const version = "0.1.0"

// Exit statuses.
const (
	exitDone        = 0
	exitFailed      = 1   // the run failed: disk, permissions, a bug
	exitUsage       = 2   // the command line is wrong
	exitRejected    = 3   // --strict met a reject, or no record was usable
	exitInterrupted = 130 // Ctrl-C
)

// memoryWanted is what the program stays within if it can, however long the log:
// past it garbage is collected sooner. GOMEMLIMIT goes before it.
const memoryWanted = 224 << 20

// garbagePercent is how much garbage there may be, in percent of what is in use,
// as long as memory is not short. A small season takes a fifth of memory more by
// it, and a tenth of time less, than by what Go does by default. GOGC goes before
// it.
const garbagePercent = 200

func main() {
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(memoryWanted)
	}
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(garbagePercent)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second one ends the process as it stands
	status := run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(status)
}

// run is the program. What it prints on stdout is the result, on stderr what
// there is to say about it.
func run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	s, err := parseSettings(args)
	switch {
	case err != nil:
		fmt.Fprintf(stderr, "roundmill: %v\n", err)
		return exitUsage
	case s.help:
		fmt.Fprint(stdout, usage())
		return exitDone
	case s.version:
		fmt.Fprintf(stdout, "roundmill %s\n", version)
		return exitDone
	}
	return perform(ctx, s, stdin, stdout, stderr)
}

// perform does what the command line asks for, and says what came of it.
func perform(ctx context.Context, s *settings, stdin io.Reader, stdout, stderr io.Writer) int {
	err := ordered.Guard(func() error {
		switch {
		case s.starter != "":
			return writeStarter(s.starter, stdout)
		case s.check:
			return check(ctx, s, stdin, stdout, stderr)
		}
		return mill(ctx, s, stdin, stdout, stderr)
	})
	var bug *ordered.Bug
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &bug):
		fmt.Fprintf(stderr, "roundmill: %v\n", bug)
		fmt.Fprintf(stderr, "No log was changed, and results that stood there are whole. Please report all of this,\n"+
			"with the log that it happened on if you may: roundmill %s %s/%s, options %q\n%s",
			version, runtime.GOOS, runtime.GOARCH, s.given, bug.Stack)
		return exitFailed
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(stderr, "roundmill: interrupted; nothing was changed")
		return exitInterrupted
	case errors.Is(err, errRejected):
		fmt.Fprintf(stderr, "roundmill: %v\n", err)
		return exitRejected
	}
	fmt.Fprintf(stderr, "roundmill: %v\n", err)
	return exitFailed
}

// errRejected is the error of input that was read, and found wanting.
var errRejected = errors.New("nothing was written")
