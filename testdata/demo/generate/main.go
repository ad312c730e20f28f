// Generate writes invented shot logs. Without flags it writes the demo season:
//
//	go run ./testdata/demo/generate
//	go run ./testdata/demo/generate --players 300 --out -
package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/spf13/pflag"

	"roundmill/testdata/demo/golfer"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	flags := pflag.NewFlagSet("generate", pflag.ContinueOnError)
	flags.SetOutput(stderr)
	rounds := flags.Int("rounds", golfer.SeasonRounds, "`rounds` of each player, 46 a year from 2026")
	players := flags.Int("players", 1, "`players`, all invented; the first is that of the demo season")
	seed := flags.Uint64("seed", golfer.DemoSeed, "`seed`: the same one gives the same bytes")
	out := flags.StringP("out", "o", "testdata/demo/season.csv", "`file` to write, or - for standard output")
	err := flags.Parse(args)
	if errors.Is(err, pflag.ErrHelp) {
		return 0
	}
	if err == nil && (flags.NArg() > 0 || *rounds < 1 || *players < 1) {
		err = errors.New("takes no arguments, and at least one round and one player")
	}
	if err != nil {
		fmt.Fprintln(stderr, "generate:", err)
		return 2
	}
	if err := write(*out, stdout, *seed, *players, *rounds); err != nil {
		fmt.Fprintln(stderr, "generate:", err)
		return 1
	}
	return 0
}

func write(out string, stdout io.Writer, seed uint64, players, rounds int) (err error) {
	if out != "-" {
		file, err := os.Create(out)
		if err != nil {
			return err
		}
		defer func() { err = errors.Join(err, file.Close()) }()
		stdout = file
	}
	_, err = golfer.WriteCSV(stdout, golfer.Field(seed, players, rounds))
	return err
}
