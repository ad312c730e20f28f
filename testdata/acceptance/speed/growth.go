//go:build linux

package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
)

// growth prints the table of more and more shots, each step ten times the players of the one before.
func (b *bench) growth() error {
	fmt.Print(growthHeading(b.runs))
	for _, players := range []int{max(1, b.players/10), b.players} {
		log, err := b.log(players)
		if err != nil {
			return err
		}
		whole := b.ours("roundmill", log)
		if _, err := whole.run(nil); err != nil {
			return err
		}
		if err := inTurn([]*side{whole}, b.runs); err != nil {
			return err
		}
		if err := b.step(whole, players, "a file"); err != nil {
			return err
		}
	}
	if !b.hundred {
		return nil
	}
	players := 10 * b.players
	whole := b.ours("roundmill", "-")
	took, err := whole.run(b.generate(players, "-"))
	if err != nil {
		return err
	}
	whole.runs = append(whole.runs, took)
	return b.step(whole, players, "a pipe from the generator")
}

// step prints a line of the table, and clears up.
func (b *bench) step(whole *side, players int, from string) error {
	shots, err := keptShots(whole.out)
	if err != nil {
		return err
	}
	fmt.Print(growthLine(shots, players, b.rounds, from, whole.runs))
	return os.RemoveAll(whole.out)
}

// keptShots is how many shots a run of the program kept, by its own account.
func keptShots(out string) (int, error) {
	text, err := os.ReadFile(filepath.Join(out, "run.json"))
	if err != nil {
		return 0, err
	}
	var record struct {
		Total struct{ Kept int }
	}
	if err := json.Unmarshal(text, &record); err != nil {
		return 0, err
	}
	return record.Total.Kept, nil
}

// demo prints the table of the small season.
func (b *bench) demo() error {
	const runs = 11
	sides := []*side{{name: "charts and page"}, {name: "`--no-charts`", args: []string{"--no-charts"}}}
	for i, s := range sides {
		s.out = b.path("demo-" + strconv.Itoa(i))
		s.args = append([]string{b.path("roundmill"), "--demo", "--quiet", "--workers", strconv.Itoa(threads), "--out", s.out}, s.args...)
		if _, err := s.run(nil); err != nil {
			return err
		}
	}
	if err := inTurn(sides, runs); err != nil {
		return err
	}
	shots, err := keptShots(sides[0].out)
	if err != nil {
		return err
	}
	fmt.Print(demoTable(shots, runs, sides))
	return nil
}
