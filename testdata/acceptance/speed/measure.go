//go:build linux

package main

import (
	"cmp"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"time"
)

// threads are those that each side may use.
const threads = 2

// A side is one of the contestants: what it runs, and the folder that the run fills.
type side struct {
	name   string
	args   []string
	out    string
	agrees string // the job that holds what it found against the reference, if it finds anything
	runs   []run
}

// A run is what one process took.
type run struct{ wall, cpu, peakMiB float64 }

// inTurn lets the sides run one after the other, so many times.
func inTurn(sides []*side, runs int) error {
	for range runs {
		for _, s := range sides {
			took, err := s.run(nil)
			if err != nil {
				return err
			}
			s.runs = append(s.runs, took)
		}
	}
	return nil
}

// run runs the side once, its folder gone, on what the feed prints if there is one.
func (s *side) run(feed *exec.Cmd) (took run, err error) {
	if err := os.RemoveAll(s.out); err != nil {
		return run{}, err
	}
	command := exec.Command(s.args[0], s.args[1:]...)
	command.Env = append(os.Environ(), "POLARS_MAX_THREADS="+strconv.Itoa(threads), "GOMAXPROCS="+strconv.Itoa(threads))
	var said strings.Builder
	command.Stdout, command.Stderr = &said, &said
	syscall.Sync() // what earlier runs left to the disk is not for this one to wait for
	start := time.Now()
	if feed != nil {
		pipe, err := feed.StdoutPipe()
		if err != nil {
			return run{}, err
		}
		if err := feed.Start(); err != nil {
			return run{}, err
		}
		command.Stdin = pipe
		defer func() { err = errors.Join(err, pipe.Close(), feed.Wait()) }()
	}
	if err := command.Run(); err != nil {
		return run{}, fmt.Errorf("%s: %w\n%s", strings.Join(s.args, " "), err, said.String())
	}
	state := command.ProcessState
	return run{
		wall: time.Since(start).Seconds(), cpu: (state.UserTime() + state.SystemTime()).Seconds(),
		peakMiB: float64(state.SysUsage().(*syscall.Rusage).Maxrss) / 1024,
	}, nil
}

// measures are what is measured of a run, in the order of the tables.
var measures = []func(run) float64{
	func(r run) float64 { return r.wall }, func(r run) float64 { return r.cpu }, func(r run) float64 { return r.peakMiB },
}

// ratio is the median of ours over theirs, pair by pair.
func ratio(ours, theirs []run, of func(run) float64) float64 {
	var ratios []float64
	for i := range ours {
		ratios = append(ratios, of(ours[i])/of(theirs[i]))
	}
	return median(ratios, func(r float64) float64 { return r })
}

func median[V any](values []V, of func(V) float64) float64 {
	sorted := slices.SortedFunc(slices.Values(values), func(a, b V) int { return cmp.Compare(of(a), of(b)) })
	return (of(sorted[(len(sorted)-1)/2]) + of(sorted[len(sorted)/2])) / 2
}
